import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Instance } from './instance.ts'
import { modelOfInstance, reachOf } from './modelOfInstance.ts'
import { type Line, proverOf } from './prove.ts'
import { scheduleFaults } from './rcpsp.ts'
import { replay } from './replay.ts'
import { fullSets, sharesSourceOf } from './shares.ts'

/** Jobs between a start and an end that take no time; links go to later ones. */
const small: fc.Arbitrary<Instance> = fc
  .tuple(
    fc.array(fc.record({ duration: fc.integer({ min: 1, max: 5 }), needs: fc.tuple(fc.nat(4), fc.nat(4)) }), {
      minLength: 3,
      maxLength: 7,
    }),
    fc.array(fc.tuple(fc.nat(6), fc.nat(6)), { maxLength: 5 }),
    fc.tuple(fc.integer({ min: 4, max: 7 }), fc.integer({ min: 4, max: 7 })),
  )
  .map(([jobs, links, capacities]) => {
    const n = jobs.length + 2
    const own = links.flatMap(([a, b]) => (a < b && b < jobs.length ? [[a + 1, b + 1] as const] : []))
    const after = (i: number): number[] => own.flatMap(([a, b]) => (a === i ? [b] : []))
    return {
      durations: [0, ...jobs.map((j) => j.duration), 0],
      successors: Array.from({ length: n }, (_, i) =>
        i === 0 ? jobs.map((_, j) => j + 1) : i === n - 1 ? [] : [...after(i), n - 1],
      ),
      needs: [[0, 0], ...jobs.map((j) => [...j.needs]), [0, 0]],
      capacities: [...capacities],
    }
  })

const horizonOf = ({ durations }: Instance): number => durations.reduce((a, b) => a + b, 0)

/** All sets of jobs with time that fit together and are not linked, by trying each. */
function setsByTrial({ durations, successors, needs, capacities }: Instance): string[] {
  const jobs = durations.flatMap((d, j) => (d > 0 ? [j] : []))
  const reach = reachOf(successors)
  const fit = (set: readonly number[]): boolean =>
    capacities.every((c, k) => set.reduce((sum, j) => sum + (needs[j]?.[k] as number), 0) <= c) &&
    set.every((a) => set.every((b) => !reach[a]?.has(b)))
  const all = Array.from({ length: 1 << jobs.length }, (_, bits) => jobs.filter((_, i) => (bits >> i) & 1)).filter(fit)
  const isFull = (set: readonly number[]): boolean => jobs.every((j) => set.includes(j) || !fit([...set, j]))
  return all.filter(isFull).map(String).sort()
}

const project = (needs: readonly number[], capacity: number, duration = 4): Instance => {
  const n = needs.length + 2
  return {
    durations: [0, ...needs.map(() => duration), 0],
    successors: Array.from({ length: n }, (_, i) => (i === 0 ? needs.map((_, j) => j + 1) : i < n - 1 ? [n - 1] : [])),
    needs: [[0], ...needs.map((need) => [need]), [0]],
    capacities: [capacity],
  }
}

describe('shares: what can run together has no more than the whole', () => {
  test('of five jobs of which two fit at once each has a half', () => {
    const [shares] = sharesSourceOf(project([2, 2, 2, 2, 2], 5), 30).first()
    expect(shares?.items.map(({ share }) => share / (shares.whole as number))).toEqual([0.5, 0.5, 0.5, 0.5, 0.5])
  })

  test('of two that fit only alone each has the whole, and one that fits beside both has none', () => {
    const [shares] = sharesSourceOf(project([4, 4, 1], 5), 30).first()
    expect(shares?.items.map(({ start, share }) => [start, share / (shares.whole as number)])).toEqual([
      [1, 1],
      [2, 1],
    ])
  })

  test('the sets that can run together are those that trying each finds', () => {
    fc.assert(
      fc.property(small, (instance) => {
        const found = fullSets(instance) as number[][]
        expect(found.map((set) => String([...set].sort((a, b) => a - b))).sort()).toEqual(setsByTrial(instance))
      }),
    )
  })

  test('where far too much can run together, no sets are listed', () => {
    expect(fullSets(project(new Array(60).fill(1), 30))).toBeUndefined()
  })

  test('proofs with and without them agree, and replay line by line', () => {
    const told = { shares: 0, learnt: 0 }
    fc.assert(
      fc.property(small, (instance) => {
        const model = modelOfInstance(instance, horizonOf(instance))
        const lines: Line[] = []
        const plain = proverOf(model).go(100_000)
        const source = sharesSourceOf(instance, horizonOf(instance))
        const options = { shares: source, sharesAfter: 0, isNear: () => true, note: (line: Line) => lines.push(line) }
        const shared = proverOf(model, options).go(100_000)
        expect(shared.proven).toBe(true)
        expect(shared.value).toBe(plain.value)
        expect(scheduleFaults(instance, shared.solution.slice(0, instance.durations.length))).toEqual([])
        expect(replay(model, lines)).toEqual({ lines: lines.length, closed: true })
        told.shares += lines.filter((line) => 'shares' in line).length
        told.learnt += lines.filter((line) => 'learnt' in line).length
      }),
      { numRuns: 300 },
    )
    expect(told.shares).toBeGreaterThan(300)
    expect(told.learnt).toBeGreaterThan(100)
  })

  test('a share too large is refused by the replay', () => {
    const instance = project([2, 2, 2], 5)
    const model = modelOfInstance(instance, 12)
    const [shares] = sharesSourceOf(instance, 12).first()
    const items = (shares?.items ?? []).map((item, k) => (k === 0 ? { ...item, share: item.share + 1 } : item))
    const whole = shares?.whole ?? 0
    expect(replay(model, [{ shares: { whole, items: shares?.items ?? [] } }]).broken).toBeUndefined()
    expect(replay(model, [{ shares: { whole, items } }]).broken).toBe(0)
  })
})
