import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Instance } from './instance.ts'
import { type Peer, type PeerProblem, peerOf, peerProblem } from './peer.fixture.ts'
import { modelOfProject, type Project } from './project.ts'
import { proverOf } from './prove.ts'
import { readInstance } from './psplib.ts'
import { solveInstance } from './rcpsp.ts'

const LONG = 240_000
let peer: Peer
beforeAll(async () => {
  peer = await peerOf()
}, LONG)
afterAll(() => peer?.close())

const HORIZON = 40
const jobs = fc.array(fc.record({ duration: fc.integer({ min: 1, max: 6 }), needs: fc.tuple(fc.nat(3), fc.nat(2)) }), {
  minLength: 6,
  maxLength: 9,
})
const lags = fc.array(fc.record({ from: fc.nat(8), to: fc.nat(8), lag: fc.integer({ min: -5, max: 6 }) }), {
  minLength: 4,
  maxLength: 9,
})

/** Jobs on two resources, with lags of either sign: the same for both. */
const projects = fc.record({ jobs, lags }).map(({ jobs: all, lags: some }): [Project, PeerProblem] => {
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
})

describe('the exact engine and a general-purpose lazy-clause solver', () => {
  test(
    'agree on small projects with lags of either sign, and on which have no schedule',
    async () => {
      const counted = { none: 0, some: 0 }
      for (const [project, problem] of fc.sample(projects, { numRuns: 8, seed: 21 })) {
        const theirs = await peer.solve(problem, 20_000)
        expect(theirs.proven).toBe(true)
        const ours = proverOf(modelOfProject(project, HORIZON)).go(100_000)
        expect(ours.proven).toBe(true)
        expect(Number.isFinite(ours.value) ? ours.value : undefined).toBe(theirs.end)
        if (theirs.end === undefined) counted.none++
        else counted.some++
      }
      expect(counted.none).toBeGreaterThan(0)
      expect(counted.some).toBeGreaterThan(3)
    },
    LONG,
  )

  test(
    'agree on instances of the open library',
    async () => {
      for (const name of ['j301_4', 'j3014_3']) {
        const text = readFileSync(new URL(`./library/${name}.sm`, import.meta.url), 'utf8')
        const instance = readInstance(text).instance as Instance
        const theirs = await peer.solve(peerProblem(instance), 60_000)
        const ours = solveInstance(instance, { effort: 5000, seed: 1 })
        expect(theirs.proven, name).toBe(true)
        expect([ours.makespan, ours.proven], name).toEqual([theirs.end, true])
      }
    },
    LONG,
  )
})
