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

/** Of a leg of the piece, from its lower to its upper end, body frame, m. */
export const legSpan = (leg: ElasticLeg, at: HangPose): Vec3 =>
  subtract(leg.from === undefined ? at.hook : place(at.spreader, leg.from), leg.to)

/** Of a leg above the spreader. */
export const topSpan = (leg: ElasticLeg, at: HangPose): Vec3 => subtract(at.hook, place(at.spreader, leg.to))

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
 *
 * @param spare an energy of the same load that is read no more, to be written over
 * @param carried tensions by which legs resist being moved across, N, those of the piece first, and above zero pull however
 * short they are; absent, those of the pose
 */
export function energyAt(
  load: HungLoad,
  at: HangPose,
  reach: number,
  { spare, carried }: { spare?: Energy | undefined; carried?: readonly number[] } = {},
): Energy {
  const energy = emptied(spare ?? noEnergy(freedomOf(load)))
  addWeights(energy, load, at, reach)
  const { hook, spreader } = at
  for (let i = 0; i < load.legs.length; i++) {
    const leg = load.legs[i] as ElasticLeg
    if (leg.from === undefined) {
      addLeg(energy, leg, subtract(hook, leg.to), HOOK_END, reach, carried?.[i])
      continue
    }
    const arm = apply(spreader.turn, leg.from)
    const span = subtract(add(arm, spreader.shift), leg.to)
    addLeg(energy, leg, span, { hook: 0, shift: 1, turn: 1, arm }, reach, carried?.[i])
  }
  const top = load.spreader?.top ?? NONE
  for (let i = 0; i < top.length; i++) {
    const leg = top[i] as ElasticLeg
    const arm = apply(spreader.turn, leg.to)
    const span = subtract(hook, add(arm, spreader.shift))
    addLeg(energy, leg, span, { hook: 1, shift: -1, turn: -1, arm }, reach, carried?.[load.legs.length + i])
  }
  return mirrored(energy)
}

const NONE: readonly ElasticLeg[] = []

/** An energy over n numbers to add springs and weights to. */
export const noEnergy = (n: number): Energy => ({
  value: 0,
  gradient: new Array<number>(n).fill(0),
  hessian: Array.from({ length: n }, () => new Array<number>(n).fill(0)),
})

function emptied(energy: Energy): Energy {
  energy.value = 0
  energy.gradient.fill(0)
  for (const row of energy.hessian) row.fill(0)
  return energy
}

/** With the lower half of the second derivative copied from the upper, which alone is added to. */
export function mirrored(energy: Energy): Energy {
  const { hessian } = energy
  for (let i = 1; i < hessian.length; i++) {
    const row = hessian[i] as number[]
    for (let j = 0; j < i; j++) row[j] = (hessian[j] as number[])[i] as number
  }
  return energy
}

/** How a span changes with the pose: hook·δp + shift·δs + turn·(θ × arm), and to second order turn·½ θ × (θ × arm). */
interface Ends {
  hook: number
  shift: number
  turn: number
  arm: Vec3
}

const HOOK_END: Ends = { hook: 1, shift: 0, turn: 0, arm: ZERO }

/** A leg's strain, by its unstressed length and stiffness, at this span from its lower to its upper end. */
function addLeg(energy: Energy, leg: ElasticLeg, span: Vec3, ends: Ends, reach: number, carried?: number): void {
  const length = norm(span)
  const stretch = length - leg.length
  if (stretch <= 0 && !(carried !== undefined && carried > 0)) return
  const k = leg.stiffness / leg.length
  energy.value += 0.5 * k * stretch * stretch
  const pull = k * stretch
  const bears = carried ?? pull
  addSpan(energy, ends, scale(span, 1 / length), { pull, bears, along: k, across: bears / length }, reach)
}

function addWeights(energy: Energy, load: HungLoad, at: HangPose, reach: number): void {
  const moment = hungMoment(load, at)
  const own = load.spreader?.weight ?? 0
  const arm = load.spreader === undefined ? ZERO : apply(at.spreader.turn, load.spreader.cog)
  const size = norm(moment)
  energy.value -= size
  const ends = { hook: -load.weight - own, shift: own, turn: own, arm }
  addSpan(energy, ends, scale(moment, -1 / size), { pull: 1, bears: 1, along: 0, across: -1 / size }, reach)
}

interface Spring {
  pull: number
  /** The pull that the travel of its ends is taken with; `across` is this over its length. */
  bears: number
  along: number
  across: number
}

/**
 * A spring along the unit vector u: pull·v to the slope; (along − across)·vv′ + across·J′J + the travel of the arm's end to
 * the second derivative. Written out by blocks of three, for all of an equilibrium's time goes into it.
 */
function addSpan(energy: Energy, ends: Ends, u: Vec3, spring: Spring, reach: number): void {
  const n = energy.gradient.length
  const turn = n === 3 ? 0 : ends.turn / reach
  const hook = n === 6 ? ends.hook + ends.shift : ends.hook
  const shift = n === 9 ? ends.shift : 0
  const r = ends.arm
  if (hook !== 0) addBlock(energy, 0, hook, u, spring)
  if (shift !== 0) addBlock(energy, 6, shift, u, spring)
  if (hook * shift !== 0) addMixed(energy.hessian, hook * shift, u, spring)
  if (turn === 0) return
  const v: Vec3 = [
    turn * (r[1] * u[2] - r[2] * u[1]),
    turn * (r[2] * u[0] - r[0] * u[2]),
    turn * (r[0] * u[1] - r[1] * u[0]),
  ]
  addTurn(energy, turn, v, r, spring)
  if (hook !== 0) addTurnedShift(energy.hessian, 0, hook, turn, v, u, r, spring)
  if (shift !== 0) addTurnedShift(energy.hessian, 6, shift, turn, v, u, r, spring)
  addTravel(energy.hessian, (spring.bears * ends.turn) / reach ** 2, u, r)
}

/** Of a shift with itself. */
function addBlock(
  { gradient, hessian }: Energy,
  from: number,
  k: number,
  u: Vec3,
  { pull, along, across }: Spring,
): void {
  const kk = k * k
  for (let i = 0; i < 3; i++) {
    const row = hessian[from + i] as number[]
    const ui = u[i] as number
    gradient[from + i] = (gradient[from + i] as number) + pull * k * ui
    for (let j = i; j < 3; j++)
      row[from + j] = (row[from + j] as number) + kk * (along - across) * ui * (u[j] as number)
    row[from + i] = (row[from + i] as number) + across * kk
  }
}

/** Of the hook's shift with the spreader's. */
function addMixed(hessian: number[][], k: number, u: Vec3, { along, across }: Spring): void {
  for (let i = 0; i < 3; i++) {
    const row = hessian[i] as number[]
    for (let j = 0; j < 3; j++)
      row[6 + j] =
        (row[6 + j] as number) + k * ((along - across) * (u[i] as number) * (u[j] as number) + (i === j ? across : 0))
  }
}

/** Of the turn with itself: its J is −turn·[r]×, so that J′J = turn²(r·r − rr′). */
function addTurn({ gradient, hessian }: Energy, turn: number, v: Vec3, r: Vec3, { pull, along, across }: Spring): void {
  const square = dot(r, r)
  const k = across * turn * turn
  for (let i = 0; i < 3; i++) {
    const row = hessian[3 + i] as number[]
    gradient[3 + i] = (gradient[3 + i] as number) + pull * (v[i] as number)
    for (let j = i; j < 3; j++) {
      const spread = (i === j ? square : 0) - (r[i] as number) * (r[j] as number)
      row[3 + j] = (row[3 + j] as number) + (along - across) * (v[i] as number) * (v[j] as number) + k * spread
    }
  }
}

/** Of the turn with a shift, above the diagonal. */
function addTurnedShift(
  hessian: number[][],
  from: 0 | 6,
  shift: number,
  turn: number,
  v: Vec3,
  u: Vec3,
  r: Vec3,
  { along, across }: Spring,
): void {
  const [k, kk] = [(along - across) * shift, across * turn * shift]
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      // −[r]×: for i, a, b one after the other, +r_b at (i, a) and −r_a at (i, b)
      const arm = i === j ? 0 : j === (i + 1) % 3 ? (r[(i + 2) % 3] as number) : -(r[(i + 1) % 3] as number)
      const by = k * (u[i] as number) * (v[j] as number) + kk * arm
      if (from === 0) addTo(hessian, i, 3 + j, by)
      else addTo(hessian, 3 + j, 6 + i, by)
    }
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
