import type { PaperBox, View } from '../drawing.ts'
import { roomOf, type SheetSize } from '../paper/border.ts'
import { HEADING } from '../views/head.ts'

/** Papers that a site drawing can be had on. */
export const SITE_PAPERS = ['A1', 'A2', 'A3'] as const
export type SitePaper = (typeof SITE_PAPERS)[number]

const SIZES: Readonly<Record<SitePaper, SheetSize>> = {
  A1: { width: 841, height: 594 },
  A2: { width: 594, height: 420 },
  A3: { width: 420, height: 297 },
}

/** What has to be drawn: metres that shrink with the scale, and millimetres that do not. */
export interface Need {
  wide: number
  high: number
  padWide: number
  padHigh: number
}

/** A picture before it has its place: what it needs, and its views at a scale in a room. */
export interface Pictured {
  need: Need
  views: (ratio: number, room: PaperBox) => View[]
}

/** Where the drawing and the print stand on the first sheet. */
export interface Layout {
  size: SheetSize
  ratio: number
  /** Room of the drawing with its heading. */
  view: PaperBox
  /** Columns of print that the drawing leaves; none where it takes the sheet. */
  columns: readonly PaperBox[]
}

const MANTISSAS = [1, 2, 2.5, 5]

/** 1, 2, 2.5 and 5 × 10ⁿ from 1 : 10 on, as ISO 5455 has them, and 1 : 250. */
export const RATIOS = [10, 100, 1000, 10_000].flatMap((power) => MANTISSAS.map((m) => m * power))

const AIR = 1
/** Narrower or lower than this no column of print is worth setting, mm. */
const LEAST_WIDTH = 84
const LEAST_HEIGHT = 38
const COLUMN = 108
const GUTTER = 7

/** The largest picture of a ratio that a scale rule carries: landscape, or portrait where that is larger. */
export function layoutOf(paper: SitePaper, need: Need): Layout {
  const lying = SIZES[paper]
  const standing: SheetSize = { width: lying.height, height: lying.width }
  const [a, b] = [fitted(lying, need), fitted(standing, need)]
  return b.ratio < a.ratio ? b : a
}

function fitted(size: SheetSize, { wide, high, padWide, padHigh }: Need): Layout {
  const room = roomOf(size)
  const [width, height] = [room.right - room.left, room.bottom - room.top]
  const taken = (ratio: number): readonly [number, number] => [
    (wide * 1000) / ratio + padWide + AIR,
    (high * 1000) / ratio + padHigh + HEADING + AIR,
  ]
  const fits = (r: number): boolean => taken(r)[0] <= width && taken(r)[1] <= height
  const ratio = RATIOS.find(fits) ?? Math.ceil(Math.max(wide, high) / 100) * 1000
  const [w, h] = taken(ratio)
  const columns = columnsBeside(room, Math.min(w, width), Math.min(h, height))
  const below = columns.length > 0 && (columns[0] as PaperBox).top > room.top
  const view = {
    left: room.left,
    top: room.top,
    right: columns.length > 0 && !below ? room.left + w : room.right,
    bottom: below ? room.top + h : room.bottom,
  }
  return { size, ratio, view, columns }
}

/** Columns to the right of the drawing or below it, whichever has more room. */
function columnsBeside(room: PaperBox, w: number, h: number): PaperBox[] {
  const right = { ...room, left: room.left + w + GUTTER }
  const foot = { ...room, top: room.top + h + GUTTER }
  const areas = [right, foot].map((box) =>
    box.right - box.left < LEAST_WIDTH || box.bottom - box.top < LEAST_HEIGHT
      ? 0
      : (box.right - box.left) * (box.bottom - box.top),
  ) as [number, number]
  if (Math.max(...areas) === 0) return []
  return columnsIn(areas[0] >= areas[1] ? right : foot)
}

/** A box parted into columns of print. */
export function columnsIn(box: PaperBox): PaperBox[] {
  const count = Math.max(1, Math.floor((box.right - box.left + GUTTER) / (COLUMN + GUTTER)))
  const width = (box.right - box.left - GUTTER * (count - 1)) / count
  return Array.from({ length: count }, (_, i) => ({
    ...box,
    left: box.left + i * (width + GUTTER),
    right: box.left + i * (width + GUTTER) + width,
  }))
}
