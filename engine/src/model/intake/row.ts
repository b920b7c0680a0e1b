import { foundText, nearestId, type Problem } from '../../working/problem.ts'
import { readQuantity } from '../../working/quantity.ts'
import type { SiUnit } from '../../working/unit.ts'
import { isMoment } from '../moment.ts'

/** One row of a table that was read: texts by column, as they stood. */
export interface Row {
  /** As a spreadsheet counts: the heading is in row 1 or further down. */
  row: number
  cells: Readonly<Record<string, string>>
}

/** What is wrong with a cell. */
export interface CellProblem extends Problem {
  row: number
  column: string
}

/** Reads the cells of one row, and keeps what is wrong with them. */
export interface RowReader {
  row: number
  problems: CellProblem[]
  /** The text of a cell; undefined where it is empty. */
  text: (column: string) => string | undefined
  refuse: (column: string, expected: string, example?: string) => undefined
}

const LONGEST_CELL = 2000

export function rowReader({ row, cells }: Row): RowReader {
  const problems: CellProblem[] = []
  const refuse: RowReader['refuse'] = (column, expected, example) => {
    const cell = cells[column]?.trim()
    problems.push({
      pointer: placeText(row, column),
      row,
      column,
      found: cell === undefined || cell === '' ? 'an empty cell' : foundText(cell),
      expected,
      ...(example === undefined ? {} : { example }),
    })
    return undefined
  }
  const text: RowReader['text'] = (column) => {
    const cell = undefused(cells[column] ?? '').trim()
    if (cell === '') return undefined
    return cell.length > LONGEST_CELL ? refuse(column, `at most ${LONGEST_CELL} characters`) : cell
  }
  return { row, problems, text, refuse }
}

export const placeText = (row: number, column: string): string => `row ${row}, column "${column}"`

/** The apostrophe that keeps a spreadsheet from taking a text for a formula is no part of the text. */
export const undefused = (cell: string): string => (/^'[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell)

/** An id that has to be one of those known. */
export function idIn(reader: RowReader, column: string, what: string, known: ReadonlySet<string>): string | undefined {
  const text = reader.text(column)
  if (text !== undefined && known.has(text)) return text
  const near = text === undefined ? undefined : nearestId(text, known)
  return reader.refuse(
    column,
    `the id of ${what}${near === undefined ? '' : `; did you mean "${near}"?`}`,
    near === undefined ? [...known][0] : undefined,
  )
}

/** A moment, ISO 8601 and nothing else: 03/04 is one day here and another there. */
export function momentIn(reader: RowReader, column: string): string | undefined {
  const text = reader.text(column)?.replace(/^(\d{4}-\d{2}-\d{2}) (\d{2}:\d{2})/, '$1T$2')
  if (text === undefined || isMoment(text)) return text
  const isTwoFold = /^\d{1,2}[./-]\d{1,2}[./-]\d{2,4}/.test(text)
  const expected = 'a date as year-month-day, with local time after it where it matters (ISO 8601)'
  return reader.refuse(
    column,
    isTwoFold ? `${expected}; day and month are not told apart here` : expected,
    '2032-04-03',
  )
}

/** A day, ISO 8601. */
export function dayIn(reader: RowReader, column: string): string | undefined {
  const text = momentIn(reader, column)
  return text === undefined || text.length === 10
    ? text
    : reader.refuse(column, 'a day without a time', text.slice(0, 10))
}

const COUNT = /^\d{1,6}(\.\d{1,6})?$/

/** Days still to go: one figure, or least / likely / greatest. */
export function daysIn(reader: RowReader, column: string): number | readonly number[] | undefined {
  const text = reader.text(column)
  if (text === undefined) return undefined
  const parts = text.split('/').map((part) => part.trim())
  const days = parts.map(Number)
  const isSound = parts.every((part) => COUNT.test(part)) && (parts.length === 1 || parts.length === 3)
  const isRising = days.every((d, i) => i === 0 || d >= (days[i - 1] as number))
  if (!isSound || !isRising)
    return reader.refuse(
      column,
      'days as a number with a decimal point, or least / likely / greatest in rising order',
      '2 / 3.5 / 6',
    )
  return days.length === 1 ? days[0] : days
}

/** Written and read back, a number differs by less than this share. */
const LAST_DIGIT = 1e-9

/**
 * A quantity as text with its unit, kept as it was written.
 *
 * @param old what stands, in SI: the same in other words says nothing new
 */
export function quantityIn(reader: RowReader, column: string, unit: SiUnit, old?: number): string | undefined {
  const text = reader.text(column)
  if (text === undefined) return undefined
  const read = readQuantity(text, unit)
  if (typeof read !== 'number') return reader.refuse(column, read.expected, read.example)
  return old !== undefined && Math.abs(read - old) <= LAST_DIGIT * Math.abs(old) ? undefined : text
}
