import { peakOf, stretchesOf } from './stretches.ts'
import { heightSensitivity, slackRange } from './turn.formulas.ts'
import { heldAt, type Planar, type TurnGeometry, type TwoHooks, turned } from './turning.ts'

/** EA of each hoist line, all its falls together, N. */
export interface LineStiffness {
  main: number
  tail: number
}

/**
 * By how much more line the tail hook has let out than the main one, unstretched, m: what the heights of the hooks come to,
 * whether the lines lean or not.
 */
export function letOut({ lines, main, tail }: TwoHooks, { main: a, tail: b }: LineStiffness): number {
  return lines.tail.length / (1 + tail / b) - lines.main.length / (1 + main / a)
}

/** Shift of load to the main hook for each metre that it is raised against the tail, N/m; lines plumb. */
export function sensitivityAt(geometry: TurnGeometry, held: TwoHooks, stiffness: LineStiffness): number {
  const [m, t] = [turned(geometry.main, held.angle), turned(geometry.tail, held.angle)]
  return heightSensitivity.value({
    W: geometry.weight,
    x_m: m[0],
    z_m: m[1],
    x_t: t[0],
    z_t: t[1],
    k_m: stiffness.main / held.lines.main.length,
    k_t: stiffness.tail / held.lines.tail.length,
  })
}

/** Difference of the heights of plumb hooks between all of the load on the tail hook and all of it on the main one, m. */
export function heightRange(geometry: TurnGeometry, length: number, stiffness: LineStiffness): number {
  const { main, tail, weight } = geometry
  return slackRange.value({
    W: weight,
    u: Math.hypot(main[0], main[1]),
    w: Math.hypot(tail[0], tail[1]),
    a: Math.cos(angleBetween(main, tail)),
    k_m: stiffness.main / length,
    k_t: stiffness.tail / length,
  })
}

const angleBetween = (p: Planar, q: Planar): number => Math.atan2(p[0] * q[1] - p[1] * q[0], p[0] * q[0] + p[1] * q[1])

/** Beyond this a hook that is too high or too low is not followed: no plan lets it. */
const FARTHEST = (10 * Math.PI) / 180
const HALVINGS = 26

/** Where an end of a turn gets to with the heights out by so much, and the greatest pulls on the way there. */
export interface HeightError {
  angle: number
  most: { main: number; tail: number }
}

/**
 * An end of a turn with the hooks' heights out, to the side away from the turn: inside the turn another height is another
 * angle of it. The piece turns on until the lines have let out the difference, or hangs from one hook alone.
 */
export function beyondEnd(
  geometry: TurnGeometry,
  end: number,
  away: 1 | -1,
  { error, stiffness }: { error: number; stiffness: LineStiffness },
): HeightError {
  const at = heldAt(geometry, end)
  if (at === undefined) return { angle: end, most: { main: 0, tail: 0 } }
  const planned = letOut(at, stiffness)
  const reached = (angle: number): boolean => {
    const held = heldAt(geometry, angle)
    return held !== undefined && held.tail > 0 && held.main > 0 && Math.abs(letOut(held, stiffness) - planned) <= error
  }
  let [a, b] = [0, FARTHEST]
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (a + b) / 2
    if (reached(end + away * middle)) a = middle
    else b = middle
  }
  const angle = end + away * b
  const course = stretchesOf(geometry, end, angle, FARTHEST / 4)
  const most = (of: (held: TwoHooks) => number): number => Math.max(of(at), peakOf(geometry, course, of)?.value ?? 0)
  return { angle, most: { main: most((h) => h.main), tail: most((h) => h.tail) } }
}
