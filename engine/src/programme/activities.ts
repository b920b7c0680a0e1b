import type { LiftResult } from '../lift/index.ts'
import { idsMeant, type Model, type Programme, type ReadProject } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import { missingUnder } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activities, Activity, Link } from './activity.ts'
import { adjusted } from './adjust.ts'
import { changes, isolations, RETURNED, rampUp, TESTED, tests } from './around.ts'
import { groundLinks, withCuring } from './groundWork.ts'
import { homeward } from './homeward.ts'
import { BEGIN, outward } from './outward.ts'
import { overridden } from './override.ts'
import { type Passage, passagesOf } from './passage.ts'
import { finishToStart, type HookTimes, milestone, type Rules, type Times } from './rules.ts'
import { typed } from './typed.ts'
import type { Zone } from './zone.ts'

/** What activities are made from: nothing of it changes when only a mass does. */
export interface Sources {
  project: ReadProject
  programme: Programme
  zone: Zone
  passages: readonly Passage[]
  /** Instances that each change works on. */
  changeParts: Readonly<Record<string, readonly string[]>>
  times: Times
  hookTimes: HookTimes
}

/** Every activity of the recovery: the typed ones, and those that follow from order, joints, services, changes and tests. */
export function activitiesOf(sources: Sources): Activities {
  const { programme, zone, project, passages, changeParts } = sources
  const own = Object.keys(programme.activities).map((id) => typed(project, programme, zone, id))
  const done = (all: readonly Activity[]): Activities =>
    byId(adjusted(programme, zone, withCuring(programme, bind(all, groundLinks(project, programme)))))
  if (programme.work === undefined) return done(withDeliveries(programme, linked(programme, own)))
  const rules: Rules = {
    project,
    programme,
    work: programme.work,
    times: sources.times,
    hookTimes: sources.hookTimes,
    passages,
  }
  const made = changes(rules, changeParts)
  const all = [
    ...own,
    ...(passages.length === 0 ? [] : stripAndReturn(rules)),
    ...made.activities,
    ...tested(rules),
    ...rampUp(rules, programme.restart),
  ]
  const bonds = made.beforeReturn.flatMap(([from, step]) => returnsOf(all, step).map((to): Bond => [from, to]))
  return done(overridden(programme, withDeliveries(programme, linked(programme, bind(all, bonds)))))
}

/**
 * The activities, made again only when something they are made from is another one. Collections that a change of mass leaves
 * alone keep their identity; what is read of the others is settled by content.
 */
export function rememberedActivities(
  model: Model,
  programme: Programme,
  strip: StripResult,
  lift: LiftResult,
  zone: Zone,
  memory: Memory,
): Activities {
  const { project } = model
  const { jointTimes, serviceTimes, jointWork, serviceWork } = strip
  const passages = memory.settled('programme/passages', passagesOf(model, strip))
  const changeParts = memory.settled('programme/changeParts', partsOfChanges(model))
  const hookTimes = memory.settled('programme/hookTimes', hookTimesOf(lift))
  const times: Times = { jointTimes, serviceTimes, jointWork, serviceWork }
  const { joints, services, isolations, changes, lifts, pieces, steps, tests, shaft, cradle } = project
  const water = project.ground?.water
  const collections = [joints, services, isolations, changes, lifts, pieces, steps, tests, shaft, cradle, water]
  return memory.once(
    'programme/activities',
    [programme, zone, passages, changeParts, hookTimes, ...Object.values(times), ...collections],
    () => activitiesOf({ project, programme, zone, passages, changeParts, times, hookTimes }),
  )
}

const partsOfChanges = ({ project, instances }: Model): Sources['changeParts'] =>
  Object.fromEntries(
    Object.entries(project.changes).map(([id, c]) => [id, c.parts.flatMap((part) => idsMeant(instances, part))]),
  )

const hookTimesOf = ({ lifts }: LiftResult): HookTimes =>
  Object.fromEntries(
    Object.entries(lifts).map(([id, { duration }]) => [
      id,
      { value: planned(duration.value), missing: missingUnder(duration) },
    ]),
  )

const STEP = 300

/** Hook times are planned to the next five minutes, so that a kilogram more does not move every date by seconds. */
const planned = (time: number | undefined): number | undefined =>
  time === undefined ? undefined : Math.ceil(time / STEP - 1e-9) * STEP

const byId = (activities: readonly Activity[]): Activities => Object.fromEntries(activities.map((a) => [a.id, a]))

function stripAndReturn(rules: Rules): Activity[] {
  const { passages, work } = rules
  const from = [pointerOf('order')]
  const begin = milestone(BEGIN, 'Strip begins', work.stripAfter, from, work.lifts.calendar)
  const out = passages.flatMap((passage, k) => outward(rules, passage, passages.slice(0, k)))
  const last = `${passages.at(-1)?.id}.land`
  let before = [last]
  const home = [...passages].reverse().flatMap((passage) => {
    const activities = homeward(rules, passage, before)
    if (activities.length > 0) before = [`${passage.id}.home`]
    return activities
  })
  const around = isolations(rules)
  const ends = [...home, ...around].filter(
    ({ kind, id }) => id.endsWith('.home') || kind === 'reconnect' || kind === 'energise',
  )
  const done = [...before, ...ends.map(({ id }) => id)]
  return [
    begin,
    ...around,
    ...out,
    ...home,
    milestone(RETURNED, 'Machine closed and reconnected', done, from, work.lifts.calendar),
  ]
}

function tested(rules: Rules): Activity[] {
  const all = tests(rules)
  if (all.length === 0) return []
  return [
    ...all,
    milestone(
      TESTED,
      'Tests done',
      all.map(({ id }) => id),
      [],
      rules.work.tests.calendar,
    ),
  ]
}

/** A link to be added: from an activity to one that waits for it. */
type Bond = readonly [from: string, to: string]

/** Adds finish-to-start links, each once, and none that is there already. */
function bind(activities: readonly Activity[], bonds: readonly Bond[]): Activity[] {
  const more = new Map<string, Set<string>>()
  for (const [from, to] of bonds) more.set(to, (more.get(to) ?? new Set()).add(from))
  return activities.map((activity) => {
    const added = [...(more.get(activity.id) ?? [])].filter(
      (from) => from !== activity.id && !activity.after.some((l) => l.to === from && l.type === 'FS'),
    )
    return added.length === 0
      ? activity
      : { ...activity, after: [...activity.after, ...finishToStart(added)] as Link[] }
  })
}

const BACK: ReadonlySet<Activity['kind']> = new Set([
  'rig back',
  'wait back',
  'turn back',
  'lift back',
  'close',
  'release',
  'reconnect',
])

/** First activities of a step's way out, or of its way back: those that wait for no other of their own. */
function firstOf(activities: readonly Activity[], step: string, back: boolean): string[] {
  const own = activities.filter((a) => a.step === step && a.kind !== 'milestone' && BACK.has(a.kind) === back)
  const ids = new Set(own.map(({ id }) => id))
  return own.filter(({ after }) => !after.some(({ to }) => ids.has(to))).map(({ id }) => id)
}

const returnsOf = (activities: readonly Activity[], step: string): string[] =>
  // reconnecting waits for the piece to be home, and so for the first of these
  firstOf(activities, step, true).filter((id) => !id.includes('.connect.'))

/** What typed activities say they come before, and what strip and tests are bound to. */
function linked(programme: Programme, all: readonly Activity[]): Activity[] {
  const bonds: Bond[] = []
  for (const [id, activity] of Object.entries(programme.activities)) {
    for (const step of activity.beforeSteps) bonds.push(...firstOf(all, step, false).map((to): Bond => [id, to]))
    for (const step of activity.beforeReturn) bonds.push(...returnsOf(all, step).map((to): Bond => [id, to]))
    for (const change of activity.beforeChanges) bonds.push([id, `change.${change}`])
    for (const test of activity.beforeTests) bonds.push([id, `test.${test}`])
  }
  const known = new Set(all.map(({ id }) => id))
  for (const id of programme.work?.resumeBefore ?? []) if (known.has(RETURNED)) bonds.push([RETURNED, id])
  if (programme.restart !== undefined && known.has(TESTED)) bonds.push([TESTED, programme.restart])
  return bind(all, bonds)
}

/** Nothing starts without what has to be delivered for it. */
function withDeliveries(programme: Programme, all: readonly Activity[]): Activity[] {
  const bonds = Object.values(programme.deliveries).flatMap((delivery) =>
    neededBy(delivery, all).map((to): Bond => [delivery.activity, to]),
  )
  return bind(all, bonds)
}

/** Activities that cannot start without a delivery. */
export function neededBy(delivery: Programme['deliveries'][string], all: readonly Activity[]): string[] {
  return [
    ...delivery.neededBy,
    ...delivery.neededByChanges.map((c) => `change.${c}`),
    ...delivery.neededByReturn.flatMap((step) => returnsOf(all, step)),
  ]
}
