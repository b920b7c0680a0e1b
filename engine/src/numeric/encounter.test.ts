import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Body, placedHolds } from './body.ts'
import { type Cell, cellOf } from './cell.ts'
import { cutOf } from './cut.ts'
import { encounter } from './encounter.ts'
import { straightMotion, turningMotion } from './motion.ts'
import {
  AT_REST,
  add,
  apply,
  IDENTITY,
  multiply,
  type Pose,
  rotationAbout,
  scale,
  subtract,
  transpose,
  type Vec3,
  ZERO,
} from './vector.ts'

const DEG = Math.PI / 180
const LIMITS = { tolerance: 0.001, reach: 0, resolution: 0.001 }
const NEAR = { tolerance: 0.001, reach: 1, resolution: 0.0005 }

const ring = (inner: number, outer: number, rear: number, front: number, from = 0, to = 360): Body => ({
  kind: 'ring sector',
  inner,
  outer,
  rear,
  front,
  start: from * DEG,
  sweep: (to - from) * DEG,
})
const rod = (radius: number, from: Vec3, to: Vec3): Body => ({ kind: 'frustum', from, to, radii: [radius, radius] })
const block = (centre: Vec3, size: Vec3): Body => ({ kind: 'box', centre, half: scale(size, 0.5), turn: IDENTITY })
const cells = (body: Body, pose: Pose = AT_REST): Cell[] => [cellOf(body, pose) as Cell]
const meets = (a: Body, b: Body, by: Vec3, limits = LIMITS) =>
  encounter(cells(a), cells(b), straightMotion(AT_REST, by), limits)

test('a bearing ring with no clearance in its seat slides out along the axis and in no other direction', () => {
  const seat = ring(3.02, 3.3, -1, 1)
  const bearing = ring(2.6, 3.02, -0.5, 0)
  expect(meets(bearing, seat, [5, 0, 0]).verdict).toBe('clear')
  expect(meets(bearing, seat, [-5, 0, 0]).verdict).toBe('clear')
  expect(meets(bearing, seat, [0, 0, 5]).verdict).toBe('struck')
  expect(meets(bearing, seat, [5, 0, 0.1]).verdict).toBe('struck')
  expect(meets(seat, bearing, [5, 0, 0]).verdict).toBe('clear')
})

test('the same at any tessellation: in a seat made of three sectors, and tilted', () => {
  const pose = { turn: multiply(rotationAbout('z', 0.3), rotationAbout('y', -0.7)), shift: [4, -2, 1] as Vec3 }
  const seat = [0, 120, 240].flatMap((a) => cells(ring(3.02, 3.3, -1, 1, a, a + 120), pose))
  const out = apply(pose.turn, [5, 0, 0])
  const bearing = cells(ring(2.6, 3.02, -0.5, 0), pose)
  expect(encounter(bearing, seat, straightMotion(AT_REST, out), LIMITS).verdict).toBe('clear')
  expect(encounter(bearing, seat, straightMotion(AT_REST, apply(pose.turn, [0, 5, 1])), LIMITS).verdict).toBe('struck')
})

test('a journal leaves a half bore straight out, and not aslant', () => {
  const half = ring(1, 1.5, 0, 2, 180, 360)
  const journal = rod(1, [0, 0, 0], [2, 0, 0])
  expect(meets(journal, half, [0, 0, 4]).verdict).toBe('clear')
  expect(meets(journal, half, [4, 0, 0]).verdict).toBe('clear')
  expect(meets(journal, half, [0, 4 * Math.sin(8 * DEG), 4 * Math.cos(8 * DEG)]).verdict).toBe('struck')
  expect(meets(journal, ring(1, 1.5, 0, 2, 170, 370), [0, 0, 4]).verdict).toBe('struck')
})

test('a journal wrapped over 120 degrees leaves within 30 degrees of straight out', () => {
  const wrap = ring(1, 1.5, 0, 2, 210, 330)
  const journal = rod(1, [0, 0, 0], [2, 0, 0])
  const leaving = (lean: number) =>
    meets(journal, wrap, [0, 4 * Math.sin(lean * DEG), 4 * Math.cos(lean * DEG)]).verdict
  expect(leaving(29.9)).toBe('clear')
  expect(leaving(36)).toBe('struck')
})

test('the gap in a bore is the difference of the radii', () => {
  const found = meets(rod(1, [-1, 0, 0], [1, 0, 0]), ring(1.02, 2, -3, 3), [1, 0, 0], NEAR)
  expect(found.gap).toBeCloseTo(0.02, 9)
  const off = meets(rod(1, [-1, 0, 0.01], [1, 0, 0.01]), ring(1.02, 2, -3, 3), [1, 0, 0], NEAR)
  expect(off.gap).toBeCloseTo(0.01, 9)
})

test('a cylinder passing a ring sector keeps the gap that a drawing gives', () => {
  // The rod goes up past the end face of the sector, 0.3 to the side of it.
  const found = meets(rod(0.2, [0, 3.5, -4], [1, 3.5, -4]), ring(2, 3, 0, 1, 150, 210), [0, 0, 8], NEAR)
  expect(found.verdict).toBe('clear')
  expect(found.gap).toBeCloseTo(1, 2)
  const past = meets(rod(0.2, [0, 3.5, -4], [1, 3.5, -4]), ring(2, 3, 0, 1, 0, 360), [0, 0, 8], NEAR)
  expect(past.gap).toBeCloseTo(0.3, 3)
})

test('a port cut through a plate lets a bar through that the plate would stop', () => {
  const plate = block([0, 0, 0], [0.1, 4, 4])
  const port = cutOf(rod(0.5, [-1, 0, 0], [1, 0, 0]), AT_REST)
  const holed = [cellOf(plate, AT_REST, [port]) as Cell]
  const through = (radius: number) =>
    encounter(cells(rod(radius, [-2, 0, 0], [-1, 0, 0])), holed, straightMotion(AT_REST, [4, 0, 0]), {
      ...LIMITS,
      tolerance: 0.004,
    })
  expect(through(0.48).verdict).toBe('clear')
  expect(through(0.55).verdict).toBe('struck')
  expect(meets(rod(0.1, [-2, 0, 0], [-1, 0, 0]), plate, [4, 0, 0]).verdict).toBe('struck')
})

test('a door turns on its hinge past a post that stands outside its reach, and hits one inside it', () => {
  const door = cells(block([1, 0, 0], [2, 0.1, 2]))
  const swing = turningMotion({ pose: AT_REST, axis: [0, 0, 1], about: [0, 0, 0], from: 0, to: Math.PI / 2 })
  const post = (d: number) => cells(rod(0.05, [d, d, -1], [d, d, 1]))
  expect(encounter(door, post(1.5), swing, LIMITS).verdict).toBe('clear')
  expect(encounter(door, post(1.3), swing, LIMITS).verdict).toBe('struck')
  const gap = encounter(door, post(1.5), swing, NEAR).gap
  const tip = Math.hypot(2, 0.05)
  expect(gap).toBeCloseTo(Math.hypot(1.5, 1.5) - 0.05 - tip, 2)
})

test('a bar turned about its middle leaves out the notch between its ends', () => {
  const bar = cells(block([0, 0, 0], [2, 0.1, 0.1]))
  const swing = turningMotion({ pose: AT_REST, axis: [0, 0, 1], about: ZERO, from: 0, to: 40 * DEG })
  const peg = (away: number, angle: number) => {
    const [x, y] = [away * Math.cos(angle * DEG), away * Math.sin(angle * DEG)]
    return cells(rod(0.03, [x, y, -1], [x, y, 1]))
  }
  // Square to the middle of the turn: at either end of it the bar is away · sin 70° off, and no nearer between.
  const found = encounter(bar, peg(0.2, 110), swing, NEAR)
  expect(found.verdict).toBe('clear')
  expect(found.gap).toBeCloseTo(0.2 * Math.sin(70 * DEG) - 0.08, 2)
  expect(encounter(bar, peg(0.5, 20), swing, NEAR).verdict).toBe('struck')
})

test('the place of a fit is where shaft and bore are nearest, not the middle of the bore', () => {
  const { gap, at } = meets(rod(0.9, [0, 0.05, 0], [1, 0.05, 0]), ring(1, 2, 0, 1), [0.5, 0, 0], NEAR)
  expect(gap).toBeCloseTo(0.05, 6)
  expect(at[1]).toBeCloseTo(0.975, 6)
  expect(at[2]).toBeCloseTo(0, 6)
})

test('A blocks B along d just when B blocks A along the opposite of d', () => {
  const angle = fc.double({ min: 0, max: 360, noNaN: true })
  const real = fc.double({ min: -3, max: 3, noNaN: true })
  const body = fc.oneof(
    fc.tuple(real, real, real).map((c) => block(c, [1, 1.5, 0.7])),
    fc.tuple(angle, real).map(([a, x]) => ring(1, 1.4, x, x + 0.5, a, a + 100)),
    fc.tuple(real, real, real).map((c) => rod(0.4, c, add(c, [0.5, 0.6, 0.7]))),
  )
  let struck = 0
  fc.assert(
    fc.property(body, body, fc.tuple(real, real, real), (a, b, d) => {
      const there = meets(a, b, d).verdict
      const back = meets(b, a, scale(d, -1)).verdict
      if (there === 'struck') struck++
      if (there !== 'open' && back !== 'open') expect(back).toBe(there)
    }),
    { numRuns: 300 },
  )
  expect(struck).toBeGreaterThan(60)
})

test('what stops in many places of the way would find, the sweep finds; a clear sweep has no stop that overlaps', () => {
  const real = fc.integer({ min: -1500, max: 1500 }).map((i) => i / 1000)
  const angle = fc.double({ min: 0, max: 360, noNaN: true })
  let [clear, struck] = [0, 0]
  fc.assert(
    fc.property(real, angle, fc.tuple(real, real, real), fc.tuple(real, real, real), (x, a, c, d) => {
      const sector = ring(0.8, 1.6, x, x + 0.6, a, a + 140)
      const bar = block(c, [0.3, 0.4, 0.5])
      const found = meets(bar, sector, scale(d, 0.8))
      const grid = [-0.5, 0, 0.5]
      const inside = grid.flatMap((i) => grid.flatMap((j) => grid.map((k): Vec3 => [0.3 * i, 0.4 * j, 0.5 * k])))
      const depthSeen = Array.from({ length: 21 }, (_, i) => scale(d, (0.8 * i) / 20)).some((at) =>
        inside.some((p) => holdsWithMargin(sector, add(add(c, at), p))),
      )
      if (found.verdict === 'clear') {
        clear++
        expect(depthSeen).toBe(false)
      } else struck++
    }),
    { numRuns: 200 },
  )
  expect([clear, struck].map((n) => n > 15)).toEqual([true, true])
})

/** Inside the body and still so when pushed 2 mm along any axis. */
function holdsWithMargin(body: Body, p: Vec3): boolean {
  const pushes: Vec3[] = [0, 1, 2].flatMap((i) =>
    [0.002, -0.002].map((s) => [0, 0, 0].map((_, k) => (k === i ? s : 0)) as unknown as Vec3),
  )
  return pushes.every((push) => placedHolds({ body, pose: AT_REST }, add(p, push)))
}

test('a block in an oblique slot is free along the slot alone', () => {
  const tilt = rotationAbout('y', -37 * DEG)
  const pose = { turn: tilt, shift: ZERO }
  const walls = [
    block([0, 0, 1], [6, 2, 1]),
    block([0, 0, -1], [6, 2, 1]),
    block([0, 1.5, 0], [6, 1, 3]),
    block([0, -1.5, 0], [6, 1, 3]),
  ].flatMap((b) => cells(b, pose))
  const tongue = cells(block([0, 0, 0], [2, 2, 1]), pose)
  const free = Array.from({ length: 360 }, (_, a) => a).filter((a) => {
    const d: Vec3 = [20 * Math.cos(a * DEG), 0, 20 * Math.sin(a * DEG)]
    return encounter(tongue, walls, straightMotion(AT_REST, d), LIMITS).verdict === 'clear'
  })
  expect(free).toEqual([37, 217])
  expect(apply(transpose(tilt), subtract([Math.cos(37 * DEG), 0, Math.sin(37 * DEG)], ZERO))[0]).toBeCloseTo(1, 12)
})
