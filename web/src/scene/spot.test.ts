import type { Bay } from '@shieldwright/engine/model/index.ts'
import { expect, test } from 'vitest'
import { type Box3, meetInPlan } from './bounds.ts'
import { spotOn } from './spot.ts'

const bay = (across: number, deep: number): Bay =>
  ({ centre: [{ value: 0 }, { value: 0 }], size: [{ value: across }, { value: deep }] }) as unknown as Bay

const boxAt = ([x, y]: readonly [number, number], across: number, deep: number): Box3 => ({
  min: [x - across / 2, y - deep / 2, 0],
  max: [x + across / 2, y + deep / 2, 2],
})

test('the first large piece lies in the middle of its bay', () => {
  expect(spotOn(bay(16, 15), [12, 12], [])).toEqual({ centre: [0, 0], free: true })
})

test('small pieces lie in rows, none on another and none over the edge', () => {
  const standing: Box3[] = []
  for (let k = 0; k < 12; k++) {
    const spot = spotOn(bay(9, 12), [1, 0.8], standing)
    const box = boxAt(spot.centre, 1, 0.8)
    expect(spot.free).toBe(true)
    expect(standing.some((other) => meetInPlan(box, other, 0.39))).toBe(false)
    expect(Math.max(...box.max.slice(0, 2).map(Math.abs), ...box.min.slice(0, 2).map(Math.abs))).toBeLessThanOrEqual(6)
    standing.push(box)
  }
})

test('where nothing is free it is said', () => {
  expect(spotOn(bay(8, 8), [6, 6], [boxAt([0, 0], 6, 6)]).free).toBe(false)
})
