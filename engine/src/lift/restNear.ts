import { normOf } from '../numeric/descent.ts'
import { solvedPositive } from '../numeric/symmetric.ts'
import { add, apply, cross, dot, norm, scale, subtract, type Vec3, ZERO } from '../numeric/vector.ts'
import type { ElasticLeg, Hanging, HangPose, HungLoad } from './hang.ts'
import { type Energy, energyAt, legSpan, topSpan } from './hangEnergy.ts'

/** What a search for rest is held to: the slope that counts as none (N), the longest step, and how poses move. */
export interface RestLimits {
  atRest: number
  longest: number
  /** Distance that a turn of the spreader is scaled by, m. */
  reach: number
  moved(pose: HangPose, step: readonly number[]): HangPose
}

/** From a pose that is near, three or four steps do; what has not come to rest by then is left to the descent. */
const MOST_STEPS = 12
/** Of the largest stiffness: given to every direction where one has none, such as the spin of a bar about its own line. */
const TRACE = 1e-9

/**
 * Equilibrium near one that is known, by Newton's steps on pose and tensions together: each leg's tension goes on by what the step
 * stretches it to first order. Taken from the pose alone, a stiff leg would seem to pull many times too hard after every step that
 * leaves its sphere, and a descent has to creep along the valley that such legs make of the energy.
 *
 * Source: derived; the mixed form of Newton's method for springs that are stiff beside the weight.
 *
 * @returns undefined where it does not come to rest, or where it rests on no lowest point. A leg may be left that would have to push:
 * then its forces do not close once legs only pull, and whoever asks looks whether they do
 */
export function restNear(
  load: HungLoad,
  { pose, tensions, topTensions }: Hanging,
  { atRest, longest, reach, moved }: RestLimits,
): { at: HangPose; steps: number } | undefined {
  let [at, carried]: [HangPose, readonly number[]] = [pose, [...tensions, ...topTensions]]
  let energy: Energy | undefined
  for (let steps = 0; steps <= MOST_STEPS; steps++) {
    energy = energyAt(load, at, reach, { spare: energy, carried })
    const uphill = uphillOf(energy)
    if (uphill === undefined) return undefined
    if (normOf(energy.gradient) <= atRest) return { at, steps }
    const step = scaledTo(uphill, longest)
    carried = tensionsAfter(load, at, step, reach)
    at = moved(at, step)
  }
  return undefined
}

/** Newton's step without its sign; undefined where the energy does not rise in every direction. */
function uphillOf({ gradient, hessian }: Energy): number[] | undefined {
  const plain = solvedPositive(hessian, gradient)
  if (plain !== undefined) return plain
  const size = Math.max(...hessian.map((row, i) => Math.abs(row[i] as number)))
  for (const [i, row] of hessian.entries()) row[i] = (row[i] as number) + TRACE * size
  return solvedPositive(hessian, gradient)
}

function scaledTo(uphill: readonly number[], longest: number): number[] {
  const length = normOf(uphill)
  const by = length <= longest ? -1 : -longest / length
  return uphill.map((u) => u * by)
}

/** Tensions that the legs have after a step to first order, N: those of the piece, then those above. */
function tensionsAfter(load: HungLoad, at: HangPose, step: readonly number[], reach: number): number[] {
  const hook = three(step, 0)
  const turn = load.spreader === undefined ? ZERO : scale(three(step, 3), 1 / reach)
  const shift = load.spreader?.top.length === 0 ? hook : load.spreader === undefined ? ZERO : three(step, 6)
  /** Travel of a point of the spreader. */
  const travel = (point: Vec3): Vec3 => add(shift, cross(turn, apply(at.spreader.turn, point)))
  return [
    ...load.legs.map((leg) => after(leg, legSpan(leg, at), leg.from === undefined ? hook : travel(leg.from))),
    ...(load.spreader?.top ?? []).map((leg) => after(leg, topSpan(leg, at), subtract(hook, travel(leg.to)))),
  ]
}

/** Tension of a leg whose span changes by this much. */
function after({ length, stiffness }: ElasticLeg, span: Vec3, by: Vec3): number {
  const now = norm(span)
  return Math.max(0, (stiffness / length) * (now + dot(span, by) / now - length))
}

const three = (x: readonly number[], from: number): Vec3 => [
  x[from] as number,
  x[from + 1] as number,
  x[from + 2] as number,
]
