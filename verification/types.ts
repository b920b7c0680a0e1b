import type { SourceBasis } from '../engine/src/working/formula.ts'

/** What a case may hold: quantities have become SI numbers, everything else stays as written. */
export type Value = number | string | boolean | null | undefined | readonly Value[] | { readonly [name: string]: Value }

/** Inputs of a case by name; take them out with `inputs.ts`, which says plainly when one is missing or of another kind. */
export type Inputs = Readonly<Record<string, Value>>

/**
 * What a case calls when it names no formula: a thin call of public engine functions, SI in and SI out.
 * A result that is unknown (open) is undefined, and a case expects it as null.
 */
export type VerifiedFunction = (inputs: Inputs) => Readonly<Record<string, Value>>

/** How far from the expected value still counts as the same; the wider of the two holds. Default: 1e-9 relative. */
export interface Tolerance {
  relative?: number | string
  /** SI number, or text with a unit. */
  absolute?: number | string
}

/** One published or derived example, as a file holds it. */
export interface Case {
  id: string
  title?: string
  source: { title: string; edition?: string; place: string }
  basis: SourceBasis
  /** A name from `functions/<stage>.ts`, or the id of a formula. */
  function: string
  inputs: Readonly<Record<string, unknown>>
  expected?: Readonly<Record<string, unknown>>
  /** Values that the source prints in error: the engine must not give them. */
  notExpected?: Readonly<Record<string, unknown>>
  tolerance?: Tolerance & { of?: Readonly<Record<string, Tolerance>> }
  note?: string
}

/** One expected value beside what the engine gave, both for the eye in the unit of the case. */
export interface Comparison {
  name: string
  expected: string
  got: string
  /** got − expected in the case's unit, and as a share; absent where they are not numbers. */
  difference?: string
  share?: number
  within: string
  holds: boolean
}

/** A case after its run. */
export interface Outcome {
  id: string
  stage: string
  title?: string
  source: string
  basis: SourceBasis | 'unknown'
  function: string
  inputs: Readonly<Record<string, unknown>>
  expected: Readonly<Record<string, unknown>>
  /** In the unit of the case where it has one. */
  got: Readonly<Record<string, Value>>
  comparisons: readonly Comparison[]
  verdict: 'pass' | 'fail'
  /** Why it failed other than by a difference: no such function, a broken file, an error thrown. */
  reason?: string
  note?: string
}
