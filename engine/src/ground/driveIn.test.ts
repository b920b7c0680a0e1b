import { expect, test } from 'vitest'
import type { Patch } from '../working/patch.ts'
import { checkOf } from './ground.fixture.ts'

const replace = (path: string, value: unknown): Patch => [{ op: 'replace', path, value }]

test('the drive-in needs less thrust once the face is holed through, and more with more skin in the ground', () => {
  const thrust = (patch: Patch = []) => checkOf('ground.drive-in.thrust', patch).demand.value as number
  // by hand: 20 kPa on a face of 6 m
  expect(thrust() - thrust(replace('/cradle/driveIn/face', '0 kPa'))).toBeCloseTo(20_000 * Math.PI * 9, 3)
  // by hand: 10 kPa on one more metre of skin, 6 m across
  expect(thrust(replace('/cradle/driveIn/inGround', '5 m')) - thrust()).toBeCloseTo(10_000 * Math.PI * 6, 3)
})

test('the thrust that is checked is the thrust that pushes on the block', () => {
  expect(checkOf('ground.cradle.sliding').demand.value).toBe(checkOf('ground.drive-in.thrust').demand.value)
})

test('a deeper eye asks more of its seal', () => {
  const pressure = (patch: Patch = []) => checkOf('ground.eye.seal', patch).demand.value as number
  expect(pressure(replace('/shaft/eyes/exit/centre', '-15.5 m'))).toBeGreaterThan(pressure())
})

test('a fill that is short and one that is over by the same volume are as far off', () => {
  // by hand: π 36 × 6 − 100 = 578.58 m³
  const gap = (pumped: number) =>
    checkOf('ground.fill.volume', replace('/shaft/fill/pumped', `${pumped} m3`)).demand.value as number
  expect(gap(578.58 + 10)).toBeCloseTo(gap(578.58 - 10), 1)
})

test('a neighbour above its action level fails, says which level it passed, and that no response is recorded', () => {
  const check = checkOf('ground.neighbour.reading', replace('/utilities/sewer/settlement/reading', '11 mm'))
  expect(check.verdict).toBe('fail')
  expect(check.reasons).toEqual(['above the action level', 'Response: none is recorded'])
})

test('a treated block is as long outside the wall as its far end is beyond the outer face', () => {
  // by hand: 14 − (13.6 + 1.2)/2
  expect(checkOf('ground.block.length').capacity.value).toBeCloseTo(6.6, 9)
})

test('the front corner of the machine, not its front alone, sets the room in a round bore', () => {
  // by hand: 6 − √(3.5² + 3²)
  expect(checkOf('ground.bore.machine').capacity.value).toBeCloseTo(6 - Math.hypot(3.5, 3), 9)
})
