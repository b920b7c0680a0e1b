import { type Answer, inputsOf } from '@shieldwright/engine/working/answer.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { type Working, workingOf } from '@shieldwright/engine/working/show.ts'
import { type WorkingJson, workingJson } from './checkView.ts'

/** A working with the workings below it, down to the inputs. */
export type WorkingTree = WorkingJson & { under: Readonly<Record<string, WorkingTree>> }

/** The whole working of an answer. An answer met before on the way is shown one level deep: the second time adds nothing. */
export function workingTree(answer: Answer, system: UnitSystem, met: Set<Answer> = new Set()): WorkingTree {
  const again = met.has(answer)
  met.add(answer)
  const below = again ? [] : inputsOf(answer).filter(([, input]) => inputsOf(input).length > 0)
  const under = Object.fromEntries(below.map(([name, input]) => [name, workingTree(input, system, met)]))
  return { ...workingJson(answer, system), under }
}

/** The working of a check for a reader: demand, then capacity, each down to its inputs. */
export function workingText(check: Check, system: UnitSystem): string {
  const head = `${check.title}: ${check.subject.name}\n${check.id}: ${check.verdict}\n`
  const side = (name: string, answer: Answer) => `\n${name}\n${answerText(answer, system, '  ', new Set())}`
  const told = [...check.reasons, ...check.assumptions.map((a) => `assumed: ${a}`), ...check.cautions]
  return head + side('Demand', check.demand) + side('Capacity', check.capacity) + told.map((t) => `\n${t}\n`).join('')
}

function answerText(answer: Answer, system: UnitSystem, indent: string, met: Set<Answer>): string {
  if (met.has(answer)) return ''
  met.add(answer)
  const lines = ownLines(workingOf(answer, system)).map((line) => `${indent}${line}\n`)
  const below = inputsOf(answer)
    .filter(([, input]) => inputsOf(input).length > 0)
    .map(([, input]) => answerText(input, system, `${indent}  `, met))
  return lines.join('') + below.join('')
}

function ownLines(w: Working): string[] {
  const source = w.source === undefined ? [] : [`source: ${w.source.text} (${w.source.basis})`]
  const expressions = [
    w.symbolic,
    ...w.steps.flatMap((s) => [`${s.symbol} = ${s.symbolic}`, `${s.symbol} = ${s.numbers}`]),
    w.numbers,
  ]
  return [
    `${w.title} = ${w.value}`,
    ...source,
    ...expressions.filter((e) => e !== undefined),
    ...w.lines.map(
      (l) => `${l.symbol} = ${l.value}${meaningText(l)}${l.pointer === undefined ? '' : `  ${l.pointer}`}`,
    ),
    ...w.limits.map((l) => `${l.limit}: ${l.holds ? 'holds' : 'BROKEN'}`),
    ...w.residuals.map(
      (r) => `residual ${r.title}: ${r.value}, tolerance ${r.tolerance}${r.holds ? '' : ', DOES NOT CLOSE'}`,
    ),
    ...(w.note === undefined ? [] : [w.note]),
  ]
}

const meaningText = ({ symbol, meaning }: Working['lines'][number]): string =>
  symbol === meaning ? '' : `  ${meaning}`
