import fc from 'fast-check'
import { expect, test } from 'vitest'
import { anglesOf, heldAt, type Planar, type TurnGeometry } from './turning.ts'

const DEGREE = Math.PI / 180

/** A piece with its main point 4 m above and its tail 4 m below the centre of gravity, both a little ahead of it. */
const geometry = (more: Partial<TurnGeometry> = {}): TurnGeometry => ({
  main: [0.02, 4.2],
  tail: [0.02, -4.2],
  weight: 6e6,
  level: () => 8,
  heads: { main: 24, tail: 24 },
  hooks: { least: 5.2 },
  side: 1,
  ...more,
})

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

test('pulls, weight and moments close at every angle that is held', () => {
  fc.assert(
    fc.property(real(1, 90), real(0, 7), real(-0.3, 0.3), (angle, least, offset) => {
      const g = geometry({ main: [offset, 4.2], hooks: { least } })
      const held = heldAt(g, angle * DEGREE)
      if (held === undefined) return
      expect(Math.abs(held.residual.across)).toBeLessThan(1e-6 * g.weight)
      expect(Math.abs(held.residual.up)).toBeLessThan(1e-6 * g.weight)
      expect(Math.abs(held.residual.moment)).toBeLessThan(1e-5 * g.weight)
    }),
    { numRuns: 200 },
  )
})

test('plumb lines share by the lever: a piece flat between two hooks', () => {
  const g = geometry({ main: [0, 3], tail: [0, -5], hooks: { least: 0 } })
  const held = heldAt(g, 90 * DEGREE)
  expect((held?.main as number) / g.weight).toBeCloseTo(5 / 8, 9)
  expect((held?.tail as number) / g.weight).toBeCloseTo(3 / 8, 9)
  expect(held?.mainLean).toBeLessThan(1e-9)
})

test('hooks that cannot come as close as the points lean their lines, and those pull each other', () => {
  const held = heldAt(geometry(), 20 * DEGREE)
  expect(held?.apart).toBe(5.2)
  expect(held?.mainLean).toBeGreaterThan(1 * DEGREE)
  const flat = heldAt(geometry(), 80 * DEGREE)
  expect(flat?.apart).toBeCloseTo(8.4 * Math.sin(80 * DEGREE), 6)
  expect(flat?.mainLean).toBeLessThan(1e-9)
})

test('lines of 8.4 m between the points and 5.2 m between the hooks hang plumb from 38° on', () => {
  const lean = (angle: number) => heldAt(geometry(), angle * DEGREE)?.mainLean as number
  const from = Math.asin(5.2 / 8.4) / DEGREE
  expect(from).toBeCloseTo(38.2, 1)
  expect(lean(from - 0.5)).toBeGreaterThan(1e-4)
  expect(lean(from + 0.5)).toBeLessThan(1e-9)
})

test('a higher head makes longer lines, and these lean less', () => {
  const lean = (head: number) =>
    heldAt(geometry({ heads: { main: head, tail: head } }), 15 * DEGREE)?.tailLean as number
  expect(lean(40)).toBeLessThan(lean(24))
})

test('between upright and where it hangs by itself the piece hangs by itself, from the main hook alone', () => {
  const g = geometry({ main: [-0.2, 4.2], tail: [-0.2, -4.2] })
  const natural = Math.atan2(0.2, 4.2)
  const held = heldAt(g, natural / 2)
  expect(held?.main).toBe(g.weight)
  expect(held?.tail).toBe(0)
  expect(anglesOf(g, 0, 90 * DEGREE).tailSlack[0]).toBeCloseTo(natural, 9)
})

test('far beyond where it hangs by itself no pair of pulls holds it', () => {
  const g = geometry({ main: [-1.5, 2], tail: [0, -4], hooks: { least: 0 } })
  expect(heldAt(g, 5 * DEGREE)).toBeUndefined()
})

test('with plumb lines each share runs one way from end to end: its largest lies at an end', () => {
  fc.assert(
    fc.property(
      fc.tuple(real(-0.5, 0.5), real(1, 5)),
      fc.tuple(real(-1, 0), real(-5, -1)),
      (main: Planar, tail: Planar) => {
        const g = geometry({ main, tail, hooks: { least: 0 } })
        const held = [20, 35, 50, 65, 80].map((a) => heldAt(g, a * DEGREE))
        fc.pre(held.every((h) => h !== undefined && h.tail > 0 && h.mainLean < 1e-9))
        const tails = held.map((h) => h?.tail)
        const steps = tails
          .slice(1)
          .map((t, i) => (t as number) - (tails[i] as number))
          .map((step) => (Math.abs(step) < 1e-6 * g.weight ? 0 : Math.sign(step)))
        expect(new Set(steps.filter((s) => s !== 0)).size).toBeLessThanOrEqual(1)
      },
    ),
    { numRuns: 100 },
  )
})

test('with the centre of gravity above the line of the points, the raised end is relieved', () => {
  // face down: the points lie below the centre of gravity; the main end is raised when less than flat
  const above = geometry({ main: [-0.5, 4], tail: [-0.5, -4], hooks: { least: 0 } })
  const below = geometry({ main: [0.5, 4], tail: [0.5, -4], hooks: { least: 0 } })
  const share = (g: TurnGeometry) => (heldAt(g, 85 * DEGREE)?.main as number) / g.weight
  expect(share(above)).not.toBeCloseTo(0.5, 3)
  expect(Math.sign(share(above) - 0.5)).toBe(-Math.sign(share(below) - 0.5))
})

test('a mirrored turn has mirrored hooks', () => {
  const g = geometry({ main: [0.1, 4], tail: [0.3, -4] })
  const mirrored = geometry({ main: [-0.1, 4], tail: [-0.3, -4], side: -1 })
  const [a, b] = [heldAt(g, 30 * DEGREE), heldAt(mirrored, -30 * DEGREE)]
  expect(a?.main).toBeCloseTo(b?.main as number, 3)
  expect(a?.tailLean).toBeCloseTo(b?.tailLean as number, 9)
})
