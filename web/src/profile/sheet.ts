import type { Point2, Polygon } from '@shieldwright/engine/numeric/polygon.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Drawn } from './corners.ts'

/** A rectangle of the page that shows a piece of a plane to scale, the second coordinate upwards. */
export interface Sheet {
  width: number
  height: number
  /** px to a metre */
  scale: number
  /** Place in the plane of the upper left corner, m. */
  from: Point2
  /** Spacing of the grid that is drawn and of the lines that are labelled, m. */
  lines: number
  labels: number
}

/** px: room for labels at the left and below, and for a dimension above and at the right. */
const ROOM = { left: 54, right: 44, above: 36, below: 30 }
const HIGHEST = 460
const LOWEST = 200
/** What is shown where all corners are as good as one, m. */
const LEAST_SHOWN = 0.05

/** A sheet that shows a whole line; with the axis that it is turned about where that lies near. */
export function sheetOf(line: Polygon, drawn: Drawn, width: number, system: UnitSystem): Sheet {
  const { min, max } = reachOf(line, drawn)
  const size: Point2 = [Math.max(max[0] - min[0], LEAST_SHOWN), Math.max(max[1] - min[1], LEAST_SHOWN)]
  const room: Point2 = [width - ROOM.left - ROOM.right, HIGHEST - ROOM.above - ROOM.below]
  const scale = Math.max(Math.min(room[0] / size[0], room[1] / size[1]), 1e-6)
  const height = Math.max(LOWEST, size[1] * scale + ROOM.above + ROOM.below)
  const spare = (width - ROOM.left - ROOM.right) / scale - size[0]
  const spareUp = (height - ROOM.above - ROOM.below) / scale - size[1]
  return {
    width,
    height,
    scale,
    from: [min[0] - spare / 2 - ROOM.left / scale, max[1] + spareUp / 2 + ROOM.above / scale],
    lines: spacing(system, 10 / scale),
    labels: spacing(system, 64 / scale),
  }
}

function reachOf(line: Polygon, drawn: Drawn): { min: Point2; max: Point2 } {
  const over = (k: 0 | 1): readonly [number, number] => {
    const all = line.map((p) => p[k])
    return all.length === 0 ? [0, 1] : [Math.min(...all), Math.max(...all)]
  }
  const [[a, b], [c, d]] = [over(0), over(1)]
  const hasAxis = drawn === 'revolution' && c < Math.max(b - a, d - c)
  return { min: [a, hasAxis ? Math.min(0, c) : c], max: [b, d] }
}

const INCH = 0.0254
const SPACINGS: Readonly<Record<UnitSystem, readonly number[]>> = {
  SI: [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50],
  US: [0.125, 0.25, 0.5, 1, 3, 6, 12, 24, 60, 120, 240, 600, 1200].map((inches) => inches * INCH),
}

const spacing = (system: UnitSystem, least: number): number =>
  SPACINGS[system].find((s) => s >= least) ?? (SPACINGS[system].at(-1) as number)

export const toPage = ({ from, scale }: Sheet, [a, b]: Point2): Point2 => [(a - from[0]) * scale, (from[1] - b) * scale]

/** Lines of a grid across the sheet along one coordinate, m. */
export function linesOf({ from, width, height, scale }: Sheet, along: 0 | 1, by: number): readonly number[] {
  const [low, high] = along === 0 ? [from[0], from[0] + width / scale] : [from[1] - height / scale, from[1]]
  const first = Math.ceil(low / by)
  return Array.from({ length: Math.max(0, Math.floor(high / by) - first + 1) }, (_, i) => (first + i) * by)
}

/** Unit in which the lines of a sheet are labelled, and decimals that tell them apart. */
export function labelUnit({ labels }: Sheet, system: UnitSystem): { label: string; per: number; decimals: number } {
  if (system === 'US')
    return labels < 12 * INCH - 1e-9
      ? { label: 'in', per: INCH, decimals: labels < INCH ? 2 : 0 }
      : { label: 'ft', per: 12 * INCH, decimals: 0 }
  if (labels < 0.01) return { label: 'mm', per: 0.001, decimals: 0 }
  return { label: 'm', per: 1, decimals: labels < 0.1 ? 2 : labels < 1 ? 1 : 0 }
}
