import { norm, type Pose, place, subtract, type Vec3 } from '../numeric/vector.ts'

/** A rigid piece, spreader, beam or link of an arrangement. */
export interface SuspendedBody {
  /** N */
  weight: number
  /** Centre of gravity, its own frame, m. */
  cog: Vec3
  /** Where the search begins: its own frame to site frame. */
  start: Pose
  /** A point of it (own frame) that is pinned to a fixed point (site frame); it then only turns. */
  pin?: { at: Vec3; anchor: Vec3 }
}

/** End of a line: a point of a body in its own frame, or, without a body, a fixed point of the site. m */
export interface LineEnd {
  body?: number
  at: Vec3
}

/** A line that pulls and never pushes. */
export interface SuspendedLine {
  lower: LineEnd
  upper: LineEnd
  /** Unstressed, m. */
  length: number
  /** EA, N. */
  stiffness: number
}

/** Rigid bodies on elastic lines under one or more fixed hooks, in as many levels as there are. */
export interface Suspended {
  bodies: readonly SuspendedBody[]
  lines: readonly SuspendedLine[]
}

/** A body turns about its pin, or about its centre of gravity. */
export const pivotOf = ({ pin, cog }: SuspendedBody): Vec3 => pin?.at ?? cog

/** How far each body reaches from where it turns: its turns are measured by the way its ends move. */
export function reachesOf({ bodies, lines }: Suspended): number[] {
  const reaches = bodies.map((body) => Math.max(1e-3, norm(subtract(body.cog, pivotOf(body)))))
  for (const { lower, upper } of lines)
    for (const { body, at } of [lower, upper])
      if (body !== undefined)
        reaches[body] = Math.max(reaches[body] as number, norm(subtract(at, pivotOf(bodies[body] as SuspendedBody))))
  return reaches
}

/** Place of each body's unknowns: shift (m), then turn × reach (m); a pinned body has the turn alone. */
export function offsetsOf(bodies: readonly SuspendedBody[]): {
  shift: (number | undefined)[]
  turn: number[]
  n: number
} {
  let n = 0
  const shift: (number | undefined)[] = []
  const turn: number[] = []
  for (const { pin } of bodies) {
    shift.push(pin === undefined ? n : undefined)
    if (pin === undefined) n += 3
    turn.push(n)
    n += 3
  }
  return { shift, turn, n }
}

/** Where an end is. */
export const endAt = (poses: readonly Pose[], { body, at }: LineEnd): Vec3 =>
  body === undefined ? at : place(poses[body] as Pose, at)
