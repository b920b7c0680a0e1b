import { crossingEdges, type Point2, type Polygon, polygonIntegrals } from '@shieldwright/engine/numeric/polygon.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { readQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'

/** A corner where it lies, m, and as it is typed; a coordinate without a text is new and is written as it is kept. */
export interface Corner {
  at: Point2
  texts: readonly [unknown, unknown]
}

/** What turns about an axis has half a section, what is drawn out has an outline. */
export type Drawn = 'revolution' | 'extrusion'

const PLACE = /\/solids\/\d+\/(profile|outline)$/

/** Whether the list at an address is a line that is drawn, and of which shape. */
export function drawnAt(pointer: string): Drawn | undefined {
  const field = PLACE.exec(pointer)?.[1]
  return field === undefined ? undefined : field === 'profile' ? 'revolution' : 'extrusion'
}

/** Corners of a line as it is typed; undefined while one of them has no place that can be read. */
export function cornersAt(document: unknown, pointer: string): readonly Corner[] | undefined {
  const typed = at(document, pointer)
  if (!Array.isArray(typed)) return undefined
  const corners = typed.map(cornerOf)
  return corners.every((c) => c !== undefined) ? corners : undefined
}

function cornerOf(typed: unknown): Corner | undefined {
  if (!Array.isArray(typed)) return undefined
  const [a, b] = typed.map((text) => (typeof text === 'string' ? readQuantity(text, 'm') : undefined))
  return typeof a === 'number' && typeof b === 'number' ? { at: [a, b], texts: [typed[0], typed[1]] } : undefined
}

export const placesOf = (corners: readonly Corner[]): Polygon => corners.map((c) => c.at)

const SAME = 1e-9
const isSame = (a: number, b: number): boolean => Math.abs(a - b) < SAME

/** A corner elsewhere: a coordinate that did not move keeps its text, another is written in the unit it was typed in. */
export function movedCorner({ at: was, texts }: Corner, to: Point2, system: UnitSystem): Corner {
  const text = (k: 0 | 1): unknown => (isSame(was[k], to[k]) ? texts[k] : lengthText(to[k], texts[k], system))
  return { at: to, texts: [text(0), text(1)] }
}

/** The line with one corner elsewhere. */
export const withMoved = (corners: readonly Corner[], index: number, to: Point2, system: UnitSystem): Corner[] =>
  corners.map((c, i) => (i === index ? movedCorner(c, to, system) : c))

/** The line with a corner more, half-way along the edge that begins at a corner. */
export function withAdded(corners: readonly Corner[], after: number, system: UnitSystem): Corner[] {
  const [from, to] = edgeOf(corners, after)
  const half: Point2 = [(from.at[0] + to.at[0]) / 2, (from.at[1] + to.at[1]) / 2]
  return [...corners.slice(0, after + 1), movedCorner(from, half, system), ...corners.slice(after + 1)]
}

export const withoutCorner = (corners: readonly Corner[], index: number): Corner[] =>
  corners.filter((_, i) => i !== index)

const edgeOf = (corners: readonly Corner[], i: number): readonly [Corner, Corner] => [
  corners[i] as Corner,
  corners[(i + 1) % corners.length] as Corner,
]

/** A rectangle to begin with, clear of any axis. */
export const firstCorners = (system: UnitSystem): readonly (readonly string[])[] =>
  system === 'US'
    ? [
        ['0 ft', '1 ft'],
        ['3 ft', '1 ft'],
        ['3 ft', '2 ft'],
        ['0 ft', '2 ft'],
      ]
    : [
        ['0 m', '0.5 m'],
        ['1 m', '0.5 m'],
        ['1 m', '1 m'],
        ['0 m', '1 m'],
      ]

/** Length of the edge that begins at a corner, m. */
export function edgeLength(corners: readonly Corner[], i: number): number {
  const [from, to] = edgeOf(corners, i)
  return Math.hypot(to.at[0] - from.at[0], to.at[1] - from.at[1])
}

/** Corners are counted from one. */
const edgeName = (i: number, count: number): string => `edge ${i + 1}–${((i + 1) % count) + 1}`

/** A line of fewer goes round nothing. */
export const LEAST_CORNERS = 3
const MOST_CORNERS = 200

/** Why a line goes round no solid, by the names of its corners and edges; undefined where it does. */
export function faultOf(polygon: Polygon, drawn: Drawn): string | undefined {
  const count = polygon.length
  if (count < LEAST_CORNERS) return `A line of ${count} corners goes round nothing: three are due.`
  if (count > MOST_CORNERS) return `Of ${count} corners at most ${MOST_CORNERS} can be taken.`
  const beyond = drawn === 'revolution' ? polygon.findIndex(([, r]) => r < 0) : -1
  if (beyond >= 0) return `Corner ${beyond + 1} lies beyond the axis that the profile is turned about.`
  const crossing = crossingEdges(polygon)
  if (crossing !== undefined) return crossingText(polygon, crossing)
  return polygonIntegrals(polygon).area === 0 ? 'All corners lie in one line.' : undefined
}

function crossingText(polygon: Polygon, [i, j]: readonly [number, number]): string {
  const count = polygon.length
  const meets = j === i + 1 || (i === 0 && j === count - 1) ? 'folds back on' : 'meets'
  return `The line meets itself: ${edgeName(i, count)} ${meets} ${edgeName(j, count)}.`
}

/** Edges that meet where they must not. */
export const edgesAtFault = (polygon: Polygon): readonly number[] =>
  polygon.length < LEAST_CORNERS ? [] : (crossingEdges(polygon) ?? [])

interface LengthUnit {
  label: string
  /** m */
  per: number
  decimals: number
}

const LENGTH_UNITS: readonly LengthUnit[] = [
  { label: 'mm', per: 0.001, decimals: 2 },
  { label: 'cm', per: 0.01, decimals: 3 },
  { label: 'in', per: 0.0254, decimals: 4 },
  { label: 'ft', per: 0.3048, decimals: 5 },
  { label: 'm', per: 1, decimals: 5 },
]

const unitNamed = (label: string): LengthUnit => LENGTH_UNITS.find((u) => u.label === label) as LengthUnit

/** A length as it is written into the file: in the unit of what stood there, else of the reader's system. */
export function lengthText(value: number, like: unknown, system: UnitSystem): string {
  const typed = typeof like === 'string' ? /^[^a-z]*([a-z]+)$/.exec(like.trim())?.[1] : undefined
  const known = LENGTH_UNITS.find((u) => u.label === typed)
  const { label, per, decimals } = known ?? unitNamed(system === 'US' ? 'ft' : 'm')
  return `${Number((value / per).toFixed(decimals)) + 0} ${label}`
}

/** What a corner can be put to, finest in the middle of a list; m. */
export interface Grid {
  label: string
  by: number
}

const gridIn = (count: number, label: string): Grid => ({
  label: `${count} ${label}`,
  by: count * unitNamed(label).per,
})

/** Grids to choose from, the one to begin with first. */
export const profileGrids = (system: UnitSystem): readonly Grid[] =>
  system === 'US'
    ? [gridIn(1, 'in'), gridIn(0.25, 'in'), gridIn(3, 'in'), gridIn(1, 'ft')]
    : [gridIn(50, 'mm'), gridIn(1, 'mm'), gridIn(10, 'mm'), gridIn(100, 'mm'), gridIn(500, 'mm')]

/**
 * Where a corner that is pulled comes to lie: level or plumb with another corner within reach, else on the grid.
 * A direction in which it was hardly pulled keeps what it was.
 *
 * @param reach how near another corner's coordinate has to be, m
 */
export function pulledTo(
  from: Point2,
  to: Point2,
  others: Polygon,
  { by, reach }: { by: number; reach: number },
): Point2 {
  const along = (k: 0 | 1): number => {
    if (Math.abs(to[k] - from[k]) < Math.min(by, reach) / 2) return from[k]
    const near = others.map((o) => o[k]).sort((a, b) => Math.abs(a - to[k]) - Math.abs(b - to[k]))[0]
    return near !== undefined && Math.abs(near - to[k]) < reach ? near : Math.round(to[k] / by) * by
  }
  return [along(0), along(1)]
}

/** What an edit makes of a line, in words: corners are counted from one. */
export function editWords(before: unknown, now: readonly (readonly unknown[])[]): string {
  const was = Array.isArray(before) ? (before as readonly unknown[]) : []
  if (was.length === 0) return `${now.length} corners`
  if (was.length !== now.length) return `${was.length} corners → ${now.length} corners`
  const text = (corner: unknown): string => (Array.isArray(corner) ? corner.join(', ') : '')
  const moved = now.flatMap((corner, i) => (text(corner) === text(was[i]) ? [] : [i]))
  const [only] = moved
  return moved.length === 1 && only !== undefined
    ? `corner ${only + 1}, ${text(was[only])} → ${text(now[only])}`
    : `${moved.length} of ${now.length} corners moved`
}
