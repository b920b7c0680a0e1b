import type { Waiting } from '../../strip/index.ts'
import { box, type Drawing, drawing, line, type Mark, type PaperPoint, standFor, text } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import { arrow } from '../paper/dimension.ts'
import { FINE, THIN } from '../paper/pen.ts'

/** A piece in the picture, or several alike that wait for the same. */
export interface PrecedencePiece extends Waiting {
  /** What it is called. */
  name: string
  /** As short as a box needs it. */
  short: string
  /** Its place in the order, from 1. */
  place: number
  /** It is only put aside. */
  aside: boolean
}

/** Twelve pixels on a page at its own size. */
const SIZE = 3.2
const BOX = { height: 7.4, gap: 2.8 }
const COLUMN_GAP = 13
const MARGIN = 4

interface Placed {
  piece: PrecedencePiece
  left: number
  right: number
  middle: number
}

/**
 * Which piece waits for which: columns from left to right, a piece stands to the right of all that it waits for. Numbers are
 * the places in the order. A dashed line: another piece would do as well.
 */
export function precedenceDrawing(title: string, pieces: readonly PrecedencePiece[]): Drawing {
  const columns = columnsOf(pieces)
  const placed = placedIn(columns)
  const width = Math.max(60, ...[...placed.values()].map((p) => p.right)) + MARGIN
  const height = Math.max(20, ...[...placed.values()].map((p) => p.middle + BOX.height / 2)) + MARGIN
  return drawing(title, width, height, [
    ...pieces.flatMap((piece) => waitingMarks(piece, placed)),
    ...[...placed.values()].map(pieceMarks),
  ])
}

/** The longest chain of waiting before a piece is its column. */
function columnsOf(pieces: readonly PrecedencePiece[]): PrecedencePiece[][] {
  const known = new Map(pieces.map((p) => [p.id, p]))
  const depths = new Map<string, number>()
  const depth = (id: string): number => {
    const before = depths.get(id)
    if (before !== undefined) return before
    depths.set(id, 0)
    const own = Math.max(-1, ...(known.get(id)?.after ?? []).filter((a) => known.has(a)).map(depth)) + 1
    depths.set(id, own)
    return own
  }
  const columns: PrecedencePiece[][] = []
  for (const piece of pieces) {
    const at = depth(piece.id)
    while (columns.length <= at) columns.push([])
    columns[at]?.push(piece)
  }
  return sorted(columns)
}

/** Within a column each stands as near as can be to the middle of what it waits for. */
function sorted(columns: readonly PrecedencePiece[][]): PrecedencePiece[][] {
  const places = new Map<string, number>()
  return columns.map((column) => {
    const wish = (piece: PrecedencePiece): number => {
      const own = piece.after.flatMap((id) => places.get(id) ?? [])
      return own.length === 0 ? piece.place : own.reduce((sum, p) => sum + p, 0) / own.length
    }
    const ordered = [...column].sort((a, b) => wish(a) - wish(b) || a.place - b.place)
    ordered.forEach((piece, i) => {
      places.set(piece.id, i - (ordered.length - 1) / 2)
    })
    return ordered
  })
}

const wordsOf = ({ place, short, aside }: PrecedencePiece): string => `${place}  ${short}${aside ? ', aside' : ''}`

function placedIn(columns: readonly (readonly PrecedencePiece[])[]): ReadonlyMap<string, Placed> {
  const most = Math.max(1, ...columns.map((c) => c.length))
  const whole = most * (BOX.height + BOX.gap)
  const placed = new Map<string, Placed>()
  let left = MARGIN
  for (const column of columns) {
    const width = Math.max(...column.map((p) => textWidth(wordsOf(p), { size: SIZE, weight: 400, tabular: true }))) + 4
    const pitch = whole / Math.max(1, column.length)
    column.forEach((piece, i) => {
      placed.set(piece.id, { piece, left, right: left + width, middle: MARGIN + pitch * (i + 0.5) })
    })
    left += width + COLUMN_GAP
  }
  return placed
}

function pieceMarks({ piece, left, right, middle }: Placed): Mark {
  const [top, bottom] = [middle - BOX.height / 2, middle + BOX.height / 2]
  const waits = piece.after.length === 0 ? 'waits for nothing' : `waits for ${piece.after.join(', ')}`
  return standFor(`/pieces/${piece.piece}`, `${piece.place}, ${piece.name}: ${waits}`, [
    box({ left, right, top, bottom }, { fill: 'paper', stroke: THIN }),
    text([left + 2, middle + 1.1], wordsOf(piece), { size: SIZE, tabular: true }),
  ])
}

function waitingMarks(piece: PrecedencePiece, placed: ReadonlyMap<string, Placed>): Mark[] {
  const to = placed.get(piece.id)
  if (to === undefined) return []
  const sources = piece.after.flatMap((id) => placed.get(id) ?? [])
  return sources.flatMap((from, i): Mark[] => {
    const end: PaperPoint = [
      to.left,
      to.middle + ((i - (sources.length - 1) / 2) * BOX.height * 0.7) / Math.max(1, sources.length),
    ]
    const start: PaperPoint = [from.right, from.middle]
    const bend = end[0] - COLUMN_GAP * 0.45
    const either = (piece.instead[from.piece.id]?.length ?? 0) > 0
    const stroke = either ? { ...FINE, dash: [1.2, 0.8] } : FINE
    return [line([start, [bend, start[1]], [end[0] - 3, end[1]], end], stroke), arrow(end, [-1, 0], FINE)]
  })
}
