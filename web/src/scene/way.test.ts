import { AT_REST, place, rotationAbout, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Leg, poseAlong, reversed, turnBetween, wayOf } from './way.ts'

const near = (a: Vec3, b: Vec3): void => {
  for (const k of [0, 1, 2] as const) expect(a[k]).toBeCloseTo(b[k], 9)
}

test('a piece that is turned about a point keeps its distance from it all the way', () => {
  const about: Vec3 = [2, 3, 4]
  const way = wayOf(AT_REST, [{ turn: [0, Math.PI / 2, 0], about }])
  for (const share of [0, 0.2, 0.5, 0.9, 1]) {
    const [x, y, z] = place(poseAlong(way, share), [5, 3, 4])
    expect(Math.hypot(x - about[0], y - about[1], z - about[2])).toBeCloseTo(3, 9)
  }
  near(place(poseAlong(way, 1), [5, 3, 4]), [2, 3, 1])
})

test('halfway through ten metres up and ten along, it has just gone up', () => {
  const way = wayOf(AT_REST, [{ by: [0, 0, 10] }, { by: [0, 10, 0] }])
  near(poseAlong(way, 0.5).shift, [0, 0, 10])
  near(poseAlong(way, 0.75).shift, [0, 5, 10])
})

const metres = fc.double({ min: -30, max: 30, noNaN: true })
const vec = fc.tuple(metres, metres, metres)
const leg: fc.Arbitrary<Leg> = fc.oneof(
  vec.map((by) => ({ by })),
  fc.tuple(vec, vec).map(([turn, about]) => ({ turn: [turn[0] / 12, turn[1] / 12, turn[2] / 12] as Vec3, about })),
)

test('any way gone backwards ends where it began', () => {
  fc.assert(
    fc.property(fc.array(leg, { minLength: 1, maxLength: 5 }), vec, (legs, p) => {
      const out = wayOf(AT_REST, legs)
      const back = wayOf(poseAlong(out, 1), reversed(out.legs))
      const end = place(poseAlong(back, 1), p)
      for (const k of [0, 1, 2] as const) expect(end[k]).toBeCloseTo(p[k], 4)
    }),
  )
})

test('a way never jumps: a small share moves a point a little', () => {
  fc.assert(
    fc.property(
      fc.array(leg, { minLength: 1, maxLength: 4 }),
      fc.double({ min: 0, max: 0.999, noNaN: true }),
      (legs, s) => {
        const way = wayOf(AT_REST, legs)
        const p: Vec3 = [1, 2, 3]
        const [a, b] = [place(poseAlong(way, s), p), place(poseAlong(way, s + 1e-6), p)]
        expect(Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])).toBeLessThan(0.05)
      },
    ),
  )
})

test('the turn between two attitudes is the one that was made, half a turn included', () => {
  for (const axis of ['x', 'y', 'z'] as const)
    for (const angle of [0.4, -1.2, Math.PI]) {
      const turn = turnBetween(rotationAbout('x', 0.3), wayMultiply(axis, angle))
      expect(Math.hypot(...turn)).toBeCloseTo(Math.abs(angle), 6)
    }
})

const wayMultiply = (axis: 'x' | 'y' | 'z', angle: number) => {
  const turn: Vec3 = [axis === 'x' ? angle : 0, axis === 'y' ? angle : 0, axis === 'z' ? angle : 0]
  return poseAlong(wayOf({ turn: rotationAbout('x', 0.3), shift: [0, 0, 0] }, [{ turn, about: [0, 0, 0] }]), 1).turn
}
