import type { CheckKind } from '../working/check.ts'
import type { Source } from '../working/formula.ts'
import { inspectionKinds } from './inspections/kinds.ts'
import { peopleKinds } from './people/kinds.ts'
import { testKinds } from './tests/kinds.ts'

const derivedFrom = (text: string): Source => ({ basis: 'derived', text })

export const resourceEachDay: CheckKind = {
  id: 'programme.resource.use',
  title: 'Resource is never asked for more than there is',
  stage: 'programme',
  source: derivedFrom('Σ of what the activities under way hold ≤ capacity, at every instant of the plan'),
  practice: [90],
  decidedBy: 'planner',
}

export const planFeasible: CheckKind = {
  id: 'programme.plan.feasible',
  title: 'Plan keeps its links, its calendars and its fixed dates',
  stage: 'programme',
  source: derivedFrom('each link, duration and date recounted from the plan; none broken by more than half a second'),
  practice: [91],
  decidedBy: 'planner',
}

export const punchListClear: CheckKind = {
  id: 'programme.punch.closed',
  title: 'Punch item closed before what it holds',
  stage: 'programme',
  source: { basis: 'common practice', text: 'common practice, no source' },
  practice: [],
  decidedBy: 'machine engineer',
}

export const punchHeld: CheckKind = {
  id: 'programme.punch.held',
  title: 'No punch item holds it: energy, a test, the restart',
  stage: 'programme',
  source: { basis: 'common practice', text: 'common practice, no source' },
  practice: [],
  decidedBy: 'machine engineer',
}

export const deliveryInTime: CheckKind = {
  id: 'programme.delivery.in-time',
  title: 'Delivery, at 80 % confidence, comes before it is needed',
  stage: 'programme',
  source: derivedFrom('planned order + 80 % quantile of the lead time ≤ planned need − reserve'),
  practice: [92],
  decidedBy: 'planner',
}

export const gapOfPlan: CheckKind = {
  id: 'programme.plan.gap',
  title: 'Gap between the plan and the proven bound',
  stage: 'programme',
  source: derivedFrom('(restart planned − bound) ÷ bound, both counted from the start of the programme'),
  practice: [93],
  decidedBy: 'planner',
}

export const networkHealth: CheckKind = {
  id: 'programme.network.health',
  title: 'Question about the network',
  stage: 'programme',
  source: {
    basis: 'read',
    text: 'DCMA-EA PAM 200.1 (October 2012), section 4, by public pages that agree on its thresholds; made for far larger programmes: a question, not a mark',
  },
  practice: [95],
  decidedBy: 'planner',
}

export const zoneClosed: CheckKind = {
  id: 'programme.zone.closed',
  title: 'Nobody works on a bay under the fall zone or the tail of a crane while a lift goes on',
  stage: 'programme',
  source: {
    basis: 'memory',
    text: '29 CFR 1926.1424 and .1425; derived: activities on bays that the zone meets, under way at the same time',
  },
  practice: [56, 97],
  decidedBy: 'safety lead',
}

export const floorEmpty: CheckKind = {
  id: 'programme.floor.empty',
  title: 'Nobody is on the floor of the shaft while a lift goes over it',
  stage: 'programme',
  source: {
    basis: 'read',
    text: 'EM 385-1-1 14.A.05: no load over persons without positive precautions; 29 CFR 1926.1425 and 1926.800 from memory',
  },
  practice: [97],
  decidedBy: 'safety lead',
}

export const papersInDate: CheckKind = {
  id: 'programme.papers.in-date',
  title: 'Certificates and permits of a lift hold on every day on which the plan has it',
  stage: 'programme',
  source: {
    basis: 'read',
    text: 'DOE-STD-1090-96 2.2 c: inspection dates of the equipment are in the plan; BS 5975-1:2024 12.7.5 for permits (excerpts read); derived: first planned day ≥ permit, last planned day ≤ end of each paper',
  },
  practice: [35],
  decidedBy: 'lift engineer',
}

export const riggingAtOnce: CheckKind = {
  id: 'programme.rigging.at-once',
  title: 'Lifts that go on at the same time find their rigging on hand',
  stage: 'programme',
  source: derivedFrom(
    'Σ of what the lifts under way take of an item or gear ≤ what is on hand, at every instant of the plan',
  ),
  practice: [35, 90],
  decidedBy: 'lift engineer',
}

export const restartAgainstBaseline: CheckKind = {
  id: 'programme.restart.baseline',
  title: 'Restart keeps to the baseline',
  stage: 'programme',
  source: derivedFrom('restart forecast from the data date ≤ restart of the baseline'),
  practice: [95],
  decidedBy: 'planner',
}

export const programmeKinds: readonly CheckKind[] = [
  resourceEachDay,
  planFeasible,
  deliveryInTime,
  gapOfPlan,
  networkHealth,
  zoneClosed,
  floorEmpty,
  papersInDate,
  riggingAtOnce,
  restartAgainstBaseline,
  punchListClear,
  punchHeld,
  ...testKinds,
  ...peopleKinds,
  ...inspectionKinds,
]
