import { Temporal } from 'temporal-polyfill'
import { z } from 'zod'
import {
  collection,
  date,
  duration,
  expectation,
  id,
  length,
  level,
  moment,
  name,
  note,
  quantity,
  ratio,
  share,
  timeOfDay,
} from './field.ts'

const shift = z.tuple([timeOfDay, timeOfDay]).refine(([from, to]) => from !== to, {
  error: () =>
    expectation(
      'a shift that ends at another time than it starts; day and night are two shifts, or 00:00 to 24:00',
      '["07:00", "19:00"]',
    ),
})

const weekday = z.enum(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'])

export const calendar = z.strictObject({
  days: z.array(weekday).min(1),
  /** Clock hours; a shift that ends before its start runs past midnight. */
  shifts: z.array(shift).min(1),
  /**
   * Productive hours of a working day. A typed day of duration is one working day; an hour that a rate gives (a bolt, a
   * hose) takes shift hours ÷ productive hours on the clock.
   */
  hoursPerDay: z.number().min(0.1).max(24),
  holidays: z.array(date).default([]),
  /** Works on these days alone, first and last of each span: windows of wind, of tide, of a closed road. */
  only: z.array(z.tuple([date, date])).optional(),
  /** Lifts on this calendar wait for wind. */
  windLimited: z.boolean().default(false),
})

export const resource = z.strictObject({
  name,
  kind: z.enum(['plant', 'crew', 'space']),
  capacity: z.int().min(0),
  /** When it is there at all; absent, whenever the activity that needs it works. */
  calendar: id.optional(),
  /** The lifting system or the bay it stands for, where its own id is not theirs. */
  stands: id.optional(),
  costPerDay: z.number().min(0).default(0),
})

/** Ids of activities, typed or derived: `A010`, `S04.out`, `change.CHG-05`, `test.T01`, `isolate.ISO-H1`. */
export const activityId = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$/, {
  error: () => expectation('the id of an activity, typed or derived', 'S04.out'),
})

export const link = z.strictObject({
  to: activityId,
  type: z.enum(['FS', 'SS', 'FF', 'SF']).default('FS'),
  /** On the calendar named, or elapsed when none is. */
  lag: quantity('s', 'lag; a negative one is a lead').optional(),
  calendar: id.optional(),
})

/** Least, most likely and greatest; days of the calendar they stand with. `points` says what the outer two mean. */
const threeDays = z
  .tuple([z.number().min(0), z.number().min(0), z.number().min(0)])
  .refine(([least, likely, greatest]) => least <= likely && likely <= greatest, {
    error: 'least, most likely and greatest in rising order',
  })

/** A ground work whose quantity follows from shaft, ground and cradle, and whose days follow from that by a rate. */
export const groundWork = z.strictObject({
  what: z.enum(['wall', 'dewatering', 'excavation', 'base', 'cradle', 'drive']),
  /** Of the rates: piles, wells, m3 or m a day, for one gang or rig. */
  rate: id,
  gangs: z.int().min(1).default(1),
  /** Bottom of a stage of excavation; absent, the deepest. It begins where the stage before it ends. */
  to: level('bottom of the stage, site z').optional(),
  /** Of a drive; absent, the length of the cradle. */
  length: length('to be driven').optional(),
  /** Setting up, tests, surveys: working days beside the rate. */
  fixedDays: z.number().min(0).default(0),
  /** Before what follows may begin, by the clock: it hardens over nights and holidays too. */
  curing: duration('curing').optional(),
  /** Absent, that of the derived work. */
  spread: z.tuple([ratio('least over most likely'), ratio('greatest over most likely')]).optional(),
})

/** Dates that hold whatever the network says. A day that it must start or finish on is "not before" and "by" alike. */
const dates = {
  /** Not to start before this date. */
  notBefore: date.optional(),
  /** To have started by the end of this date. */
  startBy: date.optional(),
  /** Not to finish before this date. */
  finishNotBefore: date.optional(),
  /** Promised to be finished by the end of this date. */
  finishBy: date.optional(),
}

export const activity = z
  .strictObject({
    name,
    phase: z.string().optional(),
    calendar: id,
    /** Calendars within whose hours it stays besides: noise hours, a road closed at night, a window of wind. */
    within: z.array(id).default([]),
    days: threeDays.optional().describe('least, most likely, greatest, in working days of its calendar'),
    /** What its days follow from; days that stand beside it overrule it, and the two are compared. */
    groundWork: groundWork.optional(),
    after: z.array(link).default([]),
    /** Steps of the order that are done before it: their pieces are out and set down. */
    afterSteps: z.array(id).default([]),
    /** Steps that wait for it. */
    beforeSteps: z.array(id).default([]),
    /** The same on the way back: pieces placed and their joints closed, or not yet lowered. */
    afterReturn: z.array(id).default([]),
    beforeReturn: z.array(id).default([]),
    afterChanges: z.array(id).default([]),
    beforeChanges: z.array(id).default([]),
    afterTests: z.array(id).default([]),
    beforeTests: z.array(id).default([]),
    needs: z.record(id, z.int().min(0)).default({}),
    /** An activity that may not stop at the end of a shift lies within one working stretch. */
    interruptible: z.boolean().default(true),
    ...dates,
    holdPoint: z.string().optional(),
    /** Addresses of what must be right before it starts, such as "/shaft/eyes/entry": a finding there, or below, stops it. */
    concerns: z
      .array(z.string().regex(/^\//, { error: () => expectation('an address in the project', '/shaft/eyes/entry') }))
      .default([]),
    fixedCost: z.number().min(0).default(0),
    /** Stands in for derived activities, named by their id or by the pointer they come from. The reason is required. */
    overrides: z.array(z.string()).optional(),
    reason: z.string().optional(),
    note,
  })
  .refine(({ days, groundWork }) => days !== undefined || groundWork !== undefined, {
    error: () => expectation('"days", or a "groundWork" that they follow from', '{ days: [4, 5, 8] }'),
  })

/** What the planner changes in an activity that is derived, or typed elsewhere; it is listed when it no longer fits. */
export const adjustment = z.strictObject({
  reason: z.string(),
  /** The way that it is done, of the programme's ways; absent, the usual one. */
  way: id.optional(),
  /** In place of the derived duration; working days of its calendar. */
  days: threeDays.optional(),
  /** The derived working days that were known when this was decided: another tenth off, and it is asked about. */
  madeFor: z.number().min(0).optional(),
  calendar: id.optional(),
  within: z.array(id).default([]),
  needs: z.record(id, z.int().min(0)).optional(),
  /** Links added, and predecessors that it no longer waits for. */
  after: z.array(link).default([]),
  without: z.array(activityId).default([]),
  /** Parts in a row, as shares of its duration; the last part keeps its id, those before are numbered behind it. */
  split: z.array(z.number().positive()).min(2).optional(),
  ...dates,
})

/** Hours that some work must keep to: noise, a neighbour's night, a road. */
export const curfew = z.strictObject({
  what: z.string(),
  /** The calendar of the hours allowed. */
  within: id,
  activities: z.array(activityId).default([]),
  /** Kinds of derived activities, such as "open" or "lift". */
  kinds: z.array(z.string()).default([]),
  phases: z.array(z.string()).default([]),
  /** All that holds one of these. */
  resources: z.array(id).default([]),
})

/** Work of one kind on a resource: by activity, lift, kind of derived activity or phase. */
const setUpKind = z.strictObject({
  activities: z.array(activityId).default([]),
  lifts: z.array(id).default([]),
  kinds: z.array(z.string()).default([]),
  phases: z.array(z.string()).default([]),
})

/** What a resource takes to be changed from one kind of work to another: other gear on the hook, another head on the rig. */
export const setUp = z.strictObject({
  what: z.string(),
  /** There is one of it. */
  resource: id,
  kinds: z.record(id, setUpKind),
  /** Elapsed time from the finish of the one to the start of the other; a pair that is not named takes none. */
  times: z.array(z.strictObject({ from: id, to: id, time: duration('set-up from one kind of work to another') })),
  note,
})

/** Another way to do an activity: other people, other hours, another resource. Adopted in the adjustment of each activity. */
export const way = z.strictObject({
  what: z.string(),
  /** What it can be adopted for; by activity, kind of derived activity or phase. */
  of: z.strictObject({
    activities: z.array(activityId).default([]),
    kinds: z.array(z.string()).default([]),
    phases: z.array(z.string()).default([]),
  }),
  /** Of the working time of the usual way. */
  work: ratio('share of the usual working time'),
  /** In place of what the usual way holds of these resources; nought: none of it. */
  needs: z.record(id, z.int().min(0)).default({}),
  calendar: id.optional(),
  /** For each activity done this way, beside what its resources cost. */
  fixedCost: z.number().min(0).default(0),
  note,
})

export const delivery = z.strictObject({
  what: z.string(),
  /** From order to delivery. */
  activity: id,
  /** Activities, typed or derived, that cannot start without it. */
  neededBy: z.array(activityId).default([]),
  neededByChanges: z.array(id).default([]),
  /** Steps whose piece cannot go back without it. */
  neededByReturn: z.array(id).default([]),
  reserve: duration('reserve to be kept').optional(),
})

/** How fast things go, where no joint or service says so itself. */
export const rate = z.strictObject({
  what: z.string(),
  value: z.number().min(0),
  unit: z.string(),
  basis: z.string(),
})

/** Cleanliness of oil as three scale numbers, particles of 4, 6 and 14 µm (c) and above: ISO 4406. */
const oilCode = z.string().regex(/^\d{1,2}\/\d{1,2}\/\d{1,2}$/, {
  error: () => expectation('three scale numbers of ISO 4406', '17/15/12'),
})

/** Bounds of what is read, as plain numbers in the unit of the test, or a code that no scale number may be above. */
export const testLimit = z
  .strictObject({
    atLeast: quantity('1', 'least reading, in the unit of the test').optional(),
    atMost: quantity('1', 'largest reading, in the unit of the test').optional(),
    code: oilCode.optional(),
  })
  .refine((limit) => Object.keys(limit).length > 0, {
    error: () => expectation('one bound at least: atLeast, atMost or code', '{ atMost: 0.6 }'),
  })

/** One reading of a test. A later one of the same place, feeder or chamber stands for the earlier. */
export const testReading = z
  .strictObject({
    of: z.string().optional(),
    value: quantity('1', 'reading, in the unit of the test').optional(),
    code: oilCode.optional(),
    by: name,
    on: date,
    witness: name.optional(),
    note,
  })
  .refine(({ value, code }) => (value === undefined) !== (code === undefined), {
    error: () => expectation('either a value or a code', '{ value: 0.42, by: fitter, on: 2033-02-01 }'),
  })

export const test = z.strictObject({
  system: z.string(),
  test: z.string(),
  /** What it proves, by the list of checks of practice. */
  proves: z.enum(['oil', 'seals', 'electrical', 'lock', 'functions', 'run', 'other']).default('other'),
  limit: testLimit.optional(),
  readings: collection(testReading),
  after: z.array(id).default([]),
  /** Steps whose return is enough for it; none, the whole return. */
  afterReturn: z.array(id).default([]),
  /** Other activities it waits for, typed or derived. */
  afterActivities: z.array(activityId).default([]),
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
  probability: share('probability'),
  delayDays: threeDays.describe('calendar days: low, likely, high'),
  cost: z.number().min(0).default(0),
  /** Activities it may delay, typed or derived, the first of them that is in the network. */
  activities: z.array(activityId).min(1),
  /** Once in all, to the first activity named; or drawn apart for each. */
  applies: z.enum(['once', 'each']).default('once'),
  owner: z.string().optional(),
  mitigation: z
    .strictObject({ what: z.string(), probabilityAfter: share('probability after'), cost: z.number().min(0) })
    .optional(),
  note,
})

export const correlation = z.strictObject({ between: z.tuple([id, id]), r: z.number().min(-1).max(1) })

/** Calendar and crews of one kind of derived activity. */
const rule = z.strictObject({ calendar: id, needs: z.record(id, z.int().min(0)).default({}) })
const countedRule = rule.extend({ each: duration('for one of them') })

/** How each derived activity is done. Kinds left out go by the general rule beside them. */
export const work = z.strictObject({
  joints: rule,
  /** Welds cut and laid; absent, as joints. */
  welds: rule.optional(),
  /** Joints parted and closed on a bay; absent, as joints. */
  jointsOnBay: rule.optional(),
  services: rule,
  /** Cables; absent, as services. */
  cables: rule.optional(),
  /** Proving dead and letting energy back in, for each isolation. */
  isolations: countedRule.optional(),
  /** Marking and photographing, for each joint and service of a step. */
  marking: countedRule.optional(),
  /** Rigging before a lift; absent, as lifts. */
  rigging: rule.optional(),
  /** Lifts through the shaft. */
  lifts: rule,
  /** Lifts on the surface; absent, as lifts. */
  bayLifts: rule.optional(),
  /** Setting down, packing and taking the rigging off; absent, as the lift. */
  landing: rule.optional(),
  changes: rule,
  /** Changes to parts that stay in the shaft; absent, as changes. */
  changesInShaft: rule.optional(),
  tests: rule,
  /** Drive after the restart; absent, it is not planned. */
  drive: rule.optional(),
  /** Typed activities that must be done before the strip begins, and that wait for the return. */
  stripAfter: z.array(id).default([]),
  resumeBefore: z.array(id).default([]),
  setUp: duration('rigging and set-up of one lift'),
  byHand: duration('one step that no lift carries out').optional(),
  setDown: duration('setting down, packing and taking the rigging off; absent, as the set-up').optional(),
  /** Waiting for wind that the plan allows each lift on a wind-limited calendar; simulation takes real wind instead. */
  windAllowance: duration('in hours of the lifts, for each lift').optional(),
  spread: z.tuple([ratio('least over most likely'), ratio('greatest over most likely')]),
  /** Joints of a piece that are opened while it already hangs: its last one, all, or none. */
  underLoad: z.enum(['last', 'all', 'none']).default('last'),
  /** Resource that stands for the floor of the shaft: who holds it is down there. */
  shaftFloor: id.optional(),
  /** Kinds of derived activities in the shaft whose people stand under a roof that the safety lead accepts in a lift. */
  sheltered: z.strictObject({ kinds: z.array(z.string()).min(1), by: z.string(), acceptedBy: z.string() }).optional(),
  /** Turning and moving lifts that wait for another step than their piece's own: lift to step. */
  liftAfter: z.record(id, id).default({}),
})

/** How one change is carried out. */
export const changeWork = z.strictObject({
  days: threeDays,
  calendar: id.optional(),
  needs: z.record(id, z.int().min(0)).optional(),
  /** Step after which it can begin; absent, the last step that moves its parts. */
  afterStep: id.optional(),
  /** Step whose return waits for it; absent, the first return that carries its parts. */
  beforeReturn: id.optional(),
  after: z.array(link).default([]),
  holdPoint: z.string().optional(),
  fixedCost: z.number().min(0).default(0),
})

/** A test that fails more often than this each time is no test: it would be done again without end. */
const MOST_FAILING = 0.95

/** A test, or any activity, that may fail and is then done again until it passes. */
export const failing = z.strictObject({
  chance: quantity('1', 'chance of failing, each time it is done', { least: 0, most: MOST_FAILING }),
  againDays: threeDays.describe(
    'mending and doing it again: least, most likely, greatest, in working days of its calendar',
  ),
  note,
})

/** One cause behind many durations: a slow gang, stiff threads, a wet season. All it touches take the same factor in a run. */
export const cause = z.strictObject({
  what: z.string(),
  /** Absent, it acts in every run. */
  probability: share('probability').optional(),
  factor: z
    .tuple([z.number().min(0), z.number().min(0), z.number().min(0)])
    .refine(([low, likely, high]) => low <= likely && likely <= high, {
      error: () => expectation('least, most likely and greatest factor in rising order', '[0.9, 1, 1.4]'),
    }),
  activities: z.array(activityId).default([]),
  /** Kinds of derived activities, such as "open" or "lift". */
  kinds: z.array(z.string()).default([]),
  phases: z.array(z.string()).default([]),
  note,
})

/** How a lift is let go when the wind of the next hours is not known for sure. Absent, it is known for the whole lift. */
export const windPolicy = z.strictObject({
  /** Hours ahead for which the forecast holds. */
  sees: duration('hours ahead that a forecast is good for'),
  /** Wind at the start, at most this share of the limit. */
  go: share('of the limit at the start'),
  /** Lost with each false start, beside the time it hung: unrigging and rigging again. */
  again: duration('unrigging and rigging again'),
})

/** What buys time: an acceleration with its cost. */
export const option = z.strictObject({
  what: z.string(),
  activity: activityId,
  daysSaved: threeDays,
  cost: z.number().min(0),
})

/** How a ring comes about, for a mean advance that is worked out. */
const ringCycle = z.strictObject({
  /** Of the shield while it bores. */
  speed: quantity('m/s', 'advance while boring', { above: 0 }),
  build: duration('building a ring'),
  other: duration('what else a ring takes'),
  available: share('of the time in which the machine is available'),
})

/** One reach of the drive: how fast it goes, stated or by its ring cycle. */
const reach = z
  .strictObject({
    to: length('from the shaft'),
    rate: quantity('m/s', 'mean advance', { above: 0 }).optional(),
    cycle: ringCycle.optional(),
  })
  .refine(({ rate, cycle }) => (rate === undefined) !== (cycle === undefined), {
    error: () => expectation('a mean advance as "rate", or a ring cycle as "cycle"', '{ to: 200 m, rate: 5.5 m/d }'),
  })

/** Each ring takes longer than one at full rate until the crew has learned. */
const learning = z.strictObject({
  model: z.enum(['unit', 'cumulative average']),
  /** Time falls to this share with each doubling of the rings built. */
  rate: quantity('1', 'per doubling', { above: 0, most: 1 }),
  /** First ring over one at full rate. */
  first: quantity('1', 'of a ring at full rate', { least: 1 }),
})

/** The drive from the shaft to breakthrough. */
export const drive = z.strictObject({
  stages: z.array(reach).min(1),
  /** Length of a ring; needed for a ring cycle and for learning. */
  ring: quantity('m', 'length of a ring', { above: 0 }).optional(),
  learning: learning.optional(),
  variation: ratio('coefficient of variation of a day').optional(),
  /** Time of the whole drive over its mean, drawn once: ground and machine may be slower everywhere. */
  pace: z.tuple([z.number().min(0), z.number().min(0), z.number().min(0)]).optional(),
  stoppages: z.strictObject({ perDay: share('chance on a day'), days: threeDays }).optional(),
  /** Changes of tools and the like, each so far from the one before. */
  interventions: collection(
    z.strictObject({ what: z.string(), every: quantity('m', 'of drive', { above: 0 }), days: threeDays }),
  ),
  /** Share of the working days kept for maintenance. */
  maintenance: quantity('1', 'of the working days', { least: 0, most: 0.9 }).optional(),
})

/** What is known of an activity at the data date. */
export const progressEntry = z.strictObject({
  /** A day alone: the first working instant of it. */
  start: moment.optional(),
  /** A day alone: the last working instant of it. */
  finish: moment.optional(),
  /** Working days of its calendar still to go at the data date: one figure, or least, most likely and greatest. */
  remainingDays: z.union([z.number().min(0), threeDays]).optional(),
  /**
   * Begun before a predecessor allowed it: what is left waits for that predecessor all the same (retained), or goes on
   * (released); the reason stands in the note.
   */
  logic: z.enum(['retained', 'released']).default('retained'),
  note,
})

/** A plan as it was once promised: dates to hold the forecast against. */
export const baseline = z.strictObject({
  name,
  made: date,
  /** What it was made from: the content of the project then. */
  content: z.string().max(80).optional(),
  restart: moment.optional(),
  activities: z.record(activityId, z.tuple([moment, moment])).default({}),
})

/** A delay kept as a record: from when to when, what it held, and why. */
export const delay = z.strictObject({
  what: z.string(),
  cause: z.string(),
  from: moment,
  to: moment.optional(),
  activities: z.array(activityId).min(1),
  note,
})

/** Whether a zone of this name is known; no clock is read. */
function isTimeZone(name: string): boolean {
  try {
    new Temporal.ZonedDateTime(0n, name)
    return true
  } catch {
    return false
  }
}

export const programme = z.strictObject({
  start: date,
  timeZone: z.string().refine(isTimeZone, { error: 'a zone of the IANA time-zone database' }).default('UTC'),
  today: date.optional(),
  /** Everything before it is as it was, everything after it a forecast. A day alone: the end of it. */
  dataDate: moment.optional(),
  /** By activity, typed or derived. */
  progress: z.record(activityId, progressEntry).default({}),
  baselines: collection(baseline),
  /** The one that the forecast is held against; absent, the one made last. */
  baseline: id.optional(),
  delays: collection(delay),
  /** The activity at which normal tunnelling resumes. */
  restart: activityId.optional(),
  calendars: collection(calendar),
  resources: collection(resource),
  rates: collection(rate),
  activities: collection(activity),
  /** By activity, typed or derived. */
  adjustments: z.record(activityId, adjustment).default({}),
  curfews: collection(curfew),
  ways: collection(way),
  setUps: collection(setUp),
  deliveries: collection(delivery),
  work: work.optional(),
  changeWork: collection(changeWork),
  options: collection(option),
  drive: drive.optional(),
  /** Order in which activities take their resources, as adopted from a search; the rest follow by the default rule. */
  sequence: z.array(activityId).default([]),
  /** What the planner says to a question about the network, by activity. */
  explained: z.record(activityId, z.string()).default({}),
  /** Float in the plan up to which a path is listed as near-critical, in working days of each activity's calendar. */
  nearCriticalDays: z.number().min(0).default(5),
  /** What the least and the greatest of three points are: never passed, or passed once in ten. */
  points: z.enum(['extremes', 'P10 and P90']).default('extremes'),
  /** Correlation between durations of one kind of work, 0 when none is given: a slow gang is slow everywhere. */
  correlation: ratio('between durations of one kind').optional(),
  /** Form of the durations between their three points. */
  durations: z.enum(['triangular', 'PERT', 'lognormal']).default('triangular'),
  causes: collection(cause),
  /** By activity, typed or derived: tests above all. */
  failing: z.record(activityId, failing).default({}),
  windPolicy: windPolicy.optional(),
  /** Largest gap between plan and proven bound that is accepted, as a share. */
  gap: ratio('of the bound').optional(),
  /** Chance of a wind window in its month below which a lift is questioned. */
  windowChance: ratio('chance on a working day').optional(),
  /** Widest error band of the P80 that is accepted. */
  errorBand: duration('half width, at 95 %').optional(),
  /** Date by the end of which the restart is promised. */
  promised: date.optional(),
  standingCostPerDay: z.number().min(0).default(0),
  damagesPerDay: z.number().min(0).default(0),
  damagesFrom: date.optional(),
})
