import {
  elementAt,
  elementThickness,
  outwardsAtHead,
  type Shaft,
  surveyedElements,
  turnsBetween,
} from '../model/index.ts'
import type { Pose, Vec3 } from '../numeric/vector.ts'
import type { Gap } from './clearance.ts'
import { type Hull, levelsOf, reachOf } from './hull.ts'

/** Gap to a wall as it was surveyed, and the pile or panel that it is to. */
export interface SurveyedGap extends Omit<Gap, 'as' | 'at'> {
  element: string
  /** Its distance from the axis there, m. */
  face: number
}

/**
 * Gap of a piece in the shaft to the wall as surveyed: for each pile the plane square to its bearing, for each panel its face, through
 * the point of it, or of the lining before it, that stands farthest in; where it leans, at whichever end of the piece, or
 * point surveyed between them, it stands farther in.
 * Never more than it is.
 *
 * @returns the least; undefined until every pile or panel is surveyed, and where their thickness is not given
 */
export function surveyedGap(shaft: Shaft): ((hull: Hull, pose: Pose) => SurveyedGap) | undefined {
  const elements = surveyedElements(shaft)
  const { wall } = shaft
  const across = elementThickness(shaft)?.value
  const keepsItsFace = wall.kind === 'slurry panels'
  if (elements === undefined || across === undefined) return undefined
  const before = across / 2 + (wall.lining?.value ?? 0)
  const collar = shaft.collar.value as number
  return (hull, pose) => {
    const { low, high } = levelsOf(hull, pose)
    const ends = [low, Math.min(high, collar)]
    let least: SurveyedGap | undefined
    let guess = 0
    for (const { id, is } of elements) {
      for (const z of [...ends, ...turnsBetween(is, Math.min(high, collar), low)]) {
        const [x, y] = elementAt(is, collar, z)
        const [c, s] = keepsItsFace ? outwardsAtHead(is) : [x / Math.hypot(x, y), y / Math.hypot(x, y)]
        const d: Vec3 = [c, s, 0]
        const { reach, part, solid } = reachOf(hull, pose, d, guess)
        guess = solid
        const face = x * c + y * s - before
        const gap = face - reach
        if (gap >= (least?.gap ?? Infinity)) continue
        least = { gap, to: 'wall', element: id, face, part, solid, angle: Math.atan2(s, c) }
      }
    }
    return least as SurveyedGap
  }
}
