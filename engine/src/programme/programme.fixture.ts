import type { GroundResult } from '../ground/index.ts'
import type { ExclusionZone, LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import { type Model, model } from '../model/index.ts'
import type { StripResult, StripStep } from '../strip/index.ts'
import { given } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import { freshMemory, type Memory } from '../working/memory.ts'
import { problemText } from '../working/problem.ts'
import { inspectionFixtures } from './inspections/inspections.fixture.ts'
import { peopleFixtures } from './people/people.fixture.ts'
import { type ProgrammeResult, programme } from './programme.ts'
import { punchFixtures } from './punchList.fixture.ts'
import { testFixtures } from './tests/tests.fixture.ts'

type Raw = Readonly<Record<string, unknown>>

const WEEK = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri']
const calendar = (days: readonly string[], from: string, to: string, hoursPerDay: number): Raw => ({
  days,
  shifts: [[from, to]],
  hoursPerDay,
})

/** Monday to Friday 07:00 to 19:00; the same for lifts, which wait for wind; and day and night. */
export const CALENDARS: Raw = {
  day: calendar(WEEK, '07:00', '19:00', 12),
  lift: { ...calendar(WEEK, '07:00', '19:00', 12), windLimited: true },
  always: calendar([...WEEK, 'Sat', 'Sun'], '00:00', '24:00', 24),
}

/** A typed activity of one day, unless said otherwise. */
export const task = (more: Raw = {}): Raw => ({ name: 'Task', calendar: 'day', days: [1, 1, 1], ...more })

/** A programme that begins on Monday 2031-11-03. */
export const programmeOf = (more: Raw = {}): Raw => ({ start: '2031-11-03', calendars: CALENDARS, ...more })

/** The smallest project with a programme and whatever else. */
export function modelOf(more: Raw, memory: Memory = freshMemory()): Model {
  const read = model({ schemaVersion: 1, about: { title: 'Small' }, ...more }, memory)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  return read.model
}

const NO_STRIP = {
  checks: [],
  boltUp: [],
  steps: [],
  feasible: true,
  failures: [],
  jointTimes: {},
  serviceTimes: {},
  jointWork: {},
  serviceWork: {},
}

/** What the strip says of an order: joints opened and services parted at each step, an hour each. */
export function stripOf(steps: readonly (Pick<StripStep, 'step' | 'piece'> & Partial<StripStep>)[]): StripResult {
  const full = steps.map((s) => ({
    parts: [],
    moves: [],
    joints: [],
    services: [],
    isolations: [],
    from: 'shaft',
    remaining: [],
    poses: [],
    failures: [],
    ...s,
  }))
  const hour = (ids: readonly string[]) => Object.fromEntries(ids.map((id) => [id, { off: 3600, on: 7200 }]))
  return {
    ...NO_STRIP,
    steps: full as readonly StripStep[],
    jointTimes: hour(full.flatMap((s) => s.joints)),
    serviceTimes: hour(full.flatMap((s) => s.services)),
  } as unknown as StripResult
}

const SET_UP = 1

interface SmallLift {
  hours?: number
  wind?: number
  noReturn?: number
  /** Items of stock that carry it. */
  items?: readonly string[]
  /** How many it takes of each item of stock, and its gear. */
  takes?: Readonly<Record<string, number>>
  gear?: readonly string[]
  /** Temporary works under it. */
  works?: readonly string[]
  /** Width of the fall zone, m, about its outline from x 0 to 10, y 0 to 10. */
  width?: number | undefined
}

const fallZone = (width: number | undefined): ExclusionZone => ({
  fall: [
    [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ],
  ],
  margin: given('m', '/settings/fallZone/width', width),
  overShaft: true,
  tails: [],
})

/** Lifts with a hook time, an hour of set-up in it, and a point of no return after the load is taken, h; allowable wind, m/s. */
export const liftsOf = (lifts: Readonly<Record<string, SmallLift>>): LiftResult =>
  ({
    checks: [],
    lifts: Object.fromEntries(
      Object.entries(lifts).map(
        ([id, { hours, wind, noReturn = 0, items = [], takes = {}, gear = [], works = [], ...zone }]) => [
          id,
          {
            id,
            items,
            takes,
            gear,
            works,
            duration: given('s', `/lifts/${id}/duration`, hours === undefined ? undefined : hours * 3600),
            allowableWind: given('m/s', `/lifts/${id}/wind`, wind),
            zone: fallZone('width' in zone ? zone.width : 3),
            pointOfNoReturn: {
              time: given('s', `/lifts/${id}/noReturn`, hours === undefined ? undefined : noReturn * 3600),
              window: given(
                's',
                `/lifts/${id}/noReturn`,
                hours === undefined ? undefined : (hours - SET_UP - noReturn) * 3600,
              ),
            },
          },
        ],
      ),
    ),
  }) as unknown as LiftResult

/** The programme of a small project; strip and lifts empty unless given. */
export function programmeFor(
  more: Raw,
  strip: StripResult = NO_STRIP as unknown as StripResult,
  lifts: LiftResult = liftsOf({}),
  memory: Memory = freshMemory(),
): ProgrammeResult {
  return programme(modelOf(more, memory), {} as MassResult, strip, lifts, {} as GroundResult, memory)
}

/** The check of a kind, and of a case where there are several. */
export function checkIn(result: { checks: readonly Check[] }, kind: string, end = ''): Check {
  const found = result.checks.find((c) => c.kind === kind && c.id.endsWith(end))
  if (found === undefined) throw new Error(`no check ${kind} … ${end}`)
  return found
}

/** Two activities in a row, the second needing a crane of which there may be one. */
const twoTasks = (more: Raw = {}, second: Raw = {}): Raw => ({
  programme: programmeOf({
    resources: { crane: { name: 'Crane', kind: 'plant', capacity: 1 } },
    activities: { A: task(), B: task({ after: [{ to: 'A' }], needs: { crane: 1 }, ...second }) },
    gap: 0.05,
    ...more,
  }),
})

/** A step whose lift has no hook time, so that its duration is not known. */
export function unknownStep(): ProgrammeResult {
  return programmeFor(oneStep(), stripOf([{ step: 'S1', piece: 'crown' }]), liftsOf({ 'crown-out': {} }))
}

export const WORK: Raw = {
  joints: { calendar: 'day' },
  services: { calendar: 'day' },
  lifts: { calendar: 'lift' },
  changes: { calendar: 'day' },
  tests: { calendar: 'day' },
  setUp: '1 h',
  byHand: '2 h',
  spread: [0.8, 1.5],
}

/** One piece, one lift, one step. */
export const oneStep = (more: Raw = {}): Raw => ({
  materials: { steel: { density: '7850 kg/m3' } },
  parts: {
    P: {
      name: 'Crown',
      material: 'steel',
      solids: [{ shape: 'sphere', radius: '1 m', centre: ['0 m', '0 m', '0 m'] }],
    },
  },
  systems: { tower: { name: 'Tower', kind: 'lift tower', hooks: { main: { name: 'Main' } } } },
  pieces: { crown: { name: 'Crown', parts: ['P'] } },
  lifts: { 'crown-out': { piece: 'crown', kind: 'out', system: 'tower', hook: 'main' } },
  steps: { S1: { piece: 'crown', lift: 'crown-out', moves: [{ by: ['0 m', '0 m', '9 m'] }] } },
  order: ['S1'],
  programme: programmeOf({
    work: WORK,
    resources: { tower: { name: 'Tower', kind: 'plant', capacity: 1 } },
    activities: { A: task() },
    deliveries: { bolts: { what: 'Bolts', activity: 'A', neededByReturn: ['S1'] } },
    gap: 0.05,
  }),
  ...more,
})

const order = (likely: number, start: number): Raw => ({
  programme: programmeOf({
    activities: {
      order: task({ calendar: 'always', days: [likely - 1, likely, likely + 1] }),
      wait: task({ calendar: 'always', days: [start, start, start] }),
      fit: task({ calendar: 'always', after: [{ to: 'wait' }, { to: 'order' }] }),
    },
    deliveries: { bolts: { what: 'Bolts', activity: 'order', neededBy: ['fit'] } },
  }),
})

/** A lift of one step, with work on a bay and on the floor of the shaft that begins with the programme, or long after. */
const beside = (
  more: Raw = {},
  lift: Parameters<typeof liftsOf>[0][string] = { hours: 3 },
  at: Raw = {},
): ProgrammeResult =>
  programmeFor(
    oneStep({
      bays: { B1: { centre: ['5 m', '12 m'], size: ['6 m', '6 m'], level: '0 m', allowable: '100 kPa', ...at } },
      programme: programmeOf({
        work: { ...WORK, shaftFloor: 'floor', setUp: '0 h' },
        resources: {
          tower: { name: 'Tower', kind: 'plant', capacity: 1 },
          B1: { name: 'Bay', kind: 'space', capacity: 1 },
          floor: { name: 'Floor', kind: 'space', capacity: 1 },
        },
        activities: { A: task({ notBefore: '2032-01-05', needs: { B1: 1, floor: 1 } }) },
        ...more,
      }),
    }),
    stripOf([{ step: 'S1', piece: 'crown' }]),
    liftsOf({ 'crown-out': lift }),
  )
const AT_ONCE: Raw = { activities: { A: task({ needs: { B1: 1, floor: 1 } }) } }

const SLING: Raw = { name: 'Sling', kind: 'round sling', rules: 'European', quantity: 2, mass: '20 kg' }

/** One lift, on the first two days of the programme, 2031-11-03 and 04, hung from a sling and resting on a pad. */
export const withPapers = (
  sling: Raw,
  pad: Raw = { permitToLoad: { by: 'coordinator', on: '2031-11-01' } },
  more: Raw = {},
) =>
  programmeFor(
    oneStep({
      stock: { sling: { ...SLING, ...sling } },
      temporaryWorks: { pad: { name: 'Pad', carries: { lifts: ['crown-out'] }, ...pad } },
      ...more,
    }),
    stripOf(more.order === undefined ? [{ step: 'S1', piece: 'crown' }] : []),
    liftsOf({ 'crown-out': { hours: 3, items: ['sling'], works: ['pad'] } }),
  )

/** Two pieces, each lifted by its own machine; the second is rigged while the first is set down. Each lift takes two slings. */
export function twoLifts(
  slings: number,
  { first = {}, second = { hours: 3 } }: { first?: SmallLift; second?: SmallLift } = {},
): ProgrammeResult {
  const one = oneStep() as Record<string, Raw>
  const moves = [{ by: ['0 m', '0 m', '9 m'] }]
  const step = (piece: string) => ({ piece, lift: `${piece}-out`, moves })
  const machine = (name: string) => ({ name, kind: 'gantry', hooks: { main: { name: 'Main' } } })
  const lift = (piece: string, system: string) => ({ piece, kind: 'out', system, hook: 'main' })
  return programmeFor(
    {
      ...one,
      systems: { tower: machine('Tower'), crane: machine('Crane') },
      parts: { ...one.parts, Q: { ...(one.parts?.P as Raw), name: 'Lock' } },
      pieces: { ...one.pieces, lock: { name: 'Lock', parts: ['Q'] } },
      lifts: { 'crown-out': lift('crown', 'tower'), 'lock-out': lift('lock', 'crane') },
      steps: { S1: step('crown'), S2: step('lock') },
      order: ['S1', 'S2'],
      stock: { sling: { ...SLING, quantity: slings } },
      gear: { SP: { name: 'Spreader', kind: 'spreader', mass: '1 t' } },
    },
    stripOf([
      { step: 'S1', piece: 'crown' },
      { step: 'S2', piece: 'lock' },
    ]),
    liftsOf({
      'crown-out': { hours: 3, takes: { sling: 2 }, ...first },
      'lock-out': { takes: { sling: 2 }, ...second },
    }),
  )
}

const PUNCH = { what: 'Gland of motor 3 is loose', found: { by: 'inspector', on: '2031-11-03' }, blocks: 'restart' }

/** Two activities in a row, the second the restart, which an item holds. */
export const heldRestart = (item: Raw = {}, more: Raw = {}): ProgrammeResult =>
  programmeFor({ ...twoTasks({ restart: 'B', ...more }), punchList: { P1: { ...PUNCH, ...item } } })

/** The restart began on the sixth. */
const BEGUN: Raw = {
  dataDate: '2031-11-07',
  progress: { A: { start: '2031-11-03', finish: '2031-11-05' }, B: { start: '2031-11-06' } },
}
const closedOn = (on: string): Raw => ({ closed: { by: 'inspector', on } })

/** For each kind: a plan that passes, one that fails, one that is open. */
export const fixtures: Record<string, { pass: () => Check; fail: () => Check; open: () => Check }> = {
  ...testFixtures,
  ...inspectionFixtures,
  'programme.punch.closed': punchFixtures,
  'programme.punch.held': {
    pass: () => checkIn(heldRestart(closedOn('2031-11-05'), BEGUN), 'programme.punch.held'),
    fail: () => checkIn(heldRestart(closedOn('2031-11-07'), BEGUN), 'programme.punch.held'),
    open: () => checkIn(heldRestart(), 'programme.punch.held'),
  },
  ...peopleFixtures,
  'programme.resource.use': {
    pass: () => checkIn(programmeFor(twoTasks()), 'programme.resource.use'),
    fail: () => checkIn(programmeFor(twoTasks({}, { needs: { crane: 2 } })), 'programme.resource.use'),
    open: () => checkIn(unknownStep(), 'programme.resource.use'),
  },
  'programme.plan.feasible': {
    pass: () => checkIn(programmeFor(twoTasks()), 'programme.plan.feasible'),
    fail: () =>
      checkIn(programmeFor(twoTasks({}, { days: [2, 2, 2], interruptible: false })), 'programme.plan.feasible'),
    open: () => checkIn(unknownStep(), 'programme.plan.feasible'),
  },
  'programme.delivery.in-time': {
    pass: () => checkIn(programmeFor(order(10, 30)), 'programme.delivery.in-time'),
    fail: () => checkIn(programmeFor(order(30, 10)), 'programme.delivery.in-time'),
    open: () => checkIn(unknownStep(), 'programme.delivery.in-time'),
  },
  'programme.plan.gap': {
    pass: () => checkIn(programmeFor(twoTasks()), 'programme.plan.gap'),
    fail: () => checkIn(programmeFor(oddTasks()), 'programme.plan.gap'),
    open: () => checkIn(programmeFor(twoTasks({ gap: undefined })), 'programme.plan.gap'),
  },
  'programme.zone.closed': {
    pass: () => checkIn(beside(), 'programme.zone.closed'),
    fail: () => checkIn(beside(AT_ONCE), 'programme.zone.closed'),
    open: () => checkIn(beside({}, { hours: 3, width: undefined }), 'programme.zone.closed'),
  },
  'programme.floor.empty': {
    pass: () => checkIn(beside(), 'programme.floor.empty'),
    fail: () => checkIn(beside(AT_ONCE), 'programme.floor.empty'),
    open: () => checkIn(beside({ work: WORK }), 'programme.floor.empty'),
  },
  'programme.rigging.at-once': {
    pass: () => checkIn(twoLifts(4), 'programme.rigging.at-once'),
    fail: () => checkIn(twoLifts(3), 'programme.rigging.at-once'),
    open: () => checkIn(twoLifts(4, { second: {} }), 'programme.rigging.at-once'),
  },
  'programme.papers.in-date': {
    pass: () => checkIn(withPapers({ certificateUntil: '2031-11-04' }), 'programme.papers.in-date'),
    fail: () => checkIn(withPapers({ certificateUntil: '2031-11-03' }), 'programme.papers.in-date'),
    open: () => checkIn(withPapers({}), 'programme.papers.in-date'),
  },
  'programme.network.health': {
    pass: () => checkIn(programmeFor(twoTasks()), 'programme.network.health', 'negative-float'),
    fail: () =>
      checkIn(programmeFor(twoTasks({}, { finishBy: '2031-11-03' })), 'programme.network.health', 'negative-float'),
    open: () => checkIn(unknownStep(), 'programme.network.health', 'negative-float'),
  },
  'programme.restart.baseline': {
    pass: () => checkIn(programmeFor(underWay('2031-11-04')), 'programme.restart.baseline'),
    fail: () => checkIn(programmeFor(underWay('2031-11-04', { dataDate: '2031-11-04' })), 'programme.restart.baseline'),
    open: () =>
      checkIn(
        programmeFor(
          underWay('2031-11-05', { dataDate: '2031-11-04T12:00', progress: { A: { start: '2031-11-03' } } }),
        ),
        'programme.restart.baseline',
      ),
  },
}

/** A began with the programme and is done after a day; B has not begun; a baseline promised B's end on a day. */
export const underWay = (promised: string, more: Raw = {}): Raw => ({
  programme: programmeOf({
    activities: { A: task(), B: task({ after: [{ to: 'A' }] }) },
    restart: 'B',
    dataDate: '2031-11-03',
    progress: { A: { start: '2031-11-03', finish: '2031-11-03' } },
    baselines: {
      first: {
        name: 'As tendered',
        made: '2031-10-01',
        restart: promised,
        activities: { A: ['2031-11-03', '2031-11-03'], B: ['2031-11-04', promised] },
      },
    },
    ...more,
  }),
})

/** Five one-day tasks that each need two of three cranes: the bound counts crane-days, the plan cannot use the third. */
const oddTasks = (): Raw => ({
  programme: programmeOf({
    resources: { crane: { name: 'Crane', kind: 'plant', capacity: 3 } },
    activities: {
      ...Object.fromEntries(
        ['A', 'B', 'C', 'D', 'E'].map((id) => [id, task({ calendar: 'always', needs: { crane: 2 } })]),
      ),
      Z: task({ calendar: 'always', days: [0, 0, 0], after: ['A', 'B', 'C', 'D', 'E'].map((to) => ({ to })) }),
    },
    restart: 'Z',
    gap: 0.05,
  }),
})
