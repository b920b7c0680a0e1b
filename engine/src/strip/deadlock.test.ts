import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { freshMemory } from '../working/memory.ts'
import { deadlockOf } from './deadlock.ts'
import { findOrder } from './find-order.ts'
import { canReach, type Operation } from './precedence.ts'
import { bolted, boxAt, by, lidOnTub, modelOf } from './strip.fixture.ts'

const operation = (id: string, needs: string[][], ways?: string[][][]): Operation => ({
  id,
  cost: 1,
  needs,
  ...(ways === undefined ? {} : { ways }),
})

describe('what keeps a target from being reached', () => {
  test('is two covers that hide one another, and not the long chain that waits for them', () => {
    const found = deadlockOf(
      [
        operation('core', [['p', 'q']]),
        operation('p', [['a']]),
        operation('q', [['r']]),
        operation('r', [['a'], ['s']]),
        operation('s', []),
        operation('a', [['b']]),
        operation('b', [['a']]),
      ],
      ['core'],
    )
    expect(found?.smallest).toBe(true)
    expect([...(found?.ids ?? [])].sort()).toEqual(['a', 'b', 'core', 'p', 'q', 'r'])
    expect(deadlockOf([operation('core', [['s']]), operation('s', [])], ['core'])).toBeUndefined()
  })

  test('takes of each way the clause that draws in the fewest', () => {
    const found = deadlockOf(
      [
        operation('core', [], [[['a'], ['x']], [['a']]]),
        operation('a', [['a']]),
        operation('x', [['y']]),
        operation('y', [['x']]),
      ],
      ['core'],
    )
    expect(found?.ids).toEqual(['core', 'a'])
  })

  test('is as small as trying every set finds it, and truly keeps the target', () => {
    const ids = ['0', '1', '2', '3', '4', '5']
    const clause = fc.subarray(ids, { minLength: 0, maxLength: 3 })
    const problem = fc.array(fc.array(clause, { maxLength: 2 }), { minLength: 6, maxLength: 6 })
    let stuck = 0
    fc.assert(
      fc.property(problem, (needs) => {
        const operations = needs.map((own, i) => operation(String(i), own))
        const found = deadlockOf(operations, ['0'])
        expect(found === undefined).toBe(canReach(operations, [['0']], new Set()))
        if (found === undefined) return
        stuck++
        const isClosed = (set: ReadonlySet<string>): boolean =>
          [...set].every((id) => (needs[Number(id)] ?? []).some((c) => c.every((other) => set.has(other))))
        const all = Array.from({ length: 64 }, (_, bits) => new Set(ids.filter((_, k) => bits & (1 << k))))
        const least = Math.min(...all.filter((set) => set.has('0') && isClosed(set)).map((set) => set.size))
        expect(isClosed(new Set(found.ids))).toBe(true)
        expect(found.ids).toHaveLength(least)
      }),
      { numRuns: 300, seed: 3 },
    )
    expect(stuck).toBeGreaterThan(50)
  })
})

test('cyclic access is named: each of two lids hides the fasteners of the other', () => {
  const document = lidOnTub({
    parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5], [4, 4, 1]), hood: boxAt([1.5, 0, 0.5]) },
    joints: { J1: bolted('lid', 'tub', { hiddenBy: ['hood'] }), J2: bolted('hood', 'tub', { hiddenBy: ['lid'] }) },
    pieces: { lid: { name: 'Lid', parts: ['lid'] }, hood: { name: 'Hood', parts: ['hood'] } },
    steps: { S1: { piece: 'lid', moves: [by(0, 0, 30)] } },
  })
  const memory = freshMemory()
  const model = modelOf(document, memory)
  const { feasible, prevented } = findOrder(model, mass(model, memory), { targets: ['lid'] }, memory)
  expect(feasible).toBe(false)
  expect(prevented).toHaveLength(1)
  expect(prevented[0]).toMatchObject({ target: 'lid', ids: ['lid', 'hood'], smallest: true })
  expect(prevented[0]?.because).toEqual([
    '"lid": "hood" hides the fasteners of "J1"',
    '"hood": "lid" hides the fasteners of "J2"',
  ])
})
