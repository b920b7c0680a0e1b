import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { improverOf } from '../sides.ts'
import type { Instance } from './instance.ts'
import { groundOf, instanceProver } from './instanceSides.ts'
import { modelOfInstance } from './modelOfInstance.ts'
import { proverOf } from './prove.ts'
import { readInstance } from './psplib.ts'
import { scheduleFaults, solveInstance } from './rcpsp.ts'
import { type Far, near, together } from './side.ts'

/** Fewer conflicts than it takes to prove: few units, and every job needs all four resources. */
const hard = instanceOf('j3029_8')
/** As hard, of twice the size: no proof is near. */
const far = instanceOf('j6013_1')

function instanceOf(name: string): Instance {
  const folder = name.startsWith('j60') ? './library/j60' : name === 'j3013_3' ? './library/j30' : './library'
  const text = readFileSync(new URL(`${folder}/${name}.sm`, import.meta.url), 'utf8')
  return readInstance(text).instance as Instance
}

describe('one side that improves and one that proves', () => {
  test.each([
    ['the side that improves proves as well', hard, 7000],
    ['the side that proves improves as well', far, 8000],
  ])(
    'give the same answer for the same effort, whichever of them is done first, also once %s',
    (_, instance, effort) => {
      const order = { kind: 'instance', instance, seed: 3 } as const
      const eager = (): Far => {
        const side = improverOf(order)
        let done = side.go(0)
        return {
          begin: (effort, news) => {
            side.tell(news)
            done = side.go(effort)
          },
          end: () => done,
        }
      }
      const run = (other: Far) => together(instanceProver(instance, groundOf(instance), 1), other, { effort })
      const answer = run(eager())
      expect(answer).toEqual(run(near(improverOf(order))))
      // what is not learnt from conflicts is made in schedules
      expect(answer.conflicts < effort).toBe(instance === far)
    },
    300_000,
  )

  test('stopped at any mark keep a plan that can be carried out and a bound that holds', () => {
    for (const marks of [0, 1, 3]) {
      let asked = 0
      const { makespan, bound, starts, ended, proven } = solveInstance(hard, {
        effort: 100_000,
        seed: 1,
        elsewhere: (order) => near(improverOf(order)),
        shouldContinue: () => asked++ < marks,
      })
      expect([ended, proven]).toEqual(['stopped', false])
      expect(scheduleFaults(hard, starts)).toEqual([])
      expect(Math.max(...starts)).toBe(makespan)
      expect(bound).toBeLessThanOrEqual(makespan)
    }
  })

  test('each takes over what the other knows', () => {
    const ground = groundOf(hard)
    const prover = instanceProver(hard, ground, 1)
    const improver = improverOf({ kind: 'instance', instance: hard, seed: 1 })
    const better = improver.go(600)
    expect(better.value).toBeLessThan(ground.value)
    expect(prover.tell(better)).toMatchObject({ value: better.value, starts: better.starts })
    expect(improver.tell({ ...better, bound: better.value })).toMatchObject({ closed: true })
  })
})

// optima: library/optima.csv
test.each([
  ['j301_4', 62],
  ['j3014_3', 58],
  ['j3045_6', 129],
  ['j3013_3', 76],
])(
  'two proofs that tell each other short lessons come to the published optimum: %s',
  (name, optimum) => {
    const instance = instanceOf(name)
    const ground = groundOf(instance)
    const model = modelOfInstance(instance, ground.value)
    const [one, other] = [proverOf(model, {}), proverOf(model, { fromBelowEvery: 1 })]
    let told = 0
    while (!one.proof.proven && !other.proof.proven) {
      one.go(50)
      const lessons = one.lessons()
      other.tell({ ...one.proof, lessons })
      other.go(50)
      one.tell({ ...other.proof, lessons: other.lessons() })
      told += lessons.length
    }
    const { value, solution } = one.proof.proven ? one.proof : other.proof
    expect(value).toBe(optimum)
    expect(scheduleFaults(instance, solution.slice(0, instance.durations.length))).toEqual([])
    if (name === 'j3013_3') expect(told).toBeGreaterThan(20)
  },
  60_000,
)

test('what was learnt never fills more room than it may', () => {
  const ground = groundOf(hard)
  const model = modelOfInstance(hard, ground.value)
  const { kept, conflicts } = proverOf(model, { bound: ground.bound, mostKept: 300 }).go(3000)
  expect(conflicts).toBeGreaterThan(2000)
  // conflicts that follow one another count before the next look
  expect(kept).toBeLessThanOrEqual(320)
  expect(kept).toBeGreaterThan(150)
})
