import fc from 'fast-check'
import { expect, test } from 'vitest'
import { placed } from './place.ts'

const WIDTH = 500
const measure = (text: string): number => text.length * 7

const labels = fc.array(
  fc.record({
    key: fc.uuid(),
    text: fc.string({ minLength: 1, maxLength: 20 }),
    x: fc.double({ min: 0, max: WIDTH, noNaN: true }),
    rows: fc.constantFrom([0], [0, 1], [1, 0]),
  }),
  { maxLength: 12 },
)

test('no label on a ruler covers another or leaves it', () => {
  fc.assert(
    fc.property(labels, (given) => {
      const out = placed(given, WIDTH, measure)
      for (const a of out) {
        expect(a.left).toBeGreaterThanOrEqual(0)
        expect(a.left + measure(a.text)).toBeLessThanOrEqual(WIDTH)
        for (const b of out) {
          if (a === b || a.row !== b.row) continue
          expect(a.left + measure(a.text) <= b.left || b.left + measure(b.text) <= a.left).toBe(true)
        }
      }
    }),
  )
})

test('the first label stands centred on its place, and a second on the same place goes to the other row', () => {
  const both = ['plan', 'P50'].map((text) => ({ key: text, text, x: 250, rows: [0, 1] }))
  const [plan, p50] = placed(both, WIDTH, measure)
  expect(plan).toMatchObject({ row: 0, left: 250 - measure('plan') / 2 })
  expect(p50?.left === undefined || p50.row !== 0 || p50.left >= 250).toBe(true)
})
