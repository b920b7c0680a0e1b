import { keys, list, one, type Reference } from './reference.ts'
import type { Programme, ReadProject } from './schema/project.ts'

/** Ids in the programme, the tests, the risks and their correlations. */
export function programmeReferences(project: ReadProject): Reference[] {
  const known = idsOf(project)
  return [
    ...Object.entries(project.tests).flatMap(([id, t]) => [
      ...list(t.after, `/tests/${id}/after`, 'a test', known.tests),
      ...list(t.afterReturn, `/tests/${id}/afterReturn`, 'a step', known.steps),
    ]),
    ...Object.entries(project.punchList).flatMap(([id, item]) => [
      ...list(item.tests, `/punchList/${id}/tests`, 'a test', known.tests),
      ...list(item.parts, `/punchList/${id}/parts`, 'a part', keys(project.parts)),
      ...list(item.services, `/punchList/${id}/services`, 'a service', keys(project.services)),
    ]),
    ...recordReferences(project, known),
    ...Object.entries(project.correlations).flatMap(([id, c]) =>
      list(c.between, `/correlations/${id}/between`, 'a risk', keys(project.risks)),
    ),
    ...belowReferences(project, known),
    ...(project.programme === undefined ? [] : planReferences(project, project.programme, known)),
  ]
}

function recordReferences(
  { inspections, welds, boltRecords, liftLog, parts, joints }: ReadProject,
  known: Known,
): Reference[] {
  return [
    ...Object.entries(liftLog).flatMap(([id, { lift }]) => one(lift, `/liftLog/${id}/lift`, 'a lift', known.lifts)),
    ...Object.entries(inspections).flatMap(([id, { parts: of }]) =>
      list(of, `/inspections/${id}/parts`, 'a part', keys(parts)),
    ),
    ...Object.entries(welds).flatMap(([id, w]) => [
      ...list(w.parts, `/welds/${id}/parts`, 'a part', keys(parts)),
      ...one(w.joint, `/welds/${id}/joint`, 'a joint', keys(joints)),
      ...one(w.change, `/welds/${id}/change`, 'a change', known.changes),
    ]),
    ...Object.entries(boltRecords).flatMap(([id, r]) =>
      one(r.joint, `/boltRecords/${id}/joint`, 'a joint', keys(joints)),
    ),
  ]
}

function belowReferences({ belowGround, systems, shaft, services }: ReadProject, known: Known): Reference[] {
  if (belowGround === undefined) return []
  const { counts, ways, rescue, hotWork } = belowGround
  const of = (section: string, id: string, field: string): string => `/belowGround/${section}/${id}/${field}`
  return [
    ...Object.entries(counts).flatMap(([id, c]) => activity(c.before, of('counts', id, 'before'), known)),
    ...Object.entries(ways).flatMap(([id, w]) => [
      ...one(w.system, of('ways', id, 'system'), 'a lifting system', keys(systems)),
      ...one(w.stands, of('ways', id, 'stands'), 'a thing in the shaft', keys(shaft?.obstructions)),
      ...list(w.blockedBy, of('ways', id, 'blockedBy'), 'a lift', known.lifts),
    ]),
    ...Object.entries(rescue).flatMap(([id, r]) =>
      list(r.calendars, of('rescue', id, 'calendars'), 'a calendar', known.calendars),
    ),
    ...Object.entries(hotWork).flatMap(([id, h]) => [
      ...activities(h.activities, of('hotWork', id, 'activities'), known),
      ...Object.entries(h.fireLoad).flatMap(([f, { services: hoses }]) =>
        list(hoses, of('hotWork', id, `fireLoad/${f}/services`), 'a service', keys(services)),
      ),
    ]),
  ]
}

type Known = Record<
  'tests' | 'steps' | 'changes' | 'lifts' | 'isolations' | 'activities' | 'calendars' | 'resources' | 'rates' | 'ways',
  ReadonlySet<string>
>

const idsOf = ({ tests, steps, changes, lifts, isolations, programme }: ReadProject): Known => ({
  tests: keys(tests),
  steps: keys(steps),
  changes: keys(changes),
  lifts: keys(lifts),
  isolations: keys(isolations),
  activities: keys(programme?.activities),
  calendars: keys(programme?.calendars),
  resources: keys(programme?.resources),
  rates: keys(programme?.rates),
  ways: keys(programme?.ways),
})

function planReferences(project: ReadProject, plan: Programme, known: Known): Reference[] {
  return [
    ...Object.entries(project.tests).flatMap(([id, t]) =>
      activities(t.afterActivities, `/tests/${id}/afterActivities`, known),
    ),
    ...Object.entries(project.risks).flatMap(([id, r]) => activities(r.activities, `/risks/${id}/activities`, known)),
    ...Object.entries(project.diary).flatMap(([id, { done, lost }]) => [
      ...done.flatMap((d, i) => activity(d.activity, `/diary/${id}/done/${i}/activity`, known)),
      ...lost.flatMap((l, i) => activity(l.activity, `/diary/${id}/lost/${i}/activity`, known)),
    ]),
    ...activity(plan.restart, '/programme/restart', known),
    ...one(plan.baseline, '/programme/baseline', 'a baseline', keys(plan.baselines)),
    ...Object.entries(plan.resources).flatMap(([id, r]) =>
      one(r.calendar, `/programme/resources/${id}/calendar`, 'a calendar', known.calendars),
    ),
    ...Object.entries(plan.activities).flatMap(([id, a]) =>
      activityReferences(a, `/programme/activities/${id}`, known),
    ),
    ...Object.entries(plan.adjustments).flatMap(([id, a]) =>
      adjustmentReferences(a, `/programme/adjustments/${id}`, known),
    ),
    ...Object.entries(plan.ways).flatMap(([id, w]) => wayReferences(w, `/programme/ways/${id}`, known)),
    ...Object.entries(plan.setUps).flatMap(([id, s]) => setUpReferences(s, `/programme/setUps/${id}`, known)),
    ...Object.entries(plan.curfews).flatMap(([id, c]) => curfewReferences(c, `/programme/curfews/${id}`, known)),
    ...Object.entries(plan.deliveries).flatMap(([id, d]) =>
      deliveryReferences(d, `/programme/deliveries/${id}`, known),
    ),
    ...Object.entries(plan.changeWork).flatMap(([id, c]) => [
      ...one(id, `/programme/changeWork/${id}`, 'a change', known.changes),
      ...changeWorkReferences(c, `/programme/changeWork/${id}`, known),
    ]),
    ...Object.entries(plan.options).flatMap(([id, o]) =>
      activity(o.activity, `/programme/options/${id}/activity`, known),
    ),
    ...workReferences(plan.work, '/programme/work', known),
  ]
}

type Item<K extends keyof Programme> = Programme[K] extends Readonly<Record<string, infer T>> ? T : never

function activityReferences(a: Item<'activities'>, at: string, known: Known): Reference[] {
  return [
    ...one(a.calendar, `${at}/calendar`, 'a calendar', known.calendars),
    ...links(a.after, `${at}/after`, known),
    ...(['afterSteps', 'beforeSteps', 'afterReturn', 'beforeReturn'] as const).flatMap((field) =>
      list(a[field], `${at}/${field}`, 'a step', known.steps),
    ),
    ...(['afterChanges', 'beforeChanges'] as const).flatMap((field) =>
      list(a[field], `${at}/${field}`, 'a change', known.changes),
    ),
    ...(['afterTests', 'beforeTests'] as const).flatMap((field) =>
      list(a[field], `${at}/${field}`, 'a test', known.tests),
    ),
    ...needs(a.needs, `${at}/needs`, known),
    ...list(a.within, `${at}/within`, 'a calendar', known.calendars),
    ...one(a.groundWork?.rate, `${at}/groundWork/rate`, 'a rate', known.rates),
  ]
}

/** Activities that an adjustment names may have gone: that is listed, not refused. Calendars and resources are there. */
const adjustmentReferences = (a: Item<'adjustments'>, at: string, known: Known): Reference[] => [
  ...one(a.way, `${at}/way`, 'a way', known.ways),
  ...one(a.calendar, `${at}/calendar`, 'a calendar', known.calendars),
  ...list(a.within, `${at}/within`, 'a calendar', known.calendars),
  ...needs(a.needs ?? {}, `${at}/needs`, known),
]

const wayReferences = (w: Item<'ways'>, at: string, known: Known): Reference[] => [
  ...activities(w.of.activities, `${at}/of/activities`, known),
  ...one(w.calendar, `${at}/calendar`, 'a calendar', known.calendars),
  ...needs(w.needs, `${at}/needs`, known),
]

const setUpReferences = (s: Item<'setUps'>, at: string, known: Known): Reference[] => [
  ...one(s.resource, `${at}/resource`, 'a resource', known.resources),
  ...Object.entries(s.kinds).flatMap(([kind, k]) => [
    ...activities(k.activities, `${at}/kinds/${kind}/activities`, known),
    ...list(k.lifts, `${at}/kinds/${kind}/lifts`, 'a lift', known.lifts),
  ]),
  ...s.times.flatMap(({ from, to }, i) => [
    ...one(from, `${at}/times/${i}/from`, 'a kind of this set-up', new Set(Object.keys(s.kinds))),
    ...one(to, `${at}/times/${i}/to`, 'a kind of this set-up', new Set(Object.keys(s.kinds))),
  ]),
]

const curfewReferences = (c: Item<'curfews'>, at: string, known: Known): Reference[] => [
  ...one(c.within, `${at}/within`, 'a calendar', known.calendars),
  ...activities(c.activities, `${at}/activities`, known),
  ...list(c.resources, `${at}/resources`, 'a resource', known.resources),
]

const deliveryReferences = (d: Item<'deliveries'>, at: string, known: Known): Reference[] => [
  ...activity(d.activity, `${at}/activity`, known),
  ...activities(d.neededBy, `${at}/neededBy`, known),
  ...list(d.neededByChanges, `${at}/neededByChanges`, 'a change', known.changes),
  ...list(d.neededByReturn, `${at}/neededByReturn`, 'a step', known.steps),
]

const changeWorkReferences = (c: Item<'changeWork'>, at: string, known: Known): Reference[] => [
  ...one(c.calendar, `${at}/calendar`, 'a calendar', known.calendars),
  ...one(c.afterStep, `${at}/afterStep`, 'a step', known.steps),
  ...one(c.beforeReturn, `${at}/beforeReturn`, 'a step', known.steps),
  ...needs(c.needs, `${at}/needs`, known),
  ...links(c.after, `${at}/after`, known),
]

const WORK_RULES = [
  'joints',
  'welds',
  'jointsOnBay',
  'services',
  'cables',
  'isolations',
  'marking',
  'rigging',
  'lifts',
  'bayLifts',
  'landing',
  'changes',
  'changesInShaft',
  'tests',
  'drive',
] as const

function workReferences(work: Programme['work'], at: string, known: Known): Reference[] {
  if (work === undefined) return []
  return [
    ...WORK_RULES.flatMap((kind) => [
      ...one(work[kind]?.calendar, `${at}/${kind}/calendar`, 'a calendar', known.calendars),
      ...needs(work[kind]?.needs, `${at}/${kind}/needs`, known),
    ]),
    ...list(work.stripAfter, `${at}/stripAfter`, 'an activity', known.activities),
    ...list(work.resumeBefore, `${at}/resumeBefore`, 'an activity', known.activities),
    ...one(work.shaftFloor, `${at}/shaftFloor`, 'a resource', known.resources),
    ...Object.entries(work.liftAfter).flatMap(([lift, step]) => [
      ...one(lift, `${at}/liftAfter/${lift}`, 'a lift', known.lifts),
      ...one(step, `${at}/liftAfter/${lift}`, 'a step', known.steps),
    ]),
  ]
}

const needs = (of: Readonly<Record<string, number>> | undefined, at: string, known: Known): Reference[] =>
  Object.keys(of ?? {}).flatMap((r) => one(r, `${at}/${r}`, 'a resource', known.resources))

const links = (
  after: readonly { to: string; calendar?: string | undefined }[],
  at: string,
  known: Known,
): Reference[] =>
  after.flatMap((l, i) => [
    ...activity(l.to, `${at}/${i}/to`, known),
    ...one(l.calendar, `${at}/${i}/calendar`, 'a calendar', known.calendars),
  ])

const activities = (ids: readonly string[], at: string, known: Known): Reference[] =>
  ids.flatMap((id, i) => activity(id, `${at}/${i}`, known))

/** A typed activity, or a derived one named by what it comes from: `S04.out`, `change.CHG-05`, `test.T01`. */
function activity(id: string | undefined, at: string, known: Known): Reference[] {
  if (id === undefined || known.activities.has(id)) return []
  const dot = id.indexOf('.')
  const [first, rest] = [id.slice(0, Math.max(0, dot)), id.slice(dot + 1)]
  if (first === 'change') return one(rest, at, 'a change', known.changes)
  if (first === 'test') return one(rest, at, 'a test', known.tests)
  if (first === 'isolate' || first === 'energise') return one(rest, at, 'an isolation', known.isolations)
  if (first === 'order' || first === 'drive' || known.steps.has(first) || known.activities.has(first)) return []
  return one(id, at, 'an activity', known.activities)
}
