import { describe, expect, test } from 'vitest'
import { lowerBound } from './bound.ts'
import { resourceFlow, withHandOvers } from './flow.ts'
import { planOf, quickPlan } from './improve.ts'
import { earlyDates, finishes } from './passes.ts'
import { programmeFor, programmeOf, task } from './programme.fixture.ts'
import { improvePlan } from './proposal.ts'
import { violations } from './residual.ts'
import { searchPlan } from './search.ts'
import { smallNetwork } from './small.fixture.ts'

// Enumerated (derived): no priority order lets the parallel scheme reach the optimum of 9.
const tricky = smallNetwork({
  durations: { '1': 1, '2': 3, '3': 1, '4': 1, '5': 4, '6': 3 },
  capacities: [4, 5],
  needs: { '1': [1, 1], '2': [0, 4], '3': [2, 4], '4': [4, 2], '5': [4, 1], '6': [0, 4] },
  links: [
    ['1', '3', 'FS', 0],
    ['1', '4', 'FS', 0],
    ['3', '6', 'FS', 0],
  ],
})

describe('search for an earlier plan', () => {
  test('it reaches an optimum that greedy schemes miss', () => {
    const { plan, ended } = searchPlan(tricky, { effort: 200, seed: 1, bound: 9 })
    expect([plan.end, ended]).toEqual([9, 'bound reached'])
  })

  test('same seed and effort, same plan; it is never later than the quick plan', () => {
    const [a, b] = [searchPlan(tricky, { effort: 50, seed: 3 }), searchPlan(tricky, { effort: 50, seed: 3 })]
    expect(a).toEqual(b)
    expect(a.plan.end).toBeLessThanOrEqual(quickPlan(tricky).end)
    expect(violations(tricky, a.plan.dates)).toEqual([])
  })

  test('it ends when told', () => {
    expect(searchPlan(tricky, { effort: 1e9, seed: 1, shouldContinue: () => false }).ended).toBe('stopped')
  })

  test('a proposal adopted as the sequence gives the plan it promised', () => {
    const activities = Object.fromEntries(
      [4, 7, 3, 6, 2, 5, 8, 1].map((d, i) => [
        `A${i}`,
        task({ days: [d, d, d], needs: { crane: i % 2 === 0 ? 1 : 2 } }),
      ]),
    )
    const resources = { crane: { name: 'Crane', kind: 'plant', capacity: 3 } }
    const standing = programmeFor({ programme: programmeOf({ resources, activities }) })
    const proposal = improvePlan(standing, { effort: 300, seed: 1 })
    expect(proposal?.restart).toBeLessThanOrEqual(standing.restart as number)
    const adopted = programmeFor({ programme: programmeOf({ resources, activities, sequence: proposal?.sequence }) })
    expect(adopted.restart).toBeLessThanOrEqual((proposal?.restart ?? 0) + 1)
    expect(adopted.basis).toBe('adopted sequence')
  })
})

describe('bounds', () => {
  // Derived by enumeration: path 10, work 14, optimum 17; path 11, work 13, optimum 16.
  test('work on a scarce resource rules out more than the longest path', () => {
    const low = lowerBound(tricky, 9, 0.01)
    expect(low.kind).toBe('resource')
    expect(low.value).toBeGreaterThan(finishes(tricky, earlyDates(tricky)).end)
    expect(low.value).toBeLessThanOrEqual(9)
  })

  test('no bound is above a plan that can be carried out', () => {
    for (let seed = 1; seed < 20; seed++) {
      const durations = Object.fromEntries(
        Array.from({ length: 8 }, (_, i) => [String(i), 1 + ((seed * 7 + i * 3) % 6)]),
      )
      const needs = Object.fromEntries(Array.from({ length: 8 }, (_, i) => [String(i), [1 + ((seed + i) % 3)]]))
      const network = smallNetwork({
        durations,
        capacities: [4],
        needs,
        links: [
          ['0', '5', 'FS', 0],
          ['1', '6', 'FS', 0],
        ],
      })
      const plan = quickPlan(network)
      expect(lowerBound(network, plan.end, 0.01).value).toBeLessThanOrEqual(plan.end)
    }
  })
})

describe('hand-overs of resources', () => {
  test('as links they give the plan’s own dates or earlier ones, and keep every resource', () => {
    const plan = quickPlan(tricky)
    const bound = withHandOvers(tricky, resourceFlow(tricky, plan.dates))
    const again = planOf(tricky, earlyDates(bound))
    expect(again.end).toBeLessThanOrEqual(plan.end)
    expect(violations(tricky, again.dates)).toEqual([])
  })

  test('longer durations on the hand-overs never end earlier', () => {
    const plan = quickPlan(tricky)
    const bound = withHandOvers(tricky, resourceFlow(tricky, plan.dates))
    const longer = { ...bound, work: bound.work.map((w, i) => w + (i === 2 ? 1 : 0)) }
    expect(finishes(longer, earlyDates(longer)).end).toBeGreaterThanOrEqual(finishes(bound, earlyDates(bound)).end)
  })
})
