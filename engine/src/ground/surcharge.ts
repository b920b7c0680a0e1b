import { turned } from '../numeric/plan.ts'
import { type Answer, found, type Residual } from '../working/answer.ts'
import { pointElastic } from './surcharge.formulas.ts'

/** A load on the ground beside the shaft. Frame: site, shaft centre at the origin. */
export interface SurfaceLoad {
  force: number
  /** Centre, and the level at which it reaches the ground. */
  x: number
  y: number
  z: number
  /** Footprint along x and y, m; zero is a point. */
  size: readonly [number, number]
  /** By which the footprint is turned from x and y to the left, rad; absent, not at all. */
  turn?: number
}

/** The wall as a grid of levels (site z, downwards) and bearings (from +x to the left). */
export interface WallGrid {
  radius: number
  levels: readonly number[]
  bearings: readonly number[]
}

/** Wall that does not yield: the load is mirrored. */
const RIGID = 2
const BEARINGS = 48
/** Depths looked at: close together near the surface, where a near load presses most. */
const DEPTHS = [0.5, 1, 1.5, 2, 3, 4, 5.5, 7, 9, 12, 15, 19, 24, 29, 34, 40, 50, 60]

/** The grid from the collar to the base. */
export function wallGrid(radius: number, collar: number, base: number): WallGrid {
  const inside = DEPTHS.map((d) => collar - d).filter((z) => z > base)
  return {
    radius,
    levels: [...inside, base],
    bearings: Array.from({ length: BEARINGS }, (_, i) => (2 * Math.PI * i) / BEARINGS),
  }
}

/**
 * Pressure square to the wall from one load, level by level, bearing by bearing.
 *
 * Each point of the wall is taken as part of the plane that touches the ring there; what lies behind that plane does not
 * press on it. Footprints are divided into `pieces` × `pieces` points.
 *
 * Source: Boussinesq, ν = 0.5, doubled (formula `ground.surcharge.point-elastic`).
 */
export function pressureField(
  { radius, levels, bearings }: WallGrid,
  load: SurfaceLoad,
  pieces = piecesOf(load, radius),
): Float64Array {
  const points = divided(load, pieces)
  const field = new Float64Array(levels.length * bearings.length)
  const from = { k: RIGID, Q: load.force / points.length, x: 0, y: 0, z: 0 }
  for (const [j, bearing] of bearings.entries()) {
    const [c, s] = [Math.cos(bearing), Math.sin(bearing)]
    for (const [px, py] of points) {
      from.x = px * c + py * s - radius
      if (from.x <= 0) continue
      from.y = py * c - px * s
      for (const [i, level] of levels.entries()) {
        from.z = load.z - level
        if (from.z <= 0) continue
        const at = i * bearings.length + j
        field[at] = (field[at] as number) + pointElastic.value(from)
      }
    }
  }
  return field
}

/** A footprint far off is a point; a near one is divided more finely. */
function piecesOf({ x, y, size }: SurfaceLoad, radius: number): number {
  const largest = Math.max(...size)
  const distance = Math.max(Math.hypot(x, y) - radius, 0.1)
  return largest === 0 ? 1 : Math.min(8, Math.max(1, Math.ceil((3 * largest) / distance)))
}

function divided({ x, y, size: [a, b], turn = 0 }: SurfaceLoad, n: number): [number, number][] {
  return Array.from({ length: n * n }, (_, k): [number, number] => {
    const [u, v] = turned([(((k % n) + 0.5) / n - 0.5) * a, ((Math.floor(k / n) + 0.5) / n - 0.5) * b], turn)
    return [x + u, y + v]
  })
}

/** Fields added up, each times its share: pressure is in proportion to the load. */
export function together(fields: readonly { field: Float64Array; share: number }[], length: number): Float64Array {
  const sum = new Float64Array(length)
  for (const { field, share } of fields) {
    for (let i = 0; i < length; i++) sum[i] = (sum[i] as number) + share * (field[i] as number)
  }
  return sum
}

/** Where the wall is pressed most, and how evenly at that level. */
export interface FieldPeak {
  pressure: number
  level: number
  bearing: number
  /** Mean round the ring: hoop thrust. */
  mean: number
  /** Amplitude of the part that varies as cos 2θ: bending of the ring. */
  oval: number
}

export function peakOf({ levels, bearings }: WallGrid, field: Float64Array): FieldPeak {
  let best = 0
  for (let i = 1; i < field.length; i++) if ((field[i] as number) > (field[best] as number)) best = i
  const row = Math.floor(best / bearings.length)
  const ring = Array.from(field.subarray(row * bearings.length, (row + 1) * bearings.length))
  const moment = (f: (angle: number) => number) =>
    ring.reduce((sum, p, j) => sum + p * f(2 * (bearings[j] as number)), 0) * (2 / ring.length)
  return {
    pressure: field[best] as number,
    level: levels[row] as number,
    bearing: bearings[best % bearings.length] as number,
    mean: ring.reduce((sum, p) => sum + p, 0) / ring.length,
    oval: Math.hypot(moment(Math.cos), moment(Math.sin)),
  }
}

/** Relative change when every footprint is divided twice as finely, allowed at the governing point. */
const CONVERGED = 0.03

/** The largest pressure as an answer: every force is an input, and finer footprints must not change it. */
export function peakAnswer(
  loads: readonly { label: string; force: Answer<'N'>; finer: number }[],
  radius: Answer<'m'>,
  peak: FieldPeak,
): Answer<'Pa'> {
  const finer = loads.reduce((sum, load) => sum + (load.force.value ?? 0) * load.finer, 0)
  const residual: Residual = {
    title: 'change when footprints are divided twice as finely',
    value: peak.pressure === 0 ? 0 : finer / peak.pressure - 1,
    unit: '1',
    tolerance: CONVERGED,
  }
  return found({
    unit: 'Pa',
    value: peak.pressure,
    method: 'Boussinesq, ν = 0.5, doubled for a wall that does not yield; largest over level and bearing',
    inputs: { 'outer radius of the wall': radius, ...Object.fromEntries(loads.map((l) => [l.label, l.force])) },
    residuals: [residual],
    note: `at z ${peak.level.toFixed(1)} m, ${((peak.bearing * 180) / Math.PI).toFixed(0)}° from +x to the left`,
  })
}

/** Pressure at the peak from one newton there, its footprint divided twice as finely, Pa. */
export function finerAt({ radius }: WallGrid, load: SurfaceLoad, { level, bearing }: FieldPeak): number {
  const point: WallGrid = { radius, levels: [level], bearings: [bearing] }
  return pressureField(point, { ...load, force: 1 }, 2 * piecesOf(load, radius))[0] as number
}
