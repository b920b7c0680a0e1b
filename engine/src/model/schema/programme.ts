import { z } from 'zod'
import { collection, date, duration, id, name, note, ratio, timeOfDay } from './field.ts'

const weekday = z.enum(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'])

export const calendar = z.strictObject({
  days: z.array(weekday).min(1),
  shifts: z.array(z.tuple([timeOfDay, timeOfDay])).min(1),
  /** Working hours that a typed day of duration stands for on this calendar. */
  hoursPerDay: z.number().min(0.1).max(24),
  holidays: z.array(date).default([]),
  /** Lifts on this calendar wait for wind. */
  windLimited: z.boolean().default(false),
})

export const resource = z.strictObject({
  name,
  kind: z.enum(['plant', 'crew', 'space']),
  capacity: z.int().min(0),
  calendar: id.optional(),
  costPerDay: z.number().min(0).default(0),
})

export const link = z.strictObject({
  to: id,
  type: z.enum(['FS', 'SS', 'FF', 'SF']).default('FS'),
  /** On the calendar named, or elapsed when none is. */
  lag: duration('lag').optional(),
  calendar: id.optional(),
})

/** Least, most likely and greatest, in working days of the activity's calendar. */
export const threePoints = z.tuple([duration('least'), duration('most likely'), duration('greatest')])

export const activity = z.strictObject({
  name,
  phase: z.string().optional(),
  calendar: id,
  days: z
    .tuple([z.number().min(0), z.number().min(0), z.number().min(0)])
    .describe('least, most likely, greatest, in working days of its calendar'),
  after: z.array(link).default([]),
  needs: z.record(id, z.int().min(0)).default({}),
  holdPoint: z.string().optional(),
  fixedCost: z.number().min(0).default(0),
  /** This typed activity stands in for derived ones: a step, a joint, a group of services. The reason is required. */
  overrides: z.array(z.string()).optional(),
  reason: z.string().optional(),
  note,
})

export const delivery = z.strictObject({
  what: z.string(),
  activity: id,
  neededBy: z.array(id).min(1),
  reserve: duration('reserve to be kept').optional(),
})

/** How fast things go, where no joint or service says so itself. */
export const rate = z.strictObject({
  what: z.string(),
  value: z.number().min(0),
  unit: z.string(),
  basis: z.string(),
})

export const test = z.strictObject({
  system: z.string(),
  test: z.string(),
  after: z.array(id).default([]),
  procedure: z.string().optional(),
  passLimit: z.string().optional(),
  unit: z.string().optional(),
  duration: duration('duration'),
  witness: z.string().optional(),
  holdPoint: z.boolean().default(false),
  basis: z.string().optional(),
  result: z.string().optional(),
})

export const risk = z.strictObject({
  risk: z.string(),
  cause: z.string().optional(),
  probability: ratio('probability'),
  delayDays: z
    .tuple([z.number().min(0), z.number().min(0), z.number().min(0)])
    .describe('calendar days: low, likely, high'),
  cost: z.number().min(0).default(0),
  activities: z.array(id).min(1),
  owner: z.string().optional(),
  mitigation: z
    .strictObject({ what: z.string(), probabilityAfter: ratio('probability after'), cost: z.number().min(0) })
    .optional(),
  note,
})

export const correlation = z.strictObject({ between: z.tuple([id, id]), r: z.number().min(-1).max(1) })

export const programme = z.strictObject({
  start: date,
  timeZone: z.string().default('UTC'),
  today: date.optional(),
  restart: id.optional(),
  calendars: collection(calendar),
  resources: collection(resource),
  rates: collection(rate),
  activities: collection(activity),
  deliveries: collection(delivery),
  /** How each derived activity is done: its calendar and what it needs. */
  work: z
    .strictObject({
      joints: z.strictObject({ calendar: id, needs: z.record(id, z.int().min(0)) }),
      services: z.strictObject({ calendar: id, needs: z.record(id, z.int().min(0)) }),
      lifts: z.strictObject({ calendar: id, needs: z.record(id, z.int().min(0)) }),
      changes: z.strictObject({ calendar: id, needs: z.record(id, z.int().min(0)) }),
      tests: z.strictObject({ calendar: id, needs: z.record(id, z.int().min(0)) }),
      /** Typed activities that must be done before the strip begins, and that wait for the return. */
      stripAfter: z.array(id).default([]),
      resumeBefore: z.array(id).default([]),
      setUp: duration('rigging and set-up of one lift'),
      spread: z.tuple([ratio('least over most likely'), ratio('greatest over most likely')]),
    })
    .optional(),
  standingCostPerDay: z.number().min(0).default(0),
})
