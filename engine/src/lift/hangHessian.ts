import { apply, dot, norm, scale, unit, type Vec3, ZERO } from '../numeric/vector.ts'
import type { HangPose, HungLoad } from './hang.ts'
import { hungMoment, legSpan, pullOf, topSpan } from './hangEnergy.ts'

/**
 * How a span changes with the pose: δ = hook·δp + spreader·δs + turning·(θ × arm), and to second order by
 * turning·½ θ × (θ × arm).
 */
interface Span {
  hook: number
  spreader: number
  turning: number
  arm: Vec3
}

const TURN = 3

/**
 * Second derivative of the energy at a pose, N/m: along the hook's shift, the spreader's turn over `reach`, the spreader's
 * shift. A leg gives k·uu′ + (T/L)(1 − uu′), the weights take away (1 − nn′)/|Σ W r|; turning adds the second-order travel.
 */
export function hessianOf(load: HungLoad, at: HangPose, reach: number): number[][] {
  const n = freedomOf(load)
  const sum = Array.from({ length: n }, () => new Array<number>(n).fill(0))
  addWeights(sum, load, at, reach)
  for (const leg of load.legs) {
    const { tension, direction, length } = pullOf(leg, legSpan(leg, at))
    if (tension === 0) continue
    const span = leg.from === undefined ? TO_HOOK : toSpreader(apply(at.spreader.turn, leg.from))
    addTerm(sum, columnsOf(span, n, reach), direction, leg.stiffness / leg.length, tension / length)
    addTravel(sum, (span.turning * tension) / reach ** 2, direction, span.arm)
  }
  for (const leg of load.spreader?.top ?? []) {
    const { tension, direction, length } = pullOf(leg, topSpan(leg, at))
    if (tension === 0) continue
    const span = { hook: 1, spreader: -1, turning: -1, arm: apply(at.spreader.turn, leg.to) }
    addTerm(sum, columnsOf(span, n, reach), direction, leg.stiffness / leg.length, tension / length)
    addTravel(sum, -tension / reach ** 2, direction, span.arm)
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) (sum[i] as number[])[j] = sum[j]?.[i] as number
  return sum
}

/** Numbers of the pose that are free: the hook alone, hook and turn of a pinned spreader, or all nine. */
const freedomOf = ({ spreader }: HungLoad): number => (spreader === undefined ? 3 : spreader.top.length === 0 ? 6 : 9)

const TO_HOOK: Span = { hook: 1, spreader: 0, turning: 0, arm: ZERO }
const toSpreader = (arm: Vec3): Span => ({ hook: 0, spreader: 1, turning: 1, arm })

function addWeights(sum: number[][], load: HungLoad, at: HangPose, reach: number): void {
  const moment = hungMoment(load, at)
  const up = scale(unit(moment), -1)
  const own = load.spreader?.weight ?? 0
  const arm = load.spreader === undefined ? ZERO : apply(at.spreader.turn, load.spreader.cog)
  const span = { hook: -load.weight - own, spreader: own, turning: own, arm }
  addTerm(sum, columnsOf(span, sum.length, reach), up, 0, -1 / norm(moment))
  addTravel(sum, own / reach ** 2, up, arm)
}

/** J′(along·uu′ + across·(1 − uu′))J for one span, upper half. */
function addTerm(sum: number[][], columns: readonly Vec3[], u: Vec3, along: number, across: number): void {
  const n = sum.length
  for (let i = 0; i < n; i++) {
    const row = sum[i] as number[]
    const c = columns[i] as Vec3
    const share = (along - across) * dot(c, u)
    const w: Vec3 = [across * c[0] + share * u[0], across * c[1] + share * u[1], across * c[2] + share * u[2]]
    for (let j = i; j < n; j++) row[j] = (row[j] as number) + dot(w, columns[j] as Vec3)
  }
}

/** Change of a span with each free number of the pose; a pinned spreader shifts with the hook. */
function columnsOf({ hook, spreader, turning, arm }: Span, n: number, reach: number): Vec3[] {
  const p = n === 6 ? hook + spreader : hook
  const first: Vec3[] = [
    [p, 0, 0],
    [0, p, 0],
    [0, 0, p],
  ]
  if (n === 3) return first
  const k = turning / reach
  const [x, y, z] = arm
  first.push([0, -k * z, k * y], [k * z, 0, -k * x], [-k * y, k * x, 0])
  if (n === 9) first.push([spreader, 0, 0], [0, spreader, 0], [0, 0, spreader])
  return first
}

/** pull·(½(ru′ + ur′) − (r·u)1) on the turning, upper half: the second-order travel of the arm's end along the pull. */
function addTravel(sum: number[][], pull: number, u: Vec3, r: Vec3): void {
  if (pull === 0 || sum.length === 3) return
  const along = dot(r, u)
  for (let i = 0; i < 3; i++) {
    const row = sum[TURN + i] as number[]
    for (let j = i; j < 3; j++) {
      const mixed = ((r[i] as number) * (u[j] as number) + (u[i] as number) * (r[j] as number)) / 2
      row[TURN + j] = (row[TURN + j] as number) + pull * (mixed - (i === j ? along : 0))
    }
  }
}
