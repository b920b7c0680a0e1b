import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { cellText, otherText, parted } from './cell.ts'
import type { Collection, Column } from './collections/collection.ts'
import { type Field, fieldBelow, isScalar } from './field.ts'

/** A row of a table: an entity as it stands with the edits that are being looked at. */
export interface GridRow {
  id: string
  pointer: string
  name: string
  entity: unknown
}

/** A column with how it is typed and how wide it is. */
export interface GridColumn extends Column {
  field: Field | undefined
  /** Characters. */
  wide: number
  /** Figures: aligned on the decimal, with the unit after. */
  isFigure: boolean
  /** Longest fraction and longest unit of the column, characters. */
  fraction: number
  unit: number
  hasOther: boolean
}

/** Rows of what stands at an address: entities by id, or the items of a list by their number. */
export function rowsAt(document: unknown, { at: address, name }: Pick<Collection, 'at' | 'name'>): GridRow[] {
  const held = at(document, address)
  if (typeof held !== 'object' || held === null) return []
  return Object.entries(held).map(([key, entity]) => ({
    id: Array.isArray(held) ? String(Number(key) + 1) : key,
    pointer: address + pointerOf(key),
    name: nameOf(entity, name) ?? nameByPiece(document, entity) ?? key,
    entity,
  }))
}

function nameOf(entity: unknown, below: string | undefined): string | undefined {
  const named = below === undefined ? at(entity, '/name') : at(entity, below)
  return typeof named === 'string' && named !== '' ? named : undefined
}

/** A weighing, a lift or a step is called after its piece. */
function nameByPiece(document: unknown, entity: unknown): string | undefined {
  const piece = at(entity, '/piece')
  const named = typeof piece === 'string' ? at(document, `/pieces${pointerOf(piece)}/name`) : undefined
  const kind = at(entity, '/kind')
  if (typeof named !== 'string') return undefined
  return typeof kind === 'string' ? `${named}, ${kind}` : named
}

export const textAt = (entity: unknown, below: string): string => cellText(below === '' ? entity : at(entity, below))

const WIDE: Readonly<Record<string, number>> = { choice: 12, date: 12, 'yes or no': 7, number: 9, text: 18, list: 20 }
const MEASURED = 300

/** Columns as they are drawn; widths are looked for in the first rows only. */
export function columnsFor(
  field: Field | undefined,
  columns: readonly Column[],
  rows: readonly GridRow[],
): GridColumn[] {
  const sample = rows.slice(0, MEASURED)
  return columns.map((column) => {
    const own = field === undefined ? undefined : fieldBelow(field, column.below.split('/').slice(1), sample[0]?.entity)
    const isFigure = own?.kind === 'quantity' || own?.kind === 'number'
    const texts = isFigure ? sample.map((row) => textAt(row.entity, column.below)) : []
    const parts = texts.map(parted).filter((p) => p !== undefined)
    const longest = (of: (p: (typeof parts)[number]) => string): number =>
      Math.max(0, ...parts.map((p) => of(p).length))
    const [fraction, unit] = [longest((p) => p.fraction), longest((p) => p.unit)]
    const hasOther = column.plain !== true && texts.some((text) => otherText(own, text) !== '')
    const figure = longest((p) => p.whole) + fraction + unit + 2 + (hasOther ? 12 : 0)
    const asked = column.width ?? (isFigure ? Math.max(9, figure) : (WIDE[own?.kind ?? ''] ?? 18))
    return {
      ...column,
      field: own,
      wide: Math.max(asked, isFigure ? figure : 0, headWidth(column.heading)),
      isFigure,
      fraction,
      unit,
      hasOther,
    }
  })
}

/** The longest word of a heading has to fit. */
const headWidth = (heading: string): number => Math.max(...heading.split(' ').map((word) => word.length)) + 2

/** Rows in which every word is found, in the id, the name or a cell that is shown. */
export function filtered(rows: readonly GridRow[], columns: readonly Column[], words: string): readonly GridRow[] {
  const wanted = words
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '')
  if (wanted.length === 0) return rows
  return rows.filter((row) => {
    const text = [row.id, row.name, ...columns.map((c) => textAt(row.entity, c.below))].join(' ').toLowerCase()
    return wanted.every((word) => text.includes(word))
  })
}

/** Text that a spreadsheet takes: cells parted by tabs, with quotes where a cell has a tab, a line or a quote. */
export function blockText(cells: readonly (readonly string[])[]): string {
  return cells.map((row) => row.map(quoted).join('\t')).join('\n')
}

const quoted = (cell: string): string => (/[\t\n"]/.test(cell) ? `"${cell.replace(/"/g, '""')}"` : cell)

/** A whole table with its heads, or a part of it. */
export function rangeText(rows: readonly GridRow[], columns: readonly Column[], { heads }: { heads: boolean }): string {
  const cells = rows.map((row) => [row.id, ...columns.map((c) => textAt(row.entity, c.below))])
  return blockText(heads ? [['Id', ...columns.map((c) => c.heading)], ...cells] : cells)
}

/** A name that no entity of a collection has, like another or of its own. */
export function freeId(taken: ReadonlySet<string>, like: string): string {
  const stem = like.replace(/-?\d+$/, '')
  for (let n = 2; ; n++) {
    const id = `${stem}-${n}`
    if (!taken.has(id)) return id
  }
}

/** What a new entity begins with: every field that is due, empty; an empty field is refused until it is filled. */
export function blank(field: Field): unknown {
  switch (field.kind) {
    case 'object':
      return Object.fromEntries(field.fields.filter((f) => f.required).map((f) => [f.name, blank(f.field)]))
    case 'variants':
      return field.of[0] === undefined ? {} : blank(field.of[0].field)
    case 'tuple':
      return field.items.map(blank)
    case 'list':
    case 'objects':
      return []
    case 'named':
    case 'map':
      return {}
    case 'choice':
      return field.of.length === 1 ? field.of[0] : ''
    default:
      return isScalar(field) ? '' : (field satisfies never)
  }
}
