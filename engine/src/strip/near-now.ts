import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { extentGap } from '../numeric/hull.ts'
import { straightMotion } from '../numeric/motion.ts'
import { apply, compose, inverse, type Pose, place, scale, subtract, type Vec3, ZERO } from '../numeric/vector.ts'
import type { Memory } from '../working/memory.ts'
import { meet } from './meet.ts'
import { moverOf, partStander, surroundingsOf } from './path.ts'
import type { PartCells } from './shape.ts'
import { followedOrder } from './strip.ts'
import { verifySteps } from './verify.ts'

/** How near a piece is in one moment to a part that stays. */
export interface NearNow {
  /** m, never more than it is; 0 where they touch or run into each other. */
  gap: number
  to: string
  part: string
  /** On the piece, and on what stays, site frame, m. */
  from: Vec3
  at: Vec3
}

/**
 * How near the piece of a step of the order is, moment by moment, to the parts that its way leads to: those pairs whose gap
 * closes on the move and comes below half a metre, as the verification of the order found them. The least over the way is
 * the clearance of the step to a part.
 *
 * @param index of the step, from 0
 * @returns from the number of the move and the pose of the piece on it (from as found, site frame) to what is near
 */
export function nearNow(
  model: Model,
  mass: MassResult,
  index: number,
  memory: Memory,
): (move: number, pose: Pose) => NearNow[] {
  const step = verifySteps(model, mass, followedOrder(model, mass, memory), memory)[index]
  if (step === undefined) return () => []
  const around = surroundingsOf(model, mass, memory)
  const { limits } = moverOf(step.placed, around, memory)
  const pairs = step.path.gaps.filter(({ kind, closing }) => kind === 'part' && closing)
  return (move, pose) =>
    pairs
      .filter((pair) => pair.move === move)
      .flatMap(({ part, with: to }): NearNow[] => {
        const stays = step.placed.staying.get(to)
        if (stays === undefined) return []
        const own = around.cells.get(part) as PartCells
        const stander = partStander(around.cells.get(to) as PartCells, stays, around)
        const frame = compose(stays, around.machine)
        const still = straightMotion(compose(inverse(frame), compose(pose, around.machine)), ZERO)
        if (own.solids.every(({ cell }) => extentGap(still.extent(cell), stander.extent) > limits.reach)) return []
        const { verdict, gap, at, normal } = meet(own, stander, still, limits)
        if (verdict === 'clear' && gap >= limits.reach) return []
        const half = scale(apply(frame.turn, normal), gap / 2)
        const middle = place(frame, at)
        return [{ gap, to, part, from: subtract(middle, half), at: subtract(middle, scale(half, -1)) }]
      })
      .sort((a, b) => a.gap - b.gap)
}
