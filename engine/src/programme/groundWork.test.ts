import { describe, expect, test } from 'vitest'
import { modelOf, programmeFor, programmeOf, task } from './programme.fixture.ts'
import { localAt, type Zone } from './zone.ts'

const SHAFT = {
  clearDiameter: '19.4 m',
  collar: '0 m',
  slabTop: '-36 m',
  slabThickness: '2 m',
  excavation: '-38 m',
  barrier: '1.2 m',
  wall: { kind: 'secant piles', toe: '-46 m', pileDiameter: '1.5 m', piles: 60, ringDiameter: '21.5 m' },
}
const rate = (value: number, unit: string) => ({ what: 'rate', value, unit, basis: 'invented' })
const RATES = { pile: rate(1, 'piles a day'), dig: rate(200, 'm3 a day'), slab: rate(157, 'm3 a day') }
const work = (groundWork: object, more: object = {}) => ({ name: 'Work', calendar: 'always', groundWork, ...more })
const STAGES = {
  piles: work({ what: 'wall', rate: 'pile', gangs: 2, fixedDays: 3 }),
  upper: work({ what: 'excavation', rate: 'dig', to: '-18 m' }),
  lower: work({ what: 'excavation', rate: 'dig' }),
  slab: work({ what: 'base', rate: 'slab', curing: '4 d' }),
}
const sunk = (more: Record<string, unknown> = {}, shaft: object = {}) =>
  programmeFor({
    shaft: { ...SHAFT, ...shaft },
    programme: programmeOf({ rates: RATES, activities: STAGES, ...more }),
  })
const days = ({ activities }: ReturnType<typeof programmeFor>, id: string): number =>
  (activities[id]?.work[1] ?? Number.NaN) / 86_400

describe('ground works follow from shaft and rates', () => {
  // by hand: 60 ÷ (1 × 2) + 3; bore 21.5 − 1.5 = 20 m, π/4 · 20² = 314.16 m²; 314.16 × 18 ÷ 200; × 20 ÷ 200; × 2 ÷ 157
  test('piles by their number, stages and base by their volume', () => {
    const result = sunk()
    expect(days(result, 'piles')).toBeCloseTo(33, 4)
    expect(days(result, 'upper')).toBeCloseTo(28.274, 3)
    expect(days(result, 'lower')).toBeCloseTo(31.416, 3)
    expect(days(result, 'slab')).toBeCloseTo(4.002, 3)
    expect(result.activities.piles?.basis).toBe('60 at 1 piles a day × 2, 3 days beside; rate: invented')
  })

  test('each waits for the one above it, and what follows the base waits for it to harden', () => {
    const { plan } = sunk({ activities: { ...STAGES, fit: task({ calendar: 'always', after: [{ to: 'slab' }] }) } })
    expect(plan.upper?.start).toBe(plan.piles?.finish)
    expect(plan.lower?.start).toBe(plan.upper?.finish)
    expect(plan.slab?.start).toBe(plan.lower?.finish)
    expect((plan.fit?.start ?? 0) - (plan.slab?.finish ?? 0)).toBe(4 * 86_400)
  })

  test('a deeper shaft takes longer, one more stage takes what lies above it off the next', () => {
    const deeper = sunk({}, { excavation: '-40 m', slabTop: '-38 m' })
    expect(days(deeper, 'lower')).toBeGreaterThan(days(sunk(), 'lower'))
    expect(days(deeper, 'upper')).toBe(days(sunk(), 'upper'))
    const three = sunk({ activities: { ...STAGES, middle: work({ what: 'excavation', rate: 'dig', to: '-28 m' }) } })
    expect(days(three, 'middle') + days(three, 'lower')).toBeCloseTo(days(sunk(), 'lower'), 4)
    expect(three.plan.lower?.start).toBe(three.plan.middle?.finish)
  })

  test('a rate in another unit than the quantity leaves the duration open, and says where', () => {
    const { activities } = sunk({ rates: { ...RATES, dig: rate(200, 'm a day') } })
    expect(activities.upper?.unknown).toEqual(['/programme/rates/dig/value'])
    expect(sunk({}, { wall: { kind: 'slurry panels', toe: '-46 m' } }).activities.piles?.unknown).toEqual([
      '/shaft/wall/piles',
    ])
  })

  test('typed days overrule, and are listed once site and rate lie outside them', () => {
    const typed = (days: number[]) => {
      const result = sunk({ activities: { ...STAGES, piles: { ...STAGES.piles, days } } })
      return [result.activities.piles?.work[1], result.questions?.find((q) => q.id === 'unfitting')?.offenders]
    }
    expect(typed([28, 30, 40])).toEqual([30 * 86_400, []])
    expect(typed([20, 22, 30])).toEqual([
      22 * 86_400,
      [{ activity: 'piles', text: 'piles is typed with 20 to 30 days; site and rate give 33.0' }],
    ])
  })
})

describe('adjustments', () => {
  const row = {
    A: task({ days: [4, 4, 4] }),
    B: task({ after: [{ to: 'A' }] }),
    C: task({ after: [{ to: 'A', type: 'SS' }] }),
  }
  const adjusted = (adjustments: object, more: object = {}) =>
    programmeFor({ programme: programmeOf({ activities: row, adjustments, ...more }) })
  const unfit = (result: ReturnType<typeof programmeFor>) =>
    result.questions?.find((q) => q.id === 'unfitting')?.offenders.map(({ text }) => text)

  test('one that is split runs in parts: starts go by the first, finishes by the last', () => {
    const { activities, plan } = adjusted({ A: { reason: 'in two fronts', split: [1, 3] } })
    expect(activities['A.1']?.work[1]).toBe(12 * 3600)
    expect(activities.A?.work[1]).toBe(36 * 3600)
    expect(activities.A?.after).toEqual([{ to: 'A.1', type: 'FS', lag: 0 }])
    expect(activities.C?.after[0]?.to).toBe('A.1')
    expect(plan.B?.start).toBe((plan.A?.finish ?? 0) + 12 * 3600)
  })

  test('links are added and taken away, days and dates set, with the reason kept by its address', () => {
    const { activities, plan } = adjusted({
      B: { reason: 'crew comes later', without: ['A'], after: [{ to: 'C' }], days: [2, 2, 2], notBefore: '2031-11-12' },
    })
    expect(activities.B?.after.map(({ to }) => to)).toEqual(['C'])
    expect(activities.B?.from).toContain('/programme/adjustments/B')
    expect(activities.B?.work[1]).toBe(24 * 3600)
    expect(plan.B?.start).toBe((9 * 24 + 7) * 3600)
  })

  test('what no longer fits is listed and nothing of it dropped', () => {
    const result = adjusted({
      B: { reason: 'r', without: ['C'], madeFor: 3 },
      'S9.out': { reason: 'r', days: [1, 1, 1] },
    })
    expect(unfit(result)).toEqual([
      'B is freed of C, for which it does not wait',
      'B is adjusted for a derived duration of 3 days, which is now 1.0',
      'an adjustment for S9.out, which is not in the network',
    ])
  })

  test('a day to start on and a day to finish on bind both ways', () => {
    const { plan } = adjusted({ B: { reason: 'r', notBefore: '2031-11-10', startBy: '2031-11-10' } })
    expect(plan.B?.start).toBe((7 * 24 + 7) * 3600)
    expect(plan.B?.totalFloat).toBe(0)
    const late = adjusted({ C: { reason: 'r', finishNotBefore: '2031-11-19', finishBy: '2031-11-18' } })
    expect(late.plan.C?.finish).toBeGreaterThanOrEqual(16 * 86_400 - 5 * 3600)
    expect(late.plan.C?.totalFloat).toBe(0)
    const missed = adjusted({ B: { reason: 'r', startBy: '2031-11-04' } })
    expect(missed.plan.B?.totalFloat).toBeLessThan(0)
  })
})

describe('hours that work must keep to', () => {
  const noise = { days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'], shifts: [['08:00', '18:00']], hoursPerDay: 10 }
  const held = (more: object) =>
    programmeFor({
      programme: programmeOf({
        calendars: { ...(programmeOf().calendars as object), noise },
        resources: { rig: { name: 'Rig', kind: 'plant', capacity: 1 } },
        ...more,
      }),
    })
  const starts = ({ plan, solved }: ReturnType<typeof programmeFor>, id: string): string =>
    localAt(solved?.zone as Zone, plan[id]?.start ?? 0).time

  test('a curfew holds by activity, by resource and by phase, and nothing else', () => {
    const activities = { A: task(), B: task({ needs: { rig: 1 } }), C: task({ phase: 'piling' }), D: task() }
    const curfew = (by: object) => held({ activities, curfews: { night: { what: 'noise', within: 'noise', ...by } } })
    const all = (by: object) => ['A', 'B', 'C', 'D'].map((id) => starts(curfew(by), id))
    expect(all({ activities: ['A'] })).toEqual(['08:00', '07:00', '07:00', '07:00'])
    expect(all({ resources: ['rig'] })).toEqual(['07:00', '08:00', '07:00', '07:00'])
    expect(all({ phases: ['piling'] })).toEqual(['07:00', '07:00', '08:00', '07:00'])
  })

  test('a lift that may go in a window of wind alone waits for it, and for one that holds it whole', () => {
    const window = {
      days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
      shifts: [['00:00', '24:00']],
      hoursPerDay: 24,
    }
    const result = held({
      calendars: {
        ...(programmeOf().calendars as object),
        wind: {
          ...window,
          only: [
            ['2031-11-06', '2031-11-06'],
            ['2031-11-15', '2031-11-18'],
          ],
        },
      },
      activities: {
        A: task({ days: [1, 1, 1], interruptible: false, within: ['wind'] }),
        B: task({ days: [1, 1, 1], interruptible: false, within: ['wind'], after: [{ to: 'A' }] }),
      },
    })
    const day = (id: string) => localAt(result.solved?.zone as Zone, result.plan[id]?.start ?? 0).date
    // Thursday the 6th; then the next working day of the second window, which opens on a Saturday: Monday the 17th
    expect([day('A'), day('B')]).toEqual(['2031-11-06', '2031-11-17'])
  })

  // Central European rules of the IANA database: clocks go forward on 2026-03-29, back on 2026-10-25
  test('eight hours of a night shift and two of the next end an hour apart over either change of clocks', () => {
    const night = { days: ['Sat', 'Sun'], shifts: [['22:00', '06:00']], hoursPerDay: 8 }
    const ends = (start: string) => {
      const result = programmeFor({
        programme: programmeOf({
          start,
          timeZone: 'Europe/Berlin',
          calendars: { night },
          activities: { A: task({ calendar: 'night', days: [1.25, 1.25, 1.25] }) },
        }),
      })
      const { date, time } = localAt(result.solved?.zone as Zone, result.restart ?? 0)
      return `${date} ${time}`
    }
    // ten hours from Saturday 22:00: eight in the first night, two in the second; seven and three; nine and one
    expect(ends('2026-06-06')).toBe('2026-06-08 00:00')
    expect(ends('2026-03-28')).toBe('2026-03-30 01:00')
    expect(ends('2026-10-24')).toBe('2026-10-25 23:00')
  })

  test('a calendar, a resource or a rate that nobody knows is a problem at its place', () => {
    const refused = (more: object) => () => modelOf({ programme: programmeOf({ activities: { A: task() }, ...more }) })
    expect(refused({ curfews: { n: { what: 'n', within: 'quiet' } } })).toThrow('/programme/curfews/n/within')
    expect(refused({ activities: { A: task({ within: ['quiet'] }) } })).toThrow('/programme/activities/A/within/0')
    expect(refused({ activities: { A: work({ what: 'wall', rate: 'none' }) } })).toThrow('/groundWork/rate')
    expect(refused({ activities: { A: { name: 'A', calendar: 'day' } } })).toThrow('groundWork')
  })
})
