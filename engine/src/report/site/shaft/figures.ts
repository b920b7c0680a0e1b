import type { Check } from '../../../working/check.ts'
import { type Column, headingRow, type Row, type TableRow, tableRows } from '../../paper/rows.ts'
import { checkRows } from '../sectionTables.ts'
import type { SiteSubject } from '../subject.ts'

/** Figures that stand beside a picture, alike on paper and on a page. */
export interface FigureTable {
  title: string
  /** Units, and what the figures are of. */
  aside: string
  columns: readonly Column[]
  rows: readonly FigureRow[]
}

export interface FigureRow {
  /** What of the project the row is about, where a page can select it. */
  pointer?: string
  cells: readonly string[]
  /** The one that governs. */
  strong?: boolean
}

export const number = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })
export const words = (title: string, share: number): Column => ({ title, share })

/** The figures as print. */
export function figureRows({ title, aside, columns, rows }: FigureTable, width: number): Row[] {
  if (rows.length === 0) return []
  const printed = rows.map(
    ({ cells, strong }): TableRow => ({
      cells: strong ? cells.map((c) => ({ words: c, weight: 700 as const })) : cells,
    }),
  )
  return [headingRow(title, width, aside), ...tableRows(columns, printed, width)]
}

/** Checks that judge what a picture shows. */
export const judged = ({ stages }: SiteSubject, kinds: RegExp): Check[] =>
  stages.ground.checks.filter((c) => kinds.test(c.kind))

/** Those checks as print. */
export const judgedRows = (subject: SiteSubject, kinds: RegExp, width: number): Row[] =>
  checkRows(subject, 'What judges it', judged(subject, kinds), width)
