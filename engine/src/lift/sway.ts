import { type Planar, type TurnGeometry, type TwoHooks, turned } from './turning.ts'

/**
 * Resistance of a piece between two hoist lines of fixed length to being pushed in the plane of its turn, N for each metre
 * that its farthest point moves; zero or less: it runs away. From the pulls and the lengths of the lines,
 * Σ T (v² / ℓ + ω² r · up), over the one movement that stretches neither line; a piece on its main line alone swings about
 * its main point, W / z.
 */
export function swayStiffness(geometry: TurnGeometry, held: TwoHooks): number {
  const [main, tail] = [turned(geometry.main, held.angle), turned(geometry.tail, held.angle)]
  if (held.tail === 0) return geometry.weight / main[1]
  const ends: End[] = [
    { at: main, pull: held.main, ...held.lines.main },
    { at: tail, pull: held.tail, ...held.lines.tail },
  ]
  const free = freeMovement(ends[0] as End, ends[1] as End)
  const speeds = ends.map(({ at }) => speedOf(free, at))
  const most = Math.max(speedOf(free, [0, 0]), ...speeds)
  if (most === 0) return 0
  const energy = ends.reduce(
    (sum, { at, pull, up, length }, i) =>
      sum + pull * ((speeds[i] as number) / length + free.turn ** 2 * (at[0] * up[0] + at[1] * up[1])),
    0,
  )
  return energy / most
}

interface End {
  at: Planar
  pull: number
  up: Planar
  length: number
}

interface Movement {
  across: number
  up: number
  turn: number
}

/** The movement square to both rows that say how fast a line lengthens. */
function freeMovement(a: End, b: End): Movement {
  const p = rowOf(a)
  const q = rowOf(b)
  return {
    across: p[1] * q[2] - p[2] * q[1],
    up: p[2] * q[0] - p[0] * q[2],
    turn: p[0] * q[1] - p[1] * q[0],
  }
}

const rowOf = ({ at, up }: End): readonly [number, number, number] => [up[0], up[1], up[0] * at[1] - up[1] * at[0]]

/** Square of the speed of a point. */
const speedOf = ({ across, up, turn }: Movement, [x, z]: Planar): number =>
  (across + turn * z) ** 2 + (up - turn * x) ** 2
