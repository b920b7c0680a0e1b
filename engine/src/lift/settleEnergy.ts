import { apply, dot, norm, type Pose, place, scale, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Energy, mirrored, noEnergy } from './hangEnergy.ts'
import { endAt, type LineEnd, type offsetsOf, pivotOf, type Suspended, type SuspendedLine } from './suspended.ts'

/** What the numbers of a step mean. */
export interface Unknowns {
  reaches: readonly number[]
  offsets: ReturnType<typeof offsetsOf>
  /** Movements that nothing resists get a trace of stiffness, so that steps stay finite; where forces close stays the same. */
  steadied: boolean
}

const TRACE = 1e-9

/** Energy of a pose (J), its slope (N) and second derivative (N/m) along the unknowns of all bodies. */
export function energyOf(all: Suspended, poses: readonly Pose[], unknowns: Unknowns): Energy {
  const energy = noEnergy(unknowns.offsets.n)
  addWeights(energy, all, poses, unknowns)
  for (const line of all.lines) addLine(energy, all, line, poses, unknowns)
  const full = mirrored(energy)
  if (!unknowns.steadied) return full
  const most = all.lines.reduce((sum, line) => sum + line.stiffness / line.length, 0)
  for (const [i, row] of full.hessian.entries()) row[i] = (row[i] as number) + TRACE * most
  return full
}

function addWeights(energy: Energy, all: Suspended, poses: readonly Pose[], { reaches, offsets }: Unknowns): void {
  for (const [b, body] of all.bodies.entries()) {
    const pose = poses[b] as Pose
    energy.value += body.weight * place(pose, body.cog)[2]
    const shift = offsets.shift[b]
    if (shift !== undefined) {
      // a free body turns about its centre of gravity: its turn leaves the weight where it is
      energy.gradient[shift + 2] = (energy.gradient[shift + 2] as number) + body.weight
      continue
    }
    const arm = apply(pose.turn, subtract(body.cog, pivotOf(body)))
    const turn = offsets.turn[b] as number
    const reach = reaches[b] as number
    addTo(energy.gradient, turn, (body.weight * arm[1]) / reach)
    addTo(energy.gradient, turn + 1, (-body.weight * arm[0]) / reach)
    addTravel(energy.hessian, turn, body.weight / reach ** 2, [0, 0, 1], arm)
  }
}

function addLine(
  energy: Energy,
  all: Suspended,
  line: SuspendedLine,
  poses: readonly Pose[],
  unknowns: Unknowns,
): void {
  const span = subtract(endAt(poses, line.upper), endAt(poses, line.lower))
  const length = norm(span)
  const stretch = length - line.length
  if (stretch <= 0) return
  const k = line.stiffness / line.length
  const [pull, u] = [k * stretch, scale(span, 1 / length)]
  energy.value += 0.5 * k * stretch * stretch
  const columns: Column[] = []
  for (const [end, sign] of [
    [line.upper, 1],
    [line.lower, -1],
  ] as const)
    addColumns(columns, energy, all, end, sign, poses, unknowns, pull, u)
  const across = pull / length
  for (const a of columns) {
    const va = dot(a.by, u)
    addTo(energy.gradient, a.at, pull * va)
    for (const b of columns) {
      if (b.at < a.at) continue
      const row = energy.hessian[a.at] as number[]
      row[b.at] = (row[b.at] as number) + (k - across) * va * dot(b.by, u) + across * dot(a.by, b.by)
    }
  }
}

/** How the span changes with one unknown. */
interface Column {
  at: number
  by: Vec3
}

function addColumns(
  columns: Column[],
  energy: Energy,
  all: Suspended,
  { body: b, at }: LineEnd,
  sign: 1 | -1,
  poses: readonly Pose[],
  { reaches, offsets }: Unknowns,
  pull: number,
  u: Vec3,
): void {
  if (b === undefined) return
  const body = all.bodies[b] as Suspended['bodies'][number]
  const r = apply((poses[b] as Pose).turn, subtract(at, pivotOf(body)))
  const shift = offsets.shift[b]
  if (shift !== undefined)
    columns.push(
      { at: shift, by: [sign, 0, 0] },
      { at: shift + 1, by: [0, sign, 0] },
      { at: shift + 2, by: [0, 0, sign] },
    )
  const turn = offsets.turn[b] as number
  const s = sign / (reaches[b] as number)
  // e × r for each axis e
  columns.push(
    { at: turn, by: [0, -s * r[2], s * r[1]] },
    { at: turn + 1, by: [s * r[2], 0, -s * r[0]] },
    { at: turn + 2, by: [-s * r[1], s * r[0], 0] },
  )
  addTravel(energy.hessian, turn, (pull * sign) / (reaches[b] as number) ** 2, u, r)
}

/** pull·(½(ru′ + ur′) − (r·u)1): the second-order travel of an arm's end along the pull. */
function addTravel(hessian: number[][], from: number, pull: number, u: Vec3, r: Vec3): void {
  const along = dot(r, u)
  for (let i = 0; i < 3; i++)
    for (let j = i; j < 3; j++) {
      const mixed = ((r[i] as number) * (u[j] as number) + (u[i] as number) * (r[j] as number)) / 2
      addTo(hessian[from + i] as number[], from + j, pull * (mixed - (i === j ? along : 0)))
    }
}

function addTo(row: number[], at: number, by: number): void {
  row[at] = (row[at] as number) + by
}
