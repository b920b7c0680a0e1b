import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { proveExact } from './exact.ts'
import { quickPlan } from './improve.ts'
import { violations } from './residual.ts'
import { byEnumeration, networks } from './shifts.fixture.ts'

describe('a plan on shifts, with lags and lifts in one piece', () => {
  test('is proven the earliest where trying every order finds none earlier', () => {
    let shortened = 0
    fc.assert(
      fc.property(networks, (network) => {
        const plan = quickPlan(network)
        const least = byEnumeration(network)
        if (!Number.isFinite(plan.end)) return
        const found = proveExact(network, { effort: 20_000, plan, bound: 0 })
        expect(found.closed).toBe(true)
        expect(found.plan.end).toBeCloseTo(least, 6)
        expect(found.bound).toBeLessThanOrEqual(least)
        expect(found.bound).toBeGreaterThanOrEqual(least - 1.001)
        const broken = violations(network, found.plan.dates).filter(
          ({ what }) => !what.startsWith('to be in one piece'),
        )
        expect(broken).toEqual([])
        if (least < plan.end - 1e-6) shortened++
      }),
      { numRuns: 800, seed: 3, endOnFailure: true },
    )
    expect(shortened).toBeGreaterThan(3)
  })

  test('whose durations are no whole numbers gets a bound that no order undercuts', () => {
    fc.assert(
      fc.property(networks, fc.integer({ min: 1, max: 9 }), (network, tenths) => {
        const broken = { ...network, work: network.work.map((w) => w + tenths / 10) }
        const plan = quickPlan(broken)
        if (!Number.isFinite(plan.end)) return
        const found = proveExact(broken, { effort: 20_000, plan, bound: 0 })
        expect(found.bound).toBeLessThanOrEqual(byEnumeration(broken) + 1e-6)
      }),
      { numRuns: 300, seed: 9, endOnFailure: true },
    )
  })
})
