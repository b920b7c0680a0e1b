import { type Answer, missingUnder, notesUnder, type Residual, unclosedUnder } from './answer.ts'
import type { Source } from './formula.ts'
import { brokenWords, exact } from './limit.ts'
import type { SiUnit } from './unit.ts'

export type Verdict = 'pass' | 'near' | 'fail' | 'open'

export type Stage = 'model' | 'mass' | 'strip' | 'lift' | 'ground' | 'programme' | 'risk' | 'report'

/** A kind of check the tool knows: one entry of the catalogue. */
export interface CheckKind {
  id: string
  title: string
  stage: Stage
  source: Source
  /** Numbers of the list of checks a competent checker wants (`docs/checks.md`) that this kind answers. */
  practice: readonly number[]
  /** Who decides what the tool leaves open. */
  decidedBy: string
}

/** What a check is about: the entity's address, its id, and words for it. */
export interface Subject {
  pointer: string
  id: string
  name: string
}

/**
 * Demand against capacity. Demand above capacity fails; within the project's margin is near; an unknown on either side is
 * open, never pass, and so is what rests on something that nobody has decided yet.
 */
export interface Check {
  /** Unique: kind, then subject, then the case where there are several. */
  id: string
  kind: string
  stage: Stage
  subject: Subject
  title: string
  unit: SiUnit
  demand: Answer
  capacity: Answer
  /** demand / capacity; undefined when unknown, or when the capacity is zero or less. */
  utilisation: number | undefined
  verdict: Verdict
  /** For `open`: what is missing, outside limits, or to be decided. */
  reasons: readonly string[]
  decidedBy: string
  assumptions: readonly string[]
  cautions: readonly string[]
}

/** An assumption that somebody must have decided before a check that rests on it can pass. */
export interface Resting {
  words: string
  /** What is still to be decided, each as the reason of an open check. */
  undecided: readonly string[]
}

export interface CheckText<U extends SiUnit> {
  kind: CheckKind
  subject: Subject
  /** Distinguishes several checks of one kind on one subject: a step, a component, a hook. */
  of?: string
  title?: string
  demand: Answer<U>
  capacity: Answer<NoInfer<U>>
  /** Utilisation from which a passing check is near, such as 0.9. */
  near: number
  assumptions?: readonly (string | Resting)[]
  cautions?: readonly string[]
  /** Said for a failure: what stands in the way, in words. */
  found?: readonly string[]
}

/** A check of a demand against a capacity of the same unit; what would pass on something nobody has decided is open. */
export function check<U extends SiUnit>(text: CheckText<U>): Check {
  const { kind, subject, demand, capacity, assumptions = [] } = text
  const undecided = assumptions.flatMap((a) => (typeof a === 'string' ? [] : a.undecided))
  const known = verdictOf(demand.value, capacity.value, text.near)
  const isWithheld = (known === 'pass' || known === 'near') && undecided.length > 0
  const verdict = isWithheld ? 'open' : known
  return {
    id: [kind.id, subject.id, ...(text.of === undefined ? [] : [text.of])].join('/'),
    kind: kind.id,
    stage: kind.stage,
    subject,
    title: text.title ?? kind.title,
    unit: demand.unit,
    demand,
    capacity,
    utilisation: utilisationOf(demand.value, capacity.value),
    verdict,
    reasons: isWithheld ? undecided : reasonsOf(verdict, text),
    decidedBy: kind.decidedBy,
    assumptions: assumptions.map((a) => (typeof a === 'string' ? a : a.words)),
    cautions: text.cautions ?? [],
  }
}

function reasonsOf(verdict: Verdict, { demand, capacity, found = [] }: CheckText<SiUnit>): readonly string[] {
  if (verdict === 'open') return openReasons(demand, capacity)
  return verdict === 'fail' ? found : []
}

/** Demand over capacity; undefined where the ratio has no meaning. */
export function utilisationOf(demand: number | undefined, capacity: number | undefined): number | undefined {
  if (demand === undefined || capacity === undefined || capacity <= 0) return undefined
  return demand / capacity
}

/** Rounding is for the eye: the verdict comes from the unrounded values, with room for the last bit only. */
const LAST_BIT = 1e-12

export function verdictOf(demand: number | undefined, capacity: number | undefined, near: number): Verdict {
  if (demand === undefined || capacity === undefined || Number.isNaN(demand) || Number.isNaN(capacity)) return 'open'
  if (demand > capacity + LAST_BIT * Math.abs(capacity)) return 'fail'
  return capacity > 0 && demand > near * capacity ? 'near' : 'pass'
}

function openReasons(demand: Answer, capacity: Answer): string[] {
  const missing = [...new Set([...missingUnder(demand), ...missingUnder(capacity)])].map(
    (pointer) => `${pointer} is not given`,
  )
  const broken = [...new Set([...brokenWords(demand), ...brokenWords(capacity)])]
  const residuals = [...new Set([...unclosedUnder(demand), ...unclosedUnder(capacity)])].map(residualWords)
  const all = [...missing, ...broken, ...residuals]
  if (all.length > 0) return all
  const notes = [...new Set([...notesUnder(demand), ...notesUnder(capacity)])]
  return notes.length > 0 ? notes : [NO_ANSWER]
}

const NO_ANSWER = 'the method gives no answer here: all that it asks for is given, but no state of balance was found'

/** A method that does not close: by how much, and that nothing may rest on it. */
const residualWords = ({ title, value, tolerance, unit }: Residual): string =>
  `${title} does not close, ${exact(value, unit, 3)} left over where no more than ${exact(tolerance, unit, 3)} may be: the method has no answer for these inputs, so do not rest on it; look for an input that is out of proportion`

/** Counts by verdict. */
export function countVerdicts(checks: readonly Pick<Check, 'verdict'>[]): Record<Verdict, number> {
  const counts: Record<Verdict, number> = { pass: 0, near: 0, fail: 0, open: 0 }
  for (const { verdict } of checks) counts[verdict]++
  return counts
}
