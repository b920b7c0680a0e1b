import type { Model } from '../../model/index.ts'
import { standingReadings } from '../../programme/index.ts'
import { type CheckLookup, idsOf, ofMeasure } from './recordChecks.ts'

/** One reading as it was written down. */
export interface DossierReading {
  id: string
  of: string | undefined
  /** In the unit of what is measured, or an oil code of ISO 4406. */
  value: number | string | undefined
  by: string
  on: string
  witness: string | undefined
  /** Why it does not count: another of the same place is later, or what it was read on is gone. */
  standsNot: string | undefined
  note: string | undefined
}

/** What is accepted, in the unit of what is measured. */
export interface DossierLimit {
  atLeast: number | undefined
  atMost: number | undefined
  code: string | undefined
}

/** Something measured on an opened part or a weld. */
export interface DossierMeasure {
  id: string
  what: string
  unit: string | undefined
  limit: DossierLimit | undefined
  from: string | undefined
  readings: readonly DossierReading[]
  checks: readonly string[]
}

type Test = Model['project']['tests'][string]
type Measured = Pick<Test, 'limit' | 'readings'>
type Measures = Model['project']['inspections'][string]['measures']

/** Every reading of a test or a measure, those that no longer stand too. */
export function readingsOf(measured: Measured, isGone: (on: string) => boolean = () => false): DossierReading[] {
  const present = Object.fromEntries(Object.entries(measured.readings).filter(([, { on }]) => !isGone(on)))
  const standing = new Set(standingReadings({ readings: present }).map(([id]) => id))
  return Object.entries(measured.readings).map(([id, { of, value, code, by, on, witness, note }]) => ({
    id,
    of,
    value: code ?? value?.value,
    by,
    on,
    witness,
    standsNot: standing.has(id) ? undefined : isGone(on) ? 'of what was there before' : 'a later one stands for it',
    note,
  }))
}

export const limitOf = ({ limit }: Measured): DossierLimit | undefined =>
  limit === undefined ? undefined : { atLeast: limit.atLeast?.value, atMost: limit.atMost?.value, code: limit.code }

/**
 * Measures of an opened part or a weld.
 *
 * @param isGone whether what was read on a day is no longer there
 */
export function measuresOf(
  lookup: CheckLookup,
  [collection, id]: readonly [collection: string, id: string],
  measures: Measures,
  isGone?: (on: string) => boolean,
): DossierMeasure[] {
  const checks = lookup.of(collection, id, '.within')
  return Object.entries(measures).map(([m, measure]) => ({
    id: m,
    what: measure.what,
    unit: measure.unit,
    limit: limitOf(measure),
    from: measure.from,
    readings: readingsOf(measure, isGone),
    checks: idsOf(ofMeasure(checks, m)),
  }))
}
