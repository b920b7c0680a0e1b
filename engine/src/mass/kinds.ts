import type { CheckKind } from '../working/check.ts'
import type { Source } from '../working/formula.ts'

const derived = (text: string): Source => ({ basis: 'derived', text })
const common = (text: string): Source => ({ basis: 'common practice', text: `${text}; no source` })

export const partAgainstSolids: CheckKind = {
  id: 'mass.part.solids',
  title: 'Stated mass against density × volume × solid fraction',
  stage: 'mass',
  source: derived('m = Σ ± ρ V f; the difference lies within the stated uncertainty times the coverage factor'),
  practice: [1],
  decidedBy: 'machine engineer',
}

export const massRecord: CheckKind = {
  id: 'mass.part.record',
  title: 'Mass says how it is known: basis, uncertainty, date and source',
  stage: 'mass',
  source: {
    basis: 'read',
    text: 'ASME P30.1, 5-2.1(a): weight, centre of gravity and size with the sources of that information (excerpts read)',
  },
  practice: [2],
  decidedBy: 'machine engineer',
}

export const groupTotal: CheckKind = {
  id: 'mass.group.total',
  title: 'Roll-up of a group against the total that the maker gives',
  stage: 'mass',
  source: derived('difference within the combined standard uncertainty times the coverage factor'),
  practice: [3],
  decidedBy: 'machine engineer',
}

export const uncertaintyCovered: CheckKind = {
  id: 'mass.set.uncertainty',
  title: 'Standard uncertainty within the allowance that the lift carries',
  stage: 'mass',
  source: derived(
    'root sum of squares of independent figures, plain sum of figures that err together (JCGM 100:2008, clause 5, from memory); the project sets which one counts',
  ),
  practice: [4],
  decidedBy: 'lift engineer',
}

export const poseAgainstSurvey: CheckKind = {
  id: 'mass.pose.survey',
  title: 'Pose of the machine against a surveyed point',
  stage: 'mass',
  source: derived('distance of the surveyed point from where the pose puts it'),
  practice: [7],
  decidedBy: 'surveyor and machine engineer',
}

export const weighedInBand: CheckKind = {
  id: 'mass.weighed.band',
  title: 'Load reading within the band about the planned mass',
  stage: 'mass',
  source: common('outside the band: stop, set down, explain, work every later lift again'),
  practice: [8],
  decidedBy: 'lift director',
}

export const weighedNormalised: CheckKind = {
  id: 'mass.weighed.normalised',
  title: 'Load reading against the computed mass, in units of their uncertainty',
  stage: 'mass',
  source: derived('E = |Δ| / √(u₁² + u₂²); above the coverage factor the difference asks for a reason'),
  practice: [8],
  decidedBy: 'lift engineer',
}

export const weighedCells: CheckKind = {
  id: 'mass.weighed.cells',
  title: 'Mass of a weighing against the readings of its load cells',
  stage: 'mass',
  source: derived('difference from the mean of the free readings within the stated accuracy times the coverage factor'),
  practice: [8],
  decidedBy: 'lift engineer',
}

export const weighedCeiling: CheckKind = {
  id: 'mass.weighed.ceiling',
  title: 'Highest reading of the load cells below the ceiling',
  stage: 'mass',
  source: common('above the ceiling something still holds: stop, set down, find it'),
  practice: [8],
  decidedBy: 'lift director',
}

export const changeEntered: CheckKind = {
  id: 'mass.change.entered',
  title: 'Change in force has a mass and a place on its part',
  stage: 'mass',
  source: common('no approved change without mass and position'),
  practice: [9],
  decidedBy: 'machine engineer',
}

export const retainedStated: CheckKind = {
  id: 'mass.piece.retained',
  title: 'Muck, grease, oil and water left in are stated, and have room',
  stage: 'mass',
  source: common('stated for each piece; zero is typed, never assumed'),
  practice: [10],
  decidedBy: 'lift engineer',
}

export const massKinds: readonly CheckKind[] = [
  partAgainstSolids,
  massRecord,
  groupTotal,
  uncertaintyCovered,
  poseAgainstSurvey,
  weighedInBand,
  weighedNormalised,
  weighedCells,
  weighedCeiling,
  changeEntered,
  retainedStated,
]
