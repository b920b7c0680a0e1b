import { applyPatch, type Operation, type Patch } from '@shieldwright/engine/working/patch.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { readCell } from './cell.ts'
import { isCell } from './field.ts'
import type { GridColumn, GridRow } from './grid.ts'
import { writing } from './write.ts'

/** Cells of a pasted text, parted by tabs, else by commas; a cell in quotes may hold either, and lines. */
export function cellsOf(text: string): string[][] {
  const separator = text.includes('\t') ? '\t' : csvLike(text) ? ',' : '\t'
  const rows: string[][] = [[]]
  let cell = ''
  let isQuoted = false
  const endCell = (): void => {
    rows.at(-1)?.push(cell.trim())
    cell = ''
  }
  for (let i = 0; i < text.length; i++) {
    const c = text[i] as string
    if (isQuoted) {
      if (c !== '"') cell += c
      else if (text[i + 1] === '"') cell += text[++i]
      else isQuoted = false
    } else if (c === '"' && cell.trim() === '') {
      isQuoted = true
      cell = ''
    } else if (c === separator) endCell()
    else if (c === '\n') {
      endCell()
      rows.push([])
    } else if (c !== '\r') cell += c
  }
  endCell()
  return rows.filter((row) => row.some((inner) => inner !== ''))
}

/** Commas part cells only where every line has as many, more than none; "63 ft 4 in, 2 m" alone is one cell. */
function csvLike(text: string): boolean {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '')
  const counts = lines.map((line) => line.replace(/"[^"]*"/g, '').split(',').length)
  return lines.length > 1 && (counts[0] ?? 0) > 1 && counts.every((n) => n === counts[0])
}

/** Whether a pasted text is more than one cell. */
export const isBlock = (text: string): boolean => {
  const cells = cellsOf(text)
  return cells.length > 1 || (cells[0]?.length ?? 0) > 1
}

export interface Pasting {
  document: unknown
  /** Address of the collection. */
  at: string
  /** Rows as they are shown, from first to last. */
  rows: readonly GridRow[]
  columns: readonly GridColumn[]
  /** Where the block begins; column −1 is the id. */
  row: number
  column: number
}

export type Pasted =
  | { patch: Patch; what: string; cells: number; made: number }
  /** Every cell that is refused, line by line: nothing is kept. */
  | { refused: readonly string[] }

interface Target {
  /** −1 is the id. */
  column: number
  /** Appended where the cell is a bare number and its head says the unit. */
  unit: string
}

/**
 * A block filled right and down from a cell, as one patch. A first line of column heads says which columns the others are;
 * an id column says which rows. Rows that are not there are made only when their ids are given.
 */
export function pasted(text: string, pasting: Pasting): Pasted {
  const lines = cellsOf(text)
  const heads = headsOf(lines[0] ?? [], pasting.columns)
  if ('refused' in heads) return heads
  const width = Math.max(...lines.map((line) => line.length))
  const targets = heads.targets ?? fromColumn(pasting.column, width)
  const body = heads.targets === undefined ? lines : lines.slice(1)
  const firstLine = heads.targets === undefined ? 1 : 2
  return filled(body, targets, pasting, firstLine)
}

const fromColumn = (column: number, width: number): Target[] =>
  Array.from({ length: width }, (_, i) => ({ column: column + i, unit: '' }))

/** The columns that a first line names; none when it names none; refused when it names some that are not there. */
function headsOf(
  line: readonly string[],
  columns: readonly GridColumn[],
): { targets: Target[] | undefined } | { refused: readonly string[] } {
  const found = line.map((head) => headed(head, columns))
  const known = found.filter((target) => target !== undefined).length
  if (known === 0 || known * 2 < line.filter((head) => head !== '').length) return { targets: undefined }
  const unknown = line.filter((head, i) => found[i] === undefined && head !== '')
  if (unknown.length > 0) {
    const names = ['Id', ...columns.map((c) => c.heading)].join(', ')
    return { refused: unknown.map((head) => `Line 1: no column “${head}” here. The columns are: ${names}.`) }
  }
  return { targets: found.map((target) => target ?? { column: Number.NaN, unit: '' }) }
}

/** "Weighed", "weighed (t)", "Weighed, t", "Weighed [kip]". */
function headed(head: string, columns: readonly GridColumn[]): Target | undefined {
  const plain = head.trim().toLowerCase()
  if (plain === 'id') return { column: -1, unit: '' }
  const whole = columns.findIndex((c) => c.heading.toLowerCase() === plain)
  if (whole >= 0) return { column: whole, unit: '' }
  const match = /^(.*?)\s*(?:\(([^)]*)\)|\[([^\]]*)\]|,\s*([^,]+))$/.exec(head.trim())
  const named = match === null ? -1 : columns.findIndex((c) => c.heading.toLowerCase() === match[1]?.toLowerCase())
  return named < 0 ? undefined : { column: named, unit: match?.[2] ?? match?.[3] ?? match?.[4] ?? '' }
}

function filled(lines: readonly string[][], targets: readonly Target[], pasting: Pasting, firstLine: number): Pasted {
  const idAt = targets.findIndex((t) => t.column === -1)
  const refused: string[] = []
  const patch: Operation[] = []
  let [document, cells, made] = [pasting.document, 0, 0]
  const write = (operations: readonly Operation[]): void => {
    const patched = applyPatch(document, operations)
    if ('problems' in patched) refused.push(...patched.problems.map((p) => `${p.pointer}: ${p.expected}`))
    else document = patched.document
    patch.push(...operations)
  }
  for (const [index, line] of lines.entries()) {
    const said = `Line ${firstLine + index}`
    const row = rowFor(line, idAt, index, pasting)
    if ('fault' in row) {
      refused.push(`${said}: ${row.fault}`)
      continue
    }
    if (row.isNew) {
      write([{ op: 'add', path: row.pointer, value: {} }])
      made++
    }
    for (const [i, target] of targets.entries()) {
      const cell = line[i] ?? ''
      if (target.column === -1 || Number.isNaN(target.column) || (cell === '' && row.isNew)) continue
      const read = readInto(cell, target, pasting.columns)
      if ('fault' in read) refused.push(`${said}, ${read.fault}`)
      else {
        write(writing(document, row.pointer + read.below, read.value))
        cells++
      }
    }
  }
  if (refused.length > 0) return { refused }
  const what = `pasted ${count(cells, 'cell')} into ${count(lines.length, 'row')} of ${pasting.at}${made > 0 ? `, ${made} of them new` : ''}`
  return { patch, what, cells, made }
}

const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`

type RowFor = { pointer: string; isNew: boolean } | { fault: string }

function rowFor(line: readonly string[], idAt: number, index: number, { rows, row, at }: Pasting): RowFor {
  if (idAt < 0) {
    const found = rows[row + index]
    return found === undefined
      ? { fault: 'no row is left. Paste with the id column to make new ones.' }
      : { pointer: found.pointer, isNew: false }
  }
  const id = line[idAt] ?? ''
  if (id === '') return { fault: 'the id is empty.' }
  const found = rows.find((r) => r.id === id)
  return found === undefined ? { pointer: at + pointerOf(id), isNew: true } : { pointer: found.pointer, isNew: false }
}

function readInto(
  cell: string,
  { column: index, unit }: Target,
  columns: readonly GridColumn[],
): { below: string; value: unknown } | { fault: string } {
  const column = columns[index]
  if (column?.field === undefined || !isCell(column.field))
    return { fault: `“${cell}”: the table has no column there.` }
  const isBare = unit !== '' && cell !== '' && Number.isFinite(Number(cell))
  const read = readCell(column.field, isBare ? `${cell} ${unit}` : cell)
  if ('fault' in read) return { fault: `${column.heading}, “${cell}”: ${read.fault}` }
  return { below: column.below, value: 'absent' in read ? undefined : read.value }
}
