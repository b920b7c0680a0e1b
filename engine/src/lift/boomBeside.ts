import type { Model } from '../model/index.ts'
import { type Box, type Segment, segmentsApart, segmentToBox } from '../numeric/segment.ts'
import { add, apply, norm, type Pose, rotationAbout, scale, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, given } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { boxOf } from './apart.ts'
import type { Boom, Moment } from './boom.ts'
import type { BoomWay } from './boomWay.ts'
import type { Thing } from './standing.ts'

/**
 * Something that stands on the site, as a boom passes it: a box, turned about the vertical, or a round line; m. Where its place or
 * size is not known it is all that it could be, and `unknown` says what is missing.
 */
export interface Beside {
  name: string
  unknown: Readonly<Record<string, Answer>>
  /** In the moment of this pose of the piece; undefined where nothing bounds it. */
  at(pose: Pose): Shape | undefined
}

export type Shape = { box: Box; heading: number } | { line: Segment; half: number }

/** Half the height of what is taken for endless upward: the model does not say how high it is, m. */
export const TALL = 500

/** The same at every moment. */
export const still = (name: string, shape: Shape | undefined, unknown: Beside['unknown'] = {}): Beside => ({
  name,
  unknown,
  at: () => shape,
})

/** What stands on a bay, as the box about it; its piece in words. */
export const besideThing = (thing: Thing, name: string): Beside =>
  still(
    `${name} on bay ${thing.bay}`,
    { box: boxOf(thing.reach), heading: 0 },
    thing.placed ? {} : { [`where ${thing.piece} stands`]: given('m', thing.landingAt, undefined) },
  )

/** Poles and wires of lines over the ground: an upright plate under each stretch, as high as the line. */
export function besideLines({ project: { utilities, shaft } }: Model): Beside[] {
  const ground = shaft?.collar.value ?? 0
  return Object.entries(utilities).flatMap(([id, { what, line = [], height, voltage }]) => {
    if (voltage === undefined && height === undefined) return []
    const corners = line.map(([x, y]): Vec3 => [x.value as number, y.value as number, 0])
    const unknown: Beside['unknown'] =
      height === undefined ? { height: given('m', `${pointerOf('utilities', id)}/height`, undefined) } : {}
    return corners.slice(1).map((to, i) => {
      const from = corners[i] as Vec3
      const heading = Math.atan2(to[1] - from[1], to[0] - from[0])
      const start = apply(rotationAbout('z', -heading), from)
      const top = height?.value === undefined ? TALL : ground + height.value
      const high: Vec3 = [start[0] + norm(subtract(to, from)), start[1], top]
      return still(`poles and wires of ${what}`, { box: { low: [start[0], start[1], -TALL], high }, heading }, unknown)
    })
  })
}

/** The nearest that a boom comes to something beside it. */
export interface NearestBeside {
  gap: number
  /** From the line of the boom, and half of what stands there about its own line. */
  distance: number
  half: number
  name: string
  unknown: Beside['unknown']
  moment: Moment
  /** Of the boom, from its pin. */
  along: number
}

/**
 * Nearest of each thing to a boom over the moments of its way; one of them that nothing bounds is minus infinity off. A thing
 * is passed over in a moment in which the ball about the boom keeps it off.
 */
export function nearestBeside(boom: Boom, { moments, lines }: BoomWay, things: readonly Beside[]): NearestBeside[] {
  const own = Math.hypot(boom.depth, boom.width) / 2
  return things.flatMap(({ name, unknown, at }) => {
    let least: NearestBeside | undefined
    for (const [i, moment] of moments.entries()) {
      const line = lines[i] as Segment
      const shape = at(moment.pose)
      // a boom that does not reach in this moment: its own check says so
      if (shape === undefined && Object.keys(unknown).length === 0) continue
      if (shape === undefined) return { gap: -Infinity, distance: 0, half: 0, name, unknown, moment, along: 0 }
      const half = 'line' in shape ? shape.half : 0
      if (least !== undefined && boundTo(line, shape) - own - half >= least.gap) continue
      const { distance, on } = apartFrom(line, shape)
      const gap = distance - own - half
      if (least === undefined || gap < least.gap)
        least = { gap, distance, half, name, unknown, moment, along: norm(subtract(on, line[0])) }
    }
    return least === undefined ? [] : [least]
  })
}

const turnedBack = (heading: number, [a, b]: Segment): Segment => {
  if (heading === 0) return [a, b]
  const back = rotationAbout('z', -heading)
  return [apply(back, a), apply(back, b)]
}

function apartFrom(line: Segment, shape: Shape): { distance: number; on: Vec3 } {
  if ('line' in shape) return segmentsApart(line, shape.line)
  const turned = turnedBack(shape.heading, line)
  const { distance, on } = segmentToBox(turned, shape.box)
  return { distance, on: shape.heading === 0 ? on : apply(rotationAbout('z', shape.heading), on) }
}

/** No box is nearer than the ball about the line lets it, seen from the middle of that. */
function boundTo(line: Segment, shape: Shape): number {
  if ('line' in shape) return -Infinity
  const [a, b] = turnedBack(shape.heading, line)
  const middle = scale(add(a, b), 0.5)
  const { low, high } = shape.box
  const off = [0, 1, 2].map((i) =>
    Math.max((low[i] as number) - (middle[i] as number), 0, (middle[i] as number) - (high[i] as number)),
  ) as unknown as Vec3
  return norm(off) - norm(subtract(b, a)) / 2
}
