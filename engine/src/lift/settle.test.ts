import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  add,
  apply,
  IDENTITY,
  multiply,
  type Pose,
  rotationAbout,
  rotationBy,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { type HungLoad, hang } from './hang.ts'
import { simplexOfLibrary } from './minimiser.fixture.ts'
import { intendedSettle, settle, tiltsOf } from './settle.ts'
import type { LineEnd, Suspended } from './suspended.ts'

const at = (shift: Vec3): Pose => ({ turn: IDENTITY, shift })
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Four legs from a hook at the origin to a piece below it. */
const bridle = (lengths: readonly number[], cog: Vec3, stiffness = 5e7, weight = 6e5): Suspended => ({
  bodies: [{ weight, cog, start: at([-cog[0], -cog[1], -4.5]) }],
  lines: (
    [
      [2, 1.5, 0],
      [-2, 1.5, 0],
      [-2, -1.5, 0],
      [2, -1.5, 0],
    ] as const
  ).map((to, i) => ({
    lower: { body: 0, at: to },
    upper: { at: ZERO },
    length: lengths[i] as number,
    stiffness,
  })),
})

/** The same for the solver that knows one hook only. */
const underHook = ({ bodies, lines }: Suspended): HungLoad => ({
  legs: lines.map((line) => ({ to: line.lower.at, length: line.length, stiffness: line.stiffness })),
  weight: bodies[0]?.weight as number,
  cog: bodies[0]?.cog as Vec3,
})

const most = (xs: readonly number[]): number => Math.max(...xs)
const worstForce = (s: { residuals: readonly { force: number }[] }): number => most(s.residuals.map((r) => r.force))

test('six unknowns in the site agree with three in the piece, slack legs included', () => {
  let slack = 0
  fc.assert(
    fc.property(
      fc.array(real(4.96, 5.04), { minLength: 4, maxLength: 4 }),
      real(-0.6, 0.6),
      real(-0.4, 0.4),
      real(-2, 0.4),
      (lengths, x, y, z) => {
        const load = bridle(lengths, [x, y, z])
        const [site, piece] = [settle(load), hang(underHook(load))]
        slack += Number(site.tensions.some((t) => t === 0))
        for (const [i, t] of site.tensions.entries())
          expect(Math.abs(t - (piece.tensions[i] as number))).toBeLessThan(1)
        expect(worstForce(site)).toBeLessThan(1e-8 * 6e5)
      },
    ),
    { numRuns: 40 },
  )
  expect(slack).toBeGreaterThan(0)
})

/** Strain energy and weights' heights, J, written again from the geometry alone. */
function energyOfPoses({ bodies, lines }: Suspended, poses: readonly Pose[]): number {
  const at = ({ body, at: p }: LineEnd): Vec3 => {
    const pose = body === undefined ? undefined : poses[body]
    return pose === undefined ? p : add(apply(pose.turn, p), pose.shift)
  }
  const strain = lines.map(({ lower, upper, length, stiffness }) => {
    const [a, b] = [at(lower), at(upper)]
    const stretch = Math.max(0, Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) - length)
    return (0.5 * stiffness * stretch ** 2) / length
  })
  const heights = bodies.map((b, k) => b.weight * at({ body: k, at: b.cog })[2])
  return [...strain, ...heights].reduce((sum, x) => sum + x, 0)
}

test('a general minimiser, which knows energy alone, finds the same pose', () => {
  const load = bridle([5, 5.004, 5, 4.998], [0.2, 0.1, -0.8])
  const ours = settle(load)
  const nelderMead = simplexOfLibrary()
  const poseOf = (x: readonly number[]): Pose => ({
    turn: rotationBy([(x[3] as number) / 2, (x[4] as number) / 2, 0]),
    shift: [x[0] as number, x[1] as number, x[2] as number],
  })
  const energy = (x: readonly number[]): number => energyOfPoses(load, [poseOf(x)])
  let x = [-0.2, -0.1, -4.5, 0, 0]
  for (let round = 0; round < 60; round++)
    x = nelderMead(energy, x, { maxIterations: 2000, minErrorDelta: 1e-12, minTolerance: 1e-12 }).x
  expect(energy(x)).toBeGreaterThanOrEqual(energyOfPoses(load, ours.poses) - 1e-6)
  expect(energy(x) - energyOfPoses(load, ours.poses)).toBeLessThan(0.05)
  expect(tiltsOf(poseOf(x)).tilt).toBeCloseTo(tiltsOf(ours.poses[0] as Pose).tilt, 3)
})

/** Hook, one beam on two slings, under each end a beam across on one sling, under each of those two drops to the piece. */
const inLevels = (cog: Vec3 = [0, 0, -1], weight = 4e5): Suspended => ({
  bodies: [
    { weight, cog, start: at([0, 0, -11]) },
    { weight: 2e4, cog: ZERO, start: at([0, 0, -4]) },
    { weight: 8e3, cog: [0, 0, -0.05], start: at([3, 0, -6.5]) },
    { weight: 8e3, cog: [0, 0, -0.05], start: at([-3, 0, -6.5]) },
  ],
  lines: [
    ...[3, -3].map((x) => ({
      lower: { body: 1, at: [x, 0, 0] as Vec3 },
      upper: { at: ZERO },
      length: 5,
      stiffness: 8e7,
    })),
    ...[3, -3].map((x, k) => ({
      lower: { body: 2 + k, at: [0, 0, 0.3] as Vec3 },
      upper: { body: 1, at: [x, 0, -0.2] as Vec3 },
      length: 2,
      stiffness: 8e7,
    })),
    ...[3, -3].flatMap((x, k) =>
      [1.5, -1.5].map((y) => ({
        lower: { body: 0, at: [x, y, 0] as Vec3 },
        upper: { body: 2 + k, at: [0, y, -0.3] as Vec3 },
        length: 4,
        stiffness: 5e7,
      })),
    ),
  ],
})

test('beams in three levels carry what statics says, and everything under a level counts in it', () => {
  const { tensions, residuals, stiffness } = settle(inLevels())
  // 6 m apart on slings of 5 m: cos β = 4/5, but for their stretch
  const top = (4e5 + 2e4 + 2 * 8e3) / 2 / 0.8
  for (const i of [0, 1]) expect((tensions[i] as number) / top).toBeCloseTo(1, 2)
  for (const i of [2, 3]) expect(tensions[i]).toBeCloseTo(2e5 + 8e3, 3)
  for (const i of [4, 5, 6, 7]) expect(tensions[i]).toBeCloseTo(1e5, 3)
  expect(stiffness).toBeGreaterThan(0)
  for (const r of residuals) {
    expect(r.force).toBeLessThan(1e-9 * 4e5)
    expect(r.moment).toBeLessThan(1e-8 * 4e5)
  }
})

test('a centre of gravity off the middle is shared by the lever, and all of it swings until it is plumb', () => {
  const { tensions, poses } = settle(inLevels([0, 0.1, -1]))
  const [a, b] = [tensions[4] as number, tensions[5] as number]
  expect(a).toBeGreaterThan(b)
  const piece = poses[0] as Pose
  const beam = poses[1] as Pose
  const place = add(apply(piece.turn, [0, 0.1, -1]), piece.shift)
  const moment = 4e5 * place[1] + 2e4 * beam.shift[1] + 2 * 8e3 * (poses[2] as Pose).shift[1]
  expect(Math.abs(moment) / 4e5).toBeLessThan(2e-3)
})

test('turned about the vertical as a whole, nothing changes', () => {
  const turned = (load: Suspended, angle: number): Suspended => {
    const turn = rotationAbout('z', angle)
    return {
      bodies: load.bodies.map((b) => ({
        ...b,
        start: { turn: multiply(turn, b.start.turn), shift: apply(turn, b.start.shift) },
      })),
      lines: load.lines.map((l) => ({
        ...l,
        upper: l.upper.body === undefined ? { at: apply(turn, l.upper.at) } : l.upper,
      })),
    }
  }
  fc.assert(
    fc.property(real(-3, 3), real(-0.3, 0.3), (angle, x) => {
      const load = inLevels([x, 0.05, -1])
      const [plain, after] = [settle(load), settle(turned(load, angle))]
      for (const [i, t] of plain.tensions.entries()) expect(after.tensions[i]).toBeCloseTo(t, 2)
    }),
    { numRuns: 20 },
  )
})

test('two like legs exchanged exchange their pulls', () => {
  const load = bridle([5, 5.003, 5, 5], [0.1, 0, -1])
  const mirrored = bridle([5, 5, 5.003, 5], [0.1, 0, -1])
  const [a, b] = [settle(load).tensions, settle(mirrored).tensions]
  for (const [i, k] of [0, 1, 2, 3].map((i) => [i, 3 - i] as const)) expect(a[i]).toBeCloseTo(b[k] as number, 3)
})

/** A bar on a bridle of this height, two plumb drops at its ends, the centre of gravity so far above the load's points. */
const onDrops = (height: number, above: number, drop: number): Suspended => ({
  bodies: [
    { weight: 1e5, cog: [0, 0, above], start: at([0, 0, -height - drop]) },
    { weight: 10, cog: ZERO, start: at([0, 0, -height]) },
  ],
  lines: [
    ...[2, -2].map((x) => ({
      lower: { body: 1, at: [x, 0, 0] as Vec3 },
      upper: { at: ZERO },
      length: Math.hypot(2, height),
      stiffness: 1e9,
    })),
    // two drops at each end, a V across the bar and longer than the piece is high: only the swing along it is in question
    ...[2, -2].flatMap((x) =>
      [1.5, -1.5].map((y) => ({
        lower: { body: 0, at: [x, y, 0] as Vec3 },
        upper: { body: 1, at: [x, 0, 0] as Vec3 },
        length: Math.hypot(drop, 1.5),
        stiffness: 1e9,
      })),
    ),
  ],
})

test('a spreader on plumb drops is stable only while its bridle is higher than the centre of gravity is above the points', () => {
  fc.assert(
    fc.property(real(1, 4), real(0.6, 1.4), real(6, 9), (height, share, drop) => {
      fc.pre(Math.abs(share - 1) > 0.05)
      const found = intendedSettle(onDrops(height, share * height, drop))
      expect(found).toBeDefined()
      expect((found?.stiffness as number) > 0).toBe(share < 1)
    }),
    { numRuns: 40 },
  )
})

test('a heavier load never lowers a pull', () => {
  fc.assert(
    fc.property(real(1e5, 1e6), real(1.01, 1.5), real(-0.3, 0.3), (weight, more, x) => {
      const pulls = (w: number) => most(settle(bridle([5, 5.002, 5, 5], [x, 0, -1], 5e7, w)).tensions)
      expect(pulls(weight * more)).toBeGreaterThan(pulls(weight))
    }),
    { numRuns: 25 },
  )
})

test('everything slack is said as it is: nothing holds, and the forces do not close', () => {
  const load = bridle([5, 5, 5, 5], [0, 0, -1])
  const cut: Suspended = { ...load, lines: load.lines.map((l) => ({ ...l, length: 1e5 })) }
  const found = settle(cut)
  expect(found.settled).toBe(false)
  expect(worstForce(found)).toBeCloseTo(6e5, 0)
})
