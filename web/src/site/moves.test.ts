import { readQuantity } from '@shieldwright/engine/working/quantity.ts'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { coordinateText, gridsOf, movablesOf, type Place, snapped, stepped, typedPlace } from './moves.ts'

const metres = fc.double({ min: -300, max: 300, noNaN: true })
const place = fc.tuple(metres, metres)
const grid = fc.constantFrom(...gridsOf('SI'), ...gridsOf('US'))
const isOn = (value: number, step: number): boolean => Math.abs(value / step - Math.round(value / step)) < 1e-6

test('what is let go lies on the grid, and no further than half a step from the pointer, in each direction that it moved in', () => {
  fc.assert(
    fc.property(place, place, grid, (from, to, step) => {
      const at = snapped(from, to, step)
      for (const i of [0, 1] as const)
        if (Math.abs(to[i] - from[i]) < step / 2) expect(at[i]).toBe(from[i])
        else {
          expect(isOn(at[i], step)).toBe(true)
          expect(Math.abs(at[i] - to[i])).toBeLessThanOrEqual(step / 2 + 1e-9)
        }
    }),
  )
})

test('an arrow goes to the next line of the grid that way, never past it, and back again', () => {
  fc.assert(
    fc.property(place, grid, (from, step) => {
      const [x, y] = stepped(from, [1, 0], step)
      expect(y).toBe(from[1])
      expect(isOn(x, step)).toBe(true)
      expect(x).toBeGreaterThan(from[0])
      expect(x - from[0]).toBeLessThanOrEqual(step * (1 + 1e-5))
      expect(stepped([x, y], [-1, 0], step)[0]).toBeCloseTo(x - step, 6)
    }),
  )
})

test('a coordinate that is written is read back to a tenth of a millimetre, in either system', () => {
  fc.assert(
    fc.property(metres, fc.constantFrom('SI', 'US'), (value, system) => {
      expect(Math.abs((readQuantity(coordinateText(value, system), 'm') as number) - value)).toBeLessThan(1e-4)
    }),
  )
})

const document = {
  bays: {
    B1: { name: 'Bay B1', centre: ['32 m', '-105 ft'], size: ['24 m', '18 m'] },
    B2: { centre: ['soon', '3 m'], size: ['4 m', '4 m'] },
  },
  systems: { CR: { standings: [['-12.5 m', '-18 m']] }, LT: {} },
}

test('bays and standings with a readable place can be moved, and nothing else', () => {
  expect(movablesOf(document).map((m) => [m.pointer, m.of])).toEqual([
    ['/bays/B1/centre', '/bays/B1'],
    ['/systems/CR/standings/0', '/systems/CR'],
  ])
})

test('a direction that did not move keeps its text as it was typed', () => {
  const to: Place = [33.5, -105 * 0.3048]
  expect(typedPlace(document, '/bays/B1/centre', to, 'SI')).toEqual(['33.5 m', '-105 ft'])
})
