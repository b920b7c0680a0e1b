import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { planOf } from '../improve.ts'
import { earlyDates, finishes } from '../passes.ts'
import { serialPlan } from '../serial.ts'
import { type Instance, networkOfInstance } from './instance.ts'
import { modelOfInstance } from './modelOfInstance.ts'
import { proverOf } from './prove.ts'
import { readInstance } from './psplib.ts'
import { scheduleFaults, solveInstance } from './rcpsp.ts'

const library = new URL('./library/', import.meta.url)
const textOf = (name: string): string => readFileSync(new URL(name, library), 'utf8')
const optima = new Map(
  textOf('optima.csv')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','))
    .map(([name, path, optimum]) => [name as string, { path: Number(path), optimum: Number(optimum) }]),
)

function instanceOf(name: string): Instance {
  const { instance } = readInstance(textOf(name))
  if (instance === undefined) throw new Error(`${name} is not read`)
  return instance
}

describe('instances of the open library PSPLIB, 30 jobs (R. Kolisch, A. Sprecher, EJOR 96 (1996) 205-216; optima: optima.csv)', () => {
  const names = readdirSync(library).filter((f) => f.endsWith('.sm'))

  test('the library is there', () => {
    expect(names).toHaveLength(optima.size)
  })

  test('longest paths are the MPM-Time in the headers', () => {
    for (const name of names) {
      const header = /^\s*1\s+30\s+\d+\s+\d+\s+\d+\s+(\d+)/m.exec(textOf(name))?.[1]
      const network = networkOfInstance(instanceOf(name))
      expect(finishes(network, earlyDates(network)).end, name).toBe(Number(header))
      expect(optima.get(name.replace('.sm', ''))?.path, name).toBe(Number(header))
    }
  })

  test('with 1,500 conflicts every schedule is valid, none is shorter than the optimum, and most are proven', () => {
    let proven = 0
    for (const name of names) {
      const instance = instanceOf(name)
      const { optimum } = optima.get(name.replace('.sm', '')) as { optimum: number }
      const solution = solveInstance(instance, { effort: 1500, seed: 1 })
      expect(scheduleFaults(instance, solution.starts), name).toEqual([])
      expect(solution.makespan, name).toBeGreaterThanOrEqual(optimum)
      expect(solution.bound, name).toBeLessThanOrEqual(optimum)
      expect(solution.proven, name).toBe(solution.makespan === solution.bound)
      if (solution.proven) proven++
    }
    expect(proven).toBeGreaterThanOrEqual(PROVEN)
  })
})

describe('instances of 60 jobs, by the effort that they take (published bounds: library/best-known.csv)', () => {
  const [head = '', ...lines] = textOf('best-known.csv').trim().split('\n')
  const columns = head.split(',')
  const published = new Map(
    lines.map((line) => {
      const cells = line.split(',')
      const [low, high] = ['lower_bound', 'upper_bound'].map((name) => Number(cells[columns.indexOf(name)]))
      return [cells[0], { low: low as number, high: high as number }]
    }),
  )

  test.each([
    ['none', ['j601_3', 'j6020_1', 'j6036_4', 'j6048_2'], 1, true],
    ['some', ['j6021_1', 'j6014_4', 'j6037_1'], 3000, true],
    ['more than there is', ['j6013_2', 'j6029_3', 'j6045_4'], 400, false],
  ])(
    '%s: what is made can be carried out and contradicts no published bound',
    (_, names, effort, closes) => {
      for (const name of names) {
        const instance = instanceOf(`j60/${name}.sm`)
        const { low, high } = published.get(name) as { low: number; high: number }
        const { makespan, bound, proven, starts } = solveInstance(instance, { effort, seed: 1 })
        expect(scheduleFaults(instance, starts), name).toEqual([])
        expect(makespan, name).toBeGreaterThanOrEqual(low)
        expect(bound, name).toBeLessThanOrEqual(high)
        expect(proven, name).toBe(closes)
        // a regression figure of this solver: the hard ones stay within 6 % of the best known
        expect(makespan / high, name).toBeLessThan(closes ? 1.0001 : 1.06)
      }
    },
    120_000,
  )
})

/** Of the 36 here; a regression figure of this solver, not a published one. */
const PROVEN = 33

describe('two roads to one optimum', () => {
  const small = fc
    .record({
      durations: fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 3, maxLength: 6 }),
      capacities: fc.tuple(fc.integer({ min: 2, max: 4 }), fc.integer({ min: 2, max: 4 })),
      needs: fc.array(fc.tuple(fc.nat(4), fc.nat(4)), { minLength: 6, maxLength: 6 }),
      links: fc.array(fc.tuple(fc.nat(5), fc.nat(5)), { maxLength: 5 }),
    })
    .map(({ durations, capacities, needs, links }): Instance => {
      const n = durations.length
      const pairs = links.filter(([a, b]) => a < b && b < n)
      return {
        durations: [0, ...durations, 0],
        successors: [
          durations.map((_, i) => i + 1),
          ...durations.map((_, i) => [...new Set(pairs.filter(([a]) => a === i).map(([, b]) => b + 1)), n + 1]),
          [],
        ],
        needs: [[0, 0], ...durations.map((_, i) => capacities.map((c, k) => Math.min(c, needs[i]?.[k] ?? 0))), [0, 0]],
        capacities,
      }
    })

  test('the proof search finds what the enumeration of every list finds', () => {
    fc.assert(
      fc.property(small, (instance) => {
        const optimum = byEnumeration(instance)
        const start = planOf(networkOfInstance(instance), serialPlan(networkOfInstance(instance), inTurn(instance)))
        const known = { value: start.end, solution: Array.from(start.dates.start) }
        const found = proverOf(modelOfInstance(instance, start.end), known).go(100_000)
        expect(found).toMatchObject({ value: optimum, bound: optimum, proven: true })
        expect(scheduleFaults(instance, found.solution.slice(0, instance.durations.length))).toEqual([])
      }),
      { numRuns: 150 },
    )
  })

  test('the same instance, effort and seed give the same answer', () => {
    const instance = instanceOf(readdirSync(library).filter((f) => f.endsWith('.sm'))[3] as string)
    const options = { effort: 300, seed: 4 }
    expect(solveInstance(instance, options)).toEqual(solveInstance(instance, options))
  })
})

const inTurn = ({ durations }: Instance): Int32Array => Int32Array.from(durations, (_, i) => i)

/** Active schedules hold an optimum, and the serial scheme makes them all. */
function byEnumeration(instance: Instance): number {
  const network = networkOfInstance(instance)
  const n = instance.durations.length
  let best = Number.POSITIVE_INFINITY
  const go = (list: number[]): void => {
    if (list.length === n) {
      best = Math.min(best, planOf(network, serialPlan(network, Int32Array.from(list))).end)
      return
    }
    for (let i = 0; i < n; i++) {
      const ready = instance.successors.every((next, p) => !next.includes(i) || list.includes(p))
      if (!list.includes(i) && ready) go([...list, i])
    }
  }
  go([])
  return best
}

describe('what is wrong with an instance', () => {
  const good = `PRECEDENCE RELATIONS:\njobnr. #modes #successors successors\n 1 1 1 2\n 2 1 1 3\n 3 1 0\n****\nREQUESTS/DURATIONS:\njobnr. mode duration R 1\n----\n 1 1 0 0\n 2 1 4 2\n 3 1 0 0\n****\nRESOURCEAVAILABILITIES:\n R 1\n 3\n****\n`
  const problemsOf = (text: string): string[] =>
    readInstance(text).problems.map((p) => `${p.pointer}: ${p.found}, ${p.expected}`)

  test('a whole one has nothing', () => {
    expect(readInstance(good).instance).toMatchObject({
      durations: [0, 4, 0],
      capacities: [3],
      successors: [[1], [2], []],
    })
  })

  test.each([
    [
      'a need above the capacity',
      good.replace(' 2 1 4 2', ' 2 1 4 5'),
      'REQUESTS/DURATIONS, row 2: a need of 5 of resource 1',
    ],
    ['a successor that is not there', good.replace(' 2 1 1 3', ' 2 1 1 9'), 'successor 9'],
    ['more than one mode', good.replace(' 2 1 1 3', ' 2 2 1 3'), '2 modes'],
    ['fewer successors than it says', good.replace(' 2 1 1 3', ' 2 1 2 3'), '1 successors'],
    ['a circle', good.replace(' 3 1 0', ' 3 1 1 2'), 'no circle'],
    ['no capacities', good.replace('RESOURCEAVAILABILITIES', 'NOTHING'), 'RESOURCEAVAILABILITIES'],
    ['a row missing', good.replace(' 3 1 0 0\n', ''), '2 rows'],
    ['nothing at all', '', 'PRECEDENCE RELATIONS'],
  ])('%s is named', (_, text, part) => {
    expect(problemsOf(text).join('\n')).toContain(part)
  })
})
