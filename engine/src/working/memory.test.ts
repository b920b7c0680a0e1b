import fc from 'fast-check'
import { expect, test } from 'vitest'
import { freshMemory, sameContent } from './memory.ts'

test('the same inputs are computed once; one changed is computed again', () => {
  const memory = freshMemory()
  const part = { mass: 1 }
  const compute = (p: { mass: number }) => memory.once('mass/part', [p], () => ({ twice: 2 * p.mass }))
  const first = compute(part)
  expect(compute(part)).toBe(first)
  expect(memory.computed).toEqual({ mass: 1 })
  expect(compute({ mass: 3 })).toEqual({ twice: 6 })
  expect(memory.computed).toEqual({ mass: 2 })
})

test('inputs are told apart by identity, numbers and texts by value', () => {
  const memory = freshMemory()
  const run = (...inputs: unknown[]) => memory.once('k', inputs, () => ({}))
  expect(run(1, 'a', Number.NaN)).toBe(run(1, 'a', Number.NaN))
  const kept = run({ a: 1 })
  expect(run({ a: 1 })).not.toBe(kept)
  expect(run(1)).not.toBe(run(1, 2))
})

test('a result that is undefined is remembered as well', () => {
  const memory = freshMemory()
  memory.once('k', [1], () => undefined)
  memory.once('k', [1], () => undefined)
  expect(memory.computed.k).toBe(1)
})

test('a value of the same content keeps its earlier identity', () => {
  const memory = freshMemory()
  const first = memory.settled('k', { a: [1, { b: 2 }] })
  expect(memory.settled('k', { a: [1, { b: 2 }] })).toBe(first)
  const other = { a: [1, { b: 3 }] }
  expect(memory.settled('k', other)).toBe(other)
})

test('a fork remembers what it came from and leaves no trace in it', () => {
  const memory = freshMemory()
  const base = memory.once('k', [1], () => ({ n: 1 }))
  const fork = memory.fork()
  expect(fork.once('k', [1], () => ({ n: 1 }))).toBe(base)
  fork.once('k', [2], () => ({ n: 2 }))
  expect(memory.once('k', [1], () => ({ n: 9 }))).toBe(base)
  expect(fork.computed).toEqual({ k: 1 })
})

test('a fork that is kept hands on what it computed, and counts it', () => {
  const memory = freshMemory()
  memory.once('k', [1], () => ({ n: 1 }))
  const fork = memory.fork()
  const tried = fork.once('k', [2], () => ({ n: 2 }))
  expect(fork.keep()).toBe(memory)
  expect(memory.once('k', [2], () => ({ n: 9 }))).toBe(tried)
  expect(memory.computed).toEqual({ k: 2 })
})

test('of a collection only entries that are not the very same are looked into, wherever they stand', () => {
  const memory = freshMemory()
  const [a, b, c] = [{ v: 1 }, { v: 2 }, { v: 3 }]
  const looked: string[] = []
  const twice = (collection: Record<string, { v: number }>, ...shared: unknown[]) => {
    looked.length = 0
    return memory.each('k', collection, shared, (id, { v }) => {
      looked.push(id)
      return `${id} ${2 * v}`
    })
  }
  expect([twice({ a, b }), looked]).toEqual([
    ['a 2', 'b 4'],
    ['a', 'b'],
  ])
  expect([twice({ a, b: { v: 5 } }), looked]).toEqual([['a 2', 'b 10'], ['b']])
  expect([twice({ c, a, b }), looked]).toEqual([
    ['c 6', 'a 2', 'b 4'],
    ['c', 'b'],
  ])
  expect([twice({ b, c }), looked]).toEqual([['b 4', 'c 6'], []])
  expect([twice({ c: b, b: c }), looked]).toEqual([
    ['c 4', 'b 6'],
    ['c', 'b'],
  ])
  const before = twice({ c: b, b: c })
  expect([twice({ c: { v: 2 }, b: c }), looked]).toEqual([before, ['c']])
  expect(twice({ c: b, b: c })).toBe(before)
  expect([twice({ c: b, b: c }, 'other'), looked]).toEqual([before, ['c', 'b']])
  expect(memory.fork().each('k', { c: b, b: c }, ['other'], () => 'not looked into')).toEqual(before)
})

test('what throws is not remembered', () => {
  const memory = freshMemory()
  expect(() =>
    memory.once('k', [1], () => {
      throw new Error('broken')
    }),
  ).toThrow('broken')
  expect(memory.once('k', [1], () => 7)).toBe(7)
})

test('incremental equals cold: after any run of inputs, the answer is the one a fresh memory gives', () => {
  const a = [{ v: 1 }, { v: 2 }, { v: 3 }]
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.constantFrom('x', 'y'), fc.constantFrom(...a), fc.constantFrom(...a)), { minLength: 1 }),
      (calls) => {
        const memory = freshMemory()
        for (const [key, p, q] of calls) {
          const sum = (m = memory) => m.once(key, [p, q], () => p.v * 10 + q.v)
          expect(sum()).toBe(sum(freshMemory()))
        }
        expect(memory.computed.x ?? 0).toBeLessThanOrEqual(calls.length)
      },
    ),
  )
})

test('content is equal when it would be written alike', () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.jsonValue(), (a, b) => {
      expect(sameContent(a, structuredClone(a))).toBe(true)
      expect(sameContent(a, b)).toBe(sameContent(b, a))
    }),
  )
  expect(sameContent({ a: 1, b: 2 }, { b: 2, a: 1 })).toBe(true)
  expect(sameContent({ a: undefined }, {})).toBe(false)
  expect(sameContent([], {})).toBe(false)
  expect(sameContent([1], [1, 2])).toBe(false)
  expect(sameContent(null, {})).toBe(false)
  expect(sameContent({ a: 1 }, { toString: 1 })).toBe(false)
})
