import { describe, expect, test } from 'vitest'
import { ALWAYS } from './calendar.ts'
import { calendarFrom } from './calendars.ts'
import { type Network, networkOf } from './network.ts'
import { earlyDates, finishes, freeFloat, lateDates, longestPath, targetOf, totalFloat } from './passes.ts'
import { chain, type LinkText, smallNetwork } from './small.fixture.ts'
import { instantOf, zoneFrom } from './zone.ts'

interface Row {
  id: string
  ES: number
  EF: number
  LS: number
  LF: number
  totalFloat: number
  freeFloat: number
}

function table(network: Network): Row[] {
  const early = earlyDates(network)
  const { restart, end } = finishes(network, early)
  const late = lateDates(network, restart, end)
  return network.ids.map((id, i) => ({
    id,
    ES: early.start[i] as number,
    EF: early.finish[i] as number,
    LS: late.start[i] as number,
    LF: late.finish[i] as number,
    totalFloat: totalFloat(network, i, early.start[i] as number, late.start[i] as number),
    freeFloat: freeFloat(network, i, early, end),
  }))
}

const row = (id: string, ES: number, EF: number, LS: number, LF: number, total: number, free: number): Row => ({
  id,
  ES,
  EF,
  LS,
  LF,
  totalFloat: total,
  freeFloat: free,
})

const critical = (network: Network): string[] => {
  const early = earlyDates(network)
  const path = longestPath(network, early, targetOf(network, early))
  return network.ids.filter((_, i) => path.has(i))
}

describe('early and late dates', () => {
  // Solutions to chapter 8 of an introductory management-science text (read in a stored copy): network of seven arrows.
  test('an arrow network comes out as its textbook prints it', () => {
    const arrows: [string, string, number][] = [
      ['1', '2', 7],
      ['1', '3', 10],
      ['2', '4', 6],
      ['3', '4', 5],
      ['3', '5', 4],
      ['4', '5', 3],
      ['5', '6', 2],
    ]
    const links = arrows.flatMap(([i, j]): LinkText[] =>
      arrows.filter(([, end]) => end === i).map(([h, k]) => [`${h}-${k}`, `${i}-${j}`, 'FS', 0]),
    )
    const network = smallNetwork({ durations: Object.fromEntries(arrows.map(([i, j, d]) => [`${i}-${j}`, d])), links })
    expect(table(network)).toEqual([
      row('1-2', 0, 7, 2, 9, 2, 0),
      row('1-3', 0, 10, 0, 10, 0, 0),
      row('2-4', 7, 13, 9, 15, 2, 2),
      row('3-4', 10, 15, 10, 15, 0, 0),
      row('3-5', 10, 14, 14, 18, 4, 4),
      row('4-5', 15, 18, 15, 18, 0, 0),
      row('5-6', 18, 20, 18, 20, 0, 0),
    ])
    expect(critical(network)).toEqual(['1-3', '3-4', '4-5', '5-6'])
  })

  // Derived by hand: FS ES_j ≥ EF_i + l; SS ES_j ≥ ES_i + l; FF EF_j ≥ EF_i + l; SF EF_j ≥ ES_i + l.
  test('all four kinds of link, lags and a lead', () => {
    const network = smallNetwork({
      durations: { A: 6, B: 8, C: 5, D: 4, E: 7, F: 3 },
      links: [
        ['A', 'B', 'SS', 2],
        ['A', 'C', 'FS', 1],
        ['B', 'C', 'FF', 3],
        ['B', 'D', 'FS', -2],
        ['C', 'E', 'SS', 2],
        ['D', 'E', 'FS', 0],
        ['E', 'F', 'FF', 1],
        ['D', 'F', 'SF', 9],
      ],
    })
    expect(table(network)).toEqual([
      row('A', 0, 6, 0, 6, 0, 0),
      row('B', 2, 10, 2, 10, 0, 0),
      row('C', 8, 13, 10, 15, 2, 2),
      row('D', 8, 12, 8, 12, 0, 0),
      row('E', 12, 19, 12, 19, 0, 0),
      row('F', 17, 20, 17, 20, 0, 0),
    ])
    expect(critical(network)).toEqual(['A', 'B', 'D', 'E', 'F'])
  })

  test('a promised date before the early finish makes the float negative', () => {
    const network = smallNetwork({
      durations: { A: 4, B: 6, C: 3, D: 5, E: 2 },
      links: [
        ['A', 'B', 'FS', 0],
        ['A', 'C', 'FS', 0],
        ['B', 'D', 'FS', 0],
        ['C', 'D', 'FS', 0],
        ['D', 'E', 'FS', 0],
      ],
    })
    network.finishBy[4] = 14
    expect(table(network).map((r) => [r.LS, r.LF, r.totalFloat])).toEqual([
      [-3, 1, -3],
      [1, 7, -3],
      [4, 7, 0],
      [7, 12, -3],
      [12, 14, -3],
    ])
  })

  test('a driving path through two calendars may show float; the longest path tells what drives', () => {
    const zone = zoneFrom('2026-06-01', 'UTC', 2)
    const rule = { hoursPerDay: 8, holidays: [], windLimited: false }
    const calendars = new Map([
      [
        'six',
        calendarFrom(
          'six',
          {
            ...rule,
            days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'],
            shifts: [
              ['06:00', '12:00'],
              ['13:00', '17:00'],
            ],
          },
          zone,
        ),
      ],
      [
        'five',
        calendarFrom(
          'five',
          {
            ...rule,
            days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'],
            shifts: [
              ['07:00', '12:00'],
              ['13:00', '16:00'],
            ],
          },
          zone,
        ),
      ],
    ])
    const hours = (h: number) => [h * 3600, h * 3600, h * 3600] as const
    const { network } = networkOf({
      activities: {
        A: { ...chain('A'), calendar: 'six', work: hours(50) },
        B: { ...chain('B', 'A'), calendar: 'five', work: hours(24) },
        C: { ...chain('C'), calendar: 'five', work: hours(48) },
      },
      calendars,
      resources: {},
    })
    const rows = Object.fromEntries(table(network as Network).map((r) => [r.id, r]))
    const clock = (t: number | undefined): string => instantOf(zone, t as number).slice(0, 16)
    expect(clock(rows.A?.EF)).toBe('2026-06-05T17:00')
    expect(clock(rows.B?.ES)).toBe('2026-06-08T07:00')
    expect(clock(rows.B?.EF)).toBe('2026-06-10T16:00')
    expect(clock(rows.C?.EF)).toBe('2026-06-08T16:00')
    expect(clock(rows.C?.LS)).toBe('2026-06-03T07:00')
    expect(rows.C?.totalFloat).toBe(16 * 3600)
    expect(clock(rows.A?.LF)).toBe('2026-06-08T07:00')
    expect(rows.A?.totalFloat).toBe(11 * 3600)
    expect(critical(network as Network)).toEqual(['A', 'B'])
  })

  test('a circle of predecessors is named, not planned', () => {
    const activities = { A: chain('A', 'C'), B: chain('B', 'A'), C: chain('C', 'B'), D: chain('D') }
    const { circle } = networkOf({ activities, calendars: new Map([['always', ALWAYS]]), resources: {} })
    expect([...(circle ?? [])].sort()).toEqual(['A', 'B', 'C'])
  })

  test('of two circles the shorter is named, each activity before the next', () => {
    const activities = {
      A: chain('A', 'D'),
      B: chain('B', 'A'),
      C: chain('C', 'B', 'E'),
      D: chain('D', 'C'),
      E: chain('E', 'F'),
      F: chain('F', 'C'),
    }
    const { circle = [] } = networkOf({ activities, calendars: new Map([['always', ALWAYS]]), resources: {} })
    expect(circle).toHaveLength(3)
    for (const [i, id] of circle.entries()) {
      const next = circle[(i + 1) % circle.length] as keyof typeof activities
      expect(activities[next].after.map(({ to }) => to)).toContain(id)
    }
  })
})
