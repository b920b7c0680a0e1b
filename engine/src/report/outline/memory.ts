import { apply, distance, dot, type Mat3, multiply, type Pose, transpose, type Vec3 } from '../../numeric/vector.ts'
import type { Point2 } from './convex.ts'
import { type Look, moved, normalOf, type Standing, seen, silhouette } from './picture.ts'

/** Outline of one set of bodies in a pose, seen along a look. */
export type Outlines = (pose: Pose, look: Look) => Point2[][]

interface Drawn {
  look: Look
  turn: Mat3
  loops: readonly Point2[][]
}

const SAME = 1e-9

/**
 * Outlines of bodies that are asked for in many poses: a pose that only shifts, or turns about the way one looks, gives the
 * same outline shifted and turned, so it is worked out once.
 *
 * @param sagitta greatest distance of a chord from its arc, m
 */
export function outlineMemory(bodies: readonly Standing[], sagitta: number): Outlines {
  const drawn: Drawn[] = []
  return (pose, look) => {
    const known = drawn.find((d) => d.look === look && turnInView(pose.turn, d) !== undefined)
    const base = known ?? {
      look,
      turn: pose.turn,
      loops: silhouette(moved(bodies, { turn: pose.turn, shift: [0, 0, 0] }), look, sagitta),
    }
    if (known === undefined) drawn.push(base)
    return placedLoops(base.loops, turnInView(pose.turn, base) ?? 0, seen(look, pose.shift))
  }
}

/** Angle in the view from a drawn pose to another, anticlockwise; undefined when it does not turn about the look alone. */
function turnInView(turn: Mat3, { look, turn: from }: Drawn): number | undefined {
  const between = multiply(turn, transpose(from))
  const normal = normalOf(look)
  if (distance(apply(between, normal), normal) > SAME) return undefined
  const across: Vec3 = apply(between, look.across)
  return Math.atan2(dot(across, look.up), dot(across, look.across))
}

function placedLoops(loops: readonly Point2[][], angle: number, [du, dv]: Point2): Point2[][] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  return loops.map((loop) => loop.map(([u, v]): Point2 => [u * c - v * s + du, u * s + v * c + dv]))
}
