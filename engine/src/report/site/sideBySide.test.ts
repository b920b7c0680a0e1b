import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Point2 } from '../outline/convex.ts'
import { sideBySide } from './sideBySide.ts'

test('one lies in the middle, two beside each other about it', () => {
  expect(sideBySide([[4, 3]], [10, 10])).toEqual([[0, 0]])
  // 4 + 0.5 + 2 = 6.5 m wide, about the middle
  const [a, b] = sideBySide(
    [
      [4, 3],
      [2, 3],
    ],
    [10, 10],
  ) as Point2[]
  expect(a?.[0]).toBeCloseTo(-1.25, 12)
  expect(b?.[0]).toBeCloseTo(2.25, 12)
})

test('what does not fit is said, not squeezed', () => {
  expect(
    sideBySide(
      [
        [6, 6],
        [6, 6],
      ],
      [8, 8],
    ),
  ).toBeUndefined()
})

test('whatever is laid in rows lies within the bay and off each other', () => {
  const side = fc.double({ min: 0.2, max: 4, noNaN: true })
  let laid = 0
  fc.assert(
    fc.property(fc.array(fc.tuple(side, side), { minLength: 2, maxLength: 12 }), (sizes) => {
      const places = sideBySide(sizes, [12, 10])
      if (places === undefined) return
      laid++
      const boxes = places.map(([x, y], i) => {
        const [w, h] = sizes[i] as [number, number]
        return { left: x - w / 2, right: x + w / 2, bottom: y - h / 2, top: y + h / 2 }
      })
      for (const [i, a] of boxes.entries()) {
        expect(Math.max(-a.left, a.right)).toBeLessThanOrEqual(6 + 1e-9)
        expect(Math.max(-a.bottom, a.top)).toBeLessThanOrEqual(5 + 1e-9)
        for (const b of boxes.slice(i + 1))
          expect(a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top).toBe(false)
      }
    }),
  )
  expect(laid).toBeGreaterThan(10)
})
