import { add, type Vec3 } from '../numeric/vector.ts'
import { type ElasticLeg, type Hang, type Hanging, type HungLoad, hangingNear } from './hang.ts'

/** What may differ from plan, each way; lengths as shares, in the order of all legs: those of the piece, then those above. */
export interface Tolerances {
  /** Least and greatest weight on the legs, N. */
  weight: readonly [number, number]
  /** Half size of the box about the centre of gravity, body frame, m. */
  cog: Vec3
  lengths: readonly number[]
  /** Factors on every stiffness, tried at the worst corners. */
  stiffness: readonly number[]
}

/** Worst over the corners of the tolerances. */
export interface Envelope {
  /** Greatest and least tension of each leg, N. */
  most: readonly number[]
  least: readonly number[]
  topMost: readonly number[]
  /** Greatest angle of each leg from the vertical, rad. */
  angles: readonly number[]
  tilt: number
  corners: number
  /** Corner of the greatest tension of each leg: signs of weight, centre of gravity, lengths. */
  mostAt: readonly (readonly number[])[]
  tiltAt: readonly number[]
  /** Whether the legs' corners were all tried, or those that the slopes point to. */
  complete: boolean
  residual: number
}

const MOST_COMPLETE = 4

/**
 * Worst tension of each leg and worst tilt over all corners of weight, centre of gravity and leg lengths. With more than
 * four uncertain lengths, over the corners that the slopes of each result point to, all else complete.
 */
export function envelopeOf(load: HungLoad, tolerances: Tolerances, nominal: Hang): Envelope {
  const lengths = tolerances.lengths.map((t, i) => (t > 0 ? i : -1)).filter((i) => i >= 0)
  const complete = lengths.length <= MOST_COMPLETE
  const solve = (changed: HungLoad): Hanging => hangingNear(changed, nominal.pose)
  const signs = complete ? allSigns(lengths.length) : pointedSigns(load, tolerances, lengths, nominal, solve)
  const worst = emptyEnvelope(load, complete)
  for (const box of boxSigns(tolerances.cog)) {
    for (const lengthSigns of signs) {
      const corner = [...box, ...spread(lengthSigns, lengths, tolerances.lengths.length)]
      take(worst, solve(cornerOf(load, tolerances, corner)), corner)
    }
  }
  for (const corner of [...worst.mostAt, worst.tiltAt])
    for (const factor of tolerances.stiffness.filter((f) => f !== 1))
      take(worst, solve(stiffened(cornerOf(load, tolerances, corner), factor)), corner)
  return worst
}

type Growing = { -readonly [K in keyof Envelope]: Envelope[K] extends readonly (infer T)[] ? T[] : Envelope[K] }

const emptyEnvelope = ({ legs, spreader }: HungLoad, complete: boolean): Growing => ({
  most: legs.map(() => 0),
  least: legs.map(() => Infinity),
  topMost: (spreader?.top ?? []).map(() => 0),
  angles: legs.map(() => 0),
  tilt: 0,
  corners: 0,
  mostAt: legs.map(() => []),
  tiltAt: [],
  complete,
  residual: 0,
})

function take(worst: Growing, hang: Hanging, corner: readonly number[]): void {
  worst.corners++
  worst.residual = Math.max(worst.residual, hang.residual.force)
  for (const [i, t] of hang.tensions.entries()) {
    if (t > (worst.most[i] as number)) {
      worst.most[i] = t
      worst.mostAt[i] = corner
    }
    worst.least[i] = Math.min(worst.least[i] as number, t)
    worst.angles[i] = Math.max(worst.angles[i] as number, hang.angles[i] as number)
  }
  for (const [i, t] of hang.topTensions.entries()) worst.topMost[i] = Math.max(worst.topMost[i] as number, t)
  if (hang.tilt > worst.tilt) {
    worst.tilt = hang.tilt
    worst.tiltAt = [...corner]
  }
}

/** Signs of weight and of the centre of gravity; a coordinate that is certain is taken once. */
function boxSigns(cog: Vec3): number[][] {
  const along = cog.map((half) => (half > 0 ? [-1, 1] : [0]))
  return [-1, 1].flatMap((w) =>
    (along[0] as number[]).flatMap((x) =>
      (along[1] as number[]).flatMap((y) => (along[2] as number[]).map((z) => [w, x, y, z])),
    ),
  )
}

const allSigns = (n: number): number[][] =>
  Array.from({ length: 2 ** n }, (_, k) => Array.from({ length: n }, (_, i) => ((k >> i) & 1 ? 1 : -1)))

const spread = (signs: readonly number[], at: readonly number[], n: number): number[] => {
  const all = new Array<number>(n).fill(0)
  for (const [k, i] of at.entries()) all[i] = signs[k] as number
  return all
}

/** For each leg's tension and for tilt: the signs of the lengths that raise it most, by its slopes. */
function pointedSigns(
  load: HungLoad,
  tolerances: Tolerances,
  lengths: readonly number[],
  nominal: Hang,
  solve: (load: HungLoad) => Hanging,
): number[][] {
  const ups = lengths.map((i) => {
    const corner = new Array<number>(4 + tolerances.lengths.length).fill(0)
    corner[4 + i] = 1
    return solve(cornerOf(load, { ...tolerances, weight: [load.weight, load.weight] }, corner))
  })
  const rising = (result: (h: Hanging) => number): number[] => ups.map((up) => (result(up) >= result(nominal) ? 1 : -1))
  const results = [
    ...load.legs.map((_, i) => (h: Hanging) => h.tensions[i] as number),
    (h: Hanging) => h.tiltX,
    (h: Hanging) => h.tiltY,
  ]
  return results.flatMap((result) => {
    const signs = rising(result)
    return [signs, signs.map((s) => -s)]
  })
}

function cornerOf(load: HungLoad, tolerances: Tolerances, corner: readonly number[]): HungLoad {
  const [w, x, y, z, ...lengths] = corner as [number, number, number, number, ...number[]]
  const longer = (leg: ElasticLeg, i: number): ElasticLeg => ({
    ...leg,
    length: leg.length * (1 + (lengths[i] ?? 0) * (tolerances.lengths[i] ?? 0)),
  })
  const moved: HungLoad = {
    ...load,
    weight: tolerances.weight[w > 0 ? 1 : 0],
    cog: add(load.cog, [x * tolerances.cog[0], y * tolerances.cog[1], z * tolerances.cog[2]]),
    legs: load.legs.map(longer),
  }
  if (load.spreader === undefined) return moved
  return {
    ...moved,
    spreader: { ...load.spreader, top: load.spreader.top.map((leg, i) => longer(leg, load.legs.length + i)) },
  }
}

const stiffened = (load: HungLoad, factor: number): HungLoad => {
  const stiffer = (leg: ElasticLeg): ElasticLeg => ({ ...leg, stiffness: leg.stiffness * factor })
  const legs = load.legs.map(stiffer)
  return load.spreader === undefined
    ? { ...load, legs }
    : { ...load, legs, spreader: { ...load.spreader, top: load.spreader.top.map(stiffer) } }
}
