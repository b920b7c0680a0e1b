import { type Drawing, drawing } from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { LOOKING_LEFT, seen } from '../outline/picture.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { pivotStages } from '../views/pivotView.ts'
import { cogAt, outlineAt, pointsAt, type Scene } from '../views/scene.ts'
import { lowerEnd, sideOf, turnedPose } from '../views/turningView.ts'

/**
 * The piece as it is driven, seen from the side, to be turned about its centre of gravity: metres from that centre, across
 * and up. A turn is about the direction one looks along, so the picture at any angle is this one turned.
 */
export interface TurnedPiece {
  loops: readonly (readonly Point2[])[]
  /** Where the lines of each hook meet the piece. */
  main: Point2 | undefined
  tail: Point2 | undefined
  /** +1 where the main hook stands to the right of the tail hook. */
  side: number
}

export function turnedPiece(scene: Scene): TurnedPiece {
  const pose = turnedPose(scene, 0)
  const [u, v] = seen(LOOKING_LEFT, cogAt(scene, pose))
  const from = ([a, b]: Point2): Point2 => [a - u, b - v]
  const points = pointsAt(scene, pose)
  const { main, tail } = scene.subject
  const end = (hung: typeof main | undefined): Point2 | undefined => {
    const at = hung === undefined ? undefined : lowerEnd(points, hung)
    return at === undefined ? undefined : from(at)
  }
  return {
    loops: outlineAt(scene, pose, LOOKING_LEFT).map((loop) => loop.map(from)),
    main: end(main),
    tail: end(tail),
    side: sideOf(scene),
  }
}

/** Stages side by side, and the room of a row of them, mm. */
const ROW = { across: 2, width: 96, height: 64 }

/** Stages of a turn about a pivot, row by row, as the page draws them; undefined where there is none. */
export function pivotDrawing(scene: Scene, sheet: LiftSheet): Drawing | undefined {
  const stages = sheet.pivot?.stages ?? []
  if (stages.length === 0) return undefined
  const rows = Array.from({ length: Math.ceil(stages.length / ROW.across) }, (_, i) =>
    pivotStages(
      scene,
      sheet,
      stages.slice(i * ROW.across, (i + 1) * ROW.across),
      { left: 0, right: ROW.width, top: i * ROW.height, bottom: (i + 1) * ROW.height },
      ROW.across,
    ),
  )
  return drawing(
    `Turning about the pivot, 1 : ${rows[0]?.scale}`,
    ROW.width,
    rows.length * ROW.height,
    rows.flatMap(({ marks }) => marks),
  )
}
