import { box, line, type Mark, type PaperPoint, type Text, text } from '../drawing.ts'
import { cutInside, type Face, linesWithin, textWidth, wrapText } from '../fontWidth.ts'
import { BODY, GRID, HEAD, RULE, SMALL } from './pen.ts'

/** One strip of a column of print. */
export interface Row {
  height: number
  marks: (at: PaperPoint) => Mark[]
  /** Not to be parted from the row after it. */
  keep?: boolean
  /** Printed again at the head of a column that its table runs on into. */
  head?: readonly Row[]
  /** Begins a page, unless the first one has been left already. */
  leavesFirst?: boolean
}

const LINE_STEP = 1.24

const face = (size: number, weight: 400 | 700 = 400, tabular = false): Face => ({ size, weight, tabular })

/** Least room for words beside a heading, mm. */
const ASIDE = 12

/** Whether a heading and the words beside it both stand whole in one line. */
export const headingHolds = (title: string, aside: string, width: number): boolean =>
  textWidth(title, face(HEAD, 700)) + textWidth(aside, face(SMALL)) + 3 <= width

/** Heading of a block, with a rule under it; what is too long for one line is cut. */
export function headingRow(title: string, width: number, aside = ''): Row {
  const bold = face(HEAD, 700)
  const heading = cutInside(title, bold, aside === '' ? width : width - ASIDE)
  const beside = cutInside(aside, face(SMALL), width - textWidth(heading, bold) - 3)
  return {
    height: HEAD + 3.4,
    keep: true,
    marks: ([x, y]) => [
      text([x, y + HEAD + 0.6], heading, { size: HEAD, weight: 700 }),
      ...(aside === ''
        ? []
        : [text([x + width, y + HEAD + 0.6], beside, { size: SMALL, anchor: 'end', ink: 'quiet' })]),
      line(
        [
          [x, y + HEAD + 2],
          [x + width, y + HEAD + 2],
        ],
        { ...RULE, ink: 'ink' },
      ),
    ],
  }
}

export const spaceRow = (height: number): Row => ({ height, marks: () => [] })

export interface Prose {
  size?: number
  weight?: 400 | 700
  ink?: Text['ink']
  /** Put before the first line, in the margin of the rest. */
  mark?: string
  /** Its lines stay together, and with `keepOn` with the row after them. */
  keep?: boolean
  keepOn?: boolean
}

/** A paragraph, wrapped; each line is a row. */
export function proseRows(words: string, width: number, look: Prose = {}): Row[] {
  const size = look.size ?? BODY
  const weight = look.weight ?? 400
  const indent = look.mark === undefined ? 0 : Math.max(3.2, textWidth(look.mark, face(size)) + 1.2)
  const style = { size, weight, ink: look.ink ?? 'ink' } as const
  return wrapText(words, face(size, weight), width - indent).map((words, i, all) => ({
    height: size * LINE_STEP,
    ...(look.keep && (look.keepOn || i < all.length - 1) ? { keep: true } : {}),
    marks: ([x, y]) => [
      ...(i === 0 && look.mark !== undefined ? [text([x, y + size * 0.95], look.mark, { size, ink: style.ink })] : []),
      text([x + indent, y + size * 0.95], words, style),
    ],
  }))
}

export interface Column {
  title: string
  /** Share of the width. */
  share: number
  align?: 'start' | 'end'
  /** Figures of one width, for columns of numbers. */
  tabular?: boolean
}

export interface Cell {
  words: string
  ink?: Text['ink']
  weight?: 400 | 700
  /** An empty box to tick; the words stand after it. */
  tick?: boolean
}

export interface TableRow {
  cells: readonly (string | Cell)[]
  /** A rule above: what follows is a sum. */
  sum?: boolean
  /** Small words under the row, over the whole width. */
  under?: string
  ink?: Text['ink']
}

const CELL_GAP = 1.6
/** A cell of more lines than this, as a long name in a narrow column makes, has so many; its words stand whole under its row. */
const MOST_LINES = 7
const CUT_LINES = 3
/** Side of a box to tick, and what it takes of its cell, mm. */
const TICK = 2.6
const TICK_ROOM = 4

/** A table: head, rows with words wrapped in their columns, hairlines between; no head where no column has a title. */
export function tableRows(columns: readonly Column[], rows: readonly TableRow[], width: number, size = BODY): Row[] {
  const spans = spansOf(columns, width)
  const heads = columns.every((c) => c.title === '') ? [] : [headRow(columns, spans, width)]
  return [...heads, ...rows.map((row) => bodyRow(columns, spans, row, width, size, heads))]
}

interface Span {
  left: number
  width: number
}

function spansOf(columns: readonly Column[], width: number): Span[] {
  const total = columns.reduce((sum, c) => sum + c.share, 0)
  const room = width - CELL_GAP * (columns.length - 1)
  let left = 0
  return columns.map(({ share }) => {
    const span = { left, width: (room * share) / total }
    left += span.width + CELL_GAP
    return span
  })
}

function headRow(columns: readonly Column[], spans: readonly Span[], width: number): Row {
  const lines = columns.map((c, i) => wrapText(c.title, face(SMALL), (spans[i] as Span).width))
  const most = Math.max(...lines.map((l) => l.length))
  const height = most * SMALL * 1.15 + 1.2
  return {
    height,
    keep: true,
    marks: ([x, y]) => [
      ...lines.flatMap((words, i) =>
        words.map((word, k) =>
          placedText(
            x,
            y + (most - words.length + k) * SMALL * 1.15 + SMALL * 0.9,
            word,
            columns[i] as Column,
            spans[i] as Span,
            {
              size: SMALL,
              ink: 'quiet',
            },
          ),
        ),
      ),
      line(
        [
          [x, y + height - 0.3],
          [x + width, y + height - 0.3],
        ],
        GRID,
      ),
    ],
  }
}

function placedText(
  x: number,
  y: number,
  words: string,
  { align, tabular }: Column,
  { left, width }: Span,
  look: { size: number; ink: Text['ink']; weight?: 400 | 700 },
): Text {
  const end = align === 'end'
  return text([x + left + (end ? width : 0), y], words, {
    ...look,
    anchor: end ? 'end' : 'start',
    tabular: tabular ?? false,
  })
}

function bodyRow(
  columns: readonly Column[],
  spans: readonly Span[],
  row: TableRow,
  width: number,
  size: number,
  head: readonly Row[],
): Row {
  const cells = row.cells.map((cell): Cell => (typeof cell === 'string' ? { words: cell } : cell))
  const weightOf = (cell: Cell): 400 | 700 => cell.weight ?? (row.sum ? 700 : 400)
  const roomOf = ({ tick }: Cell, { left, width }: Span): Span =>
    tick ? { left: left + TICK_ROOM, width: width - TICK_ROOM } : { left, width }
  const rooms = cells.map((cell, i) => roomOf(cell, spans[i] as Span))
  const faces = cells.map((cell, i) => face(size, weightOf(cell), (columns[i] as Column).tabular ?? false))
  const whole = cells.map(({ words }, i) => wrapText(words, faces[i] as Face, (rooms[i] as Span).width))
  const isLong = whole.map(({ length }) => length > MOST_LINES)
  const lines = whole.map((words, i) =>
    isLong[i] ? linesWithin((cells[i] as Cell).words, faces[i] as Face, (rooms[i] as Span).width, CUT_LINES) : words,
  )
  const most = Math.max(...lines.map((l) => l.length))
  const said = [...cells.filter((_, i) => isLong[i]).map(({ words }) => words), ...(row.under ? [row.under] : [])]
  const under = said.flatMap((words) => wrapText(words, face(SMALL), width))
  const step = size * LINE_STEP
  const height = most * step + under.length * SMALL * LINE_STEP + 0.7
  return {
    height,
    head,
    marks: ([x, y]) => [
      ...(row.sum
        ? [
            line(
              [
                [x, y],
                [x + width, y],
              ],
              { ...RULE, ink: 'ink' },
            ),
          ]
        : []),
      ...cells.flatMap((cell, i) => (cell.tick ? [tickMark([x + (spans[i] as Span).left, y + 0.5])] : [])),
      ...lines.flatMap((words, i) =>
        words.map((word, k) =>
          placedText(x, y + 0.3 + k * step + size * 0.93, word, columns[i] as Column, rooms[i] as Span, {
            size,
            ink: (cells[i] as Cell).ink ?? row.ink ?? 'ink',
            weight: weightOf(cells[i] as Cell),
          }),
        ),
      ),
      ...under.map((words, k) =>
        text([x, y + 0.3 + most * step + k * SMALL * LINE_STEP + SMALL * 0.93], words, { size: SMALL, ink: 'quiet' }),
      ),
      line(
        [
          [x, y + height],
          [x + width, y + height],
        ],
        GRID,
      ),
    ],
  }
}

/** An empty box to tick. */
export const tickMark = ([x, y]: PaperPoint, side = TICK): Mark =>
  box({ left: x, top: y, right: x + side, bottom: y + side }, { stroke: RULE })

/** Rows set beside a picture, as one row that is not parted. */
export function besideRow(
  picture: { width: number; height: number; marks: (at: PaperPoint) => Mark[] },
  rows: readonly Row[],
  gap: number,
): Row {
  const height = rows.reduce((sum, row) => sum + row.height, 0)
  return {
    height: Math.max(picture.height, height),
    marks: ([x, y]) => {
      let top = y
      const words = rows.flatMap((row) => {
        const marks = row.marks([x + picture.width + gap, top])
        top += row.height
        return marks
      })
      return [...picture.marks([x, y]), ...words]
    },
  }
}

/** Boxes to sign in; a name that is too long for its box is cut in the last line that it has. */
export function signatureRow(roles: readonly string[], width: number, height: number): Row {
  const each = width / roles.length
  const most = Math.max(1, Math.floor((height - SMALL - 1.6) / (SMALL * LINE_STEP)))
  return {
    height,
    marks: ([x, y]) =>
      roles.flatMap((role, i) => [
        box({ left: x + i * each, top: y, right: x + (i + 1) * each, bottom: y + height - 0.5 }, { stroke: RULE }),
        ...linesWithin(role, face(SMALL), each - 2, most).map((words, k) =>
          text([x + i * each + 1, y + SMALL + 0.4 + k * SMALL * LINE_STEP], words, { size: SMALL, ink: 'quiet' }),
        ),
        text([x + i * each + 1, y + height - 1.6], 'name, date, signature', { size: SMALL, ink: 'quiet' }),
      ]),
  }
}
