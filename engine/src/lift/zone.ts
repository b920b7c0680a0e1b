import type { Point2 } from '../numeric/plan.ts'
import type { Pose } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Hull, levelsOf } from './hull.ts'
import { machinesOf } from './machines.ts'
import type { Pick } from './pick.ts'
import type { TimedMotion } from './stages.ts'
import { isCrane, outlineAbout, placeOf, posesOn, standingIn } from './swept.ts'
import { fallMargin } from './zone.formulas.ts'

/** Where nobody may be while a lift goes on, in plan, site frame, m. */
export interface ExclusionZone {
  /** Fall zone on the ground: one convex outline for each stage in which the piece is above the collar. */
  fall: readonly (readonly Point2[])[]
  /** Its width beside the outline of the piece. */
  margin: Answer<'m'>
  /** Circles that the tails of its cranes sweep; without a centre where nobody says where the crane stands. */
  tails: readonly { of: string; centre: Point2 | undefined; standing: Answer<'1'>; radius: Answer<'m'> }[]
  /** The floor of the shaft lies under it in some stage. */
  overShaft: boolean
}

/** Exclusion zone of a lift: the outline that its piece sweeps, wider by the height rule; the tail of its crane. */
export function exclusionZone(pick: Pick, stages: readonly TimedMotion[], hull: Hull | undefined): ExclusionZone {
  const ground = pick.shaft?.collar.value ?? 0
  const ways = hull === undefined ? [] : stages.map(({ motion }) => posesOn(pick, motion)).filter((w) => w.length > 0)
  const above = hull === undefined ? [] : ways.filter((way) => way.some((pose) => levelsOf(hull, pose).high > ground))
  const height = heightOver(pick, hull, above, ground)
  const margin = fallMargin.show({
    r0: knownOr(pick.settings.fallZone?.width, 'm', '/settings/fallZone/width'),
    k: knownOr(pick.settings.fallZone?.perHeight, '1', '/settings/fallZone/perHeight'),
    h: height,
  })
  const fall =
    margin.value === undefined || hull === undefined
      ? []
      : above.map((way) => outlineAbout(hull, way, margin.value as number))
  const bore = (pick.shaft?.clearDiameter.value ?? 0) / 2
  return {
    fall,
    margin,
    tails: tailsOf(pick),
    overShaft: fall.length === 0 ? pick.inShaft : fall.some((outline) => distanceToAxis(outline) < bore),
  }
}

function tailsOf(pick: Pick): ExclusionZone['tails'] {
  const { lift, main, at } = pick
  return machinesOf(pick).flatMap((hooked) => {
    const { system, systemAt } = hooked
    if (!isCrane(system)) return []
    const standing = standingIn(system, hooked === main ? lift.standing : lift.tail?.standing)
    return [
      {
        of: system.name,
        centre: placeOf(system, standing),
        standing: given('1', `${at}/${hooked === main ? 'standing' : 'tail/standing'}`, standing),
        radius: knownOr(system.tailRadius, 'm', `${systemAt}/tailRadius`),
      },
    ]
  })
}

/** Distance in plan from the axis of the shaft to a convex outline that goes round to the left; 0 inside it. */
export function distanceToAxis(outline: readonly Point2[]): number {
  let [inside, nearest] = [true, Number.POSITIVE_INFINITY]
  for (const [i, [x, y]] of outline.entries()) {
    const [u, v] = outline[(i + 1) % outline.length] as Point2
    const [dx, dy] = [u - x, v - y]
    if (dx * -y - dy * -x < 0) inside = false
    const square = dx * dx + dy * dy
    const share = square === 0 ? 0 : Math.min(1, Math.max(0, -(x * dx + y * dy) / square))
    nearest = Math.min(nearest, Math.hypot(x + share * dx, y + share * dy))
  }
  return inside ? 0 : nearest
}

function heightOver(pick: Pick, hull: Hull | undefined, ways: readonly Pose[][], ground: number): Answer<'m'> {
  const highest =
    hull === undefined
      ? undefined
      : ways.reduce((most, way) => Math.max(most, ...way.map((pose) => levelsOf(hull, pose).low - ground)), 0)
  return found({
    unit: 'm',
    value: highest,
    method: 'greatest height of the lowest point of the piece over the collar, along its way',
    inputs: hull === undefined ? { 'shapes of its parts': given('m', `${pick.pieceAt}/parts`, undefined) } : {},
    residuals: [],
  })
}
