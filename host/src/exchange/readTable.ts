import { fileKind } from '@shieldwright/engine/model/fileKind.ts'
import type { Row } from '@shieldwright/engine/model/intake/index.ts'
import { nearestId, type Problem } from '@shieldwright/engine/working/problem.ts'
import { CsvError, parse } from 'csv-parse/sync'
import readXlsxFile, { type CellValue } from 'read-excel-file/node'
import { decoded } from './encoding.ts'
import { unzipped, type ZipFault } from './zip.ts'

/** A table as it was read: texts by column, heading aside. */
export interface TableRead {
  columns: readonly string[]
  /** As a spreadsheet counts. */
  headingRow: number
  rows: readonly Row[]
}

/** Bounds of a table that is read; a programme of 2,000 activities needs a tenth of them. */
export const LARGEST_TABLE = 4 * 1024 * 1024
const MOST_ROWS = 20_000
const MOST_COLUMNS = 60
const UNPACKED = { entries: 300, bytes: 48 * 1024 * 1024 }

export type TableResult = TableRead | { problems: readonly Problem[] }

/**
 * A table from CSV or XLSX, told apart by its first bytes; of a workbook the sheet of that name, or the first. Nothing in it is
 * computed: what a cell shows is read.
 *
 * @param name file name, for messages
 * @param sheet name of the sheet in a workbook
 */
export async function readTable(bytes: Uint8Array, name: string, sheet?: string): Promise<TableResult> {
  if (bytes.length === 0) return refusal(name, 'an empty file', 'a table with a heading', 'activity,start,finish')
  if (bytes.length > LARGEST_TABLE) return refusal(name, `${bytes.length} bytes`, `at most ${LARGEST_TABLE}`)
  const isArchive = bytes[0] === 0x50 && bytes[1] === 0x4b
  const read = isArchive ? await sheetOf(bytes, name, sheet) : recordsOf(bytes, name)
  return 'problems' in read ? read : tableOf(read.records, name)
}

type Records = { records: readonly (readonly string[])[] } | { problems: readonly Problem[] }

const refusal = (pointer: string, found: string, expected: string, example?: string): { problems: Problem[] } => ({
  problems: [{ pointer, found, expected, ...(example === undefined ? {} : { example }) }],
})

function tableOf(records: readonly (readonly string[])[], name: string): TableResult {
  const heading = records.findIndex((record) => record.some((cell) => cell.trim() !== ''))
  if (heading < 0) return refusal(name, 'no row with anything in it', 'a table with a heading', 'activity,start,finish')
  if (records.length > MOST_ROWS) return refusal(name, `more than ${MOST_ROWS} rows`, `at most ${MOST_ROWS} rows`)
  const wide = records.findIndex((record) => record.length > MOST_COLUMNS)
  if (wide >= 0) return refusal(`${name}, row ${wide + 1}`, `${records[wide]?.length} cells`, `at most ${MOST_COLUMNS}`)
  const columns = (records[heading] as readonly string[]).map(columnName)
  while (columns.at(-1) === '') columns.pop()
  const body = records.slice(heading + 1)
  const long = body.findIndex((record) => record.slice(columns.length).some((cell) => cell.trim() !== ''))
  if (long >= 0)
    return refusal(
      `${name}, row ${heading + 2 + long}`,
      `${body[long]?.length} cells`,
      `at most ${columns.length}, as in the heading; a text with a comma in it stands in quotes`,
    )
  return {
    columns,
    headingRow: heading + 1,
    rows: body.map((record, i) => ({
      row: heading + 2 + i,
      cells: Object.fromEntries(columns.map((column, k) => [column, record[k] ?? ''])),
    })),
  }
}

/** Small letters, but for a unit after a comma: MPa and mPa are two. */
function columnName(cell: string): string {
  const [name = '', ...unit] = cell.trim().replace(/\s+/g, ' ').split(',')
  return [name.toLowerCase(), ...unit].join(',')
}

function recordsOf(bytes: Uint8Array, name: string): Records {
  const kind = fileKind(bytes)
  if (kind !== undefined)
    return refusal(name, kind, 'a table: CSV in UTF-8, or a workbook (XLSX)', 'activity,start,finish')
  const text = decoded(bytes)
  if (typeof text !== 'string')
    return refusal(name, text.found, 'text in UTF-8, or in UTF-16 with its mark: save it as CSV, UTF-8')
  try {
    const records = parse(text, {
      delimiter: delimiterOf(text),
      relax_column_count: true,
      to: MOST_ROWS + 1,
      max_record_size: 200_000,
    }) as string[][]
    return { records }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return refusal(
      `${name}, line ${error.lines ?? '?'}`,
      csvFault(error.code),
      'CSV as of RFC 4180: "a ""quoted"" text"',
    )
  }
}

const csvFault = (code: string): string =>
  code === 'CSV_QUOTE_NOT_CLOSED'
    ? 'a quote that is never closed'
    : code === 'CSV_MAX_RECORD_SIZE'
      ? 'a row of more than 200,000 characters'
      : 'quotes within a cell that does not begin with one'

/** Comma, semicolon or tab: whichever the heading has most of. */
function delimiterOf(text: string): string {
  const heading = (/^\s*([^\r\n]*)/.exec(text)?.[1] ?? '').replace(/"[^"]*"/g, '')
  const count = (mark: string): number => heading.split(mark).length
  return [',', ';', '\t'].reduce((best, mark) => (count(mark) > count(best) ? mark : best))
}

const FAULTS: Readonly<Record<ZipFault, string>> = {
  'no archive': 'no workbook: the archive has no end',
  'too many files': `more than ${UNPACKED.entries} files in the workbook`,
  'too large unpacked': `more than ${UNPACKED.bytes} bytes once unpacked`,
  broken: 'a broken archive',
}

async function sheetOf(bytes: Uint8Array, name: string, sheet: string | undefined): Promise<Records> {
  const unpacked = unzipped(bytes, UNPACKED)
  if ('fault' in unpacked) return refusal(name, FAULTS[unpacked.fault], 'a workbook (XLSX) within bounds')
  const odd = unpacked.entries.map(({ name: part, bytes: inner }) => oddPart(part, inner)).find((o) => o !== undefined)
  if (odd !== undefined)
    return refusal(name, odd, `a plain workbook of at most ${MOST_ROWS} rows and ${MOST_COLUMNS} columns`)
  const sheets = await readXlsxFile(Buffer.from(bytes)).catch(() => undefined)
  if (sheets === undefined) return refusal(name, 'an archive that is no workbook', 'a workbook (XLSX), or CSV')
  const names = sheets.map((s) => s.sheet)
  const chosen = sheet === undefined ? sheets[0] : sheets.find((s) => s.sheet === sheet)
  if (chosen === undefined)
    return refusal(name, `no sheet "${sheet}"`, 'the name of a sheet', nearestId(sheet ?? '', names) ?? names[0])
  return { records: chosen.data.map((row) => row.map(cellText)) }
}

/** Entities that grow, and a lone cell in the last corner of the sheet, cost more than they say. */
function oddPart(name: string, bytes: Uint8Array): string | undefined {
  if (!name.endsWith('.xml') && !name.endsWith('.rels')) return undefined
  const text = new TextDecoder().decode(bytes)
  if (text.includes('\0')) return `${name} in another encoding than UTF-8`
  if (/<!(DOCTYPE|ENTITY)/i.test(text)) return `a document type of its own in ${name}`
  for (const [, letters = '', row = ''] of text.matchAll(FAR))
    if (columnNumber(letters) > MOST_COLUMNS || Number(row) > MOST_ROWS) return `a cell ${letters}${row} in ${name}`
  return undefined
}

/** Addresses of cells and rows, and the far corner of what a sheet says it holds. */
const FAR = /\br(?:ef\s*=\s*["'][A-Z]{1,4}\d+:|\s*=\s*["'])([A-Z]{0,4})(\d{1,9})["']/g

const columnNumber = (letters: string): number =>
  [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0)

/** Dates of a spreadsheet are local time in the fields of UTC; one at midnight is a day. */
function cellText(cell: CellValue | null): string {
  if (cell === null || cell === undefined) return ''
  if (!(cell instanceof Date)) return String(cell)
  const text = new Date(Math.round(cell.getTime() / 1000) * 1000).toISOString()
  return text.slice(11, 19) === '00:00:00' ? text.slice(0, 10) : text.slice(0, text.slice(17, 19) === '00' ? 16 : 19)
}
