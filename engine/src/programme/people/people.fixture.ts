import { model } from '../../model/index.ts'
import type { StripResult } from '../../strip/index.ts'
import type { Check } from '../../working/check.ts'
import { freshMemory } from '../../working/memory.ts'
import { problemText } from '../../working/problem.ts'
import { peopleChecks } from './checks.ts'

type Raw = Readonly<Record<string, unknown>>

/** Checks of people below ground alone, in a project with nothing else, by id. */
export function checksOfPeople(belowGround: Raw, more: Raw = {}): ReadonlyMap<string, Check> {
  const memory = freshMemory()
  const read = model({ schemaVersion: 1, about: { title: 'Small' }, belowGround, ...more }, memory)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  const checks = peopleChecks(read.model, { steps: [] } as unknown as StripResult, { activities: {}, plan: {} }, memory)
  return new Map(checks.map((c) => [c.id, c]))
}

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
  (belowGround: Raw, id: string, more: Raw = {}) =>
  (): Check =>
    checksOfPeople(belowGround, more).get(`programme.people.${id}`) as Check

const board = { a: line('fitter'), b: line('welder') }

export const peopleFixtures = {
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
