import { convexParts, leftwards, type Polygon } from '@shieldwright/engine/numeric/polygon.ts'
import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import type { SolidShape } from './solids.ts'

/** An outline drawn out along an axis of the machine, and then turned about x. */
export function extrudedShape(
  outline: Polygon,
  axis: 'x' | 'y' | 'z',
  [from, to]: readonly [number, number],
  turn: number,
): SolidShape {
  const [c, s] = [Math.cos(turn), Math.sin(turn)]
  const first = { x: 0, y: 1, z: 2 }[axis]
  const at = ([a, b]: readonly [number, number], along: number): Vec3 => {
    const p: [number, number, number] = [0, 0, 0]
    p[first] = along
    p[(first + 1) % 3] = a
    p[(first + 2) % 3] = b
    return [p[0], p[1] * c - p[2] * s, p[1] * s + p[2] * c]
  }
  const loop = leftwards(outline)
  const [near, far] = [Math.min(from, to), Math.max(from, to)]
  const sides = loop.flatMap((p, i): Vec3[] => {
    const q = loop[(i + 1) % loop.length] as Polygon[number]
    const [a, b, d, e] = [at(p, near), at(q, near), at(q, far), at(p, far)]
    return [a, b, d, a, d, e]
  })
  const ends = convexParts(loop).flatMap((part) => {
    const fan = leftwards(part)
    return fan.slice(1, -1).flatMap((p, i): Vec3[] => {
      const [o, q] = [fan[0] as Polygon[number], fan[i + 2] as Polygon[number]]
      return [at(o, far), at(p, far), at(q, far), at(o, near), at(q, near), at(p, near)]
    })
  })
  const lines = loop.flatMap((p, i): Vec3[] => {
    const q = loop[(i + 1) % loop.length] as Polygon[number]
    return [at(p, near), at(q, near), at(p, far), at(q, far), at(p, near), at(p, far)]
  })
  return { shape: 'triangles', corners: [...sides, ...ends], lines }
}

const CHORDS = 10

/** A dome as a profile about its axis: height over its flat face, and distance from the axis. */
export function domeProfile(radius: number, height: number): (readonly [number, number])[] {
  const sphere = (radius * radius + height * height) / (2 * height)
  const whole = Math.atan2(radius, sphere - height)
  return [
    [0, 0],
    ...Array.from({ length: CHORDS + 1 }, (_, i) => {
      const angle = whole * (1 - i / CHORDS)
      return [height - sphere + sphere * Math.cos(angle), Math.max(0, sphere * Math.sin(angle))] as const
    }),
  ]
}
