import { normOf } from '../numeric/descent.ts'
import { eigenOf } from '../numeric/symmetric.ts'
import { apply, cross, norm, type Pose, place, subtract, unit, type Vec3, ZERO } from '../numeric/vector.ts'
import { energyOf } from './settleEnergy.ts'
import { offsetsOf, pivotOf, reachesOf, type Suspended } from './suspended.ts'

/** Eigenvalues of the second derivative, smallest first, without the movements that nothing resists and nothing needs. */
export function stiffnesses(all: Suspended, poses: readonly Pose[]): number[] {
  const reaches = reachesOf(all)
  const offsets = offsetsOf(all.bodies)
  const { hessian } = energyOf(all, poses, { reaches, offsets, steadied: false })
  const idle = orthonormal([...yaw(all, poses, reaches, offsets), ...spins(all, poses, offsets)])
  const values = eigenOf(without(hessian, idle)).values
  return values.slice(0, values.length - idle.length)
}

/** Everything under one hook turns freely about the vertical through it. */
function yaw(
  all: Suspended,
  poses: readonly Pose[],
  reaches: readonly number[],
  offsets: ReturnType<typeof offsetsOf>,
) {
  const anchors = [
    ...all.lines
      .flatMap(({ lower, upper }) => [lower, upper])
      .filter((e) => e.body === undefined)
      .map((e) => e.at),
    ...all.bodies.flatMap((b) => (b.pin === undefined ? [] : [b.pin.anchor])),
  ]
  const hook = anchors[0]
  if (hook === undefined || anchors.some((a) => norm(subtract(a, hook)) > 1e-9)) return []
  const vector = new Array<number>(offsets.n).fill(0)
  for (const [b, body] of all.bodies.entries()) {
    const arm = subtract(place(poses[b] as Pose, pivotOf(body)), hook)
    const shift = offsets.shift[b]
    if (shift !== undefined) {
      vector[shift] = -arm[1]
      vector[shift + 1] = arm[0]
    }
    vector[(offsets.turn[b] as number) + 2] = reaches[b] as number
  }
  return [vector]
}

/** A straight bar held only in its own line may spin about it. */
function spins(all: Suspended, poses: readonly Pose[], offsets: ReturnType<typeof offsetsOf>): number[][] {
  return all.bodies.flatMap((body, b) => {
    const ends = all.lines.flatMap(({ lower, upper }) => [lower, upper]).filter((e) => e.body === b)
    const arms = [...ends.map((e) => e.at), body.cog].map((p) => subtract(p, pivotOf(body)))
    const longest = arms.reduce<Vec3>((most, a) => (norm(a) > norm(most) ? a : most), ZERO)
    if (norm(longest) === 0) return []
    const line = unit(longest)
    if (arms.some((a) => norm(cross(line, a)) > 1e-9)) return []
    const vector = new Array<number>(offsets.n).fill(0)
    const axis = apply((poses[b] as Pose).turn, line)
    for (const k of [0, 1, 2] as const) vector[(offsets.turn[b] as number) + k] = axis[k]
    return [vector]
  })
}

/** Gram and Schmidt. */
function orthonormal(vectors: readonly number[][]): number[][] {
  const basis: number[][] = []
  for (const vector of vectors) {
    let rest = [...vector]
    for (const b of basis) {
      const along = inner(rest, b)
      rest = rest.map((x, i) => x - along * (b[i] as number))
    }
    const size = normOf(rest)
    if (size > 1e-9 * normOf(vector)) basis.push(rest.map((x) => x / size))
  }
  return basis
}

const inner = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, x, i) => sum + x * (b[i] as number), 0)

/** The matrix on what is left when directions are taken out; these get a value above all others. */
function without(matrix: readonly (readonly number[])[], idle: readonly (readonly number[])[]): number[][] {
  const size = 10 * Math.max(...matrix.map((row) => row.reduce((s, x) => s + Math.abs(x), 0)))
  let result = matrix.map((row) => [...row])
  for (const v of idle) {
    const hv = result.map((row) => inner(row, v))
    const vhv = inner(v, hv)
    result = result.map((row, i) =>
      row.map(
        (x, j) =>
          x -
          (v[i] as number) * (hv[j] as number) -
          (hv[i] as number) * (v[j] as number) +
          (vhv + size) * (v[i] as number) * (v[j] as number),
      ),
    )
  }
  return result
}
