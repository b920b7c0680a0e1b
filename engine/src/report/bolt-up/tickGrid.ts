import { box, type Mark, type PaperPoint, text } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import { FINE, RULE, SMALL } from '../paper/pen.ts'
import type { Row } from '../paper/rows.ts'

const SIZE = 2.2
const BOX = 3.8
const HEAD = 3.6
const NAMES = 15
const LEAST = 6

/** Strokes in their order, each with a box for every pass; as many rows of boxes as are needed, none parted. */
export function tickGrid(strokes: readonly string[], passes: readonly string[], width: number): Row[] {
  const face = { size: SIZE, weight: 400, tabular: true } as const
  const cell = Math.max(LEAST, ...strokes.map((s) => textWidth(s, face) + 1.6))
  const each = Math.max(1, Math.floor((width - NAMES) / cell))
  const lines = Array.from({ length: Math.ceil(strokes.length / each) }, (_, i) =>
    strokes.slice(i * each, (i + 1) * each),
  )
  return lines.map((line) => ({
    height: HEAD + BOX * passes.length + 1.6,
    marks: (at) => gridMarks(line, passes, cell, at),
  }))
}

function gridMarks(strokes: readonly string[], passes: readonly string[], cell: number, [x, y]: PaperPoint): Mark[] {
  const left = (i: number): number => x + NAMES + i * cell
  const top = (k: number): number => y + HEAD + k * BOX
  return [
    text([x, y + HEAD - 0.9], 'bolt', { size: SMALL, ink: 'quiet' }),
    ...passes.map((name, k) => text([x, top(k) + BOX - 1.1], name, { size: SMALL, ink: 'quiet' })),
    ...strokes.flatMap((words, i): Mark[] => [
      text([left(i) + cell / 2, y + HEAD - 0.9], words, { size: SIZE, anchor: 'middle', tabular: true }),
      ...passes.map((_, k) =>
        box(
          { left: left(i), top: top(k), right: left(i) + cell, bottom: top(k) + BOX },
          { stroke: k === 0 ? RULE : FINE },
        ),
      ),
    ]),
  ]
}
