import { z } from 'zod'
import { isDayOnly } from '../moment.ts'
import { collection, date, duration, expectation, id, moment, name, note, quantity, share } from './field.ts'
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
  reach: duration('within which a rescue team is at the shaft').optional(),
  fireWatch: duration('watch kept after hot work').optional(),
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

const tested = z.strictObject({ on: date, by: name, until: date.optional() })

/** A way out of the shaft or the machine. */
const wayOut = z.strictObject({
  what: name,
  /** A person on a stretcher comes out by it. */
  rescue: z.boolean().default(false),
  /** The lifting system it hangs on: no way out while that lifts a piece. */
  system: id.optional(),
  /** The thing in the shaft that it is: gone from the step before which that is taken out. */
  stands: id.optional(),
  /** Lifts in which it is blocked: the piece or its tower fills the hole. */
  blockedBy: z.array(id).default([]),
  tested: tested.optional(),
  note,
})

/** A rescue team on call in the hours of some calendars. */
const cover = z.strictObject({
  team: name,
  calendars: z.array(id).min(1),
  from: date,
  until: date,
  /** From the call to the shaft, as tried. */
  reach: duration('from the call to the shaft').optional(),
  note,
})

/** A permit for work with flame, arc or sparks. */
const hotWork = z.strictObject({
  what: name,
  activities: z.array(activityId).min(1),
  from: instant,
  until: instant,
  signed: z.strictObject({ by: name, on: date }).optional(),
  worker: name.optional(),
  watcher: name.optional(),
  /** After the work has ended. */
  watch: duration('watch kept after the work').optional(),
  /** Flammable gas at the place just before, as a share of its lower explosive limit. */
  flammable: share('of the lower explosive limit, just before the work').optional(),
  /** What burns near it: hoses, grease, oil, packing; and what was done with it. */
  fireLoad: collection(
    z.strictObject({
      what: name,
      /** Services of the register that it is. */
      services: z.array(id).default([]),
      done: z.enum(['taken away', 'covered', 'drained']).optional(),
    }),
  ),
  note,
})

/** An air lock, as it was found while people could reach it. */
const lock = z.strictObject({
  what: name,
  states: collection(
    z.strictObject({
      at: instant,
      hatch: z.enum(['open to the shaft', 'closed']),
      idle: z.boolean().optional(),
      pressure: quantity('Pa', 'above that of the shaft', { least: 0 }).optional(),
      by: name,
      /** Another who proved the pressure at a second gauge or an open cock. */
      provedBy: name.optional(),
    }),
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
  ways: collection(wayOut),
  rescue: collection(cover),
  hotWork: collection(hotWork),
  locks: collection(lock),
  note,
})
