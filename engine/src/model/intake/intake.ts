import { sameContent } from '../../working/memory.ts'
import type { Operation } from '../../working/patch.ts'
import { pointerOf, readPointer } from '../../working/pointer.ts'
import { nearestId, type Problem } from '../../working/problem.ts'
import type { ReadProject } from '../schema/project.ts'
import { type CellProblem, placeText, type Row, type RowReader, rowReader } from './row.ts'
import { type Raw, SHEETS, type SheetKind } from './sheets.ts'

/** What a table of rows says, for a project file. */
export interface Intake {
  /** What the good rows change; nothing has been changed by it. */
  patch: readonly Operation[]
  /** Rows that say something new, rows that say nothing new, and rows with a fault. */
  taken: number
  same: number
  refused: readonly CellProblem[]
  /** Row that each address comes from. */
  rows: Readonly<Record<string, number>>
}

/** What rows are held against. */
export interface IntakeInput {
  of: SheetKind
  rows: readonly Row[]
  /** Columns of the table, with the row they stand in. */
  columns: readonly string[]
  headingRow: number
  /** The project file, as plain data, and as it was read. */
  document: unknown
  project: ReadProject
  /** Ids of every activity, typed or derived. */
  activities: ReadonlySet<string>
}

/**
 * A table as a patch of the project file. A row with a fault is named, with row, column, what was found and what is due, and changes
 * nothing; an empty cell says nothing, and takes nothing away.
 */
export function intakeOf(table: IntakeInput): Intake {
  const sheet = SHEETS[table.of]
  const input = unitsFromHeadings(table, sheet.reads)
  const columns = columnProblems(input)
  if (columns.length > 0) return { patch: [], taken: 0, same: 0, refused: columns, rows: {} }
  const refused: CellProblem[] = []
  const first = new Map<string, number>()
  const said = new Map<string, Raw>()
  const broken = new Set<string>()
  for (const row of input.rows) {
    const reader = rowReader(row)
    if (sheet.isSilent(reader)) continue
    const entry = sheet.read(reader, input)
    const value =
      entry && together(sheet, reader, entry, { row: first.get(entry.pointer), sofar: said.get(entry.pointer) })
    refused.push(...reader.problems)
    if (entry === undefined) continue
    if (reader.problems.length > 0) {
      // of what takes several rows half is not taken: a pile without its worst point looks straighter than it is
      if (sheet.further !== undefined) broken.add(entry.pointer)
      continue
    }
    if (!first.has(entry.pointer)) first.set(entry.pointer, row.row)
    said.set(entry.pointer, value as Raw)
  }
  const values = new Map<string, unknown>()
  let same = 0
  for (const [pointer, entry] of said) {
    if (broken.has(pointer)) continue
    const old = valueAt(input.document, pointer)
    const value = sheet.merged(old, entry)
    if (sameContent(old, value)) same++
    else values.set(pointer, value)
  }
  return {
    patch: patchFor(input.document, values),
    taken: values.size,
    same,
    refused,
    rows: Object.fromEntries([...values.keys()].map((pointer) => [pointer, first.get(pointer) as number])),
  }
}

/** What a row says together with the rows before it about the same; each thing has one row where a table knows of no further ones. */
function together(
  { key, first, further }: (typeof SHEETS)[SheetKind],
  reader: RowReader,
  { value }: { value: Raw },
  before: { row: number | undefined; sofar: Raw | undefined },
): Raw {
  if (before.sofar === undefined) {
    for (const column of first ?? [])
      if (reader.text(column) === undefined) reader.refuse(column, 'it in the first row of each', '10.82 m')
    return value
  }
  if (further !== undefined) return further(reader, before.sofar, value)
  reader.refuse(key, `each once; row ${before.row} has it already`)
  return value
}

/** A heading "length, m" gives its unit to every plain number under it: tables are written so, and come back as they were written. */
function unitsFromHeadings(input: IntakeInput, reads: readonly string[]): IntakeInput {
  const split = new Map(
    input.columns.flatMap((column) => {
      const [name = '', unit] = column.split(/,\s*/, 2)
      return unit !== undefined && reads.includes(name) ? [[column, { name, unit }] as const] : []
    }),
  )
  if (split.size === 0) return input
  const rows = input.rows.map((row) => ({
    ...row,
    cells: Object.fromEntries(
      Object.entries(row.cells).map(([column, cell]) => {
        const heading = split.get(column)
        if (heading === undefined) return [column, cell]
        return [heading.name, PLAIN_NUMBER.test(cell) ? `${cell.trim()} ${heading.unit}` : cell]
      }),
    ),
  }))
  return { ...input, rows, columns: input.columns.map((column) => split.get(column)?.name ?? column) }
}

const PLAIN_NUMBER = /^\s*[+\-\u2212]?[\d.]+(?:[eE][+-]?\d+)?\s*$/

function columnProblems({ of, columns, headingRow }: IntakeInput): CellProblem[] {
  const { reads, ignores, key } = SHEETS[of]
  const known = [...reads, ...ignores]
  const at = (column: string, found: string, expected: string): CellProblem => ({
    pointer: placeText(headingRow, column),
    row: headingRow,
    column,
    found,
    expected,
    example: reads.join(', '),
  })
  const unknown = columns
    .filter((column) => column !== '' && !known.includes(column) && !ignores.includes(column.split(',')[0] ?? ''))
    .map((column) => {
      const near = nearestId(column, known)
      return at(
        column,
        `a column "${column}"`,
        `only known columns${near === undefined ? '' : `; did you mean "${near}"?`}`,
      )
    })
  const twice = columns
    .filter((column, i) => column !== '' && columns.indexOf(column) !== i)
    .map((column) => at(column, `a second column "${column}"`, 'each column once'))
  return [...(columns.includes(key) ? [] : [at(key, 'no such column', `a column "${key}"`)]), ...unknown, ...twice]
}

/** What stands at an address of plain data; undefined where nothing does. */
export function valueAt(document: unknown, pointer: string): unknown {
  return (readPointer(pointer) ?? []).reduce<unknown>(
    (at, token) =>
      typeof at === 'object' && at !== null && Object.hasOwn(at, token) ? at[token as keyof typeof at] : undefined,
    document,
  )
}

/** Adds the collections that are not there yet, then one operation for each entry. */
export function patchFor(document: unknown, values: ReadonlyMap<string, unknown>): Operation[] {
  const made = new Set<string>()
  return [...values].flatMap(([path, value]): Operation[] => {
    const tokens = readPointer(path) ?? []
    const parents = tokens.slice(0, -1).map((_, i) => pointerOf(...tokens.slice(0, i + 1)))
    const missing = parents.filter((p) => !made.has(p) && valueAt(document, p) === undefined)
    for (const parent of missing) made.add(parent)
    return [
      ...missing.map((parent): Operation => ({ op: 'add', path: parent, value: {} })),
      { op: valueAt(document, path) === undefined ? 'add' : 'replace', path, value },
    ]
  })
}

/** What the project has to say of a patch, at the row it comes from. */
export function atRows(problems: readonly Problem[], { rows }: Intake, column: string): readonly Problem[] {
  return problems.map((problem) => {
    const entry = Object.keys(rows).find((p) => problem.pointer === p || problem.pointer.startsWith(`${p}/`))
    if (entry === undefined) return problem
    const at = placeText(rows[entry] as number, column)
    return { ...problem, pointer: `${at} (${problem.pointer})`, row: rows[entry] as number, column }
  })
}

export type { CellProblem, Row, RowReader }
