import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { add, apply, cross, dot, norm, rotationAbout, scale, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Hang, type HangPose, type HungLoad, hang, hangingFrom, intendedHang, landscapeOf } from './hang.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Four legs on a rectangle, all a little uneven: points, lengths, stiffness, centre of gravity. */
const bridle = fc
  .record({
    half: fc.tuple(real(1, 4), real(1, 4)),
    lift: fc.array(real(-0.2, 0.2), { minLength: 4, maxLength: 4 }),
    height: real(4, 9),
    errors: fc.array(real(-0.004, 0.004), { minLength: 4, maxLength: 4 }),
    stiffness: fc.array(real(5e7, 4e8), { minLength: 4, maxLength: 4 }),
    weight: real(2e5, 4e6),
    cog: fc.tuple(real(-0.3, 0.3), real(-0.3, 0.3), real(-3, 0.5)),
  })
  .map(({ half: [a, b], lift, height, errors, stiffness, weight, cog }): HungLoad => {
    const corners: Vec3[] = [
      [a, b, lift[0] as number],
      [-a, b, lift[1] as number],
      [-a, -b, lift[2] as number],
      [a, -b, lift[3] as number],
    ]
    return {
      legs: corners.map((to, i) => ({
        to,
        length: norm(subtract([0, 0, height], to)) * (1 + (errors[i] as number)),
        stiffness: stiffness[i] as number,
      })),
      weight,
      cog,
    }
  })

/** A bar pinned or hung by two slings, four drop slings, all uneven. */
const withSpreader = fc
  .record({
    load: bridle,
    half: real(1.5, 3),
    drop: real(2, 5),
    arm: real(0.5, 3),
    bridled: fc.boolean(),
    own: real(1e4, 5e4),
  })
  .map(({ load, half, drop, arm, bridled, own }): HungLoad => {
    const end = (x: number): Vec3 => [Math.sign(x) * half, 0, bridled ? 0 : -arm]
    const legs = load.legs.map((leg) => {
      const from = end(leg.to[0])
      const span = subtract([from[0], from[1], leg.to[2] + drop], leg.to)
      return { ...leg, from, length: norm(span) }
    })
    const top = bridled
      ? [half, -half].map((x) => ({ to: [x, 0, 0.2] as Vec3, length: Math.hypot(x, arm), stiffness: 2e8 }))
      : []
    const cog: Vec3 = [0, 0, bridled ? 0 : -arm]
    return { ...load, cog: [load.cog[0], load.cog[1], load.cog[2] - 1], legs, spreader: { weight: own, cog, top } }
  })

const rotated = (load: HungLoad, angle: number): HungLoad => {
  const turn = rotationAbout('z', angle)
  return {
    ...load,
    cog: apply(turn, load.cog),
    legs: load.legs.map((leg) => ({
      ...leg,
      to: apply(turn, leg.to),
      ...(leg.from === undefined ? {} : { from: apply(turn, leg.from) }),
    })),
    ...(load.spreader === undefined
      ? {}
      : {
          spreader: {
            ...load.spreader,
            cog: apply(turn, load.spreader.cog),
            top: load.spreader.top.map((leg) => ({ ...leg, to: apply(turn, leg.to) })),
          },
        }),
  }
}

/** The same with every length out by as much as its sign says, and the centre of gravity elsewhere in plan. */
const elsewhere = (load: HungLoad, signs: readonly number[], out: number, x: number): HungLoad => ({
  ...load,
  cog: add(load.cog, [x, -x / 2, 0]),
  legs: load.legs.map((leg, i) => ({ ...leg, length: leg.length * (1 + out * (signs[i] as number)) })),
})

test('a corner of the tolerances hangs alike by steps on pose and tensions together and by descent of the energy', () => {
  const signs = fc.array(fc.constantFrom(-1, 0, 1), { minLength: 4, maxLength: 4 })
  fc.assert(
    fc.property(fc.oneof(bridle, withSpreader), signs, real(0, 0.01), real(-0.2, 0.2), (load, s, out, x) => {
      const planned = hang(load)
      fc.pre(planned.settled && planned.stiffness > 0)
      const corner = elsewhere(load, s, out, x)
      const [quick, slow] = [hangingFrom(corner, planned), hang(corner, planned.pose)]
      for (const [i, t] of quick.tensions.entries())
        expect(Math.abs(t - (slow.tensions[i] as number))).toBeLessThan(1e-6 * load.weight)
      expect(Math.abs(quick.tilt - slow.tilt)).toBeLessThan(1e-6)
      expect(quick.residual.force).toBeLessThan(1e-7 * load.weight)
    }),
  )
})

describe.each([
  ['a bridle', bridle],
  ['a spreader', withSpreader],
])('%s', (_, loads) => {
  test('comes to rest with forces and moments that close', () => {
    fc.assert(
      fc.property(loads, (load) => {
        const h = hang(load)
        expect(h.settled).toBe(true)
        expect(h.residual.force).toBeLessThan(1e-6 * load.weight)
        expect(h.residual.moment).toBeLessThan(1e-5 * load.weight)
        expect(h.residual.spreaderForce).toBeLessThan(1e-6 * load.weight)
        expect(h.residual.spreaderMoment).toBeLessThan(1e-5 * load.weight)
      }),
      { numRuns: 60 },
    )
  })

  test('carries its weight: the upright parts of the tensions sum to it', () => {
    fc.assert(
      fc.property(loads, (load) => {
        const h = hang(load)
        const carried = h.tensions.reduce((sum, t, i) => sum + t * Math.cos(h.angles[i] as number), 0)
        expect(carried / load.weight).toBeCloseTo(1, 6)
      }),
      { numRuns: 60 },
    )
  })

  test('hangs the same whichever way it is turned about the vertical', () => {
    fc.assert(
      fc.property(loads, real(-3, 3), (load, angle) => {
        const [a, b] = [hang(load), hang(rotated(load, angle))]
        for (const [i, t] of a.tensions.entries())
          expect(Math.abs(t - (b.tensions[i] as number)) / load.weight).toBeLessThan(1e-6)
        expect(Math.abs(a.tilt - b.tilt)).toBeLessThan(1e-6)
      }),
      { numRuns: 40 },
    )
  })

  test('does not mind the order in which its legs are named', () => {
    fc.assert(
      fc.property(loads, (load) => {
        const [a, b] = [hang(load), hang({ ...load, legs: [...load.legs].reverse() })]
        for (const [i, t] of a.tensions.entries())
          expect(Math.abs(t - (b.tensions[3 - i] as number)) / load.weight).toBeLessThan(1e-6)
      }),
      { numRuns: 40 },
    )
  })

  test('is held as stiffly as the differences of its slope say', () => {
    fc.assert(
      fc.property(loads, (load) => {
        const h = hang(load)
        // where a leg is about to go slack the slope has a kink
        fc.pre(h.tensions.every((t) => t > 1e-3 * load.weight))
        const land = landscapeOf(load)
        const { hessian } = land.at(h.pose)
        const n = hessian.length
        const size = Math.max(...hessian.flat().map(Math.abs))
        for (let k = 0; k < n; k++) {
          const step = (d: number): number[] => Array.from({ length: n }, (_, i) => (i === k ? d : 0))
          const ahead = land.at(land.moved(h.pose, step(1e-6))).gradient
          const behind = land.at(land.moved(h.pose, step(-1e-6))).gradient
          for (let i = 0; i < n; i++) {
            const slope = ((ahead[i] as number) - (behind[i] as number)) / 2e-6
            expect(Math.abs(slope - (hessian[i]?.[k] as number)) / size).toBeLessThan(1e-3)
          }
        }
      }),
      { numRuns: 30 },
    )
  })

  test('comes back to the same rest from a pose that was pushed', () => {
    fc.assert(
      fc.property(loads, real(-0.05, 0.05), real(-0.05, 0.05), (load, x, y) => {
        const a = hang(load)
        const b = hang(load, { ...a.pose, hook: add(a.pose.hook, [x, y, 0]) })
        // where one of four legs just goes slack there can be two rests: then a ridge parts them, or the pose is told as not stable
        const other = a.tensions.some((t, i) => Math.abs(t - (b.tensions[i] as number)) / load.weight >= 1e-5)
        expect(other && b.stiffness > 0 && !isParted(load, a, b)).toBe(false)
      }),
      { numRuns: 40 },
    )
  })

  test('one of four legs just slack: two rests, a ridge between them, and its top is told as not stable', () => {
    const load = twoRests()
    const one = hang(load)
    const top = hang(load, pushed(one, 0.0001319800316328451))
    expect(top.stiffness).toBeLessThan(0)
    const two = hang(load, pushed(top, 1e-3))
    expect(one.stiffness).toBeGreaterThan(0)
    expect(two.stiffness).toBeGreaterThan(0)
    expect(one.tensions[0]).toBeGreaterThan(1)
    expect(two.tensions[0]).toBe(0)
    expect(isParted(load, one, two)).toBe(true)
  })
})

const pushed = ({ pose }: Hang, x: number): HangPose => ({ ...pose, hook: add(pose.hook, [x, 0, 0]) })

/** Energy rises between two rests: neither runs down into the other. */
function isParted(load: HungLoad, a: Hang, b: Hang): boolean {
  const energy = (share: number): number => {
    const hook = add(a.pose.hook, scale(subtract(b.pose.hook, a.pose.hook), share))
    return landscapeOf(load).at({ ...a.pose, hook }).value
  }
  const ends = Math.max(energy(0), energy(1))
  return Array.from({ length: 19 }, (_, i) => energy((i + 1) / 20)).some((value) => value > ends)
}

/** Four legs of other stiffnesses, the fourth 7 mm short, the centre of gravity half a metre over the points. */
const twoRests = (): HungLoad => ({
  legs: (
    [
      [1, 1, 4.242640687119285, 50e6],
      [-1, 1, 4.242640687119285, 88553083.56095722],
      [-1, -1, 4.242640687119285, 360931935.55563396],
      [1, -1, 4.23571148484673, 253773992.7537437],
    ] as const
  ).map(([x, y, length, stiffness]) => ({ to: [x, y, 0], length, stiffness })),
  weight: 200_000,
  cog: [0, 0, 0.49999999999357164],
})

/** Σ T u = W n, for three legs by Cramer's rule. */
function threeByStatics(points: readonly Vec3[], hook: Vec3, cog: Vec3, weight: number): number[] {
  const u = points.map((p) => scale(subtract(hook, p), 1 / norm(subtract(hook, p)))) as [Vec3, Vec3, Vec3]
  const up = scale(subtract(hook, cog), weight / norm(subtract(hook, cog)))
  const det = dot(u[0], cross(u[1], u[2]))
  return [dot(up, cross(u[1], u[2])) / det, dot(u[0], cross(up, u[2])) / det, dot(u[0], cross(u[1], up)) / det]
}

const threeLegs = (stiffness: number): HungLoad => ({
  legs: [
    { to: [2, 0.3, 0.1], length: 6, stiffness },
    { to: [-1.4, 1.8, 0], length: 6.1, stiffness },
    { to: [-1.2, -1.7, -0.1], length: 6.3, stiffness },
  ],
  weight: 8e5,
  cog: [0.1, 0.1, -1],
})

test('three legs a thousand times stiffer hang as statics says, whatever they are made of', () => {
  const rigid = hang(threeLegs(1e11))
  const { legs, cog, weight } = threeLegs(1e11)
  const statics = threeByStatics(
    legs.map((l) => l.to),
    rigid.pose.hook,
    cog,
    weight,
  )
  for (const [i, t] of rigid.tensions.entries()) expect(t).toBeCloseTo(statics[i] as number, 0)
  for (const leg of legs) expect(norm(subtract(rigid.pose.hook, leg.to))).toBeCloseTo(leg.length, 4)
  const soft = hang(threeLegs(1e8))
  for (const [i, t] of soft.tensions.entries()) expect(Math.abs(t / (statics[i] as number) - 1)).toBeLessThan(0.02)
})

/** Four equal legs over a square: tension W L/(4 h), by hand. */
const square = (length: number, stiffness = 1e10): HungLoad => ({
  legs: (
    [
      [2, 2, 0],
      [-2, 2, 0],
      [-2, -2, 0],
      [2, -2, 0],
    ] as Vec3[]
  ).map((to) => ({ to, length, stiffness })),
  weight: 1e6,
  cog: [0, 0, -1],
})

test('four equal legs over a square share evenly and do not tilt', () => {
  const h = hang(square(6))
  for (const t of h.tensions) expect(t / 1e6).toBeCloseTo(6 / (4 * Math.sqrt(36 - 8)), 4)
  expect(h.tilt).toBeLessThan(1e-9)
})

test('longer legs pull less and stand steeper', () => {
  fc.assert(
    fc.property(real(3.5, 12), real(0.1, 4), (length, more) => {
      const [short, long] = [hang(square(length)), hang(square(length + more))]
      expect(long.tensions[0]).toBeLessThan(short.tensions[0] as number)
      expect(long.angles[0]).toBeLessThan(short.angles[0] as number)
    }),
    { numRuns: 40 },
  )
})

test('a leg that is made longer gives load to its neighbours and takes it off the leg across', () => {
  const load = square(6, 2e8)
  const longer = hang({ ...load, legs: load.legs.map((l, i) => (i === 0 ? { ...l, length: 6.01 } : l)) })
  const even = hang(load)
  expect(longer.tensions[0]).toBeLessThan(even.tensions[0] as number)
  expect(longer.tensions[2]).toBeLessThan(even.tensions[2] as number)
  expect(longer.tensions[1]).toBeGreaterThan(even.tensions[1] as number)
})

test('a leg far too long is slack, and nothing pushes', () => {
  const load = square(6, 2e8)
  const h = hang({ ...load, legs: load.legs.map((l, i) => (i === 0 ? { ...l, length: 6.5 } : l)) })
  expect(h.tensions[0]).toBe(0)
  for (const t of h.tensions) expect(t).toBeGreaterThanOrEqual(0)
  expect(h.residual.force).toBeLessThan(1)
})

test('a load hung under its own centre of gravity does not tilt, and one off it turns until plumb', () => {
  const h = hang({ ...square(6), cog: [0.3, 0, -1] })
  const below = subtract(h.pose.hook, [0.3, 0, -1])
  expect(norm(cross(below, h.up))).toBeLessThan(1e-6)
  expect(h.tiltX).toBeLessThan(0)
})

test('a centre of gravity just under the hook is not held by soft legs; the far pose is not given for the meant one', () => {
  const soft: HungLoad = { ...square(5.6, 6e6), weight: 3e5, cog: [0, 0, 4.6] }
  expect(intendedHang(soft)?.stiffness).toBeLessThan(0)
  expect(intendedHang({ ...soft, cog: [0, 0, 4.2] })?.stiffness).toBeGreaterThan(0)
})
