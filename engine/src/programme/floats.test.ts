import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { nearCriticalPaths } from './nearCritical.ts'
import type { Network } from './network.ts'
import { type Dates, earlyDates, finishes, freeFloat, independentFloat, lateDates, totalFloat } from './passes.ts'
import { pathTest } from './pathTest.ts'
import { planned } from './plan.ts'
import { checkIn, programmeFor, programmeOf, task } from './programme.fixture.ts'
import { type LinkText, smallNetwork } from './small.fixture.ts'

const KINDS = ['FS', 'SS', 'FF', 'SF'] as const

/** Up to eight activities in a row of letters, links from earlier to later ones. */
const anyNetwork = fc
  .record({
    durations: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 2, maxLength: 8 }),
    links: fc.array(fc.tuple(fc.nat(7), fc.nat(7), fc.constantFrom(...KINDS), fc.integer({ min: 0, max: 4 })), {
      maxLength: 14,
    }),
  })
  .map(({ durations, links }) => {
    const id = (i: number): string => String.fromCharCode(65 + i)
    return {
      durations: Object.fromEntries(durations.map((d, i) => [id(i), d])),
      links: links
        .filter(([a, b]) => a < b && b < durations.length)
        .map(([a, b, type, lag]): LinkText => [id(a), id(b), type, lag]),
    }
  })

function passes(network: Network): { early: Dates; late: Dates; end: number } {
  const early = earlyDates(network)
  const { restart, end } = finishes(network, early)
  return { early, late: lateDates(network, restart, end), end }
}

describe('floats of any network', () => {
  test('total float is free float and interfering float; independent float is the least of them', () => {
    fc.assert(
      fc.property(anyNetwork, (given) => {
        const ids = Object.keys(given.durations)
        const { plan } = programmeFor({
          programme: programmeOf({
            activities: Object.fromEntries(
              ids.map((id) => [
                id,
                task({
                  calendar: 'always',
                  days: [given.durations[id], given.durations[id], given.durations[id]],
                  after: given.links
                    .filter(([, to]) => to === id)
                    .map(([to, , type, lag]) => ({ to, type, lag: `${lag} d` })),
                }),
              ]),
            ),
          }),
        })
        for (const id of ids) {
          const { totalFloat: total, freeFloat: free, interferingFloat, independentFloat: own } = plan[id] ?? never()
          expect(free + interferingFloat).toBeCloseTo(total, 6)
          expect(free).toBeLessThanOrEqual(total + 1e-6)
          expect(own).toBeLessThanOrEqual(free + 1e-6)
        }
      }),
      { numRuns: 60 },
    )
  })

  test('slipping an activity by its free float moves no other; by its total float, not the end', () => {
    fc.assert(
      fc.property(anyNetwork, fc.nat(7), (given, pick) => {
        const network = smallNetwork(given)
        const i = pick % network.ids.length
        const { early, late, end } = passes(network)
        const slipped = (by: number): Dates =>
          earlyDates({
            ...network,
            notBefore: network.notBefore.map((n, k) => (k === i ? (early.start[i] as number) + by : n)),
          })
        const free = slipped(freeFloat(network, i, early, end))
        for (let k = 0; k < network.ids.length; k++) if (k !== i) expect(free.start[k]).toBe(early.start[k])
        const total = totalFloat(network, i, early.start[i] as number, late.start[i] as number)
        expect(finishes(network, slipped(total)).end).toBe(end)
      }),
    )
  })

  test('a network turned round has its early dates where the late ones were, counted from the end', () => {
    const turned = { FS: 'FS', SS: 'FF', FF: 'SS', SF: 'SF' } as const
    fc.assert(
      fc.property(anyNetwork, ({ durations, links }) => {
        const forward = passes(smallNetwork({ durations, links }))
        const backward = passes(
          smallNetwork({
            durations,
            // seen from the end, a finish is a start: what bound a start now binds a finish
            links: links.map(([from, to, type, lag]): LinkText => [to, from, turned[type], lag]),
          }),
        )
        // of links to a finish, the end of the one is not the end of the other when an activity hangs past it
        fc.pre(forward.end === backward.end)
        Object.keys(durations).forEach((_, i) => {
          expect(backward.early.start[i]).toBe(forward.end - (forward.late.finish[i] as number))
          expect(backward.late.finish[i]).toBe(forward.end - (forward.early.start[i] as number))
        })
      }),
    )
  })

  test('one more link makes nothing earlier, early or late, and gives nobody float', () => {
    fc.assert(
      fc.property(anyNetwork, fc.nat(7), fc.nat(7), fc.constantFrom(...KINDS), (given, a, b, type) => {
        const n = Object.keys(given.durations).length
        fc.pre(a < b && b < n)
        const [from, to] = [Object.keys(given.durations)[a], Object.keys(given.durations)[b]] as [string, string]
        const before = passes(smallNetwork(given))
        const network = smallNetwork({ ...given, links: [...given.links, [from, to, type, 1]] })
        const after = passes(network)
        expect(after.end).toBeGreaterThanOrEqual(before.end)
        for (let i = 0; i < n; i++) {
          expect(after.early.start[i]).toBeGreaterThanOrEqual(before.early.start[i] as number)
          expect(after.early.finish[i]).toBeGreaterThanOrEqual(before.early.finish[i] as number)
          // against the old end; with a later one everybody has more time
          const late = lateDates(network, before.end, before.end)
          expect(late.start[i]).toBeLessThanOrEqual(before.late.start[i] as number)
        }
      }),
    )
  })

  test('independent float is what is left between the late dates behind and the early dates ahead', () => {
    const network = smallNetwork({
      durations: { A: 5, B: 2, C: 2, D: 4, E: 5 },
      links: [
        ['A', 'E', 'FS', 0],
        ['B', 'C', 'FS', 0],
        ['C', 'D', 'FS', 0],
        ['E', 'D', 'FS', 0],
      ],
    })
    const { early, late, end } = passes(network)
    // B may come as late as 8, D starts at 10 as early as it may: two days of work find no room to spare
    expect(independentFloat(network, 2, early, late, end)).toBe(0)
    expect(independentFloat(network, 1, early, late, end)).toBe(0)
    expect(freeFloat(network, 2, early, end)).toBe(6)
  })
})

function never(): never {
  throw new Error('not planned')
}

describe('near-critical paths', () => {
  const network = smallNetwork({
    durations: { A: 5, B: 10, C: 4, D: 4, E: 9, F: 2, Z: 1 },
    links: [
      ['A', 'B', 'FS', 0],
      ['B', 'Z', 'FS', 0],
      ['A', 'C', 'FS', 0],
      ['C', 'D', 'FS', 0],
      ['D', 'Z', 'FS', 0],
      ['A', 'E', 'FS', 0],
      ['E', 'Z', 'FS', 0],
      ['F', 'Z', 'FS', 0],
    ],
  })
  const paths = (most: number) => nearCriticalPaths(planned(network, []), most, () => 1)

  test('are listed by the float they have, with where they leave the longest path and join it again', () => {
    expect(paths(2)).toEqual([
      { float: 1, tightest: 'E', activities: ['E'], leaves: 'A', joins: 'Z' },
      { float: 2, tightest: 'C', activities: ['C', 'D'], leaves: 'A', joins: 'Z' },
    ])
  })

  test('a wider threshold lists more, none lists those without any float', () => {
    expect(paths(0)).toEqual([])
    expect(paths(13).map((p) => p.activities)).toEqual([['E'], ['C', 'D'], ['F']])
  })
})

describe('the critical path test', () => {
  test('600 days put into the first activity move the end of a sound network by 600', () => {
    const network = smallNetwork({ durations: { A: 4, B: 6 }, links: [['A', 'B', 'FS', 0]] })
    expect(pathTest(network, () => 1)).toEqual({ id: 'A', added: 600, moved: 600, day: 1 })
  })

  test('fails where only the start of the path is tied to what comes after', () => {
    const result = programmeFor({
      programme: programmeOf({
        activities: {
          A: task({ calendar: 'always', days: [2, 2, 2] }),
          B: task({ calendar: 'always', days: [9, 9, 9], after: [{ to: 'A', type: 'SS', lag: '1 d' }] }),
        },
        restart: 'B',
      }),
    })
    expect(checkIn(result, 'programme.network.health', 'critical-path-test').verdict).toBe('fail')
  })
})

describe('decisions for what is no longer there', () => {
  const asked = (more: Record<string, unknown>) => {
    const { questions } = programmeFor({
      programme: programmeOf({ activities: { A: task(), B: task({ after: [{ to: 'A' }] }) }, ...more }),
    })
    return questions?.find((q) => q.id === 'unfitting')?.offenders.map(({ text }) => text)
  }

  test('answers and the adopted order are listed when their activity has gone', () => {
    expect(asked({ explained: { A: 'as agreed' } })).toEqual([])
    expect(asked({ explained: { 'order.begin': 'as agreed' } })).toEqual([
      'an answer for order.begin, which is not in the network',
    ])
    expect(asked({ sequence: ['A', 'order.returned', 'B'] })?.[0]).toContain('1 of the 3 activities')
  })

  test('a chain implies a link; the link is listed', () => {
    const activities = { A: task(), B: task({ after: [{ to: 'A' }] }), C: task({ after: [{ to: 'A' }, { to: 'B' }] }) }
    const { questions } = programmeFor({ programme: programmeOf({ activities }) })
    expect(questions?.find((q) => q.id === 'implied-links')?.offenders).toEqual([{ activity: 'C', text: 'A to C' }])
  })
})
