import type { Body } from '../../numeric/body.ts'
import { convexHull } from '../../numeric/polygon.ts'
import { add, compose, dot, type Pose, place, scale, subtract, type Vec3 } from '../../numeric/vector.ts'
import { cellsOf } from './cells.ts'
import type { Point2 } from './convex.ts'
import { unionOutline } from './union.ts'

/** The way one looks at the site: across the paper and up it, unit vectors of the site frame, right-handed with the look. */
export interface Look {
  across: Vec3
  up: Vec3
}

/** From the right-hand side of the drive, so that it runs to the right: one looks to the left. */
export const LOOKING_LEFT: Look = { across: [1, 0, 0], up: [0, 0, 1] }
/** From behind, along the drive: left is left. */
export const LOOKING_FORWARD: Look = { across: [0, -1, 0], up: [0, 0, 1] }
/** From above, the drive to the right. */
export const LOOKING_DOWN: Look = { across: [1, 0, 0], up: [0, 1, 0] }

/** A body where it stands in the site. */
export interface Standing {
  body: Body
  pose: Pose
}

export const moved = (standing: readonly Standing[], by: Pose): Standing[] =>
  standing.map(({ body, pose }) => ({ body, pose: compose(by, pose) }))

export const seen = ({ across, up }: Look, p: Vec3): Point2 => [dot(p, across), dot(p, up)]

/**
 * Outline of bodies as they are seen: closed loops in the view, holes the other way round.
 *
 * @param sagitta greatest distance of a chord from its arc, m
 */
export function silhouette(standing: readonly Standing[], look: Look, sagitta: number): Point2[][] {
  return unionOutline(
    standing.flatMap(({ body, pose }) =>
      cellsOf(body, sagitta).map((cell) => convexHull(cell.map((p) => seen(look, place(pose, p))))),
    ),
  )
}

/** A plane through a point, square to the look. */
export interface Cut {
  look: Look
  /** Any point of the plane, site frame. */
  through: Vec3
}

/** Outline of what a plane cuts through. A mesh shows its cut as the hull of each triangle's trace: nothing, so it is left out. */
export function section(standing: readonly Standing[], { look, through }: Cut, sagitta: number): Point2[][] {
  const normal = normalOf(look)
  return unionOutline(
    standing.flatMap(({ body, pose }) =>
      body.kind === 'mesh'
        ? []
        : cellsOf(body, sagitta).map((cell) =>
            convexHull(
              trace(
                cell.map((p) => place(pose, p)),
                through,
                normal,
              ).map((p) => seen(look, p)),
            ),
          ),
    ),
  )
}

/** Unit vector towards the one who looks, site frame. */
export const normalOf = ({ across: [a1, a2, a3], up: [b1, b2, b3] }: Look): Vec3 => [
  a2 * b3 - a3 * b2,
  a3 * b1 - a1 * b3,
  a1 * b2 - a2 * b1,
]

/** Points where the lines between the corners on either side of a plane meet it: their hull is the cut of a convex cell. */
function trace(corners: readonly Vec3[], through: Vec3, normal: Vec3): Vec3[] {
  const heights = corners.map((p) => dot(subtract(p, through), normal))
  const above = corners.map((p, i) => [p, heights[i] as number] as const).filter(([, h]) => h > 0)
  const below = corners.map((p, i) => [p, heights[i] as number] as const).filter(([, h]) => h <= 0)
  return above.flatMap(([p, h]) => below.map(([q, k]) => add(p, scale(subtract(q, p), h / (h - k)))))
}
