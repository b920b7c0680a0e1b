import { describe, expect, test } from 'vitest'
import { liftsOf, programmeOf, task, WORK } from '../programme/programme.fixture.ts'
import { measures } from './measures.ts'
import { climateOf, fixtures, type Small, simulated, small, windyStep } from './risk.fixture.ts'

const DAY = 86_400

test.each(Object.entries(fixtures))('%s passes, fails and is open', (_, made) => {
  expect(['pass', 'near']).toContain(made.pass().verdict)
  expect(made.fail().verdict).toBe('fail')
  expect(made.open().verdict).toBe('open')
})

const always = (more: Record<string, unknown>) => task({ calendar: 'always', ...more })
const typed = (
  activities: Record<string, unknown>,
  more: Record<string, unknown> = {},
  sections: Record<string, unknown> = {},
) => small({ programme: programmeOf({ activities, ...more }), ...sections })

describe('durations', () => {
  // Moments and quantiles of a triangular duration 10, 12, 20 (derived): mean 14, P10 11.414, P50 13.675, P80 16, P90 17.172.
  test('one activity has the quantiles of its three points', () => {
    const { restart } = simulated(typed({ A: always({ days: [10, 12, 20] }) }), { runs: 20_000 })
    expect(restart.mean / DAY).toBeCloseTo(14, 1)
    for (const [name, days] of [
      ['p10', 11.414214],
      ['p50', 13.675445],
      ['p80', 16],
      ['p90', 17.171573],
    ] as const)
      expect(Math.abs(restart[name] / DAY - days)).toBeLessThan(0.08)
  })

  // Mean of the larger of two triangular (0, 1, 2) days, by quadrature of F²: ∫(1 − F²) = 1.2333.
  test('two paths side by side end later on average than either: merge bias', () => {
    const both = typed(
      {
        A: always({ days: [0, 1, 2] }),
        B: always({ days: [0, 1, 2] }),
        Z: always({ days: [0, 0, 0], after: [{ to: 'A' }, { to: 'B' }] }),
      },
      { restart: 'Z' },
    )
    expect(simulated(both, { runs: 20_000 }).restart.mean / DAY).toBeCloseTo(1.2333, 2)
  })

  test('three points meant as P10 and P90 come back as those', () => {
    const { restart } = simulated(typed({ A: always({ days: [10, 12, 20] }) }, { points: 'P10 and P90' }), {
      runs: 20_000,
    })
    expect(Math.abs(restart.p10 / DAY - 10)).toBeLessThan(0.1)
    expect(Math.abs(restart.p90 / DAY - 20)).toBeLessThan(0.15)
  })

  test('durations that go together spread the sum wider, and leave its mean', () => {
    const row = Object.fromEntries(
      Array.from({ length: 10 }, (_, i) => [
        `A${i}`,
        always({ days: [10, 12, 20], after: i === 0 ? [] : [{ to: `A${i - 1}` }] }),
      ]),
    )
    const [alone, together] = [typed(row), typed(row, { correlation: 0.5 })].map((s) => simulated(s, { runs: 5000 }))
    const width = (r: typeof alone): number => ((r?.restart.p90 ?? 0) - (r?.restart.p10 ?? 0)) / DAY
    // standard deviations √10·2.16 = 6.83 and 2.16·√(10(1 + 9·0.48)) = 15.8 days (rank correlation of a normal copula 0.48)
    expect(width(together) / width(alone)).toBeGreaterThan(2)
    expect(((together?.restart.mean ?? 0) - (alone?.restart.mean ?? 0)) / DAY).toBeLessThan(1)
  })
})

describe('forms of duration', () => {
  const one = (durations: string) => typed({ A: always({ days: [10, 12, 20] }) }, { durations })

  // Scaled beta 10, 12, 20 (derived; α 1.8, β 4.2): mean 13, P10 10.899, P50 12.767, P80 14.503, P90 15.453.
  test('PERT has the mean (a + 4m + b)/6 and the quantiles of its beta', () => {
    const { restart } = simulated(one('PERT'), { runs: 20_000 })
    expect(restart.mean / DAY).toBeCloseTo(13, 1)
    for (const [name, days] of [
      ['p10', 10.899021],
      ['p50', 12.766723],
      ['p80', 14.502586],
      ['p90', 15.453341],
    ] as const)
      expect(Math.abs(restart[name] / DAY - days)).toBeLessThan(0.08)
  })

  test('PERT points meant as P10 and P90 come back as those', () => {
    const made = typed({ A: always({ days: [10, 12, 20] }) }, { durations: 'PERT', points: 'P10 and P90' })
    const { restart } = simulated(made, { runs: 20_000 })
    expect(Math.abs(restart.p10 / DAY - 10)).toBeLessThan(0.12)
    expect(Math.abs(restart.p90 / DAY - 20)).toBeLessThan(0.2)
  })

  test('a lognormal passes its greatest once in a hundred, and has no end', () => {
    const { sorted } = simulated(one('lognormal'), { runs: 20_000 })
    expect(sorted.filter((t) => t > 20 * DAY).length / sorted.length).toBeCloseTo(0.01, 2)
    expect((sorted.at(-1) as number) / DAY).toBeGreaterThan(20.5)
  })
})

describe('common causes and repetitions', () => {
  const row = Object.fromEntries(
    Array.from({ length: 10 }, (_, i) => [
      `A${i}`,
      always({ days: [10, 10, 10], after: i === 0 ? [] : [{ to: `A${i - 1}` }] }),
    ]),
  )
  const slow = { slow: { what: 'Slow gang', factor: [1, 1, 1.6], activities: Object.keys(row) } }

  // One factor of mean 1.2 and standard deviation 0.1414 on 100 days (derived): 120 and 14.14 days, not 14.14/√10.
  test('one cause stretches all it touches alike: the spread adds straight', () => {
    const { restart, drivers } = simulated(typed(row, { causes: slow }), { runs: 10_000 })
    expect(restart.mean / DAY).toBeCloseTo(120, 0)
    // P90 of a triangular 1, 1, 1.6: 1.6 − 0.6·√0.1 = 1.41026
    expect(restart.p90 / DAY).toBeCloseTo(141.03, 0)
    expect(drivers[0]).toMatchObject({ id: 'slow' })
    expect(drivers[0]?.share).toBeCloseTo(1, 6)
  })

  test('held still, a cause costs nothing; with a chance, it costs its chance of it', () => {
    expect(simulated(typed(row, { causes: slow }), { frozen: ['slow'] }).restart.p90).toBe(100 * DAY)
    const seldom = { slow: { ...slow.slow, probability: 0.25 } }
    const { sorted } = simulated(typed(row, { causes: seldom }), { runs: 10_000 })
    expect(sorted.filter((t) => t > 100 * DAY).length / sorted.length).toBeCloseTo(0.25, 1)
  })

  // Fails with 0.4 each time: 0.4/0.6 repetitions of 3 days on average, and 0.6 of the runs without one (derived).
  test('a test that fails is done again until it passes', () => {
    const failing = { A: { chance: 0.4, againDays: [3, 3, 3] } }
    const { sorted, restart } = simulated(typed({ A: always({ days: [1, 1, 1] }) }, { failing }), { runs: 20_000 })
    expect(restart.mean / DAY - 1).toBeCloseTo((0.4 / 0.6) * 3, 1)
    expect(sorted.filter((t) => t === DAY).length / sorted.length).toBeCloseTo(0.6, 1)
    expect(sorted.filter((t) => t > 1.5 * DAY && t < 4.5 * DAY).length / sorted.length).toBeCloseTo(0.24, 1)
  })
})

describe('events', () => {
  const event = { risk: 'Bearing late', probability: 0.3, delayDays: [5, 10, 24], cost: 1000, activities: ['A'] }
  const plain = { A: always({ days: [1, 1, 1] }) }

  // Event of chance 0.3 with a triangular delay 5, 10, 24 (derived): mean 3.9, P80 10.683, P90 14.584 days.
  test('an event delays by its chance and its three points', () => {
    const { restart, cost } = simulated(typed(plain, {}, { risks: { R1: event } }), { runs: 20_000 })
    expect(restart.mean / DAY - 1).toBeCloseTo(3.9, 0)
    expect(restart.p50 / DAY - 1).toBe(0)
    expect(Math.abs(restart.p80 / DAY - 1 - 10.683)).toBeLessThan(0.3)
    expect(Math.abs(restart.p90 / DAY - 1 - 14.584)).toBeLessThan(0.3)
    expect(cost.mean).toBeGreaterThan(280)
  })

  test('a mitigation lowers the chance, so that no percentile gets later', () => {
    const made = typed(
      plain,
      {},
      { risks: { R1: { ...event, mitigation: { what: 'Reserved slot', probabilityAfter: 0.1, cost: 500 } } } },
    )
    const [before, after] = [simulated(made), simulated(made, { mitigations: ['R1'] })]
    for (const name of ['p10', 'p50', 'p80', 'p90'] as const)
      expect(after.restart[name]).toBeLessThanOrEqual(before.restart[name])
    expect(after.restart.mean).toBeLessThan(before.restart.mean)
    const bought = measures(made.programme, made.lifts, made.model, { runs: 500, seed: 1 })?.measures[0]
    expect(bought).toMatchObject({ id: 'R1', price: 500 })
    expect(bought?.savedP80).toBe((before.restart.p80 - after.restart.p80) / DAY)
  })

  test('an event that strikes each activity comes twice as often as one that strikes once', () => {
    const two = { A: always({ days: [1, 1, 1] }), B: always({ days: [1, 1, 1], after: [{ to: 'A' }] }) }
    const of = (applies: string) =>
      simulated(typed(two, {}, { risks: { R1: { ...event, activities: ['A', 'B'], applies } } }), { runs: 10_000 })
        .restart.mean /
        DAY -
      2
    expect(of('each') / of('once')).toBeCloseTo(2, 0)
  })

  test('events that go together happen together more often', () => {
    const two = { A: always({ days: [1, 1, 1] }), B: always({ days: [1, 1, 1], after: [{ to: 'A' }] }) }
    const risks = {
      R1: { ...event, delayDays: [10, 10, 10] },
      R2: { ...event, delayDays: [10, 10, 10], activities: ['B'] },
    }
    const both = (r: number): number => {
      const { sorted } = simulated(typed(two, {}, { risks, correlations: { C: { between: ['R1', 'R2'], r } } }), {
        runs: 10_000,
      })
      return sorted.filter((t) => t > 20 * DAY).length / sorted.length
    }
    expect(both(0)).toBeCloseTo(0.09, 1)
    expect(both(0.8)).toBeGreaterThan(0.16)
  })

  test('a risk on nothing in the network is named', () => {
    expect(simulated(typed(plain, {}, { risks: { R1: { ...event, activities: ['A'] } } })).lost).toEqual([])
    const gone = small({ ...windyStep(), risks: { R1: { ...event, activities: ['S1.turn.none'] } } })
    expect(simulated(gone).lost).toEqual(['R1'])
  })
})

describe('wind', () => {
  const at = (wind: number) => small(windyStep(), liftsOf({ 'crown-out': { hours: 5, wind } }))

  test('lowering one lift’s wind limit moves the restart later, in no run earlier', () => {
    const [loose, strict] = [simulated(at(11)), simulated(at(8))]
    expect(strict.restart.p80).toBeGreaterThan(loose.restart.p80)
    expect(strict.windWait).toBeGreaterThan(loose.windWait)
    strict.sorted.forEach((t, i) => {
      expect(t).toBeGreaterThanOrEqual(loose.sorted[i] as number)
    })
  })

  test('the plan’s allowance for wind gives way to the wind itself', () => {
    const work = { ...WORK, resumeBefore: ['Z'], windAllowance: '8 h' }
    const [bare, allowed] = [windyStep(), windyStep({}, { work })].map((d) =>
      small(d, liftsOf({ 'crown-out': { hours: 5, wind: 11 } })),
    )
    expect(allowed?.programme.restart).toBeGreaterThan(bare?.programme.restart as number)
    expect(simulated(allowed as Small).restart).toEqual(simulated(bare as Small).restart)
  })

  test('a limit that the wind never reaches costs nothing', () => {
    expect(simulated(at(200)).windWait).toBe(0)
    expect(simulated(at(200)).restart).toEqual(simulated(at(200), { frozen: ['wind'] }).restart)
  })

  test('a limit that the wind is never below leaves the lift without a window, and says so', () => {
    expect(simulated(at(0.001), { runs: 3 }).stuck).toContain('S1.out')
  })

  test('a limit that is not known is named and leaves the checks open', () => {
    const unknown = small(windyStep(), liftsOf({ 'crown-out': { hours: 5 } }))
    expect(simulated(unknown).open).toContain('/lifts/crown-out/wind')
  })

  test('wind that holds on makes the spread wider than wind without memory', () => {
    const of = (persistence: number) => {
      const made = small(
        windyStep({ climate: climateOf({ persistence }) }),
        liftsOf({ 'crown-out': { hours: 4, wind: 12 } }),
      )
      const { restart } = simulated(made, { runs: 2000, frozen: ['A'] })
      return restart.p90 - restart.p10
    }
    expect(of(0.98)).toBeGreaterThan(of(0.5))
  })
})

describe('a lift let go on a forecast', () => {
  const policy = (sees: string, go = 1) => ({ windPolicy: { sees, go, again: '2 h' } })
  const at = (more: Record<string, unknown>, noReturn = 0) =>
    simulated(small(windyStep({}, more), liftsOf({ 'crown-out': { hours: 6, wind: 11, noReturn } })), { runs: 1000 })

  test('a forecast that sees the whole lift is as good as knowing the wind', () => {
    expect(at(policy('48 h')).restart).toEqual(at({}).restart)
    expect(at(policy('48 h')).falseStarts).toBe(0)
    expect(at(policy('48 h'), 4).falseStarts).toBe(0)
  })

  test('one that sees less than the way to the point of no return has lifts set back, and a later point more of them', () => {
    expect(at(policy('1 h'), 0).falseStarts).toBe(0)
    const [early, late] = [at(policy('1 h'), 2).falseStarts, at(policy('1 h'), 4).falseStarts]
    expect(early).toBeGreaterThan(0)
    expect(late).toBeGreaterThan(early)
  })

  test('a point of no return that is not known is named, and only where lifts go on a forecast', () => {
    const lifts = liftsOf({ 'crown-out': { hours: 6, wind: 11 } })
    const unknown = { lifts: { 'crown-out': { ...lifts.lifts['crown-out'], pointOfNoReturn: undefined } } } as never
    expect(
      simulated(small(windyStep({}, policy('5 h')), { ...lifts, ...(unknown as object) }), { runs: 5 }).open,
    ).toContain('/lifts/crown-out')
    expect(simulated(small(windyStep(), { ...lifts, ...(unknown as object) }), { runs: 5 }).open).toEqual([])
  })

  test('one that sees little lets lifts go that are caught by the wind: they wait in the air', () => {
    const [near, far] = [at(policy('1 h')), at(policy('5 h'))]
    expect(near.windWait).not.toBe(far.windWait)
    expect(near.restart.mean).not.toBe(far.restart.mean)
  })

  test('a lower go wind at the start waits longer before, in no run shorter', () => {
    const [bold, careful] = [at(policy('48 h', 1)), at(policy('48 h', 0.7))]
    careful.sorted.forEach((t, i) => {
      expect(t).toBeGreaterThanOrEqual(bold.sorted[i] as number)
    })
  })
})

describe('what the numbers are worth', () => {
  // Merge of two triangular (0, 1, 2) days: mean 1.2333 against 1 of either (by quadrature, as above).
  test('merge bias is what the latest of several paths costs beyond the mean of each', () => {
    const both = typed(
      {
        A: always({ days: [0, 1, 2] }),
        B: always({ days: [0, 1, 2] }),
        Z: always({ days: [0, 0, 0], after: [{ to: 'A' }, { to: 'B' }] }),
      },
      { restart: 'Z' },
    )
    const [merge, ...others] = simulated(both, { runs: 20_000 }).merges
    expect(merge).toMatchObject({ id: 'Z', paths: 2 })
    expect((merge?.bias as number) / DAY).toBeCloseTo(0.2333, 1)
    expect(others).toEqual([])
  })

  // √(p(1 − p)/N)/f for a triangular 0, 5, 10 at its median, where f = 0.2: 0.5/√20000/0.2 = 0.01768 days (derived).
  test('the standard error of a percentile is that of order statistics, and falls with the root of the runs', () => {
    const made = typed({ A: always({ days: [0, 5, 10] }) })
    const [few, many] = [simulated(made, { runs: 5000 }), simulated(made, { runs: 20_000 })]
    expect(many.error.p50 / DAY / 0.01768).toBeCloseTo(1, 0)
    expect(few.error.p50 / many.error.p50).toBeCloseTo(2, 0)
    // mean: standard deviation 2.041 days over √20000
    expect(many.error.mean / DAY).toBeCloseTo(2.041 / Math.sqrt(20_000), 3)
  })

  test('a day costs what stands, and damages once they run', () => {
    const made = typed(
      { A: always({ days: [10, 10, 10] }) },
      { standingCostPerDay: 10, damagesPerDay: 7, damagesFrom: '2031-12-01' },
    )
    expect(simulated(made).day).toEqual({ p50: 10, p80: 10 })
    const late = typed(
      { A: always({ days: [40, 40, 40] }) },
      { standingCostPerDay: 10, damagesPerDay: 7, damagesFrom: '2031-12-01' },
    )
    expect(simulated(late).day).toEqual({ p50: 17, p80: 17 })
  })

  test('what a driver costs is known better than either restart: both meet the same numbers', () => {
    const event = { risk: 'Bearing late', probability: 0.3, delayDays: [5, 10, 24], cost: 0, activities: ['A'] }
    const mitigated = { ...event, mitigation: { what: 'Reserved slot', probabilityAfter: 0.1, cost: 500 } }
    const made = typed({ A: always({ days: [50, 60, 90] }) }, {}, { risks: { R1: mitigated } })
    const found = measures(made.programme, made.lifts, made.model, { runs: 4000, seed: 1 })
    const [bought] = found?.measures ?? []
    expect(bought?.errorP50).toBeLessThan((found?.base.error.p50 ?? 0) / DAY)
    expect(bought?.perDay).toBeCloseTo(500 / (bought?.savedP80 as number), 6)
    expect(found?.still.map(({ id }) => id).sort()).toEqual(['A', 'R1'])
    expect(found?.still.every(({ savedP80 }) => savedP80 > 0)).toBe(true)
  })
})

describe('resources and repeatability', () => {
  const crane = (capacity: number) =>
    typed(
      {
        A: always({ days: [5, 6, 9], needs: { crane: 1 } }),
        B: always({ days: [5, 6, 9], needs: { crane: 1 } }),
        Z: always({ days: [0, 0, 0], after: [{ to: 'A' }, { to: 'B' }] }),
      },
      { restart: 'Z', resources: { crane: { name: 'Crane', kind: 'plant', capacity } } },
    )

  test('taking away the constraint of a resource moves no percentile later', () => {
    const [one, two] = [simulated(crane(1)), simulated(crane(2))]
    for (const name of ['p10', 'p50', 'p80', 'p90'] as const) expect(two.restart[name]).toBeLessThan(one.restart[name])
  })

  test('the same seed gives the same answer, another seed another', () => {
    expect(simulated(crane(1), { seed: 5 })).toEqual(simulated(crane(1), { seed: 5 }))
    expect(simulated(crane(1), { seed: 6 }).restart.mean).not.toBe(simulated(crane(1), { seed: 5 }).restart.mean)
  })

  test('every activity has numbers of its own: one more beside leaves the others’ as they were', () => {
    const alone = typed({ A: always({ days: [5, 6, 9] }), B: always({ days: [1, 1, 2], after: [{ to: 'A' }] }) })
    const beside = typed(
      {
        N: always({ days: [1, 1, 3] }),
        A: always({ days: [5, 6, 9] }),
        B: always({ days: [1, 1, 2], after: [{ to: 'A' }] }),
      },
      { restart: 'B' },
    )
    expect(simulated(beside).restart).toEqual(simulated(alone).restart)
  })

  test('shares of the spread add up to one, and the only thing that varies has all of it', () => {
    const made = typed({ A: always({ days: [5, 6, 9] }), B: always({ days: [3, 3, 3], after: [{ to: 'A' }] }) })
    const { drivers, criticality } = simulated(made)
    expect(drivers.reduce((sum, d) => sum + d.share, 0)).toBeCloseTo(1, 9)
    expect(drivers[0]).toMatchObject({ id: 'A' })
    expect(drivers[0]?.share).toBeCloseTo(1, 6)
    expect(criticality).toEqual({ A: 1, B: 1 })
  })

  test('three even paths are on time in about one run of eight', () => {
    const paths = Object.fromEntries(['A', 'B', 'C'].map((id) => [id, always({ days: [2, 5, 8] })]))
    const made = typed(
      { ...paths, Z: always({ days: [0, 0, 0], after: Object.keys(paths).map((to) => ({ to })) }) },
      { restart: 'Z' },
    )
    const { sorted, planned } = simulated(made, { runs: 8000 })
    expect(sorted.filter((t) => t <= planned).length / sorted.length).toBeCloseTo(0.125, 1)
  })

  test('it stops when told, with the runs made so far', () => {
    let asked = 0
    const result = simulated(crane(1), { runs: 1000, shouldContinue: () => ++asked < 3 })
    expect(result.runs).toBe(150)
    expect(result.sorted).toHaveLength(150)
  })

  test('fixed, standing and daily costs and damages add up', () => {
    const made = typed(
      { A: always({ days: [10, 10, 10], needs: { crane: 2 }, fixedCost: 500 }) },
      {
        resources: { crane: { name: 'Crane', kind: 'plant', capacity: 2, costPerDay: 100 } },
        standingCostPerDay: 10,
        damagesPerDay: 7,
        damagesFrom: '2031-11-08',
      },
    )
    expect(simulated(made).cost.mean).toBeCloseTo(500 + 10 * 2 * 100 + 10 * 10 + 5 * 7, 6)
  })
})

describe('a site that decides anew whenever something ends', () => {
  const needs = (crane: number) => ({ needs: { crane } })
  const three = {
    resources: { crane: { name: 'Crane', kind: 'plant', capacity: 3 } },
    restart: 'Z',
  }
  const network = (days: Record<string, readonly number[]>) => ({
    A: always({ days: days.A, ...needs(2) }),
    B: always({ days: days.B, ...needs(2) }),
    C: always({ days: days.C, after: [{ to: 'A' }], ...needs(1) }),
    D: always({ days: days.D, after: [{ to: 'B' }], ...needs(2) }),
    E: always({ days: days.E, after: [{ to: 'C' }], ...needs(1) }),
    Z: always({ days: [0, 0, 0], after: ['C', 'D', 'E'].map((to) => ({ to })) }),
  })

  // Worked by hand, three units: A 0-2; B beside it does not fit, 2-5 with C 2-4; E 4-7; D from 5, 5-6: 7 days.
  test('with durations as planned it ends when the plan ends', () => {
    const days = { A: [2, 2, 2], B: [3, 3, 3], C: [2, 2, 2], D: [1, 1, 1], E: [3, 3, 3] }
    const { listed, restart } = simulated(typed(network(days), three), { byList: true })
    expect(listed?.p50).toBe(7 * DAY)
    expect(restart.p50).toBe(7 * DAY)
  })

  // Each activity takes its first length, or its second with the chance given: 2⁴ cases, exact under either policy.
  test('random lengths under one resource agree with every case worked out', () => {
    const long: Record<string, readonly [number, number]> = { A: [3, 0.5], B: [1, 0.4], D: [3, 0.5], E: [3, 0.3] }
    const days = { A: [2, 2, 2], B: [3, 3, 3], C: [2, 2, 2], D: [1, 1, 1], E: [3, 3, 3] }
    const risks = Object.fromEntries(
      Object.entries(long).map(([id, [more, probability]]) => [
        `R${id}`,
        { risk: 'Longer', probability, delayDays: [more, more, more], activities: [id] },
      ]),
    )
    let [mean, total] = [0, 0]
    for (let which = 0; which < 16; which++) {
      const struck = Object.keys(long).filter((_, i) => which & (1 << i))
      const chance = Object.entries(long).reduce((p, [id, [, q]]) => p * (struck.includes(id) ? q : 1 - q), 1)
      const sure = Object.fromEntries(
        Object.entries(risks).map(([id, r]) => [id, { ...r, probability: struck.includes(id.slice(1)) ? 1 : 0 }]),
      )
      mean +=
        chance * (simulated(typed(network(days), three, { risks: sure }), { runs: 2, byList: true }).listed?.mean ?? 0)
      total += chance
    }
    expect(total).toBeCloseTo(1, 12)
    const { listed } = simulated(typed(network(days), three, { risks }), { runs: 20_000, byList: true })
    expect(Math.abs((listed?.mean ?? 0) - mean) / DAY).toBeLessThan(0.06)
  })

  test('it ends near the plan’s own policy, and never before the longest path', () => {
    const made = typed(network({ A: [1, 2, 9], B: [1, 3, 8], C: [1, 2, 3], D: [1, 1, 5], E: [2, 3, 9] }), three)
    const { listed, restart } = simulated(made, { runs: 2000, byList: true })
    // deciding anew may gain or lose against the plan's hand-overs, but not below the longest path without resources
    expect(listed?.p10).toBeGreaterThan(5 * DAY)
    expect(Math.abs((listed?.mean ?? 0) - restart.mean) / DAY).toBeLessThan(3)
  })
})
