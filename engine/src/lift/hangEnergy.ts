import { add, apply, cross, norm, place, scale, subtract, unit, type Vec3, ZERO } from '../numeric/vector.ts'
import type { ElasticLeg, HangPose, HungLoad } from './hang.ts'

/** A leg as it pulls: tension (N) and the unit vector from its lower to its upper end, body frame. */
export interface Pull {
  tension: number
  direction: Vec3
  length: number
}

/** Tension of a leg at this length between its ends, N. */
export const tensionOf = (leg: ElasticLeg, length: number): number =>
  length > leg.length ? (leg.stiffness * (length - leg.length)) / leg.length : 0

export const legSpan = (leg: ElasticLeg, at: HangPose): Vec3 =>
  subtract(leg.from === undefined ? at.hook : place(at.spreader, leg.from), leg.to)

export const topSpan = (leg: ElasticLeg, at: HangPose): Vec3 => subtract(at.hook, place(at.spreader, leg.to))

export function pullOf(leg: ElasticLeg, span: Vec3): Pull {
  const length = norm(span)
  return { tension: tensionOf(leg, length), direction: scale(span, 1 / length), length }
}

/** Every leg as it pulls in this pose. */
export const pullsOf = (load: HungLoad, at: HangPose): { legs: Pull[]; top: Pull[] } => ({
  legs: load.legs.map((leg) => pullOf(leg, legSpan(leg, at))),
  top: (load.spreader?.top ?? []).map((leg) => pullOf(leg, topSpan(leg, at))),
})

/** Weights times their places below the hook, body frame: the direction in which everything hangs. */
export function hungMoment(load: HungLoad, at: HangPose): Vec3 {
  const piece = scale(subtract(load.cog, at.hook), load.weight)
  const s = load.spreader
  return s === undefined ? piece : add(piece, scale(subtract(place(at.spreader, s.cog), at.hook), s.weight))
}

const strain = (leg: ElasticLeg, span: Vec3): number => {
  const stretch = Math.max(0, norm(span) - leg.length)
  return (0.5 * leg.stiffness * stretch * stretch) / leg.length
}

/** Strain energy less the weights' height below the hook, J. */
export function energyOf(load: HungLoad, at: HangPose): number {
  let energy = -norm(hungMoment(load, at))
  for (const leg of load.legs) energy += strain(leg, legSpan(leg, at))
  for (const leg of load.spreader?.top ?? []) energy += strain(leg, topSpan(leg, at))
  return energy
}

/** Slope of the energy: along the hook's shift, then the spreader's turn over `reach`, then the spreader's shift. N */
export function gradientOf(load: HungLoad, at: HangPose, reach: number): number[] {
  const up = scale(unit(hungMoment(load, at)), -1)
  const s = load.spreader
  let hook = scale(up, -load.weight - (s?.weight ?? 0))
  let shift = s === undefined ? ZERO : scale(up, s.weight)
  let turn = s === undefined ? ZERO : cross(apply(at.spreader.turn, s.cog), shift)
  for (const leg of load.legs) {
    const { tension, direction } = pullOf(leg, legSpan(leg, at))
    const pull = scale(direction, tension)
    if (leg.from === undefined) hook = add(hook, pull)
    else {
      shift = add(shift, pull)
      turn = add(turn, cross(apply(at.spreader.turn, leg.from), pull))
    }
  }
  if (s === undefined) return [...hook]
  if (s.top.length === 0) return [...add(hook, shift), ...scale(turn, 1 / reach)]
  for (const leg of s.top) {
    const { tension, direction } = pullOf(leg, topSpan(leg, at))
    const pull = scale(direction, tension)
    hook = add(hook, pull)
    shift = subtract(shift, pull)
    turn = subtract(turn, cross(apply(at.spreader.turn, leg.to), pull))
  }
  return [...hook, ...scale(turn, 1 / reach), ...shift]
}
