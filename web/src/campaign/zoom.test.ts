import { expect, test } from 'vitest'
import { moved, shiftOn, showing, zoomed } from './zoom.ts'

const whole = { from: 0, to: 500 }

test('zooming in keeps the day under the pointer where it is, and out again shows all', () => {
  const near = zoomed(undefined, whole, 100, 0.5)
  expect(near).toEqual({ from: 50, to: 300 })
  expect(zoomed(near, whole, 100, 4)).toBeUndefined()
})

test('a window never leaves the plan and never gets shorter than a shift of eight hours', () => {
  expect(zoomed({ from: 490, to: 500 }, whole, 500, 0.01)).toEqual({ from: 500 - 8 / 24, to: 500 })
  expect(moved({ from: 10, to: 60 }, whole, -100)).toEqual({ from: 0, to: 50 })
  expect(moved({ from: 10, to: 60 }, whole, 1000)).toEqual({ from: 450, to: 500 })
})

test('a day that is not shown is brought to the middle; one that is shown moves nothing', () => {
  expect(showing({ from: 10, to: 60 }, whole, 200)).toEqual({ from: 175, to: 225 })
  const window = { from: 10, to: 60 }
  expect(showing(window, whole, 30)).toBe(window)
})

test('one shift is the hours of its day, whatever the hour that it is asked for at', () => {
  for (const at of [100, 100.3, 100.999]) expect(shiftOn(at, { from: 6, to: 18 })).toEqual({ from: 100.25, to: 100.75 })
})
