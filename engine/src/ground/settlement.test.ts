import fc from 'fast-check'
import { expect, test } from 'vitest'
import { checkOf, siteModel } from './ground.fixture.ts'
import { layerBetween, rectangleCorner, steinbrenner } from './settlement.formulas.ts'

const layer = { q: 1e5, B: 4, L: 6, level: 0, E: 3e7, nu: 0.3 }
const between = (top: number, bottom: number, more: Partial<typeof layer> = {}) =>
  layerBetween.value({ ...layer, ...more, top, bottom })

test('one layer that never ends settles as the half-space: four corners of a quarter (Schleicher)', () => {
  const quarter = rectangleCorner.value({ q: layer.q, B: 2, L: 3, E: layer.E, nu: layer.nu })
  expect(between(0, -1e6) / (4 * quarter)).toBeCloseTo(1, 4)
})

test('a layer cut in two settles as before', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.5, max: 30, noNaN: true }),
      fc.double({ min: 0.05, max: 0.95, noNaN: true }),
      (depth, cut) => {
        const whole = between(0, -depth)
        const parts = between(0, -depth * cut) + between(-depth * cut, -depth)
        expect(Math.abs(parts / whole - 1)).toBeLessThan(1e-9)
      },
    ),
  )
})

test('the layer formula from the surface down is four corners of Steinbrenner', () => {
  const corner = steinbrenner.value({ q: layer.q, B: 2, L: 3, z: 7, E: layer.E, nu: layer.nu })
  expect(between(0, -7)).toBeCloseTo(4 * corner, 12)
})

test('stiffer ground settles less in proportion, deeper ground less than shallow', () => {
  expect(between(0, -5, { E: 6e7 })).toBeCloseTo(between(0, -5) / 2, 12)
  expect(between(-5, -10)).toBeLessThan(between(0, -5))
})

test('ground above the level at which piles press does not settle', () => {
  expect(between(0, -3, { level: -4 })).toBeCloseTo(0, 12)
})

test('piles carry the load past the upper ground: the bay settles less', () => {
  expect(siteModel().project.bays.B?.piles?.count).toBe(4)
  const piled = checkOf('ground.bay.settlement').demand.value as number
  const shallow = checkOf('ground.bay.settlement', [{ op: 'remove', path: '/bays/B/piles' }]).demand.value as number
  expect(piled).toBeLessThan(shallow)
})
