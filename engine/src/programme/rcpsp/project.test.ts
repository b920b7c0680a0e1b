import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { modelOfProject, type Project, projectFaults, readSolution } from './project.ts'
import { type Line, proverOf } from './prove.ts'
import { replay } from './replay.ts'

const HORIZON = 14

const mode = fc.record({
  duration: fc.integer({ min: 1, max: 4 }),
  needs: fc.tuple(fc.nat(3), fc.nat(2)),
  uses: fc.tuple(fc.nat(2)),
})
const job = fc.record({
  modes: fc.array(mode, { minLength: 1, maxLength: 3 }),
  windows: fc.option(
    fc.constantFrom(
      [
        [0, 3],
        [4, 9],
        [11, 30],
      ] as const,
      [
        [1, 5],
        [6, 30],
      ] as const,
    ),
    { nil: undefined },
  ),
})
const small = fc
  .record({
    jobs: fc.array(job, { minLength: 2, maxLength: 4 }),
    lags: fc.array(
      fc.record({
        from: fc.nat(3),
        at: fc.constantFrom('start', 'end'),
        to: fc.nat(3),
        lag: fc.integer({ min: -6, max: 2 }),
      }),
      { maxLength: 4 },
    ),
    capacities: fc.tuple(fc.integer({ min: 2, max: 3 }), fc.integer({ min: 1, max: 2 })),
    stock: fc.integer({ min: 1, max: 5 }),
    kinds: fc.array(fc.nat(1), { minLength: 2, maxLength: 2 }),
    gap: fc.nat(3),
  })
  .map(({ jobs, lags, capacities, stock, kinds, gap }): Project => {
    const all = jobs.map(({ modes, windows }) => (windows === undefined ? { modes } : { modes, windows }))
    const inside = lags.filter(({ from, to }) => from !== to && from < jobs.length && to < jobs.length)
    const between = [
      [0, gap],
      [1, 0],
    ]
    return { jobs: all, lags: inside, capacities, stocks: [stock], turns: [{ jobs: [0, 1], kinds, between }] }
  })

/** Every mode and every start of every job tried; Infinity when nothing keeps everything within the horizon. */
function byEnumeration(project: Project): number {
  let best = Number.POSITIVE_INFINITY
  const plan: { start: number; mode: number }[] = []
  const go = (end: number): void => {
    const i = plan.length
    if (i > 0 && projectFaults(firstOf(project, i), plan).length > 0) return
    if (i === project.jobs.length) {
      best = Math.min(best, end)
      return
    }
    project.jobs[i]?.modes.forEach(({ duration }, m) => {
      for (let start = 0; start + duration <= HORIZON && Math.max(end, start + duration) < best; start++) {
        plan.push({ start, mode: m })
        go(Math.max(end, start + duration))
        plan.pop()
      }
    })
  }
  go(0)
  return best
}

/** The project of its first jobs only. */
function firstOf({ jobs, lags, turns, ...rest }: Project, n: number): Project {
  return {
    ...rest,
    jobs: jobs.slice(0, n),
    lags: lags.filter(({ from, to }) => from < n && to < n),
    turns: turns.filter((t) => t.jobs.every((j) => j < n)),
  }
}

describe('a project with maximal lags, windows, modes, a stock and set-up between kinds', () => {
  test('the exact engine finds what trying everything finds, and finds nothing where there is nothing', () => {
    const counted = { none: 0, some: 0 }
    fc.assert(
      fc.property(small, (project) => {
        const least = byEnumeration(project)
        const found = proverOf(modelOfProject(project, HORIZON)).go(100_000)
        expect(found.proven).toBe(true)
        expect(found.value).toBe(least)
        if (!Number.isFinite(least)) counted.none++
        else {
          counted.some++
          expect(projectFaults(project, readSolution(project, found.solution))).toEqual([])
        }
      }),
      { numRuns: 1500, seed: 8 },
    )
    expect(counted.none).toBeGreaterThan(100)
    expect(counted.some).toBeGreaterThan(500)
  })

  test('what it learnt follows, line by line, by propagation alone', () => {
    let lines = 0
    fc.assert(
      fc.property(small, (project) => {
        const model = modelOfProject(project, HORIZON)
        const learnt: Line[] = []
        const found = proverOf(model, { note: (line) => learnt.push(line) }).go(100_000)
        const checked = replay(model, learnt)
        expect(checked.broken).toBeUndefined()
        expect(checked.closed).toBe(found.proven)
        lines += checked.lines
      }),
      { numRuns: 300, seed: 5 },
    )
    expect(lines).toBeGreaterThan(300)
  })
})
