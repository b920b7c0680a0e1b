import fc from 'fast-check'
import type { Activity } from './activity.ts'
import { ALWAYS, calendarOf } from './calendar.ts'
import { planOf } from './improve.ts'
import { type Network, networkOf } from './network.ts'
import { serialPlan } from './serial.ts'
import { chain } from './small.fixture.ts'

const days = (open: (day: number) => boolean, from: number, to: number): [number, number][] =>
  Array.from({ length: 40 }, (_, day) => day)
    .filter(open)
    .map((day) => [10 * day + from, 10 * day + to])

/** Days of ten hours: by day, by day but not every fifth, and a night shift. */
const calendars = new Map([
  ['always', ALWAYS],
  [
    'day',
    calendarOf(
      'day',
      days(() => true, 2, 8),
    ),
  ],
  [
    'week',
    calendarOf(
      'week',
      days((d) => d % 5 < 3, 1, 7),
    ),
  ],
])

const activity = fc.record({
  work: fc.integer({ min: 1, max: 9 }),
  calendar: fc.constantFrom('always', 'day', 'week'),
  interruptible: fc.boolean(),
  needs: fc.tuple(fc.nat(2), fc.nat(3)),
})
const link = fc.record({
  from: fc.nat(4),
  to: fc.nat(4),
  type: fc.constantFrom('FS', 'FS', 'SS', 'FF'),
  lag: fc.nat(4),
  calendar: fc.constantFrom(undefined, 'day'),
})
/** Three to five activities on shifts, with lags, on two resources. */
export const networks = fc
  .record({ all: fc.array(activity, { minLength: 3, maxLength: 5 }), links: fc.array(link, { maxLength: 4 }) })
  .map(({ all, links }): Network => {
    const inside = links.filter(({ from, to }) => from < to && to < all.length)
    const activities = Object.fromEntries(
      all.map(({ work, calendar, interruptible, needs }, i): [string, Activity] => [
        `A${i}`,
        {
          ...chain(`A${i}`),
          work: [work, work, work],
          calendar,
          interruptible,
          needs: { crew: needs[0], tower: needs[1] },
          after: inside
            .filter((l) => l.to === i)
            .map(({ from, type, lag, calendar: on }) => ({
              to: `A${from}`,
              type,
              lag,
              ...(on === undefined ? {} : { calendar: on }),
            })),
        },
      ]),
    )
    const made = networkOf({ activities, calendars, resources: { crew: { capacity: 2 }, tower: { capacity: 3 } } })
    return made.network as Network
  })

/** The serial scheme in every order holds an optimum: what starts no later ends no later, on any calendar. */
export function byEnumeration(network: Network): number {
  const n = network.ids.length
  let best = Number.POSITIVE_INFINITY
  const go = (list: number[]): void => {
    if (list.length === n) best = Math.min(best, planOf(network, serialPlan(network, Int32Array.from(list))).end)
    for (let i = 0; i < n; i++) {
      const before = Array.from(network.before.other.subarray(network.before.first[i], network.before.first[i + 1]))
      if (!list.includes(i) && before.every((p) => list.includes(p))) go([...list, i])
    }
  }
  go([])
  return best
}
