import fc from 'fast-check'
import { expect, test } from 'vitest'
import { ALWAYS, calendarOf } from '../programme/calendar.ts'
import { type Network, networkOf } from '../programme/network.ts'
import { chain, smallNetwork } from '../programme/small.fixture.ts'
import { bindingLinks } from './bindingLinks.ts'
import { emptyRun, type RunDates, runOnce } from './pass.ts'

const LINKS = [
  ['A', 'B', 'FS', 0],
  ['B', 'C', 'FS', 0],
  ['A', 'C', 'FS', 0],
] as const

const countOf = (network: Network, least: number[]): number => bindingLinks(network, least).other.length

test('what a chain brings later cannot bind: A before C goes without saying where B between them takes time', () => {
  const network = smallNetwork({ durations: { A: 5, B: 5, C: 5 }, links: LINKS })
  expect(countOf(network, [5, 5, 5])).toBe(2)
  expect(countOf(network, [0, 5, 0])).toBe(2)
})

test('it stays where B may take no time, where it has a lag of its own, and where it binds a finish', () => {
  const network = smallNetwork({ durations: { A: 5, B: 5, C: 5 }, links: LINKS })
  expect(countOf(network, [5, 0, 5])).toBe(3)
  const [ab, bc] = LINKS
  const lagging = smallNetwork({ durations: { A: 5, B: 5, C: 5 }, links: [ab, bc, ['A', 'C', 'FS', 3]] })
  expect(countOf(lagging, [5, 5, 5])).toBe(3)
  const onFinish = smallNetwork({ durations: { A: 5, B: 5, C: 5 }, links: [ab, bc, ['A', 'C', 'FF', 0]] })
  expect(countOf(onFinish, [5, 5, 5])).toBe(3)
})

const HOURS = 3600
const shifts = calendarOf(
  'shifts',
  Array.from({ length: 400 }, (_, day) => [(24 * day + 7) * HOURS, (24 * day + 19) * HOURS] as const),
)

const activityOf = fc.record({
  work: fc.constantFrom(0, 1, 4, 9, 30),
  onShifts: fc.boolean(),
  interruptible: fc.boolean(),
  after: fc.array(
    fc.record({
      back: fc.integer({ min: 1, max: 3 }),
      type: fc.constantFrom('FS', 'FS', 'FS', 'FS', 'FS', 'FS', 'SS', 'FF', 'SF'),
      lag: fc.constantFrom(0, 0, 0, 0, 0, 5, -5),
    }),
    { maxLength: 5 },
  ),
})

test('every run has the same dates, and the same activities drive them, without the links that cannot bind', () => {
  let [left, all] = [0, 0]
  fc.assert(
    fc.property(
      fc.array(activityOf, { minLength: 6, maxLength: 12 }),
      fc.array(fc.tuple(fc.double({ min: 1, max: 2, noNaN: true }), fc.constantFrom(0, 0, 50)), {
        minLength: 12,
        maxLength: 12,
      }),
      (made, drawn) => {
        const activities = Object.fromEntries(
          made.map(({ work, onShifts, interruptible, after }, i) => [
            `A${i}`,
            {
              ...chain(`A${i}`),
              work: [work * HOURS, work * HOURS, work * HOURS] as const,
              calendar: onShifts ? 'shifts' : 'always',
              interruptible,
              after: after
                .filter(({ back }) => back <= i)
                .map(({ back, type, lag }) => ({ to: `A${i - back}`, type, lag: lag * HOURS })),
            },
          ]),
        )
        const calendars = new Map([
          ['always', ALWAYS],
          ['shifts', shifts],
        ])
        const network = networkOf({ activities: activities as never, calendars, resources: {} }).network as Network
        const binding = bindingLinks(network, network.work)
        const longer = {
          ...network,
          work: network.work.map((w, i) => w * (drawn[i]?.[0] as number)),
        }
        const delay = Float64Array.from(network.ids, (_, i) => (drawn[i]?.[1] as number) * HOURS)
        const [whole, fewer] = [run(longer, delay), run({ ...longer, before: binding }, delay)]
        for (const of of ['start', 'finish', 'ready', 'atFinish'] as const) expect(fewer[of]).toEqual(whole[of])
        const driven = ({ binds }: RunDates, other: Int32Array) => Array.from(binds, (k) => (k < 0 ? -1 : other[k]))
        expect(driven(fewer, binding.other)).toEqual(driven(whole, network.before.other))
        left += binding.other.length
        all += network.before.other.length
      },
    ),
    { numRuns: 500, seed: 3 },
  )
  expect(all - left).toBeGreaterThan(300)
})

function run(network: Network, delay: Float64Array): RunDates {
  const dates = emptyRun(network.ids.length)
  runOnce(network, delay, undefined, dates)
  return dates
}
