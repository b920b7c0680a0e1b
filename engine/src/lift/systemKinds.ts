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
const read = (text: string): Source => ({ basis: 'read', text })
const common = (text: string): Source => ({ basis: 'common practice', text: `${text}; no source` })

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

export const chartRange = kind(
  'crane.chart-range',
  'Charts of the crane read within their range',
  [20],
  read(
    'load charts quiz of a crane safety body: between listed lengths and radii the smaller of the next values; beyond them nothing is rated',
  ),
)

export const unitUse = kind(
  'units.use',
  'Each strand unit or winch within its rating, strokes apart as far as the control allows',
  [20],
  derived('rigid block on elastic lines, tension only; the worst signs of the stroke errors'),
)

export const unitLost = kind(
  'units.lost',
  'With any one strand unit or winch lost the others stay within their rating',
  [20],
  derived('rigid block on the lines that are left; whether loss of one must be borne is the project’s and its maker’s'),
)

export const unitAnchors = kind(
  'units.anchors',
  'Each strand unit or winch is held twice over',
  [20],
  common('two sets of grips or brakes, each able to hold the load of the unit alone'),
)

export const strandUse = kind(
  'units.strand',
  'Each strand within its working load, strokes apart or one unit lost',
  [20],
  derived('load of the unit over the strands fitted'),
)

export const unitPace = kind(
  'units.pace',
  'Planned speed within what strokes and re-gripping allow',
  [28],
  derived('stroke over the time of stroke and re-grip'),
)

export const winchPull = kind(
  'winch.pull',
  'Lead line of the winch within the pull of its outermost layer',
  [20],
  derived('losses at the sheaves as a geometric series; constant torque at the drum'),
)

export const systemKinds: readonly CheckKind[] = [
  towerLeg,
  towerLifts,
  craneBase,
  chartRange,
  unitUse,
  unitLost,
  unitAnchors,
  strandUse,
  unitPace,
  winchPull,
]
