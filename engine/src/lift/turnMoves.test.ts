import fc from 'fast-check'
import { expect, test } from 'vitest'
import { compose, type Pose, rotationAbout } from '../numeric/vector.ts'
import { PIVOT_CAUTIONS, TURNING_CAUTIONS } from './caution.ts'
import { outcome } from './small.fixture.ts'
import { tippedBy } from './turnMoves.ts'

const DEGREE = Math.PI / 180
const still: Pose = { turn: rotationAbout('x', 0), shift: [0, 0, 0] }
const about = (axis: 'x' | 'y' | 'z', degrees: number): Pose => ({
  turn: rotationAbout(axis, degrees * DEGREE),
  shift: [1, -2, 3],
})
function along(...moves: readonly Pose[]): Pose[] {
  const poses = [still]
  for (const move of moves) poses.push(compose(move, poses.at(-1) as Pose))
  return poses
}

test('turns about level axes add up, whichever way; brought about or shifted, a piece is not tipped', () => {
  expect(tippedBy(along(about('z', 180), about('y', 90))) / DEGREE).toBeCloseTo(90, 9)
  expect(tippedBy(along(about('y', 40), about('y', 50), about('z', 30))) / DEGREE).toBeCloseTo(90, 9)
  expect(tippedBy(along(about('y', 0), about('z', 77)))).toBe(0)
  expect(tippedBy([still])).toBe(0)
})

test('taken back in reverse, a piece is tipped by as much as on the way', () => {
  const angle = fc.double({ min: -170, max: 170, noNaN: true }).filter((a) => Math.abs(a) > 0.1)
  const move = fc.tuple(fc.constantFrom('x', 'y', 'z'), angle)
  fc.assert(
    fc.property(fc.array(move, { minLength: 1, maxLength: 5 }), (moves) => {
      const poses = along(...moves.map(([axis, a]) => about(axis as 'x' | 'y' | 'z', a)))
      const back = [...poses].reverse()
      expect(tippedBy(back)).toBeCloseTo(tippedBy(poses), 6)
      expect(tippedBy(poses)).toBeCloseTo(
        moves.reduce((sum, [axis, a]) => sum + (axis === 'z' ? 0 : Math.abs(a) * DEGREE), 0),
        6,
      )
    }),
  )
})

test('that a turn is the one its step makes is told with the cautions of how it is turned: between two hooks, or about a pivot', () => {
  const cautions = (change?: Parameters<typeof outcome>[1]) =>
    outcome('turn', change).checks.find((c) => c.kind === 'lift.turn.as-moved')?.cautions
  expect(cautions()).toEqual(TURNING_CAUTIONS)
  expect(
    cautions((d) => {
      delete d.lifts.turn.tail
      d.lifts.turn.turn.pivot = { at: ['1.5 m', '0 m', '-1 m'], edge: '2 m', friction: 0.3 }
    }),
  ).toEqual(PIVOT_CAUTIONS)
})
