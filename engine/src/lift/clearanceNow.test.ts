import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { type Pose, subtract } from '../numeric/vector.ts'
import { strip } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import { type ClearanceNow, clearanceNow } from './clearanceNow.ts'
import { lift } from './lift.ts'
import { type Document, modelOf, smallProject } from './small.fixture.ts'

const up = (z: number): Pose => ({
  turn: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  shift: [0, 0, z],
})

/** What the lift of the small project is near at heights over where it stands, and what its checks say. */
function along(change: (d: Document) => void = () => {}) {
  const memory = freshMemory()
  const model = modelOf(smallProject(change), memory)
  const masses = mass(model, memory)
  const order = strip(model, masses, memory)
  const { checks } = lift(model, masses, order, memory)
  const now = clearanceNow(model, masses, order, 'out', memory)
  return {
    at: (z: number): ClearanceNow[] => now?.(up(z)) ?? [],
    least: (to: string): number =>
      Math.min(...Array.from({ length: 37 }, (_, k) => now?.(up(k / 2))?.find((n) => n.to === to)?.gap ?? Infinity)),
    check: (to: string) => checks.find((c) => c.id === `lift.path.clearance/out/${to}`)?.capacity.value as number,
  }
}

describe('a block lifted through a shaft', () => {
  test('comes no nearer to wall and duct, moment by moment, than its check says, and once as near', () => {
    const { least, check } = along()
    for (const to of ['wall', 'duct']) expect(least(to)).toBeCloseTo(check(to), 9)
  })

  test('is near the duct only while it is level with it, and to nothing once it is over the collar', () => {
    const { at } = along((d) => {
      d.shaft.obstructions.duct.z = ['-4 m', '-2 m']
    })
    expect(at(0).map((n) => n.to)).not.toContain('duct')
    expect(at(7).map((n) => n.to)).toContain('duct')
    expect(at(40)).toEqual([])
  })

  test('has its two points level, as far apart as the gap, one on the bore and one on the duct', () => {
    const near = along().at(6)
    expect(near.length).toBe(2)
    for (const { gap, from, at, to } of near) {
      const [dx, dy, dz] = subtract(at, from)
      expect(dz).toBe(0)
      expect(Math.hypot(dx, dy)).toBeCloseTo(gap, 9)
      if (to === 'wall') expect(Math.hypot(at[0], at[1])).toBeCloseTo(6, 9)
      // the duct: x 2.5 to 3, y 1 to 2, beside the face of the block at x 1.5
      else {
        expect(at[0]).toBeCloseTo(2.5, 6)
        expect(at[1]).toBeGreaterThanOrEqual(1 - 1e-9)
        expect(from[0]).toBeCloseTo(1.5, 1)
      }
    }
  })
})

describe('a wall as surveyed', () => {
  /** Piles of 1 m on a circle of 7 m: as designed their faces stand 6.5 m from the axis, 0.5 m behind the clear bore. */
  const piles = (change: (id: number, r: { head: number; low: number }) => void = () => {}, count = 24) => ({
    pileDiameter: '1 m',
    piles: 24,
    ringDiameter: '14 m',
    asBuilt: Object.fromEntries(
      Array.from({ length: count }, (_, k) => {
        const r = { head: 7, low: 7 }
        change(k, r)
        const at = (radius: number) => [Math.cos, Math.sin].map((f) => `${radius * f((k * Math.PI) / 12)} m`)
        return [`P${k}`, { head: at(r.head), low: at(r.low), lowAt: '-14 m' }]
      }),
    ),
  })
  const wallAt = (z: number, wall: Document) =>
    along((d) => {
      d.shaft.wall = { ...d.shaft.wall, kind: 'secant piles', ...wall }
    })
      .at(z)
      .find((n) => n.to === 'wall') as ClearanceNow

  test('is the wall that the piece is near, and the pile is named', () => {
    // as found, 3 × 2 m: towards pile 0 at 0° and 180° it reaches 1.5 m, towards 30° 1.5 cos + 1 sin
    const near = wallAt(0, piles())
    const farthest = Math.max(...Array.from({ length: 24 }, (_, k) => reach((k * Math.PI) / 12)))
    expect(near.gap).toBeLessThanOrEqual(6.5 - farthest + 1e-9)
    expect(near.gap).toBeGreaterThan(6.5 - farthest - 0.1) // as it hangs at the worst tilt it reaches a little farther
    expect(near.name).toMatch(/^wall of the shaft as surveyed, P\d+$/)
  })

  test('a pile that leans in is nearer the deeper the piece is', () => {
    const leaning = piles((id, r) => {
      if (id === 0) r.low = 5
    })
    // the face of pile 0 at depth z: 6.5 − 2 z/14; the piece reaches down to −11 as found
    const deep = wallAt(0, leaning)
    expect(deep.name).toContain('P0')
    const face = 6.5 - (2 * 11) / 14
    expect(Math.abs(deep.gap - (face - 1.5))).toBeLessThan(0.1)
    expect(wallAt(5, leaning).gap - deep.gap).toBeCloseTo((2 * 5) / 14, 1)
  })

  test('until every pile is surveyed it is the clear bore', () => {
    const near = wallAt(0, piles(undefined, 23))
    expect(near.name).toBeUndefined()
    expect(near.gap).toBeCloseTo(wallAt(0, {}).gap, 9)
  })

  /** Panels 1 m thick whose middles stand on a circle of 14 m. */
  const panels = (change: (id: number) => readonly [along: number, out: number]) => ({
    thickness: '1 m',
    piles: 24,
    ringDiameter: '14 m',
    asBuilt: Object.fromEntries(
      Array.from({ length: 24 }, (_, k) => {
        const [c, s] = [Math.cos((k * Math.PI) / 12), Math.sin((k * Math.PI) / 12)]
        const [along, out] = change(k)
        const low = [(7 + out) * c - along * s, (7 + out) * s + along * c].map((x) => `${x} m`)
        return [`E${k}`, { head: [`${7 * c} m`, `${7 * s} m`], low, lowAt: '-14 m' }]
      }),
    ),
  })
  const panelsAt = (z: number, change: Parameters<typeof panels>[0]) =>
    wallAt(z, { ...panels(change), kind: 'slurry panels' })

  test('of panels is their straight faces: one that leans in is nearer, one that slides along the wall is not', () => {
    const plumb = panelsAt(0, () => [0, 0])
    expect(plumb.name).toMatch(/as surveyed, E\d+$/)
    expect(panelsAt(0, () => [0.4, 0]).gap).toBeCloseTo(plumb.gap, 9)
    const leaning = panelsAt(0, (id) => [0, id === 0 ? -2 : 0])
    expect(leaning.name).toContain('E0')
    expect(Math.abs(leaning.gap - (6.5 - (2 * 11) / 14 - 1.5))).toBeLessThan(0.1)
  })

  /** Of the block in plan in a direction. */
  function reach(a: number): number {
    return 1.5 * Math.abs(Math.cos(a)) + Math.abs(Math.sin(a))
  }
})
