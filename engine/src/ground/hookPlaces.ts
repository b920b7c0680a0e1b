import type { Model } from '../model/index.ts'
import type { Point2 } from '../numeric/plan.ts'
import { place as placed, type Vec3 } from '../numeric/vector.ts'
import { movedGroup } from '../strip/index.ts'
import type { Moment, StepCase } from './step.ts'

/**
 * Plan of the hook where the piece is taken up and where it is set down: over the shaft or where it stood; then the trailer
 * that takes it, the middle of its bay, or where it hangs at the end.
 */
export function hookPlaces(c: StepCase): Record<Moment, Point2> {
  const { model, place, weights } = c
  const { cogSite } = weights.setsOf(movedGroup(place)).found
  const plans = place.step.poses.map((pose) => planAt(placed(pose, cogSite)))
  const reach = (model.project.shaft?.clearDiameter.value ?? Number.POSITIVE_INFINITY) / 2
  const over = plans.filter(([x, y]) => Math.hypot(x, y) <= reach)
  const first = plans[0] ?? planAt(cogSite)
  const trailer = Object.values(model.project.transports).find((t) => t.takes.includes(place.step.piece))
  const down = trailer?.at === undefined ? centreOf(model, place.bay) : planOf(trailer.at)
  return {
    lifting: centreOf(model, place.from) ?? over[over.length - 1] ?? first,
    'set down': down ?? plans[plans.length - 1] ?? first,
  }
}

const planAt = ([x, y]: Vec3): Point2 => [x, y]
const planOf = (at: readonly { value: number | undefined }[]): Point2 => [at[0]?.value ?? 0, at[1]?.value ?? 0]

function centreOf(model: Model, bay: string | undefined): Point2 | undefined {
  const centre = bay === undefined ? undefined : model.project.bays[bay]?.centre
  return centre && planOf(centre)
}
