import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Activity, LinkType } from './activity.ts'
import { ALWAYS, calendarOf } from './calendar.ts'
import { justified, planOf, priorities, quickPlan } from './improve.ts'
import { type Network, networkOf } from './network.ts'
import { earlyDates } from './passes.ts'
import { emptyProfile, occupy, type Profile, peak } from './profile.ts'
import { peakUse, violations } from './residual.ts'
import { listBy, serialPlan } from './serial.ts'
import { chain, type LinkText, smallNetwork } from './small.fixture.ts'

const fs = (pairs: readonly (readonly [number, number])[]): LinkText[] =>
  pairs.map(([a, b]) => [String(a), String(b), 'FS', 0])

// Small networks solved by enumeration of every list (derived).
const small1 = smallNetwork({
  durations: { '1': 6, '2': 6, '3': 4, '4': 3, '5': 4, '6': 5, '7': 4 },
  capacities: [4],
  needs: { '1': [0], '2': [3], '3': [4], '4': [2], '5': [1], '6': [0], '7': [3] },
  links: fs([
    [1, 3],
    [1, 7],
    [2, 3],
    [4, 7],
    [5, 7],
    [6, 7],
  ]),
})
const small2 = smallNetwork({
  durations: { '1': 2, '2': 1, '3': 1, '4': 4, '5': 5, '6': 3, '7': 6 },
  capacities: [3, 5],
  needs: { '1': [1, 2], '2': [3, 0], '3': [0, 0], '4': [0, 4], '5': [3, 4], '6': [0, 2], '7': [0, 3] },
  links: fs([
    [2, 5],
    [2, 6],
    [3, 4],
    [4, 7],
  ]),
})
const small4 = smallNetwork({
  durations: { '1': 4, '2': 5, '3': 5, '4': 2, '5': 2, '6': 5, '7': 4 },
  capacities: [5, 5],
  needs: { '1': [0, 1], '2': [5, 4], '3': [0, 0], '4': [4, 4], '5': [4, 0], '6': [1, 3], '7': [4, 0] },
  links: fs([
    [3, 6],
    [6, 7],
  ]),
})
const names = (network: Network, list: Int32Array): string => Array.from(list, (i) => network.ids[i]).join(' ')

describe('serial scheme', () => {
  test.each([
    ['first', small1, '1 2 4 5 6 3 7', 17, '1 2 6 5 4 3 7', 17],
    ['second', small2, '3 4 2 1 5 6 7', 18, '3 4 2 7 5 6 1', 16],
    ['fourth', small4, '3 6 1 2 4 5 7', 16, '3 6 2 1 7 4 5', 16],
  ])(
    'latest finish and latest start give the %s network its lists and ends',
    (_, network, lft, lftEnd, lst, lstEnd) => {
      const [finish, start] = priorities(network) as [Float64Array, Float64Array]
      expect(names(network, listBy(network, finish))).toBe(lft)
      expect(planOf(network, serialPlan(network, listBy(network, finish))).end).toBe(lftEnd)
      expect(names(network, listBy(network, start))).toBe(lst)
      expect(planOf(network, serialPlan(network, listBy(network, start))).end).toBe(lstEnd)
    },
  )

  test('double justification turns a plan of 18 into the optimum of 16', () => {
    const shortestFirst = planOf(small4, serialPlan(small4, listBy(small4, small4.work)))
    expect(shortestFirst.end).toBe(18)
    const { plan } = justified(small4, shortestFirst, 1)
    expect(plan.end).toBe(16)
    expect(Array.from(plan.dates.start)).toEqual([0, 2, 0, 0, 7, 7, 12])
  })

  test('the quick plan reaches the optimum of each of them', () => {
    expect([small1, small2, small4].map((n) => quickPlan(n).end)).toEqual([17, 16, 16])
  })

  test('no resource is used beyond its capacity', () => {
    const { dates } = quickPlan(small2)
    const profiles: Profile[] = [emptyProfile(), emptyProfile()]
    small2.ids.forEach((_, i) => {
      for (let k = small2.needs.first[i] as number; k < (small2.needs.first[i + 1] as number); k++)
        occupy(
          profiles[small2.needs.resource[k] as number] as Profile,
          dates.start[i] as number,
          dates.finish[i] as number,
          small2.needs.amount[k] as number,
        )
    })
    expect(profiles.map(peak)).toEqual([3, 5])
  })
})

/** Shifts of 8 of 24 hours, five days of seven; 12 hours every day; no breaks. */
const shifts = (from: number, to: number, days: number) =>
  Array.from({ length: 400 }, (_, day): [number, number] => [day * 24 + from, day * 24 + to]).filter(
    (_, day) => day % 7 < days,
  )
const CALENDARS = new Map([
  ['always', ALWAYS],
  ['day', calendarOf('day', shifts(8, 16, 5))],
  ['long', calendarOf('long', shifts(6, 18, 7))],
])

const activity = fc.record({
  calendar: fc.constantFrom('always', 'day', 'long'),
  work: fc.integer({ min: 0, max: 20 }),
  interruptible: fc.boolean(),
  needs: fc.record({ R1: fc.nat(2), R2: fc.nat(3) }),
  notBefore: fc.nat(60),
})
const link = fc.record({
  from: fc.nat(11),
  to: fc.nat(11),
  type: fc.constantFrom<LinkType>('FS', 'SS', 'FF', 'SF'),
  lag: fc.integer({ min: -3, max: 12 }),
  calendar: fc.constantFrom(undefined, 'day'),
})

/** A network with calendars, all kinds of links and lags, lifts in one piece, and two resources. */
const anyNetwork = fc
  .record({ activities: fc.array(activity, { minLength: 2, maxLength: 12 }), links: fc.array(link, { maxLength: 14 }) })
  .map(({ activities, links }) => {
    const entries = activities.map((a, i): [string, Activity] => [
      `A${i}`,
      {
        ...chain(`A${i}`),
        ...a,
        work: [a.work, a.work, a.work],
        interruptible: a.interruptible || a.work > 8,
        after: links
          .filter(({ from, to }) => to === i && from < i)
          .map(({ from, type, lag, calendar }) => ({
            to: `A${from}`,
            type,
            lag,
            ...(calendar === undefined ? {} : { calendar }),
          })),
      },
    ])
    const { network } = networkOf({
      activities: Object.fromEntries(entries),
      calendars: CALENDARS,
      resources: { R1: { capacity: 2 }, R2: { capacity: 3 } },
    })
    return network as Network
  })

describe('laws of plans, on any network', () => {
  test('a plan keeps its links, its calendars and its resources, counted again from the dates', () => {
    fc.assert(
      fc.property(anyNetwork, (network) => {
        const { dates } = quickPlan(network)
        expect(violations(network, dates)).toEqual([])
        peakUse(network, dates).forEach((use, r) => {
          expect(use).toBeLessThanOrEqual(network.capacity[r] as number)
        })
      }),
      { numRuns: 300 },
    )
  })

  test('no plan is earlier than its early dates, and improving it never makes it later', () => {
    fc.assert(
      fc.property(anyNetwork, (network) => {
        const early = earlyDates(network)
        const first = planOf(network, serialPlan(network, listBy(network, network.work)))
        const { plan } = justified(network, first, 4)
        expect(plan.end).toBeLessThanOrEqual(first.end + 0.5)
        plan.dates.start.forEach((s, i) => {
          expect(s).toBeGreaterThanOrEqual((early.start[i] as number) - 1e-6)
        })
      }),
      { numRuns: 300 },
    )
  })
})
