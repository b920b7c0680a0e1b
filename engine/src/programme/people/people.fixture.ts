import type { LiftResult } from '../../lift/index.ts'
import { model } from '../../model/index.ts'
import type { StripResult } from '../../strip/index.ts'
import type { Check } from '../../working/check.ts'
import { freshMemory } from '../../working/memory.ts'
import { problemText } from '../../working/problem.ts'
import type { Activity, Scheduled } from '../activity.ts'
import { peopleChecks } from './checks.ts'

type Raw = Readonly<Record<string, unknown>>

/** What is planned below ground, as far as these checks look at it. */
export interface Planned {
  activities?: Readonly<Record<string, Partial<Activity>>>
  /** First and last day of each, counted from the start of the programme. */
  plan?: Readonly<Record<string, readonly [from: number, to: number]>>
  /** Parts of the project put in as they stand, unread. */
  project?: Raw
}

const DAY = 86_400

/** Checks of people below ground alone, in a project with nothing else, by id. */
export function checksOfPeople(belowGround: Raw, more: Raw = {}, planned: Planned = {}): ReadonlyMap<string, Check> {
  const memory = freshMemory()
  const read = model({ schemaVersion: 1, about: { title: 'Small' }, belowGround, ...more }, memory)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  const whole = { ...read.model, project: { ...read.model.project, ...planned.project } } as typeof read.model
  const all = Object.entries(planned.activities ?? {})
  const activities = Object.fromEntries(all.map(([id, a]) => [id, { id, name: id, needs: {}, ...a } as Activity]))
  const plan = Object.fromEntries(
    Object.entries(planned.plan ?? {}).map(([id, [from, to]]) => [
      id,
      { start: from * DAY, finish: to * DAY } as Scheduled,
    ]),
  )
  const lifts = Object.fromEntries(all.flatMap(([, { lift }]) => (lift === undefined ? [] : [[lift, over(lift)]])))
  const strip = { steps: [] } as unknown as StripResult
  const checks = peopleChecks(whole, strip, { lifts } as unknown as LiftResult, { activities, plan }, memory)
  return new Map(checks.map((c) => [c.id, c]))
}

const over = (id: string) => ({ id, zone: { overShaft: true } })

/** Somebody who is below ground from 07:00, or as said. */
export const line = (who: string, more: Raw = {}): Raw => ({ who, in: '2032-10-21T07:00', ...more })

/** A count at 10:00. */
export const counted = (below: number, more: Raw = {}): Raw => ({
  at: '2032-10-21T10:00',
  below,
  by: 'banksman',
  ...more,
})

/** Readings at 10:00 at one place, by gas. */
export const gasRead = (readings: Readonly<Record<string, string>>, more: Raw = {}): Raw => ({
  gas: {
    heading: {
      where: 'Heading',
      every: '6 h',
      readings: Object.fromEntries(
        Object.entries(readings).map(([gas, value], i) => [
          `r${i + 1}`,
          { gas, value, at: '2032-10-21T10:00', by: 'gas tester' },
        ]),
      ),
      ...more,
    },
  },
})

/** Air for a shaft, with a loader of 350 hp. */
export const airOf = (supplied: string | undefined, people = 12): Raw => ({
  air: {
    shaft: {
      what: 'Shaft',
      ...(supplied === undefined ? {} : { supplied }),
      people,
      diesels: { loader: { what: 'Loader', power: '350 hp' } },
    },
  },
})

const DAY_OF_READINGS = {
  programme: {
    start: '2032-10-01',
    dataDate: '2032-10-21T17:00',
    calendars: { day: { days: ['Mon'], shifts: [['07:00', '19:00']], hoursPerDay: 12 } },
  },
}

const FOUR = { oxygen: '20.8 %', flammable: '0 %', 'carbon monoxide': '5 ppm', 'hydrogen sulphide': '0 ppm' }

const one =
  (belowGround: Raw, id: string, more: Raw = {}, planned: Planned = {}) =>
  (): Check =>
    checksOfPeople(belowGround, more, planned).get(`programme.people.${id}`) as Check

const board = { a: line('fitter'), b: line('welder') }

const TESTED = { on: '2032-10-01', by: 'hoist inspector' }

/** A stair and a hoist that takes a stretcher, both tested, the hoist on the tower. */
export const waysOf = (more: Raw = {}, stair: Raw = {}): Raw => ({
  ways: {
    stair: { what: 'Stair tower', tested: TESTED, ...stair },
    hoist: { what: 'Hoist', rescue: true, tested: TESTED, ...more },
  },
})

/** A team on call by day from the first of October 2032 to the last. */
export const teamOf = (more: Raw = {}): Raw => ({
  team: 'Rescue A',
  calendars: ['day'],
  from: '2032-10-01',
  until: '2032-10-31',
  reach: '20 min',
  ...more,
})

/** Joints opened in the shaft by day from 2 October to 29 October. */
export const DAYS_BELOW: Planned = {
  activities: { 'S1.open.J1': { kind: 'open', step: 'S1', calendar: 'day' } },
  plan: { 'S1.open.J1': [1, 28] },
}

/** A permit with nothing to say against it. */
export const permitOf = (more: Raw = {}): Raw => ({
  hotWork: {
    P1: {
      what: 'Seal weld cut',
      activities: ['A1'],
      from: '2032-10-20T08:00',
      until: '2032-10-20T12:00',
      signed: { by: 'safety lead', on: '2032-10-20' },
      worker: 'welder 1',
      watcher: 'fire watch 1',
      watch: '60 min',
      flammable: '2 %',
      ...more,
    },
  },
})

/** The programme that these activities and calendars are named in. */
export const OCTOBER = {
  programme: {
    start: '2032-10-01',
    calendars: { day: { days: ['Mon'], shifts: [['07:00', '19:00']], hoursPerDay: 12 } },
    activities: { A1: { name: 'Cut', calendar: 'day', days: [1, 1, 1] } },
  },
}

/** A lock that was found once. */
export const lockOf = (more: Raw = {}): Raw => ({
  locks: {
    man: {
      what: 'Man lock',
      states: {
        s1: {
          at: '2032-10-18T09:00',
          hatch: 'open to the shaft',
          idle: true,
          pressure: '0 Pa',
          by: 'lock attendant',
          provedBy: 'superintendent',
          ...more,
        },
      },
    },
  },
})

export const peopleFixtures = {
  'programme.people.ways-out': {
    pass: one(waysOf(), 'ways-out/ways'),
    fail: one(waysOf({ rescue: false }), 'ways-out/ways'),
    open: one(waysOf({}, { tested: undefined }), 'ways-out/ways'),
  },
  'programme.people.rescue': {
    pass: one({ rescue: { A: teamOf() } }, 'rescue/day', OCTOBER, DAYS_BELOW),
    fail: one({ rescue: { A: teamOf({ until: '2032-10-20' }) } }, 'rescue/day', OCTOBER, DAYS_BELOW),
    open: one({ rescue: { A: teamOf({ reach: undefined }) } }, 'rescue/day', OCTOBER, DAYS_BELOW),
  },
  'programme.people.hot-work': {
    pass: one(permitOf(), 'hot-work/P1', OCTOBER),
    fail: one(permitOf({ watch: '59 min' }), 'hot-work/P1', OCTOBER),
    open: one(permitOf({ signed: undefined }), 'hot-work/P1', OCTOBER),
  },
  'programme.people.lock': {
    pass: one(lockOf(), 'lock/man'),
    fail: one(lockOf({ pressure: '20 kPa' }), 'lock/man'),
    open: one(lockOf({ pressure: undefined }), 'lock/man'),
  },
  'programme.people.head-count': {
    pass: one({ board, counts: { k: counted(2) } }, 'head-count/board/lines'),
    fail: one({ board, counts: { k: counted(1) } }, 'head-count/board/lines'),
    open: one({}, 'head-count/board'),
  },
  'programme.people.gas': {
    pass: one(gasRead({ 'carbon monoxide': '20 ppm' }), 'gas/heading/carbon-monoxide-most'),
    fail: one(gasRead({ 'carbon monoxide': '51 ppm' }), 'gas/heading/carbon-monoxide-most'),
    // the share of oxygen that is left has no meaning where there is none
    open: one(gasRead({ oxygen: '0 %' }), 'gas/heading/oxygen-least'),
  },
  'programme.people.gas-tested': {
    pass: one(gasRead(FOUR, { every: '8 h' }), 'gas-tested/heading', DAY_OF_READINGS),
    fail: one(gasRead(FOUR), 'gas-tested/heading', DAY_OF_READINGS),
    open: one(gasRead({ oxygen: '20.8 %' }), 'gas-tested/heading'),
  },
  'programme.people.air': {
    pass: one(airOf('37400 ft3/min'), 'air/shaft'),
    fail: one(airOf('37399 ft3/min'), 'air/shaft'),
    open: one(airOf(undefined), 'air/shaft'),
  },
  'programme.people.air-for-all': {
    pass: one({ board, ...airOf('20 m3/s', 2) }, 'air-for-all/board'),
    fail: one({ board, ...airOf('20 m3/s', 1) }, 'air-for-all/board'),
    open: one({ board, air: { shaft: { what: 'Shaft' } } }, 'air-for-all/board'),
  },
}
