import type { Model } from '../model/index.ts'
import { knownOr } from '../working/answer.ts'
import { type Check, check, type Subject } from '../working/check.ts'
import { cellChecks } from './cellChecks.ts'
import { band, massDifference, normalised, together } from './check.formulas.ts'
import { weighedInBand, weighedNormalised } from './kinds.ts'
import type { PieceMass } from './piece.ts'
import type { Comparison } from './weighed.ts'

type Settings = Model['project']['settings']

/** A piece that was weighed, and what the project allows a reading. */
export interface WeighingChecks {
  subject: Subject
  mass: PieceMass
  coverage: Settings['coverage']
  weightBand: Settings['weightBand']
  /** Names of pieces taken out of this one. */
  inner: readonly string[]
  near: number
}

/** Every load reading against what was expected to hang: within the band, and within the uncertainties. */
export function weighingChecks(input: WeighingChecks): Check[] {
  return input.mass.comparisons.flatMap((comparison) => [
    bandCheck(input, comparison),
    normalisedCheck(input, comparison),
    ...cellChecks(input, comparison),
  ])
}

const differenceOf = ({ measured, expected }: Comparison) => massDifference.show({ m1: measured, m2: expected })

function bandCheck({ subject, weightBand, inner, near }: WeighingChecks, comparison: Comparison): Check {
  const b = knownOr(weightBand, '1', '/settings/weightBand')
  return check({
    kind: weighedInBand,
    subject,
    of: comparison.of,
    demand: differenceOf(comparison),
    capacity: band.show({ b, M: comparison.expected }),
    near,
    cautions: [...HOLD, ...mayHold(inner, comparison)],
    found: [
      'outside the band: hold point; the difference is explained before the lift goes on, later lifts are worked again',
    ],
  })
}

/** What the tool says beside every reading. */
const HOLD = [
  'Above the ceiling something still holds: stop, set down, find it.',
  'The piece is weighed again before it returns; a difference nobody has explained stays in its mass.',
]

function mayHold(inner: readonly string[], { of }: Comparison): string[] {
  return inner.length === 0 || of === 'back'
    ? []
    : [`A difference may lie in any piece taken out of this one: ${inner.join(', ')}. Weigh each.`]
}

function normalisedCheck({ subject, coverage, inner, near }: WeighingChecks, comparison: Comparison): Check {
  const u = together.show({ u1: comparison.measuredUncertainty, u2: comparison.expectedUncertainty })
  return check({
    kind: weighedNormalised,
    subject,
    of: comparison.of,
    demand: normalised.show({ D: differenceOf(comparison), u }),
    capacity: knownOr(coverage, '1', '/settings/coverage'),
    near,
    cautions: mayHold(inner, comparison),
    found: [
      'muck, slurry, oil or water left in, a part forgotten, or a cell that was not zeroed with the rigging on it',
    ],
  })
}
