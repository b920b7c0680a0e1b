import fc from 'fast-check'
import { expect, test } from 'vitest'
import { lineLoad, rollFriction, saddlePressure } from './cradle.formulas.ts'
import { checkOf } from './ground.fixture.ts'

test('pressure p₀ cos θ over the arc carries the load: its vertical part sums to w', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: Math.PI / 2, noNaN: true }),
      fc.double({ min: 1, max: 8, noNaN: true }),
      (alpha, R) => {
        const p0 = saddlePressure.value({ w: 1e6, R, alpha })
        const slices = 2000
        const d = (2 * alpha) / slices
        let sum = 0
        for (let i = 0; i < slices; i++) {
          const theta = -alpha + (i + 0.5) * d
          sum += p0 * Math.cos(theta) * Math.cos(theta) * R * d
        }
        expect(sum / 1e6).toBeCloseTo(1, 5)
      },
    ),
    { numRuns: 40 },
  )
})

test('the load along the cradle is continuous where contact begins to shorten, at a sixth of the length', () => {
  const at = (e: number) => lineLoad.value({ W: 1e6, L: 9, e })
  expect(at(1.5 + 1e-9)).toBeCloseTo(at(1.5 - 1e-9), 1)
  expect(at(0)).toBeCloseTo(1e6 / 9, 6)
})

test('a centre of gravity beyond the end tips: there is no contact pressure', () => {
  expect(lineLoad.broken({ W: 1e6, L: 9, e: 4.5 })).not.toEqual([])
})

test('a narrow arc holds an offset with the friction of a bottom line: e/R', () => {
  expect(rollFriction.value({ e: 0.15, R: 6.5, alpha: 0.001 })).toBeCloseTo(0.15 / 6.5, 6)
})

test('what remains after the block is out presses less than the whole machine', () => {
  const before = checkOf('ground.cradle.contact', [], 'start').demand.value as number
  const after = checkOf('ground.cradle.contact', [], 'take').demand.value as number
  expect(after).toBeLessThan(before)
})

test('a block to one side must be held by friction until it is out', () => {
  const aside = [{ op: 'replace', path: '/parts/block/solids/0/centre/1', value: '1 m' } as const]
  expect(checkOf('ground.cradle.roll', aside, 'start').demand.value).toBeGreaterThan(0.01)
  expect(checkOf('ground.cradle.roll', aside, 'take').demand.value).toBeLessThan(1e-9)
})
