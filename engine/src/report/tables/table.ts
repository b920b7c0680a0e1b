import type { SiUnit } from '../../working/unit.ts'

/** A number is in SI and is written in the unit of the column; a moment is local time, ISO 8601. */
export interface Column {
  title: string
  kind: 'text' | 'number' | 'moment'
  unit?: SiUnit
}

export type Cell = string | number | undefined

/** A table as plain data, to be written as CSV or XLSX. */
export interface Table {
  name: string
  title: string
  columns: readonly Column[]
  /** Time zone of its moments, by its name in the IANA database. */
  zone?: string
  rows: readonly (readonly Cell[])[]
}

export const words = (title: string): Column => ({ title, kind: 'text' })
export const number = (title: string, unit?: SiUnit): Column =>
  unit === undefined ? { title, kind: 'number' } : { title, kind: 'number', unit }
export const moment = (title: string): Column => ({ title, kind: 'moment' })
