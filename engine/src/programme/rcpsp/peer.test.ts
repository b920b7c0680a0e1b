import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Instance } from './instance.ts'
import { type PeerProblem, peerProblem, solvedByPeer } from './peer.fixture.ts'
import { modelOfProject, type Project } from './project.ts'
import { proverOf } from './prove.ts'
import { readInstance } from './psplib.ts'
import { solveInstance } from './rcpsp.ts'

const LONG = 240_000
const HORIZON = 40
const jobs = fc.array(fc.record({ duration: fc.integer({ min: 1, max: 6 }), needs: fc.tuple(fc.nat(3), fc.nat(2)) }), {
  minLength: 6,
  maxLength: 9,
})
const lags = fc.array(fc.record({ from: fc.nat(8), to: fc.nat(8), lag: fc.integer({ min: -5, max: 6 }) }), {
  minLength: 4,
  maxLength: 9,
})

interface Drawn {
  jobs: readonly { duration: number; needs: readonly [number, number] }[]
  lags: readonly { from: number; to: number; lag: number }[]
}

/** Jobs on two resources, with lags of either sign: the same for both. */
function bothOf({ jobs: all, lags: some }: Drawn): [Project, PeerProblem] {
  const inside = some.filter(({ from, to }) => from !== to && from < all.length && to < all.length)
  const project: Project = {
    jobs: all.map(({ duration, needs }) => ({ modes: [{ duration, needs }] })),
    lags: inside.map((l) => ({ ...l, at: 'start' })),
    capacities: [4, 2],
    stocks: [],
    turns: [],
  }
  const problem: PeerProblem = {
    durations: all.map(({ duration }) => duration),
    needs: all.map(({ needs }) => needs),
    capacities: [4, 2],
    lags: inside.map(({ from, to, lag }) => [from, to, lag]),
    horizon: HORIZON,
  }
  return [project, problem]
}

/** The second begins three days or more after the first, and the first no more than a day before the second. */
const CONTRADICTORY: Drawn = {
  jobs: [1, 2].map((duration) => ({ duration, needs: [1, 1] })),
  lags: [
    { from: 0, to: 1, lag: 3 },
    { from: 1, to: 0, lag: -1 },
  ],
}

describe('the exact engine and a general-purpose lazy-clause solver', () => {
  test(
    'agree on small projects with lags of either sign, and on which have no schedule',
    async () => {
      const drawn = fc.sample(fc.record({ jobs, lags }), { numRuns: 4, seed: 21 })
      const ends: (number | undefined)[] = []
      for (const [project, problem] of [CONTRADICTORY, ...drawn].map(bothOf)) {
        const theirs = await solvedByPeer(problem, 60_000)
        expect(theirs.proven).toBe(true)
        const ours = proverOf(modelOfProject(project, HORIZON)).go(100_000)
        expect(ours.proven).toBe(true)
        expect(Number.isFinite(ours.value) ? ours.value : undefined).toBe(theirs.end)
        ends.push(theirs.end)
      }
      expect(ends[0]).toBeUndefined()
      expect(ends.filter((end) => end !== undefined).length).toBeGreaterThan(2)
    },
    LONG,
  )

  test(
    'agree on instances of the open library',
    async () => {
      for (const name of ['j301_4', 'j3014_3']) {
        const text = readFileSync(new URL(`./library/${name}.sm`, import.meta.url), 'utf8')
        const instance = readInstance(text).instance as Instance
        const theirs = await solvedByPeer(peerProblem(instance), 60_000)
        const ours = solveInstance(instance, { effort: 5000, seed: 1 })
        expect(theirs.proven, name).toBe(true)
        expect([ours.makespan, ours.proven], name).toEqual([theirs.end, true])
      }
    },
    LONG,
  )
})
