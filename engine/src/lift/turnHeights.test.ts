import fc from 'fast-check'
import { expect, test } from 'vitest'
import { beyondEnd, heightRange, letOut, sensitivityAt } from './turnHeights.ts'
import { heldAt, type TurnGeometry, type TwoHooks, turned } from './turning.ts'

const DEGREE = Math.PI / 180
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Plumb lines to two hooks, 16 m above the centre of gravity. */
const geometry = (main: readonly [number, number], tail: readonly [number, number]): TurnGeometry => ({
  main,
  tail,
  weight: 6e6,
  level: () => 8,
  heads: { main: 24, tail: 24 },
  hooks: { least: 0 },
  side: 1,
})
const STIFF = { main: 1.6e9, tail: 0.9e9 }

test('what a millimetre of hook height shifts is the slope of the share over what the lines let out', () => {
  fc.assert(
    fc.property(real(-0.5, 0.5), real(-0.5, 0.5), real(15, 88), (a, b, angle) => {
      const g = geometry([a, 4], [b, -3])
      const at = (d: number): TwoHooks | undefined => heldAt(g, (angle + d) * DEGREE)
      const [low, here, high] = [at(-0.001), at(0), at(0.001)]
      fc.pre(low !== undefined && here !== undefined && high !== undefined && low.tail * high.tail * here.tail > 0)
      if (low === undefined || here === undefined || high === undefined) return
      // lines of the length at hand: that they lengthen a little over the step is of the second order
      const fixed = (held: TwoHooks): TwoHooks => ({ ...held, lines: { ...held.lines } })
      const slope = (high.main - low.main) / (letOut(fixed(high), STIFF) - letOut(fixed(low), STIFF))
      const closed = sensitivityAt(g, here, STIFF)
      expect(Math.abs(slope - closed)).toBeLessThan(0.01 * Math.abs(closed) + 200)
    }),
    { numRuns: 60 },
  )
})

test('where the points stand over one another the lines alone share, as two springs in series', () => {
  const g = geometry([0, 4], [1e-9, -3])
  const held = heldAt(g, 30 * DEGREE) as TwoHooks
  const upright = { ...held, angle: 0 }
  const [km, kt] = [STIFF.main / held.lines.main.length, STIFF.tail / held.lines.tail.length]
  expect(sensitivityAt(g, upright, STIFF) * (1 / km + 1 / kt)).toBeCloseTo(1, 6)
})

test('from all on one hook to all on the other are the stretch of both lines, where the points are in line with the centre', () => {
  const g = geometry([0, 4], [0, -3])
  expect(heightRange(g, 12, STIFF)).toBeCloseTo(6e6 * (12 / 1.6e9 + 12 / 0.9e9), 9)
})

test('points out of line with the centre widen or narrow that range by their heights at both slack angles', () => {
  const g = geometry([0.3, 4], [0.5, -3])
  // tail slack: main plumb above; main slack: tail plumb below
  const rise = (angle: number): number => turned(g.main, angle)[1] - turned(g.tail, angle)[1]
  const tailSlack = Math.atan2(-0.3, 4)
  const mainSlack = Math.atan2(0.5, 3)
  const lines = g.weight * (12 / STIFF.main + 12 / STIFF.tail)
  expect(heightRange(g, 12, STIFF)).toBeCloseTo(rise(tailSlack) - rise(mainSlack) + lines, 9)
})

test('heights out by nothing leave an end of the turn where it is; out by much, the piece hangs from one hook', () => {
  const g = geometry([0.1, 4], [0.1, -3])
  const end = 88 * DEGREE
  const none = beyondEnd(g, end, 1, { error: 0, stiffness: STIFF })
  expect(none.angle).toBeCloseTo(end, 6)
  const some = beyondEnd(g, end, 1, { error: 0.05, stiffness: STIFF })
  const more = beyondEnd(g, end, 1, { error: 0.1, stiffness: STIFF })
  expect(some.angle).toBeGreaterThan(end)
  expect(more.most.main).toBeGreaterThanOrEqual(some.most.main)
  const upright = beyondEnd(geometry([0.1, 4], [-0.2, -3]), 1 * DEGREE, -1, { error: 1, stiffness: STIFF })
  expect(upright.most.main / 6e6).toBeCloseTo(1, 6)
})
