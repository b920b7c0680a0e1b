import { z } from 'zod'
import { isDayOnly } from '../moment.ts'
import { collection, date, duration, expectation, moment, name, note, quantity, share } from './field.ts'
import { activityId } from './programme.ts'

/** A moment with its time of day: whoever is below ground is there by the minute. */
const instant = moment.refine((text) => !isDayOnly(text), {
  error: () => expectation('a day with its time', '2032-10-21T10:40'),
})
const people = z.int({ error: () => expectation('a number of people', '12') }).min(0)

export const GASES = [
  'flammable',
  'oxygen',
  'carbon monoxide',
  'hydrogen sulphide',
  'carbon dioxide',
  'nitrogen dioxide',
] as const

const gas = z.enum(GASES)

/** What the place of the work and its law ask for. Absent, the figure of the clause that the check names. */
const rules = z.strictObject({
  airPerPerson: quantity('m3/s', 'fresh air for each person', { above: 0 }).optional(),
  airPerPower: quantity('m3/J', 'fresh air for each unit of diesel power', { above: 0 }).optional(),
  /** Bounds of one gas: flammable as a share of its lower explosive limit, the others as a share of the air. */
  gas: z
    .partialRecord(
      gas,
      z.strictObject({ atLeast: share('least share').optional(), atMost: share('largest share').optional() }),
    )
    .default({}),
})

/** One line of the board at the collar: who went down, and when they came up. */
const boardLine = z.strictObject({
  /** A role or initials; the names stand on the board itself. */
  who: name,
  in: instant,
  out: instant.optional(),
  note,
})

/** People counted below ground, by eye or by call, held against the board. */
const headCount = z.strictObject({
  at: instant,
  below: people,
  by: name,
  /** What waits for it: a lift, a blast of air, an opening. An activity, typed or derived. */
  before: activityId.optional(),
  note,
})

const gasReading = z.strictObject({
  gas,
  at: instant,
  value: share('of the lower explosive limit for a flammable gas, of the air for the others'),
  by: name,
  instrument: z.string().optional(),
  note,
})

/** A place where gas is read. */
const monitor = z.strictObject({
  where: name,
  every: duration('longest time between two readings of a gas').optional(),
  readings: collection(gasReading),
  note,
})

/** Fresh air that reaches a place, and what it is for. */
const air = z.strictObject({
  what: name,
  /** As measured where people are. */
  supplied: quantity('m3/s', 'fresh air as measured', { least: 0 }).optional(),
  on: date.optional(),
  by: name.optional(),
  /** The most people who are there at one time. */
  people: people.optional(),
  diesels: collection(
    z.strictObject({ what: name, power: quantity('W', 'rated power at the shaft', { least: 0 }).optional() }),
  ),
  note,
})

/** People below ground: who is there, what they breathe, how they come out. */
export const belowGround = z.strictObject({
  rules: rules.prefault({}),
  board: collection(boardLine),
  counts: collection(headCount),
  gas: collection(monitor),
  air: collection(air),
  note,
})
