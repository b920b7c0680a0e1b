import type { Stages } from '@shieldwright/engine'
import type { LiftOutcome } from '@shieldwright/engine/lift/index.ts'
import type { SetMass } from '@shieldwright/engine/mass/index.ts'
import { type Answer, inputsOf } from '@shieldwright/engine/working/answer.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import { formulaById } from '@shieldwright/engine/working/formula.ts'
import { showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { sensitivityOf } from '@shieldwright/engine/working/sensitivity.ts'
import { type Line, type Working, workingOf } from '@shieldwright/engine/working/show.ts'
import { textOfUse } from '../parts/figures.ts'
import type { NumberAt, RestsOn, TrailStep, WorkingView } from './protocol.ts'

/** The working of a number, and of what stands below it along a path of inputs; undefined when there is no such number. */
export function workingAt(
  stages: Stages,
  of: NumberAt,
  path: readonly string[],
  system: UnitSystem,
): WorkingView | undefined {
  return 'check' in of ? ofCheck(stages, of.check, path, system) : ofAnswer(stages, of, path, system)
}

const SIDES = ['demand', 'capacity'] as const

function ofCheck(stages: Stages, id: string, path: readonly string[], system: UnitSystem): WorkingView | undefined {
  const check = stages.checks.find((c) => c.id === id)
  if (check === undefined) return undefined
  const top: TrailStep = { label: check.utilisation === undefined ? 'check' : 'use', value: resultText(check) }
  const [side, ...below] = path
  if (side === undefined) {
    const rests = SIDES.flatMap((s) => restsOn(check[s]).map((r) => ({ ...r, path: [s, ...r.path] })))
    return { working: workingOfCheck(check, system), trail: [top], stage: check.stage, ...shortened(distinct(rests)) }
  }
  if (side !== 'demand' && side !== 'capacity') return undefined
  const words = side === 'capacity' ? 'limit' : side
  return walked(check[side], words, below, system, check.stage, [top], [side])
}

const resultText = ({ utilisation, verdict }: Check): string =>
  utilisation === undefined ? verdict : textOfUse(utilisation)

/** Demand over limit: what every check comes to. */
function workingOfCheck(check: Check, system: UnitSystem): Working {
  const { demand, capacity, utilisation, title } = check
  const lines: Line[] = [lineOf('demand', 'demand', demand, system), lineOf('capacity', 'limit', capacity, system)]
  const base = { title, unit: '1' as const, by: check.kind, steps: [], lines, limits: [], residuals: [], slopes: {} }
  if (utilisation === undefined || capacity.value === undefined)
    return { ...base, value: check.verdict, si: undefined, sensitivity: [] }
  const slopes = { demand: 1 / capacity.value, capacity: -utilisation / capacity.value }
  const [d, c] = lines.map(({ value }) => value) as [string, string]
  return {
    ...base,
    value: resultText(check),
    si: utilisation,
    symbolic: 'use = demand / limit',
    symbolMathml: '<mi>use</mi>',
    mathml: '<mfrac><mi>demand</mi><mi>limit</mi></mfrac>',
    numbersMathml: `<mfrac><mtext>${d}</mtext><mtext>${c}</mtext></mfrac><mo>=</mo><mn>${resultText(check)}</mn>`,
    slopes,
    sensitivity: sensitivityOf({ value: utilisation, unit: '1' }, lines, slopes, system),
  }
}

function lineOf(key: string, symbol: string, answer: Answer, system: UnitSystem): Line {
  const given = answer.kind === 'given' ? { pointer: answer.pointer } : {}
  const { value: si, unit, kind } = answer
  return { key, symbol, meaning: titleOf(answer), value: showQuantity(si, unit, system), unit, si, kind, ...given }
}

/** What an answer is called where it stands alone. */
function titleOf(answer: Answer): string {
  switch (answer.kind) {
    case 'given':
      return 'as the file says'
    case 'stated':
      return answer.text
    case 'worked':
      return formulaById(answer.formula).text.title
    case 'found':
      return answer.method
    default:
      return answer.title
  }
}

function ofAnswer(
  stages: Stages,
  of: Exclude<NumberAt, { check: string }>,
  path: readonly string[],
  system: UnitSystem,
): WorkingView | undefined {
  const found = 'lift' in of ? liftAnswer(stages.lift.lifts[of.lift], of) : pieceAnswer(stages, of)
  return found === undefined
    ? undefined
    : walked(found.answer, found.label, path, system, 'lift' in of ? 'lift' : 'mass', [], [])
}

interface Named {
  label: string
  answer: Answer
}

function liftAnswer(
  lift: LiftOutcome | undefined,
  { figure, of }: Extract<NumberAt, { lift: string }>,
): Named | undefined {
  if (lift === undefined) return undefined
  const index = of ?? 0
  switch (figure) {
    case 'line':
      return lift.lines[index]
    case 'wind':
      return lift.wind[index]
    case 'main':
    case 'tail': {
      const stage = lift.turning[index]
      return stage === undefined ? undefined : { label: `share of the ${figure} hook`, answer: stage[figure] }
    }
    case 'needed':
    case 'available':
    case 'below':
      return { label: HEIGHT_WORDS[figure], answer: lift.height[figure] }
    case 'clearance':
      return lift.clearance === undefined ? undefined : { label: 'nearest on the way', answer: lift.clearance.gap }
    case 'sail':
      return { label: 'sail area', answer: lift.sail.area }
    case 'stage': {
      const stage = lift.stages[index]
      return stage === undefined ? undefined : { label: `stage ${index + 1}, ${stage.name}`, answer: stage.time }
    }
    case 'refuge': {
      const refuge = lift.refuges[index]
      return refuge === undefined ? undefined : { label: `to safety: ${refuge.failure}`, answer: refuge.time }
    }
    case 'noReturn':
      return { label: 'point of no return', answer: lift.pointOfNoReturn.time }
    case 'window':
      return { label: 'wind window needed', answer: lift.pointOfNoReturn.window }
    default:
      return { label: FIGURE_WORDS[figure], answer: lift[figure] }
  }
}

const HEIGHT_WORDS = { needed: 'hook height needed', available: 'hook height available', below: 'hook above the piece' }
const FIGURE_WORDS = {
  hookLoad: 'hook load',
  demand: 'load that the rating counts',
  rated: 'rating',
  allowed: 'rating that the plan may use',
  tilt: 'tilt as it hangs',
  worstTilt: 'worst tilt',
  allowableWind: 'gust at which it stops',
  duration: 'hook time',
}

function pieceAnswer(
  stages: Stages,
  { piece, state, figure }: Extract<NumberAt, { piece: string }>,
): Named | undefined {
  const set = stages.mass.pieces[piece]?.[state] as SetMass | undefined
  const answer = set?.[figure]
  return answer === undefined ? undefined : { label: `${figure === 'net' ? 'net mass' : figure}, ${state}`, answer }
}

function walked(
  answer: Answer,
  label: string,
  path: readonly string[],
  system: UnitSystem,
  stage: string,
  above: readonly TrailStep[],
  head: readonly string[],
): WorkingView | undefined {
  const trail: TrailStep[] = [...above, stepOf(label, answer, system)]
  let at: Answer = answer
  for (const key of path) {
    const next = inputsOf(at).find(([l]) => l === key)?.[1]
    if (next === undefined) return undefined
    trail.push(stepOf(key, next, system))
    at = next
  }
  const full = [...head, ...path]
  const rests = restsOn(at).map((r) => ({ ...r, path: [...full, ...r.path] }))
  const leaf = at.kind === 'given' ? { leaf: { pointer: at.pointer, basis: at.basis } } : {}
  return { working: workingOf(at, system), trail, stage, ...shortened(rests), ...leaf }
}

const stepOf = (label: string, { value, unit }: Answer, system: UnitSystem): TrailStep => ({
  label,
  value: showQuantity(value, unit, system),
})

const MOST_RESTS = 300

/** Every input under an answer, each once, with the way down to it. */
function restsOn(answer: Answer): RestsOn[] {
  const seen = new Set<Answer>()
  const rests = new Map<string, RestsOn>()
  const go = (at: Answer, path: readonly string[]): void => {
    if (seen.has(at)) return
    seen.add(at)
    if (at.kind === 'given' && !rests.has(at.pointer))
      rests.set(at.pointer, { pointer: at.pointer, path, missing: at.value === undefined })
    for (const [label, input] of inputsOf(at)) go(input, [...path, label])
  }
  for (const [label, input] of inputsOf(answer)) go(input, [label])
  return [...rests.values()]
}

const distinct = (rests: readonly RestsOn[]): RestsOn[] => [...new Map(rests.map((r) => [r.pointer, r])).values()]

/** What is missing stands first; a sum of hundreds of parts is cut short, and says so. */
const shortened = (rests: readonly RestsOn[]): Pick<WorkingView, 'restsOn' | 'more'> => ({
  restsOn: [...rests].sort((a, b) => Number(b.missing) - Number(a.missing)).slice(0, MOST_RESTS),
  more: Math.max(0, rests.length - MOST_RESTS),
})
