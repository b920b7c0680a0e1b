import { describe, expect, test } from 'vitest'
import type { StripStep } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import {
  fixtures,
  liftsOf,
  modelOf,
  oneStep,
  programmeFor,
  programmeOf,
  stripOf,
  task,
  WORK,
} from './programme.fixture.ts'
import type { ProgrammeResult } from './programme.ts'
import { localAt } from './zone.ts'

test.each(Object.entries(fixtures))('%s passes, fails and is open', (_, made) => {
  expect(['pass', 'near']).toContain(made.pass().verdict)
  expect(made.fail().verdict).toBe('fail')
  expect(made.open().verdict).toBe('open')
})

const twoPieces = (order: readonly string[], more: Record<string, unknown> = {}) => ({
  ...oneStep(),
  joints: {
    J1: { between: ['P', 'Q'], kind: 'bolted', access: 'inside' },
    J2: { between: ['P', 'Q'], kind: 'pinned', access: 'inside' },
    J3: { between: ['P', 'Q'], kind: 'welded', access: 'inside' },
  },
  isolations: { 'ISO-1': { what: 'Thrust circuit', kind: 'hydraulic', where: 'power pack' } },
  services: {
    H1: { kind: 'hose', medium: 'oil', from: 'P', to: 'Q', isolation: 'ISO-1', timeOff: '1 h', timeOn: '2 h' },
    H2: { kind: 'hose', medium: 'oil', from: 'P', to: 'Q', isolation: 'ISO-1', timeOff: '1 h', timeOn: '2 h' },
    C1: { kind: 'cable', medium: 'power', from: 'P', to: 'Q', timeOff: '1 h', timeOn: '2 h' },
  },
  parts: {
    P: {
      name: 'Crown',
      material: 'steel',
      solids: [{ shape: 'sphere', radius: '1 m', centre: ['0 m', '0 m', '0 m'] }],
    },
    Q: { name: 'Side', material: 'steel', solids: [{ shape: 'sphere', radius: '1 m', centre: ['3 m', '0 m', '0 m'] }] },
  },
  pieces: { crown: { name: 'Crown', parts: ['P'] }, side: { name: 'Side', parts: ['Q'] } },
  lifts: {
    'crown-out': { piece: 'crown', kind: 'out', system: 'tower', hook: 'main' },
    'side-out': { piece: 'side', kind: 'out', system: 'tower', hook: 'main' },
    'side-turn': { piece: 'side', kind: 'turn', system: 'tower', hook: 'main' },
  },
  steps: {
    S1: { piece: 'crown', lift: 'crown-out', moves: [{ by: ['0 m', '0 m', '9 m'] }] },
    S2: { piece: 'side', lift: 'side-out', moves: [{ by: ['0 m', '0 m', '9 m'] }] },
  },
  changes: {
    'CHG-1': { kind: 'stiffen', what: 'Ribs', status: 'approved', parts: ['P'] },
    'CHG-2': { kind: 'stiffen', what: 'More ribs', status: 'proposed', parts: ['P'] },
  },
  tests: {
    T1: { system: 'drive', test: 'Run', duration: '2 h' },
    T2: { system: 'drive', test: 'Run on', after: ['T1'], duration: '2 h' },
  },
  order,
  programme: programmeOf({
    work: { ...WORK, isolations: { calendar: 'day', each: '1 h' }, marking: { calendar: 'day', each: '10 min' } },
    changeWork: { 'CHG-1': { days: [3, 4, 6] } },
    resources: { tower: { name: 'Tower', kind: 'plant', capacity: 1 } },
    activities: { ready: task(), again: task() },
    gap: 0.05,
    ...more,
  }),
})
const work = { stripAfter: ['ready'], resumeBefore: ['again'] }
const step = (id: string): Pick<StripStep, 'step' | 'piece'> & Partial<StripStep> =>
  id === 'S1'
    ? { step: 'S1', piece: 'crown', parts: ['P'], joints: ['J1', 'J2'], services: ['H1', 'H2', 'C1'] }
    : { step: 'S2', piece: 'side', parts: ['Q'], joints: ['J3'] }
const HOURS = liftsOf({ 'crown-out': { hours: 4 }, 'side-out': { hours: 4 }, 'side-turn': { hours: 3 } })
const derivedFor = (order: readonly string[], more: Record<string, unknown> = {}): ProgrammeResult =>
  programmeFor(
    twoPieces(order, {
      work: {
        ...WORK,
        isolations: { calendar: 'day', each: '1 h' },
        marking: { calendar: 'day', each: '10 min' },
        ...work,
      },
      ...more,
    }),
    stripOf(order.map(step)),
    HOURS,
  )

describe('activities that follow from the order', () => {
  const { activities, plan } = derivedFor(['S1', 'S2'])
  const starts = (id: string): number => plan[id]?.start as number
  const ends = (id: string): number => plan[id]?.finish as number

  test('every joint, every group of services, every lift, change and test has its activity, each naming what it comes from', () => {
    expect(activities['S1.open.J1']?.from).toContain('/joints/J1')
    expect(activities['S1.part.ISO-1.lines']?.from).toEqual(['/services/H1', '/services/H2', '/isolations/ISO-1'])
    expect(activities['S1.part.none.cables']?.from).toEqual(['/services/C1'])
    expect(activities['S1.out']?.from).toEqual(['/lifts/crown-out', '/steps/S1'])
    expect(activities['change.CHG-1']?.from).toEqual(['/changes/CHG-1', '/programme/changeWork/CHG-1'])
    expect(activities['change.CHG-2']).toBeUndefined()
    expect(activities['test.T2']?.from).toEqual(['/tests/T2'])
    for (const a of Object.values(activities)) expect(a.from.length + Number(a.kind === 'milestone')).toBeGreaterThan(0)
  })

  test('energy is proved dead before a line on it is parted, and comes back after the last is reconnected', () => {
    expect(starts('S1.part.ISO-1.lines')).toBeGreaterThanOrEqual(ends('isolate.ISO-1'))
    expect(starts('energise.ISO-1')).toBeGreaterThanOrEqual(ends('S1.connect.ISO-1.lines'))
    expect(starts('test.T1')).toBeGreaterThanOrEqual(ends('energise.ISO-1'))
  })

  test('the joint opened last is opened with the load taken, and closed first with the load held', () => {
    expect(starts('S1.rig')).toBeGreaterThanOrEqual(ends('S1.open.J1'))
    expect(starts('S1.open.J2')).toBeGreaterThanOrEqual(ends('S1.rig'))
    expect(activities['S1.open.J2']?.needs).toEqual({ tower: 1 })
    expect(starts('S1.close.J1')).toBeGreaterThanOrEqual(ends('S1.close.J2'))
    expect(activities['S1.close.J2']?.needs).toEqual({ tower: 1 })
  })

  test('the second piece leaves after the first and comes back before it', () => {
    expect(starts('S2.out')).toBeGreaterThanOrEqual(ends('S1.out'))
    expect(starts('S1.back')).toBeGreaterThanOrEqual(ends('S2.back'))
  })

  test('nothing is rigged to a crane while a piece hangs from it, whatever another machine lifts in between', () => {
    const three = ['S1', 'S2', 'S3']
    const sphere = {
      name: 'Part',
      material: 'steel',
      solids: [{ shape: 'sphere', radius: '1 m', centre: ['0 m', '0 m', '0 m'] }],
    }
    const of = (make: (id: string, k: number) => unknown) => Object.fromEntries(three.map((id, k) => [id, make(id, k)]))
    const hooks = { main: { name: 'Main' } }
    const machine = (k: number): string => (k === 1 ? 'crane' : 'tower')
    const { activities } = programmeFor(
      {
        ...oneStep(),
        systems: {
          tower: { name: 'Tower', kind: 'lift tower', hooks },
          crane: { name: 'Crane', kind: 'lift tower', hooks },
        },
        parts: of(() => sphere),
        pieces: of((id) => ({ name: id, parts: [id] })),
        lifts: of((id, k) => ({ piece: id, kind: 'out', system: machine(k), hook: 'main' })),
        steps: of((id) => ({ piece: id, lift: id, moves: [{ by: ['0 m', '0 m', '9 m'] }] })),
        order: three,
        programme: programmeOf({ work: WORK }),
      },
      stripOf(three.map((id) => ({ step: id, piece: id, parts: [id] }))),
      liftsOf(Object.fromEntries(three.map((id) => [id, { hours: 2 }]))),
    )
    const waits = activities['S3.rig']?.after.map(({ to }) => to)
    expect(waits).toContain('S1.land')
    expect(waits).not.toContain('S2.land')
  })

  test('a turning lift of a piece stands between its lift and its landing', () => {
    expect(starts('S2.turn.side-turn')).toBeGreaterThanOrEqual(ends('S2.out'))
    expect(starts('S2.land')).toBeGreaterThanOrEqual(ends('S2.turn.side-turn'))
  })

  test('a change waits for its part to be out and the part’s return waits for the change', () => {
    expect(starts('change.CHG-1')).toBeGreaterThanOrEqual(ends('S1.land'))
    expect(starts('S1.rig-back')).toBeGreaterThanOrEqual(ends('change.CHG-1'))
  })

  test('strip waits for what is typed before it; what is typed after the return waits for it', () => {
    expect(starts('order.begin')).toBeGreaterThanOrEqual(ends('ready'))
    expect(starts('again')).toBeGreaterThanOrEqual(ends('order.returned'))
  })

  test('a lift lies inside one shift', () => {
    for (const a of Object.values(activities).filter((x) => !x.interruptible)) {
      expect(ends(a.id) - starts(a.id)).toBe(a.work[1])
    }
  })

  test('a lift on a wind-limited calendar is planned with the allowance for wind, the hook held meanwhile', () => {
    const { activities: with_, plan: dates } = derivedFor(['S1', 'S2'], {
      work: { ...WORK, ...work, windAllowance: '4 h' },
    })
    expect(with_['S1.wind']?.needs).toEqual({ tower: 1 })
    expect(dates['S1.out']?.start).toBeGreaterThanOrEqual((dates['S1.wind']?.start ?? 0) + 4 * 3600)
    expect(dates['S1.back']?.start).toBeGreaterThanOrEqual((dates['S1.wind-back']?.start ?? 0) + 4 * 3600)
    expect(activities['S1.wind']).toBeUndefined()
  })

  test('a rate’s hour is stretched by the breaks, a lift’s is not', () => {
    const rest = derivedFor(['S1', 'S2'], {
      calendars: {
        ...(programmeOf().calendars as object),
        day: { days: ['Mon'], shifts: [['07:00', '19:00']], hoursPerDay: 10 },
      },
    })
    expect(rest.activities['S1.open.J1']?.work[1]).toBe(3600 * 1.2)
    expect(rest.activities['S1.out']?.work[1]).toBe(3 * 3600)
  })

  test('swapping two pieces in the order swaps their way out and their way back', () => {
    const swapped = derivedFor(['S2', 'S1'])
    expect(swapped.plan['S1.out']?.start).toBeGreaterThanOrEqual(swapped.plan['S2.out']?.finish as number)
    expect(swapped.plan['S2.back']?.start).toBeGreaterThanOrEqual(swapped.plan['S1.back']?.finish as number)
  })

  test('a typed stand-in takes the place of what it covers, links and all', () => {
    const covered = derivedFor(['S1', 'S2'], {
      activities: {
        ready: task(),
        again: task(),
        own: task({ overrides: ['/joints/J1', '/joints/J2'], reason: 'one gang does both' }),
      },
      work: { ...WORK, ...work },
    })
    expect(covered.activities['S1.open.J1']).toBeUndefined()
    expect(covered.activities.own?.from).toContain('/joints/J2')
  })
})

describe('typed activities around the strip', () => {
  test('after steps, before steps, before returns: the links are there', () => {
    const result = derivedFor(['S1', 'S2'], {
      activities: {
        ready: task(),
        again: task(),
        weigh: task({ afterSteps: ['S1'], beforeSteps: ['S2'] }),
        paint: task({ afterSteps: ['S1'], beforeReturn: ['S1'], afterChanges: ['CHG-1'] }),
        look: task({ afterReturn: ['S2'] }),
      },
    })
    const { plan } = result
    expect(plan.weigh?.start).toBeGreaterThanOrEqual(plan['S1.land']?.finish as number)
    expect(plan['S2.mark']?.start).toBeGreaterThanOrEqual(plan.weigh?.finish as number)
    expect(plan['S1.rig-back']?.start).toBeGreaterThanOrEqual(plan.paint?.finish as number)
    expect(plan.paint?.start).toBeGreaterThanOrEqual(plan['change.CHG-1']?.finish as number)
    expect(plan.look?.start).toBeGreaterThanOrEqual(plan['S2.home']?.finish as number)
  })

  test('a return does not begin before what has to be delivered for it', () => {
    const { plan } = derivedFor(['S1', 'S2'], {
      activities: { ready: task(), again: task(), order: task({ calendar: 'always', days: [90, 100, 120] }) },
      deliveries: { ribs: { what: 'Ribs', activity: 'order', neededByReturn: ['S1'] } },
    })
    expect(plan['S1.rig-back']?.start).toBeGreaterThanOrEqual(100 * 86_400)
  })
})

describe('the plan', () => {
  test('a five-day activity on a five-day week ends on Friday evening', () => {
    const result = programmeFor({ programme: programmeOf({ activities: { A: task({ days: [5, 5, 5] }) } }) })
    const { date, time } = localAt(result.solved?.zone as never, result.restart as number)
    expect([date, time]).toEqual(['2031-11-07', '19:00'])
  })

  test('activities that need the same crane queue, and say for what they wait', () => {
    const result = programmeFor({
      programme: programmeOf({
        resources: { crane: { name: 'Crane', kind: 'plant', capacity: 1 } },
        activities: { A: task({ needs: { crane: 1 } }), B: task({ needs: { crane: 1 } }) },
      }),
    })
    expect(result.plan.B?.start).toBeGreaterThanOrEqual(result.plan.A?.finish as number)
    expect(result.plan.B?.waitsFor).toEqual({ activity: 'A', resource: 'crane' })
    expect(result.plan.B?.earlyStart).toBe(result.plan.A?.earlyStart)
  })

  test('a sequence that was adopted is followed', () => {
    const activities = { A: task({ needs: { crane: 1 } }), B: task({ needs: { crane: 1 }, days: [3, 3, 3] }) }
    const resources = { crane: { name: 'Crane', kind: 'plant', capacity: 1 } }
    const result = programmeFor({ programme: programmeOf({ resources, activities, sequence: ['B', 'A'] }) })
    expect(result.basis).toBe('adopted sequence')
    expect(result.plan.A?.start).toBeGreaterThanOrEqual(result.plan.B?.finish as number)
  })

  test('a circle of predecessors is a failed check that names it', () => {
    const result = derivedFor(['S1', 'S2'], {
      activities: { ready: task(), again: task(), odd: task({ afterSteps: ['S2'], beforeSteps: ['S1'] }) },
    })
    expect(result.checks.map((c) => [c.kind, c.verdict])).toEqual([['programme.plan.feasible', 'fail']])
    expect(result.checks[0]?.reasons[0]).toContain('odd')
  })

  test('steps without a word on how the work is done leave the programme open', () => {
    const result = programmeFor(oneStep({ programme: programmeOf() }), stripOf([{ step: 'S1', piece: 'crown' }]))
    expect(result.checks.some((c) => c.verdict === 'open' && c.reasons[0] === '/programme/work is not given')).toBe(
      true,
    )
  })

  test('an activity whose calendar never has the time is a failed check, and the rest keeps its dates', () => {
    const calendars = {
      mon: { days: ['Mon'], shifts: [['07:00', '15:00']], hoursPerDay: 8 },
      tue: { days: ['Tue'], shifts: [['07:00', '15:00']], hoursPerDay: 8 },
    }
    const result = programmeFor({
      programme: programmeOf({
        calendars,
        resources: { crew: { name: 'Crew', kind: 'crew', capacity: 1, calendar: 'tue' } },
        activities: {
          A: task({ calendar: 'mon' }),
          B: task({ calendar: 'mon', after: [{ to: 'A' }], needs: { crew: 1 } }),
        },
      }),
    })
    expect(result.checks.map((c) => [c.kind, c.verdict])).toEqual([['programme.plan.feasible', 'fail']])
    expect(result.checks[0]?.reasons[0]).toContain('B: its calendar never has the time')
    expect(Object.keys(result.plan)).toEqual(['A'])
    expect(result.restart).toBeUndefined()
  })

  test('a zone that nobody knows is a problem at its place', () => {
    expect(() => modelOf({ programme: programmeOf({ timeZone: 'Nowhere/Here' }) })).toThrow('/programme/timeZone')
  })

  test('a date promised before the planned restart fails the path length index once a twentieth is missing', () => {
    const verdictOn = (promised: string) =>
      programmeFor({
        programme: programmeOf({ promised, activities: { A: task({ calendar: 'always', days: [100, 100, 100] }) } }),
      }).checks.find((c) => c.id.endsWith('path-length-index'))?.verdict
    expect(['2032-02-11', '2032-02-07', '2032-02-04'].map(verdictOn)).toEqual(['pass', 'pass', 'fail'])
  })

  test('without a programme there is nothing', () => {
    expect(programmeFor({})).toEqual({ checks: [], activities: {}, plan: {}, proven: false })
  })

  test('the same project gives the same plan, and what changes no duration is not planned again', () => {
    const memory = freshMemory()
    const first = programmeFor(twoPieces(['S1', 'S2']), stripOf(['S1', 'S2'].map(step)), HOURS, memory)
    const heavier = {
      ...twoPieces(['S1', 'S2']),
      parts: { ...twoPieces([]).parts, P: { ...twoPieces([]).parts.P, name: 'Crown, weighed' } },
    }
    const second = programmeFor(heavier, stripOf(['S1', 'S2'].map(step)), HOURS, memory)
    expect(second.plan).toEqual(first.plan)
    expect(memory.computed.programme).toBeDefined()
    expect(second.solved).toBe(first.solved)
    expect(programmeFor(heavier, stripOf(['S1', 'S2'].map(step)), HOURS).plan).toEqual(second.plan)
  })

  test('the project is not changed by being planned', () => {
    const document = twoPieces(['S1', 'S2'])
    const before = structuredClone(document)
    programmeFor(document, stripOf(['S1', 'S2'].map(step)), HOURS)
    expect(document).toEqual(before)
    expect(modelOf(document).project.order).toEqual(['S1', 'S2'])
  })
})
