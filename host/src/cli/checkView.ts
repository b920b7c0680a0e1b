import type { Answer, Given } from '@shieldwright/engine/working/answer.ts'
import { leavesOf } from '@shieldwright/engine/working/answer.ts'
import type { Check, Verdict } from '@shieldwright/engine/working/check.ts'
import { showNumber, showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { type Working, workingOf } from '@shieldwright/engine/working/show.ts'
import { type Column, table } from './table.ts'

/** A working as JSON tells it. */
export interface WorkingJson {
  title: string
  by: string
  symbolic?: string
  numbers?: string
  result: { value: number | undefined; unit: string; shown: string }
  clause?: string
  basis?: string
  steps: Working['steps']
  inputs: readonly { symbol: string; meaning: string; value: number | undefined; unit: string; pointer?: string }[]
  limits: Working['limits']
  residuals: Working['residuals']
  note?: string
  /** Every input of the project file under it. */
  restsOn: readonly string[]
}

/** One level of an answer's working, and the pointers of everything it rests on. */
export function workingJson(answer: Answer, system: UnitSystem): WorkingJson {
  const { title, by, symbolic, numbers, si, unit, value, source, steps, lines, limits, residuals, note } = workingOf(
    answer,
    system,
  )
  return {
    title,
    by,
    ...(symbolic === undefined ? {} : { symbolic }),
    ...(numbers === undefined ? {} : { numbers }),
    result: { value: si, unit, shown: value },
    ...(source === undefined ? {} : { clause: source.text, basis: source.basis }),
    steps,
    inputs: lines.map(({ symbol, meaning, si: input, unit: of, pointer }) => ({
      symbol,
      meaning,
      value: input,
      unit: of,
      ...(pointer === undefined ? {} : { pointer }),
    })),
    limits,
    residuals,
    ...(note === undefined ? {} : { note }),
    restsOn: leavesOf(answer).map((leaf: Given) => leaf.pointer),
  }
}

/** A check as JSON tells it, with the working of both sides. */
export function checkJson(check: Check, system: UnitSystem) {
  const { demand, capacity, ...plain } = check
  return {
    ...plain,
    demand: demand.value,
    capacity: capacity.value,
    working: { demand: workingJson(demand, system), capacity: workingJson(capacity, system) },
  }
}

const columns: readonly Column[] = [
  { title: 'verdict' },
  { title: 'check' },
  { title: 'of' },
  { title: 'demand', align: 'decimal' },
  { title: 'capacity', align: 'decimal' },
  { title: 'use', align: 'decimal' },
]

const order: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

/** Checks as a table, failures first; under a failed or open one, why. */
export function checksTable(checks: readonly Check[], system: UnitSystem): string {
  const sorted = order.flatMap((verdict) => checks.filter((c) => c.verdict === verdict))
  return table(
    columns,
    sorted.map((c) => [
      c.verdict,
      c.title,
      c.subject.name === c.subject.id ? c.subject.id : `${c.subject.id} ${c.subject.name}`,
      showQuantity(c.demand.value, c.demand.unit, system),
      showQuantity(c.capacity.value, c.capacity.unit, system),
      c.utilisation === undefined ? '' : showNumber(c.utilisation, 3),
    ]),
  )
}

/** Why checks fail or stand open, one paragraph each, with who decides. */
export function reasonsText(checks: readonly Check[]): string {
  const told = checks.filter((c) => c.reasons.length > 0 && (c.verdict === 'fail' || c.verdict === 'open'))
  return told
    .map((c) => `${c.verdict} ${c.id}\n${[...c.reasons, ...deciding(c)].map((r) => `  ${r}\n`).join('')}`)
    .join('')
}

const deciding = (c: Check): string[] => (c.verdict === 'open' ? [`to be decided by: ${c.decidedBy}`] : [])

/** "3 fail, 12 open, 5 near, 140 pass" */
export const countsText = (counts: Readonly<Record<Verdict, number>>): string =>
  `${order.map((verdict) => `${counts[verdict]} ${verdict}`).join(', ')}\n`
