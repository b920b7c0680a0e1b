import type { CheckKind } from '../working/check.ts'
import type { Source } from '../working/formula.ts'

/** Kinds of check of what carries the load: tower, crane, strand units and winches. */
const kind = (
  id: string,
  title: string,
  practice: readonly number[],
  source: Source,
  decidedBy = 'lift engineer',
): CheckKind => ({ id: `lift.${id}`, title, stage: 'lift', source, practice, decidedBy })

const derived = (text: string): Source => ({ basis: 'derived', text })

export const towerLeg = kind(
  'tower.leg',
  'Leg of the tower within what its wheels bear',
  [46],
  derived('header as a beam on two rails, hook anywhere in its travel, with the couples of travel and of wind'),
)

export const towerLifts = kind(
  'tower.lifts',
  'No leg of the tower lifts in service',
  [47],
  derived('least leg load at rest, loaded or empty, against the couples of travel and of wind'),
)

export const craneBase = kind(
  'crane.base',
  'Crane and load stand within the feet at every slew',
  [49],
  derived('moments about the slewing centre against the nearest tipping line, loaded and empty'),
)

export const systemKinds: readonly CheckKind[] = [towerLeg, towerLifts, craneBase]
