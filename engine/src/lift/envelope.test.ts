import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Vec3 } from '../numeric/vector.ts'
import { envelopeOf } from './envelope.ts'
import { type HungLoad, hang } from './hang.ts'
import { levelled } from './levelled.ts'

const corners: Vec3[] = [
  [2, 1.5, 0],
  [-2, 1.5, 0],
  [-2, -1.5, 0],
  [2, -1.5, 0],
]

const load = (stiffness: number, cog: Vec3): HungLoad => ({
  legs: corners.map((to) => ({ to, length: 6, stiffness })),
  weight: 6e5,
  cog,
})

/** Every corner of everything, one after the other: the slow road. */
function byHand(base: HungLoad, cog: Vec3, length: number): { most: number[]; tilt: number } {
  const most = [0, 0, 0, 0]
  let tilt = 0
  for (let k = 0; k < 2 ** 8; k++) {
    const sign = (i: number): number => ((k >> i) & 1 ? 1 : -1)
    const h = hang({
      weight: base.weight * (1 + 0.05 * sign(0)),
      cog: [base.cog[0] + cog[0] * sign(1), base.cog[1] + cog[1] * sign(2), base.cog[2] + cog[2] * sign(3)],
      legs: base.legs.map((leg, i) => ({ ...leg, length: leg.length * (1 + length * sign(4 + i)) })),
    })
    for (const [i, t] of h.tensions.entries()) most[i] = Math.max(most[i] as number, t)
    tilt = Math.max(tilt, h.tilt)
  }
  return { most, tilt }
}

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

// The greatest tilt may lie at another weight and height than those it is first looked for at: within a hundredth.
test('the worst corner agrees with all 256 of them, slack legs included', () => {
  fc.assert(
    fc.property(real(2e7, 2e8), real(-0.2, 0.2), real(0.0005, 0.006), (stiffness, x, length) => {
      const base = load(stiffness, [x, 0.1, -1])
      const box: Vec3 = [0.05, 0.05, 0.1]
      const worst = envelopeOf(
        base,
        { weight: [0.95 * 6e5, 1.05 * 6e5], cog: box, lengths: [length, length, length, length], stiffness: [1] },
        hang(base),
      )
      const slow = byHand(base, box, length)
      for (const [i, t] of worst.most.entries()) expect(t / (slow.most[i] as number)).toBeCloseTo(1, 3)
      expect(worst.tilt / slow.tilt).toBeGreaterThan(0.99)
      expect(worst.tilt / slow.tilt).toBeLessThan(1.0001)
    }),
    { numRuns: 8 },
  )
})

test('wider tolerances never ease a leg', () => {
  const base = load(1e8, [0.1, 0, -1])
  const of = (share: number): readonly number[] =>
    envelopeOf(
      base,
      { weight: [6e5, 6e5], cog: [0.02, 0.02, 0], lengths: [share, share, share, share], stiffness: [1] },
      hang(base),
    ).most
  const [tight, wide] = [of(0.001), of(0.002)]
  for (const [i, t] of wide.entries()) expect(t).toBeGreaterThanOrEqual((tight[i] as number) - 1)
})

test('without tolerances the worst is the planned', () => {
  const base = load(1e8, [0.1, 0, -1])
  const nominal = hang(base)
  const worst = envelopeOf(base, { weight: [6e5, 6e5], cog: [0, 0, 0], lengths: [0, 0, 0, 0], stiffness: [1] }, nominal)
  for (const [i, t] of worst.most.entries()) expect(t).toBeCloseTo(nominal.tensions[i] as number, 0)
})

/** A piece whose low points on one side ask for longer legs there. */
const lopsided: HungLoad = {
  legs: [
    { to: [1.3, -1, 2], length: 5, stiffness: 3e7 },
    { to: [-1.3, -1, 2], length: 5, stiffness: 3e7 },
    { to: [-1.3, 1, 1], length: 5.2, stiffness: 3e7 },
    { to: [1.3, 1, 1], length: 5.2, stiffness: 3e7 },
  ],
  weight: 4e5,
  cog: [0, 0.1, 0],
}

const links = (stroke: number) => [
  { leg: 2, stroke },
  { leg: 3, stroke },
]

test('level links on two legs take the tilt away, and say how far they are drawn', () => {
  expect(hang(lopsided).tilt).toBeGreaterThan(0.02)
  const set = levelled(lopsided, links(1.5), 0)
  expect(set.hang.tilt).toBeLessThan(1e-6)
  for (const s of set.settings) expect(s).toBeGreaterThan(0)
})

test('links are drawn alike where that is enough: unequal ones would put the load on a diagonal', () => {
  const uneven = { ...lopsided, cog: [0.03, 0.1, 0] as Vec3 }
  const alike = levelled(uneven, links(1.5), 0.01)
  expect(alike.settings[0]).toBe(alike.settings[1])
  expect(alike.hang.tilt).toBeGreaterThan(1e-4)
  expect(alike.hang.tilt).toBeLessThan(0.01)
  const level = levelled(uneven, links(1.5), 0)
  expect(level.settings[0]).not.toBeCloseTo(level.settings[1] as number, 3)
  const spread = (tensions: readonly number[]) => Math.max(...tensions) - Math.min(...tensions)
  expect(spread(level.hang.tensions)).toBeGreaterThan(spread(alike.hang.tensions))
})

test('a stroke that is too short leaves the rest of the tilt', () => {
  const set = levelled(lopsided, links(0.1), 0)
  expect(set.settings).toEqual([0.1, 0.1])
  expect(set.hang.tilt).toBeGreaterThan(0.01)
  expect(set.hang.tilt).toBeLessThan(hang(lopsided).tilt)
})
