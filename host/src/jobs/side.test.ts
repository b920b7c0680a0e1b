import { readFileSync } from 'node:fs'
import { type Instance, readInstance, solveInstance } from '@shieldwright/engine/programme/index.ts'
import { expect, test } from 'vitest'
import { startJob } from './job.ts'

const LONG = 300_000
const library = new URL('../../../engine/src/programme/rcpsp/library/', import.meta.url)
const hard = readInstance(readFileSync(new URL('j3029_8.sm', library), 'utf8')).instance as Instance
const nothing = { document: undefined, meshes: new Map() }

test(
  'two threads give the same answer twice, and the one that a single thread gives',
  async () => {
    const request = { kind: 'instance', instance: hard, seconds: 60, effort: 700, seed: 2 } as const
    const answers = await Promise.all([1, 2].map(() => startJob<'instance'>(nothing, request).outcome))
    const [first, second] = answers.map((a) => ('result' in a ? { ...a.result, seconds: 0 } : undefined))
    expect(first).toBeDefined()
    expect(second).toEqual(first)
    expect({ ...solveInstance(hard, { effort: 700, seed: 2 }), seconds: 0 }).toEqual(first)
  },
  LONG,
)

test(
  'a solve that is stopped keeps its best schedule and its bound',
  async () => {
    const job = startJob<'instance'>(nothing, { kind: 'instance', instance: hard, seconds: 3600, effort: 1e9, seed: 2 })
    setTimeout(job.cancel, 3000)
    const outcome = await job.outcome
    expect(outcome).toMatchObject({ stopped: true, result: { ended: 'stopped' } })
    const { makespan, bound, starts } = 'result' in outcome ? outcome.result : { makespan: 0, bound: 1, starts: [] }
    expect(bound).toBeLessThanOrEqual(makespan)
    expect(starts).toHaveLength(hard.durations.length)
  },
  LONG,
)
