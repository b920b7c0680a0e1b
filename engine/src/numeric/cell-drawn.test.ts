import { describe, expect, test } from 'vitest'
import { type Body, boundsOf, placedHolds } from './body.ts'
import { type Cell, cellOf } from './cell.ts'
import { cutOf } from './cut.ts'
import { encounter } from './encounter.ts'
import { hullOf, supportPoint } from './hull.ts'
import { straightMotion } from './motion.ts'
import { convexParts, isConvex, type Polygon, polygonIntegrals } from './polygon.ts'
import { stream } from './random.ts'
import { separation } from './separation.ts'
import { AT_REST, add, multiply, type Pose, rotationAbout, scale, unit, type Vec3 } from './vector.ts'

const POSE: Pose = { turn: multiply(rotationAbout('z', 0.4), rotationAbout('x', -1.1)), shift: [1, -2, 0.5] }
const PROFILE: Polygon = [
  [0, 0.5],
  [2, 0.5],
  [2, 1],
  [0.5, 1],
  [0.5, 2],
  [0, 2],
]
const flange: Body = { kind: 'revolution', origin: [0, 0, 0], axis: [1, 0, 0], profile: PROFILE }
const cone: Body = {
  kind: 'revolution',
  origin: [0, 1, 0],
  axis: unit([1, 2, -1]),
  profile: [
    [0, 0],
    [3, 0],
    [1, 1.5],
  ],
}
const angle: Body = {
  kind: 'prism',
  origin: [0, 0, 0],
  turn: rotationAbout('y', 0.7),
  outline: [
    [0, 0],
    [2, 0],
    [2, 1],
    [1, 1],
    [1, 2],
    [0, 2],
  ],
  depth: 1.5,
}
const dome: Body = { kind: 'cap', centre: [0, 0, 0], axis: unit([1, 0, 1]), radius: 2, height: 0.8 }
const most: Body = { kind: 'cap', centre: [0, 0, 0], axis: [0, 0, 1], radius: 1, height: 1.7 }

const random = stream(5, 'points')
const within = (least: number, greatest: number): number => least + random.uniform() * (greatest - least)

/** Cells that a cell comes to when everything loose is split a number of times. */
const leaves = (cell: Cell, times: number): readonly Cell[] => {
  const parts = times > 0 && cell.loose > 0 ? cell.split() : []
  return parts.length === 0 ? [cell] : parts.flatMap((part) => leaves(part, times - 1))
}
const holds = ({ outer }: Cell, p: Vec3): boolean => separation(hullOf([p]), outer, 0, 1e-7).gap < 1e-6

describe.each([
  ['a turned flange', flange],
  ['a cone and counter-cone', cone],
  ['an angle section', angle],
  ['a shallow dome', dome],
  ['more than half a ball', most],
] as const)('%s', (_, body) => {
  const cell = cellOf(body, POSE) as Cell
  const parts = leaves(cell, 4)

  test('lies in its cells, and its cells hold nothing that it does not', () => {
    const { min, max } = boundsOf([body], POSE)
    let inside = 0
    for (let i = 0; i < 4000; i++) {
      const p: Vec3 = [within(min[0], max[0]), within(min[1], max[1]), within(min[2], max[2])]
      if (!placedHolds({ body, pose: POSE }, p)) continue
      inside++
      if (inside <= 150) expect(parts.some((part) => holds(part, p))).toBe(true)
    }
    expect(inside).toBeGreaterThan(200)
    for (const { inner } of parts) {
      if (inner === undefined) continue
      for (let i = 0; i < 6; i++) {
        const corners = [0, 1, 2].map(() => supportPoint(inner, [within(-1, 1), within(-1, 1), within(-1, 1)]))
        const middle = scale(corners.reduce(add), 1 / 3)
        const nudged = add(middle, scale(add(supportPoint(inner, [0, 0, 0]), scale(middle, -1)), 1e-6))
        expect(nearlyHolds(body, nudged)).toBe(true)
      }
    }
  })

  test('has the bounds that its support gives', () => {
    const { min, max } = boundsOf([body], POSE)
    const e = cell.extent
    for (let i = 0; i < 3; i++) {
      expect(e[i]).toBeLessThanOrEqual((min[i] as number) + 1e-9)
      expect(e[i + 3]).toBeGreaterThanOrEqual((max[i] as number) - 1e-9)
    }
    expect(Math.hypot(e[3] - max[0], e[0] - min[0])).toBeLessThan(1e-6)
  })
})

/** Held, or within a thousandth of a millimetre of being held, in one of some directions. */
const nearlyHolds = (body: Body, p: Vec3): boolean =>
  Array.from({ length: 60 }, (_, i): Vec3 => {
    const z = 1 - (2 * i + 1) / 60
    const r = Math.sqrt(1 - z * z)
    return [r * Math.cos(i * 2.4), r * Math.sin(i * 2.4), z]
  }).some((d) => placedHolds({ body, pose: POSE }, add(p, scale(d, 1e-6))))

const LIMITS = { tolerance: 0.001, reach: 0, resolution: 0.001 }
const cells = (body: Body): Cell[] => [cellOf(body, AT_REST) as Cell]
const meets = (a: Body, b: Body, by: Vec3) => encounter(cells(a), cells(b), straightMotion(AT_REST, by), LIMITS).verdict

test('a shaft with no clearance in a turned bore slides along it, and is held across it', () => {
  const shaft: Body = { kind: 'frustum', from: [-1, 0, 0], to: [3, 0, 0], radii: [0.5, 0.5] }
  expect(meets(shaft, flange, [9, 0, 0])).toBe('clear')
  expect(meets(shaft, flange, [0, 0, 9])).toBe('struck')
})

test('a bar goes through the corner of an angle section, and not through its legs', () => {
  const upright: Body = { ...angle, kind: 'prism', turn: rotationAbout('x', 0) } as Body
  const bar = (x: number, y: number): Body => ({ kind: 'frustum', from: [x, y, -5], to: [x, y, -3], radii: [0.2, 0.2] })
  expect(meets(bar(1.5, 1.5), upright, [0, 0, 12])).toBe('clear')
  expect(meets(bar(1.5, 0.5), upright, [0, 0, 12])).toBe('struck')
  expect(meets(bar(1.15, 1.5), upright, [0, 0, 12])).toBe('struck')
})

test('a rod passes a dome at the height of its top, to the millimetre', () => {
  const low: Body = { kind: 'cap', centre: [0, 0, -1.2], axis: [0, 0, 1], radius: 2, height: 0.8 }
  const rod = (z: number): Body => ({ kind: 'frustum', from: [-6, -1, z], to: [-6, 1, z], radii: [0.1, 0.1] })
  expect(meets(rod(0.901), low, [12, 0, 0])).toBe('clear')
  expect(meets(rod(0.897), low, [12, 0, 0])).toBe('struck')
  // Beyond the rim, 1.6 m out, there is nothing of the ball.
  expect(meets({ ...rod(0.05), from: [-6, 1.75, 0.05], to: [-6, 2.5, 0.05] } as Body, low, [12, 0, 0])).toBe('clear')
})

test('a port cut through an extruded plate lets a bar through', () => {
  const plate: Body = {
    ...angle,
    outline: [
      [0, 0],
      [4, 0],
      [4, 4],
      [0, 4],
    ],
    turn: rotationAbout('x', 0),
    depth: 0.1,
  } as Body
  const port = cutOf({ kind: 'frustum', from: [2, 2, -1], to: [2, 2, 1], radii: [0.5, 0.5] }, AT_REST)
  const holed = [cellOf(plate, AT_REST, [port]) as Cell]
  const through = (r: number) =>
    encounter(
      cells({ kind: 'frustum', from: [2, 2, -3], to: [2, 2, -2], radii: [r, r] }),
      holed,
      straightMotion(AT_REST, [0, 0, 6]),
      { ...LIMITS, tolerance: 0.004 },
    ).verdict
  expect(through(0.48)).toBe('clear')
  expect(through(0.55)).toBe('struck')
})

test('a polygon that is not convex is filled by convex ones of the same area', () => {
  for (const turns of [5, 8, 13]) {
    const star: Polygon = Array.from({ length: 2 * turns }, (_, i) => {
      const [r, a] = [i % 2 === 0 ? 3 : 1.1, (Math.PI * i) / turns]
      return [r * Math.cos(a), r * Math.sin(a)]
    })
    const parts = convexParts(star)
    expect(parts.every(isConvex)).toBe(true)
    expect(parts.reduce((sum, p) => sum + polygonIntegrals(p).area, 0)).toBeCloseTo(polygonIntegrals(star).area, 9)
    expect(parts.length).toBeLessThan(2 * turns - 2)
  }
})
