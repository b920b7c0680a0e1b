import type { Table } from '@shieldwright/engine/report/tables/index.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { stringify } from 'csv-stringify/sync'
import { type Written, writtenTable } from './writtenTable.ts'

/**
 * A table as CSV: UTF-8 with its mark, commas, CRLF (RFC 4180). A text that a spreadsheet would take for a formula begins with an
 * apostrophe; numbers stay as they are.
 */
export function csvOf(table: Table, units: UnitSystem): string {
  const { heading, rows } = writtenTable(table, units)
  return stringify([heading.map(defused), ...rows.map((row) => row.map(cellText))], {
    bom: true,
    record_delimiter: 'windows',
  })
}

const cellText = (cell: Written): string =>
  cell === undefined ? '' : typeof cell === 'number' ? String(cell) : defused(cell)

/**
 * What a spreadsheet takes for a formula: = + - @, tab and carriage return at the beginning of a cell, and their full-width forms
 * (CWE-1236 and public pages on it: read; full-width forms: from memory).
 */
const defused = (text: string): string => (/^[=+\-@\t\r＝＋－＠]/.test(text) ? `'${text}` : text)
