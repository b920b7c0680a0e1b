import type { Column, Table } from '@shieldwright/engine/report/tables/index.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import writeXlsxFile, { type Cell } from 'write-excel-file/node'
import { type Written, writtenTable } from './writtenTable.ts'
import { withoutTimes } from './zip.ts'

const LONGEST_SHEET_NAME = 31
const WIDEST = 60
const NARROWEST = 8

/**
 * Tables as one workbook, a sheet each: numbers as numbers, moments as dates in local time, all else as text and never as a formula.
 * The same tables give the same bytes.
 */
export async function xlsxOf(tables: readonly Table[], units: UnitSystem): Promise<Uint8Array> {
  const sheets = tables.map((table) => {
    const { heading, rows } = writtenTable(table, units)
    const data: Cell[][] = [
      heading.map((title): Cell => ({ value: title, type: String, fontWeight: 'bold' })),
      ...rows.map((row) => row.map((cell, i) => cellOf(cell, table.columns[i] as Column))),
    ]
    return {
      data,
      sheet: table.title.slice(0, LONGEST_SHEET_NAME),
      stickyRowsCount: 1,
      columns: heading.map((title, i) => ({ width: widthOf(title, rows, i) })),
    }
  })
  return withoutTimes(await writeXlsxFile(sheets).toBuffer())
}

function cellOf(cell: Written, { kind }: Column): Cell {
  if (cell === undefined || cell === '') return null
  if (typeof cell === 'number') return Number.isFinite(cell) ? { value: cell, type: Number } : null
  const date = kind === 'moment' ? new Date(`${cell}Z`) : undefined
  // a spreadsheet knows no zones: its dates are local time, written in the fields of UTC
  return date === undefined || Number.isNaN(date.getTime())
    ? { value: cell, type: String, format: '@' }
    : { value: date, type: Date, format: 'yyyy-mm-dd hh:mm' }
}

const widthOf = (title: string, rows: readonly (readonly Written[])[], i: number): number =>
  Math.min(
    WIDEST,
    Math.max(NARROWEST, title.length, ...rows.slice(0, 200).map((row) => String(row[i] ?? '').length)) + 2,
  )
