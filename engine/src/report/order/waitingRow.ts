import { box, line, type Mark, type PaperPoint, text } from '../drawing.ts'
import { wrapText } from '../fontWidth.ts'
import { EDGE, FINE, GRID, SMALL, THIN } from '../paper/pen.ts'
import type { Row } from '../paper/rows.ts'
import { type OrderStep, waitsText } from './orderSheet.ts'

const NAME = 2.8
const LINE_STEP = 1.2
const PLACE = 8
const GAP = 4
/** A cell of the field, mm: never less than can be told apart, never more than looks well. */
const CELL = { least: 1.7, most: 4.4 }
/** Every so many the number stands at the head. */
const NUMBERED = 5

/** Where the field of waiting stands in a row of this width, and how wide a cell is; none where the steps are too many. */
export interface WaitingField {
  left: number
  cell: number
  count: number
}

/** The words keep at least this much of the width. */
const WORDS_SHARE = 0.5

export function waitingField(count: number, width: number): WaitingField | undefined {
  const cell = Math.min(CELL.most, (width * (1 - WORDS_SHARE)) / count)
  return cell < CELL.least ? undefined : { left: width - cell * count, cell, count }
}

/** Numbers of the steps over their columns. */
export function fieldHead(field: WaitingField | undefined): Row[] {
  if (field === undefined) return []
  const numbered = Array.from({ length: field.count }, (_, i) => i + 1).filter((n) => n === 1 || n % NUMBERED === 0)
  return [
    {
      height: 4,
      keep: true,
      marks: ([x, y]) =>
        numbered.map((n) =>
          text([x + middleOf(n, field), y + 2.8], `${n}`, {
            size: SMALL,
            anchor: 'middle',
            tabular: true,
            ink: 'quiet',
          }),
        ),
    },
  ]
}

const middleOf = (place: number, { left, cell }: WaitingField): number => left + (place - 0.5) * cell

/**
 * One step: its place, what moves, what it waits for in words and in the field: a filled box for what must be gone, open
 * ones where any of them would do, a ring for the step itself. Red: nothing of it comes before the step.
 */
export function waitingRow(step: OrderStep, field: WaitingField | undefined, width: number, head: readonly Row[]): Row {
  const room = (field?.left ?? width) - PLACE - GAP
  const face = (size: number, weight: 400 | 700 = 400) => ({ size, weight, tabular: false }) as const
  const names = wrapText(`${step.piece}${step.aside ? ', put aside' : ''}`, face(NAME, 700), room)
  const facts = wrapText(factsText(step), face(SMALL), room)
  const blocked = step.blocked.flatMap((words) => wrapText(`cannot be done: ${words}`, face(SMALL, 700), room))
  const words = [
    ...names.map((words) => ({ words, size: NAME, weight: 700 as const, ink: 'ink' as const })),
    ...wrapText(waitsText(step), face(SMALL), room).map((words) => ({
      words,
      size: SMALL,
      weight: 400 as const,
      ink: 'ink' as const,
    })),
    ...facts.map((words) => ({ words, size: SMALL, weight: 400 as const, ink: 'quiet' as const })),
    ...blocked.map((words) => ({ words, size: SMALL, weight: 700 as const, ink: 'fail' as const })),
  ]
  const height = words.reduce((sum, w) => sum + w.size * LINE_STEP, 0) + 1.4
  return {
    height,
    head,
    marks: ([x, y]) => {
      let down = y + 0.5
      const lines = words.map((w) => {
        const mark = text([x + PLACE, down + w.size * 0.92], w.words, { size: w.size, weight: w.weight, ink: w.ink })
        down += w.size * LINE_STEP
        return mark
      })
      return [
        text([x + PLACE - 2.4, y + 0.5 + NAME * 0.92], `${step.place}`, {
          size: NAME,
          anchor: 'end',
          tabular: true,
          weight: 700,
        }),
        ...lines,
        ...(field === undefined ? [] : fieldMarks(step, field, [x, y], height)),
        line(
          [
            [x, y + height],
            [x + width, y + height],
          ],
          GRID,
        ),
      ]
    },
  }
}

function factsText({ step, lift, joints, services, gap }: OrderStep): string {
  return [
    step,
    ...(lift === undefined ? [] : [`lift ${lift}`]),
    ...(joints.length === 0 ? [] : [`opens ${joints.length} ${joints.length === 1 ? 'joint' : 'joints'}`]),
    ...(services.length === 0 ? [] : [`parts ${services.length} ${services.length === 1 ? 'service' : 'services'}`]),
    ...(gap === '' ? [] : [`nearest ${gap}`]),
  ].join(' · ')
}

function fieldMarks(step: OrderStep, field: WaitingField, [x, y]: PaperPoint, height: number): Mark[] {
  const middle = y + height / 2
  const half = Math.min(field.cell * 0.36, 1.3)
  const at = (place: number): number => x + middleOf(place, field)
  const square = (place: number, any: readonly number[]): Mark => {
    const wrong = any.every((p) => p > step.place)
    const sides = { left: at(place) - half, right: at(place) + half, top: middle - half, bottom: middle + half }
    return any.length === 1
      ? box(sides, { fill: wrong ? 'fail' : 'ink' })
      : box(sides, { fill: 'paper', stroke: { ...THIN, ink: wrong ? 'fail' : 'ink' } })
  }
  const columns = Array.from({ length: Math.floor(field.count / NUMBERED) }, (_, i) => (i + 1) * NUMBERED)
  const last = Math.max(step.place, ...step.waits.flat())
  const first = Math.min(step.place, ...step.waits.flat())
  return [
    ...columns.map((n) =>
      line(
        [
          [at(n), y],
          [at(n), y + height],
        ],
        GRID,
      ),
    ),
    ...(first === last
      ? []
      : [
          line(
            [
              [at(first), middle],
              [at(last), middle],
            ],
            FINE,
          ),
        ]),
    ...step.waits.flatMap((any) => any.map((place) => square(place, any))),
    { kind: 'circle', centre: [at(step.place), middle], radius: half, fill: 'paper', stroke: EDGE },
  ]
}
