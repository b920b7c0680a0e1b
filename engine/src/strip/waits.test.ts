import { expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { freshMemory } from '../working/memory.ts'
import { boxAt, lidOnTub, modelOf } from './strip.fixture.ts'
import { waitsOf } from './waits.ts'

/** Blocks one on top of the other between two walls, each a piece of its own, and one that stands by itself. */
const stack = () =>
  lidOnTub({
    parts: {
      top: boxAt([0, 0, 2.5]),
      middle: boxAt([0, 0, 1.5]),
      low: boxAt([0, 0, 0.5]),
      beside: boxAt([3, 0, 0.5]),
      front: boxAt([1, 0, 1.5], [1, 1, 3]),
      back: boxAt([-1, 0, 1.5], [1, 1, 3]),
    },
    joints: {},
    pieces: Object.fromEntries(['top', 'middle', 'low', 'beside'].map((id) => [id, { name: id, parts: [id] }])),
    steps: {},
    order: [],
  })

function waits(order: readonly string[]) {
  const memory = freshMemory()
  const model = modelOf(stack(), memory)
  return Object.fromEntries(waitsOf(model, mass(model, memory), order, memory).map((w) => [w.id, w.after]))
}

test('in a stack each waits for the one above it alone, and what stands by itself waits for nothing', () => {
  expect(waits(['top', 'middle', 'low', 'beside'])).toEqual({ top: [], middle: ['top'], low: ['middle'], beside: [] })
})

test('what an order leaves out is waited for by nobody', () => {
  expect(waits(['beside'])).toEqual({ beside: [] })
})
