import type { Shaft } from '../model/index.ts'
import { turned } from '../numeric/plan.ts'
import type { GroundLoad } from './step.ts'
import { lineChart, pointChart, stripOnWall } from './surcharge.formulas.ts'
import type { WallRing } from './wall.ts'

/** Nearer than this share of the wall's height the charts were never meant to be read. */
export const NEAREST = 0.1

/** A load with a footprint beside the wall, taken as a line along the plane that touches the ring nearest to it. m, N. */
export interface BesideWall {
  load: GroundLoad
  /** Of its middle, and of its near edge, from the back of the wall. */
  middle: number
  edge: number
  across: number
  along: number
  /** Height of the wall, and how deep below the collar the load reaches the ground. */
  height: number
  level: number
  /** Force over its length, N/m. */
  perMetre: number
  isNear: boolean
}

/** Pressure at a depth below the load by each chart, Pa; undefined where the chart does not go. */
export interface ChartsAt {
  depth: number
  line: number | undefined
  point: number | undefined
  strip: number | undefined
}

/**
 * The loads that have a footprint, each as a line load along the wall: its force over its length, at the distance of its middle.
 *
 * Limits: the charts are for a straight wall that does not yield and, of lines and strips, for a load without ends: a bound for one with.
 */
export function besideWall(shaft: Shaft, ring: WallRing, loads: readonly GroundLoad[]): BesideWall[] {
  const radius = ring.outerRadius.value
  const collar = shaft.collar.value as number
  const height = collar - (shaft.excavation.value as number)
  if (radius === undefined) return []
  return loads.flatMap((load): BesideWall[] => {
    const [x, y, level] = load.at
    const [a, b] = load.size
    const [u, v] = turned([x, y], -(load.turn ?? 0))
    const far = Math.hypot(x, y)
    const force = load.force.value
    if (force === undefined || a * b === 0 || far === 0) return []
    const [c, s] = [Math.abs(u) / far, Math.abs(v) / far]
    const [across, along] = [a * c + b * s, a * s + b * c]
    const middle = far - radius
    const edge = middle - across / 2
    const isNear = middle < NEAREST * height
    return [{ load, middle, edge, across, along, height, level: collar - level, perMetre: force / along, isNear }]
  })
}

/** What the charts give at a depth below the load. */
export function chartsAt(beside: BesideWall, depth: number): ChartsAt {
  const { middle: x, edge, across: b, along, height: H, perMetre: Q, isNear } = beside
  return {
    depth,
    line: isNear ? undefined : lineChart.value({ Q, H, x, z: depth }),
    point: isNear ? undefined : pointChart.value({ Q: Q * along, H, x, y: 0, z: depth }),
    strip: edge < 0 || depth === 0 ? undefined : stripOnWall.value({ k: 2, q: Q / b, x_1: edge, b, z: depth }),
  }
}

const STEPS = 80

/** The charts from the load down to the base of the excavation. */
export const chartsDown = (beside: BesideWall): ChartsAt[] =>
  Array.from({ length: STEPS + 1 }, (_, i) => chartsAt(beside, ((beside.height - beside.level) * i) / STEPS))
