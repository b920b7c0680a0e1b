import { add, apply, dot, place, scale, subtract, type Vec3, ZERO } from '../numeric/vector.ts'
import type { ElasticLeg, HangPose, HungLoad } from './hang.ts'

/** The root of the squares: in the loops of a solver many times faster than `Math.hypot`, and far from overflow. */
const norm = (v: Vec3): number => Math.sqrt(dot(v, v))

/** A leg as it pulls: tension (N) and the unit vector from its lower to its upper end, body frame. */
export interface Pull {
  tension: number
  direction: Vec3
  length: number
}

/** Tension of a leg at this length between its ends, N. */
export const tensionOf = (leg: Pick<ElasticLeg, 'length' | 'stiffness'>, length: number): number =>
  length > leg.length ? (leg.stiffness * (length - leg.length)) / leg.length : 0

const legSpan = (leg: ElasticLeg, at: HangPose): Vec3 =>
  subtract(leg.from === undefined ? at.hook : place(at.spreader, leg.from), leg.to)

const topSpan = (leg: ElasticLeg, at: HangPose): Vec3 => subtract(at.hook, place(at.spreader, leg.to))

function pullOf(leg: ElasticLeg, span: Vec3): Pull {
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

/** Energy of a pose (J) with its slope (N) and second derivative (N/m): along hook shift, spreader turn × reach, shift. */
export interface Energy {
  value: number
  gradient: number[]
  hessian: number[][]
}

/** Numbers of the pose that are free: the hook alone, hook and turn of a pinned spreader, or all nine. */
export const freedomOf = ({ spreader }: HungLoad): number =>
  spreader === undefined ? 3 : spreader.top.length === 0 ? 6 : 9

/**
 * Strain energy less the weights' height below the hook. A leg adds k·uu′ + (T/L)(1 − uu′) to the second derivative, the
 * weights take (1 − nn′)/|Σ W r| away; turning the spreader adds the second-order travel of its ends.
 */
export function energyAt(load: HungLoad, at: HangPose, reach: number): Energy {
  const energy = noEnergy(freedomOf(load))
  const turn = at.spreader.turn
  addWeights(energy, load, at, reach)
  for (const leg of load.legs) {
    const ends = leg.from === undefined ? HOOK_END : { hook: 0, shift: 1, turn: 1, arm: apply(turn, leg.from) }
    addLeg(energy, leg, legSpan(leg, at), ends, reach)
  }
  for (const leg of load.spreader?.top ?? [])
    addLeg(energy, leg, topSpan(leg, at), { hook: 1, shift: -1, turn: -1, arm: apply(turn, leg.to) }, reach)
  return mirrored(energy)
}

/** An energy over n numbers to add springs and weights to. */
export const noEnergy = (n: number): Energy => ({
  value: 0,
  gradient: new Array<number>(n).fill(0),
  hessian: Array.from({ length: n }, () => new Array<number>(n).fill(0)),
})

/** With the lower half of the second derivative copied from the upper, which alone is added to. */
export function mirrored(energy: Energy): Energy {
  for (const [i, row] of energy.hessian.entries()) for (let j = 0; j < i; j++) row[j] = energy.hessian[j]?.[i] as number
  return energy
}

/** How a span changes with the pose: hook·δp + shift·δs + turn·(θ × arm), and to second order turn·½ θ × (θ × arm). */
export interface Ends {
  hook: number
  shift: number
  turn: number
  arm: Vec3
}

const HOOK_END: Ends = { hook: 1, shift: 0, turn: 0, arm: ZERO }

/** A leg's strain, by its unstressed length and stiffness, at this span from its lower to its upper end. */
export function addLeg(
  energy: Energy,
  leg: Pick<ElasticLeg, 'length' | 'stiffness'>,
  span: Vec3,
  ends: Ends,
  reach: number,
): void {
  const length = norm(span)
  const stretch = length - leg.length
  if (stretch <= 0) return
  const k = leg.stiffness / leg.length
  energy.value += 0.5 * k * stretch * stretch
  addSpan(
    energy,
    ends,
    { direction: scale(span, 1 / length), pull: k * stretch, along: k, across: (k * stretch) / length },
    reach,
  )
}

function addWeights(energy: Energy, load: HungLoad, at: HangPose, reach: number): void {
  const moment = hungMoment(load, at)
  const own = load.spreader?.weight ?? 0
  const arm = load.spreader === undefined ? ZERO : apply(at.spreader.turn, load.spreader.cog)
  const size = norm(moment)
  energy.value -= size
  const ends = { hook: -load.weight - own, shift: own, turn: own, arm }
  addSpan(energy, ends, { direction: scale(moment, -1 / size), pull: 1, along: 0, across: -1 / size }, reach)
}

interface Spring {
  direction: Vec3
  pull: number
  along: number
  across: number
}

/** pull·v to the slope; (along − across)·vv′ + across·J′J + the travel of the arm's end to the second derivative. */
export function addSpan({ gradient, hessian }: Energy, ends: Ends, spring: Spring, reach: number): void {
  const n = gradient.length
  const { direction: u, pull, along, across } = spring
  const hook = n === 6 ? ends.hook + ends.shift : ends.hook
  const turn = n === 3 ? 0 : ends.turn / reach
  const r = ends.arm
  const v = [hook * u[0], hook * u[1], hook * u[2]]
  if (n > 3)
    v.push(turn * (r[1] * u[2] - r[2] * u[1]), turn * (r[2] * u[0] - r[0] * u[2]), turn * (r[0] * u[1] - r[1] * u[0]))
  if (n > 6) v.push(ends.shift * u[0], ends.shift * u[1], ends.shift * u[2])
  for (let i = 0; i < n; i++) {
    const vi = v[i] as number
    const row = hessian[i] as number[]
    gradient[i] = (gradient[i] as number) + pull * vi
    for (let j = i; j < n; j++) row[j] = (row[j] as number) + (along - across) * vi * (v[j] as number)
  }
  addShifts(hessian, across, hook, n > 6 ? ends.shift : 0)
  if (turn === 0) return
  addTurns(hessian, across, turn, r, hook, n > 6 ? ends.shift : 0)
  addTravel(hessian, (pull * ends.turn) / reach ** 2, u, r)
}

/** across·J′J over the shifts of hook and spreader. */
function addShifts(h: number[][], across: number, hook: number, shift: number): void {
  for (let i = 0; i < 3; i++) {
    addTo(h, i, i, across * hook * hook)
    if (shift === 0) continue
    addTo(h, i, i + 6, across * hook * shift)
    addTo(h, i + 6, i + 6, across * shift * shift)
  }
}

/** across·J′J where the turn takes part: J of the turn is −turn·[r]×. */
function addTurns(h: number[][], across: number, turn: number, r: Vec3, hook: number, shift: number): void {
  const square = dot(r, r)
  for (let i = 0; i < 3; i++) {
    const [a, b] = [(i + 1) % 3, (i + 2) % 3]
    for (let j = i; j < 3; j++) {
      const spread = (i === j ? square : 0) - (r[i] as number) * (r[j] as number)
      addTo(h, 3 + i, 3 + j, across * turn * turn * spread)
    }
    // −[r]× has +r_b at (i, a) and −r_a at (i, b)
    const k = across * turn
    addTo(h, i, 3 + a, k * hook * (r[b] as number))
    addTo(h, i, 3 + b, -k * hook * (r[a] as number))
    if (shift === 0) continue
    addTo(h, 3 + a, 6 + i, k * shift * (r[b] as number))
    addTo(h, 3 + b, 6 + i, -k * shift * (r[a] as number))
  }
}

/** pull·(½(ru′ + ur′) − (r·u)1): the second-order travel of the arm's end along the pull. */
function addTravel(h: number[][], pull: number, u: Vec3, r: Vec3): void {
  const along = dot(r, u)
  for (let i = 0; i < 3; i++)
    for (let j = i; j < 3; j++) {
      const mixed = ((r[i] as number) * (u[j] as number) + (u[i] as number) * (r[j] as number)) / 2
      addTo(h, 3 + i, 3 + j, pull * (mixed - (i === j ? along : 0)))
    }
}

function addTo(h: number[][], i: number, j: number, x: number): void {
  const row = h[i] as number[]
  row[j] = (row[j] as number) + x
}

/** Up, as everything hangs, body frame. */
export function upOf(load: HungLoad, at: HangPose): Vec3 {
  const moment = hungMoment(load, at)
  return scale(moment, -1 / norm(moment))
}
