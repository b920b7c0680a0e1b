import type { SiUnit } from './unit.ts'

/** How a figure is known. */
export type Basis = 'weighed' | 'calculated' | 'catalogue' | 'estimated' | 'measured' | 'decided' | 'assumed'

/**
 * A value with what it rests on. `value` undefined means unknown: everything above it is then open.
 * Plain data: it can cross to a worker or a file; formulas are named by id and looked up when the working is shown.
 */
export type Answer<U extends SiUnit = SiUnit> = Given<U> | Stated<U> | Worked<U> | Gathered<U> | Found<U>

/** An input of the project file; the pointer says where it stands. */
export interface Given<U extends SiUnit = SiUnit> {
  kind: 'given'
  unit: U
  value: number | undefined
  pointer: string
  basis?: Basis
}

/** A constant of nature or of a clause, with its source. */
export interface Stated<U extends SiUnit = SiUnit> {
  kind: 'stated'
  unit: U
  value: number
  text: string
}

/** The result of a formula. */
export interface Worked<U extends SiUnit = SiUnit> {
  kind: 'worked'
  unit: U
  value: number | undefined
  formula: string
  inputs: Readonly<Record<string, Answer>>
  /** Validity limits that the inputs break; the value is then unknown. */
  broken?: readonly string[]
}

/** A sum, a largest or a least of like terms, each named. */
export interface Gathered<U extends SiUnit = SiUnit> {
  kind: 'sum' | 'largest' | 'least'
  unit: U
  value: number | undefined
  title: string
  terms: readonly Term<U>[]
}

export interface Term<U extends SiUnit = SiUnit> {
  label: string
  answer: Answer<U>
}

/** The result of an algorithm: method, inputs, and residuals that anyone can recompute. */
export interface Found<U extends SiUnit = SiUnit> {
  kind: 'found'
  unit: U
  value: number | undefined
  method: string
  inputs: Readonly<Record<string, Answer>>
  residuals: readonly Residual[]
  note?: string
}

export interface Residual {
  title: string
  value: number
  unit: SiUnit
  tolerance: number
}

/** An input at its address in the project file; `value` undefined when it is not there. */
export function given<U extends SiUnit>(unit: U, pointer: string, value: number | undefined, basis?: Basis): Given<U> {
  return basis === undefined ? { kind: 'given', unit, value, pointer } : { kind: 'given', unit, value, pointer, basis }
}

/** What stands in the file, or the open place where it should. */
export function knownOr<U extends SiUnit>(answer: Answer<U> | undefined, unit: U, pointer: string): Answer<U> {
  return answer ?? given(unit, pointer, undefined)
}

/** A constant with its source, such as standard gravity. */
export function stated<U extends SiUnit>(unit: U, value: number, text: string): Stated<U> {
  return { kind: 'stated', unit, value, text }
}

export const GRAVITY = stated('m/s2', 9.80665, 'standard gravity (CGPM 1901)')

/** Σ of named terms; unknown when any term is. */
export function sumOf<U extends SiUnit>(title: string, unit: U, terms: readonly Term<U>[]): Gathered<U> {
  const values = terms.map((t) => t.answer.value)
  const value = values.includes(undefined) ? undefined : (values as number[]).reduce((s, v) => s + v, 0)
  return { kind: 'sum', unit, value, title, terms }
}

/** Largest of named terms; unknown when any term is, for the unknown one might govern. */
export function largestOf<U extends SiUnit>(title: string, unit: U, terms: readonly Term<U>[]): Gathered<U> {
  return extreme('largest', title, unit, terms)
}

/** Least of named terms; unknown when any term is. */
export function leastOf<U extends SiUnit>(title: string, unit: U, terms: readonly Term<U>[]): Gathered<U> {
  return extreme('least', title, unit, terms)
}

function extreme<U extends SiUnit>(
  kind: 'largest' | 'least',
  title: string,
  unit: U,
  terms: readonly Term<U>[],
): Gathered<U> {
  const values = terms.map((t) => t.answer.value)
  const unknown = values.length === 0 || values.includes(undefined)
  const pick = kind === 'largest' ? Math.max : Math.min
  return { kind, unit, value: unknown ? undefined : pick(...(values as number[])), title, terms }
}

/** The term that governs a largest or a least; none while one of them is unknown. */
export function governing<U extends SiUnit>({ value, terms }: Gathered<U>): Term<U> | undefined {
  return value === undefined ? undefined : terms.find((t) => t.answer.value === value)
}

/** A result of an algorithm. A residual above its tolerance makes it unknown: a wrong answer is worse than none. */
export function found<U extends SiUnit>(result: Omit<Found<U>, 'kind'>): Found<U> {
  const holds = result.residuals.every(isClosed)
  const known = holds && Object.values(result.inputs).every((i) => i.value !== undefined)
  return { kind: 'found', ...result, value: known ? result.value : undefined }
}

/** Answers directly under this one, by name. */
export function inputsOf(answer: Answer): readonly (readonly [string, Answer])[] {
  switch (answer.kind) {
    case 'given':
    case 'stated':
      return []
    case 'worked':
    case 'found':
      return Object.entries(answer.inputs)
    case 'sum':
    case 'largest':
    case 'least':
      return answer.terms.map((t) => [t.label, t.answer] as const)
    default:
      return answer satisfies never
  }
}

/** Every input under an answer, each once, in the order met. */
export function leavesOf(answer: Answer): Given[] {
  const leaves = answersUnder(answer).filter((a): a is Given => a.kind === 'given')
  return [...new Map(leaves.map((leaf) => [leaf.pointer, leaf])).values()]
}

/** JSON Pointers of the inputs an answer rests on. */
export const restsOn = (answer: Answer): string[] => leavesOf(answer).map((leaf) => leaf.pointer)

/** Pointers of the inputs that are missing under an answer. */
export const missingUnder = (answer: Answer): string[] => [
  ...new Set(unknownUnder(answer).flatMap((a) => (a.kind === 'given' ? [a.pointer] : []))),
]

/** A validity limit that the inputs of a formula break. */
export interface Broken {
  answer: Worked
  limit: string
}

/** Validity limits broken anywhere under an answer; `limit.ts` says them in words. */
export const brokenUnder = (answer: Answer): Broken[] =>
  unknownUnder(answer).flatMap((a) =>
    a.kind === 'worked' ? (a.broken ?? []).map((limit) => ({ answer: a, limit })) : [],
  )

/** What methods say of themselves where they keep an answer unknown. */
export const notesUnder = (answer: Answer): string[] =>
  unknownUnder(answer).flatMap((a) => (a.kind === 'found' && a.note !== undefined ? [a.note] : []))

/** Residuals above their tolerance anywhere under an answer. */
export const unclosedUnder = (answer: Answer): Residual[] =>
  unknownUnder(answer).flatMap((a) => (a.kind === 'found' ? a.residuals.filter((r) => !isClosed(r)) : []))

const isClosed = ({ value, tolerance }: Residual): boolean => Math.abs(value) <= tolerance

/** The answer and all under it, each once. */
const answersUnder = (answer: Answer): readonly Answer[] => walked(answer, () => true)

/**
 * The answers that keep this one unknown. What is unknown makes everything above it unknown, so there is nothing to look for
 * under a known answer: of a thousand masses under an open check, only the way to what is missing is walked.
 */
const unknownUnder = (answer: Answer): readonly Answer[] => walked(answer, (a) => a.value === undefined)

function walked(answer: Answer, goesOn: (a: Answer) => boolean): readonly Answer[] {
  const seen = new Set<Answer>()
  const go = (a: Answer): void => {
    if (seen.has(a) || !goesOn(a)) return
    seen.add(a)
    if (a.kind === 'worked' || a.kind === 'found') for (const symbol in a.inputs) go(a.inputs[symbol] as Answer)
    else if (a.kind !== 'given' && a.kind !== 'stated') for (const term of a.terms) go(term.answer)
  }
  go(answer)
  return [...seen]
}
