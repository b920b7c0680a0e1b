import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Bound, lowerBound } from './bound.ts'
import { evidenceFaults } from './evidence.ts'
import { quickPlan } from './improve.ts'
import { byEnumeration, networks } from './shifts.fixture.ts'
import { smallNetwork } from './small.fixture.ts'

/** Three jobs of 4 h that each need the whole tower, after 2 h of rigging and before 1 h of tests: 2 + 12 + 1. */
const tower = smallNetwork({
  durations: { rig: 2, a: 4, b: 4, c: 4, test: 1 },
  capacities: [1],
  needs: { a: [1], b: [1], c: [1] },
  links: ['a', 'b', 'c'].flatMap((job): ['rig' | string, string, 'FS', 0][] => [
    ['rig', job, 'FS', 0],
    [job, 'test', 'FS', 0],
  ]),
})
const found = lowerBound(tower, 15, 0.01)

describe('evidence of a bound', () => {
  test('names the resource, its span and the work that lies whole in it', () => {
    expect(found.value).toBeGreaterThan(14.9)
    expect(found).toMatchObject({ kind: 'resource', resource: 'R1', units: 1, from: 2, needed: 12 })
    expect(found.work?.map(({ activity }) => activity).sort()).toEqual(['a', 'b', 'c'])
    expect(evidenceFaults(tower, found)).toEqual([])
  })

  test.each<[string, Partial<Bound>, string]>([
    ['a later date than the work rules out', { value: 15.5 }, 'can finish after'],
    ['an earlier begin of the span', { from: 1, there: 11 }, 'there are 12.9921875 s'],
    ['a later begin of the span', { from: 3, there: 11 }, 'a can start before 3 s'],
    ['more than its activities need', { needed: 13 }, 'the activities named need 12 s, not 13 s'],
    ['less than there is', { there: 3 }, 'of R1, not 3 s'],
    ['no more than there is', { needed: 11, work: [{ activity: 'a', needed: 4 }] }, 'the activities named need 4 s'],
    [
      'one activity twice',
      { work: ['a', 'b', 'b'].map((activity) => ({ activity, needed: 4 })) },
      'b is counted twice',
    ],
    ['an activity that is not there', { work: [{ activity: 'z', needed: 12 }] }, 'there is no activity z'],
    ['an activity that needs none of it', { work: [{ activity: 'rig', needed: 12 }] }, 'rig does not need 12 s'],
    ['another resource', { resource: 'R2' }, 'it names no resource'],
    ['a longer path than there is', { kind: 'path', value: 8 }, 'the longest path ends at 7 s, not at 8 s'],
  ])('that claims %s is refused', (_, change, fault) => {
    expect(evidenceFaults(tower, { ...found, ...change }).join('\n')).toContain(fault)
  })

  test('holds for every bound that is found on shifts, with lags and work in one piece', () => {
    let byResource = 0
    fc.assert(
      fc.property(networks, (network) => {
        const plan = quickPlan(network)
        if (!Number.isFinite(plan.end)) return
        const bound = lowerBound(network, plan.end, 0.01)
        expect(evidenceFaults(network, bound)).toEqual([])
        if (bound.kind === 'resource') byResource++
      }),
      { numRuns: 500, seed: 11 },
    )
    expect(byResource).toBeGreaterThan(30)
  })

  test('never holds for a date by which some order is done', () => {
    const numbers = fc.record({
      from: fc.nat(30),
      long: fc.integer({ min: 1, max: 40 }),
      kept: fc.array(fc.boolean(), { minLength: 5, maxLength: 5 }),
    })
    let refused = 0
    fc.assert(
      fc.property(networks, numbers, (network, { from, long, kept }) => {
        const least = byEnumeration(network)
        if (!Number.isFinite(least)) return
        for (const [r, resource] of network.resources.entries()) {
          const work = network.ids.flatMap((activity, i) => {
            const at = network.needs.resource.indexOf(r, network.needs.first[i])
            const own = at >= 0 && at < (network.needs.first[i + 1] as number)
            return own && kept[i]
              ? [{ activity, needed: (network.needs.amount[at] as number) * (network.work[i] as number) }]
              : []
          })
          const needed = work.reduce((n, w) => n + w.needed, 0)
          const forged = {
            value: least,
            kind: 'resource',
            resource,
            from,
            to: from + long,
            needed,
            there: needed - 1,
            work,
          } as const
          expect(evidenceFaults(network, forged)).not.toEqual([])
          refused++
        }
      }),
      { numRuns: 300, seed: 12 },
    )
    expect(refused).toBeGreaterThan(300)
  })
})
