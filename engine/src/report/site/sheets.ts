import { showQuantity } from '../../working/quantity.ts'
import { dateText } from '../civil.ts'
import { type Drawing, drawing, type Mark, type PaperBox } from '../drawing.ts'
import { borderMarks, type Field, roomOf, type SheetSize } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import type { Row } from '../paper/rows.ts'
import { INVENTED } from '../sheet/cautions.ts'
import { columnsIn, type Layout } from './layout.ts'
import type { SiteSubject } from './subject.ts'

/** One document about the site: what is drawn on its first sheet, and what is printed beside it and on the sheets after. */
export interface SiteDocument {
  title: string
  /** A diagram has no scale. */
  layout: Omit<Layout, 'ratio'> & { ratio: number | undefined }
  views: readonly Mark[]
  /** Print for a column of this width, mm. */
  rows: (width: number) => readonly Row[]
  /** What stands in the last column where it has one to itself, else after the rest. */
  notes: (width: number) => readonly Row[]
}

/** Sheets of documents that are issued together, bordered and numbered through. */
export function sheetsOf(subject: SiteSubject, documents: readonly SiteDocument[]): Drawing[] {
  const sheets = documents.flatMap((document) => bodiesOf(document).map((marks) => ({ document, marks })))
  return sheets.map(({ document: { title, layout }, marks }, i) => {
    const { width, height } = layout.size
    return drawing(`${title}, sheet ${i + 1} of ${sheets.length}`, width, height, [
      ...borderMarks(layout.size, fieldsOf(subject, title, layout, [i + 1, sheets.length])),
      ...marks,
    ])
  })
}

function bodiesOf({ layout, views, rows, notes }: SiteDocument): Mark[][] {
  const { size, columns } = layout
  const later = columnsIn(roomOf(size))
  const width = Math.min(...[...columns, ...later].map((c) => c.right - c.left))
  const pages = printed(rows(width), notes(width), narrowed(columns, width), later)
  return pages.map((marks, i) => (i === 0 ? [...views, ...marks] : marks))
}

function printed(
  rows: readonly Row[],
  notes: readonly Row[],
  columns: readonly PaperBox[],
  later: readonly PaperBox[],
): Mark[][] {
  const all = [...rows, ...notes]
  if (columns.length === 0) return all.length === 0 ? [[]] : [[], ...pour(all, later)]
  if (columns.length > 1) {
    const [main, last] = [pour(rows, columns.slice(0, -1), later), pour(notes, columns.slice(-1), later)]
    if (main.length === 1 && last.length === 1) return [[...main.flat(), ...last.flat()]]
  }
  return pour(all, columns, later)
}

const narrowed = (columns: readonly PaperBox[], width: number): PaperBox[] =>
  columns.map((c) => ({ ...c, right: c.left + width }))

const HASH_SHOWN = 12

function fieldsOf(
  { stages, options, step, units, words, chosenBy }: SiteSubject,
  title: string,
  { ratio, size }: SiteDocument['layout'],
  [page, pages]: readonly [number, number],
): Field[] {
  const { about, shaft } = stages.model.project
  const pressure = step?.wall?.pressure.value
  const allowed = shaft?.wall.surcharge?.value
  return [
    { name: 'Site', words: title, under: about.title, share: 30 },
    { name: 'Shown', words, under: chosenBy, share: 30 },
    {
      name: 'Sideways on the wall',
      words: pressure === undefined ? 'nothing stands there' : showQuantity(pressure, 'Pa', units),
      under: allowed === undefined ? 'limit open' : `of ${showQuantity(allowed, 'Pa', units)} in the wall's design`,
      share: 18,
      ...(pressure !== undefined && allowed !== undefined && pressure > allowed ? { ink: 'fail' as const } : {}),
    },
    {
      name: 'Scale',
      words: ratio === undefined ? 'diagram' : `1 : ${ratio}`,
      under: ratio === undefined ? 'bars to the figures beside them' : 'or as a view says',
      share: 14,
    },
    {
      name: 'Revision',
      words: [
        options.revision === undefined ? 'not issued' : `revision ${options.revision}`,
        ...(options.date === undefined ? [] : [dateText(options.date)]),
      ].join(', '),
      under:
        options.contentHash === undefined ? 'content not fixed' : `content ${options.contentHash.slice(0, HASH_SHOWN)}`,
      share: 22,
    },
    {
      name: 'Sheet',
      words: `${page} of ${pages} · ${paperName(size)}`,
      under: about.invented ? INVENTED : '',
      share: 16,
    },
  ]
}

const NAMES: Readonly<Record<number, string>> = { 1051: 'A1', 1435: 'A1', 717: 'A3', 1014: 'A2' }

function paperName({ width, height }: SheetSize): string {
  return NAMES[width + height] ?? `${width} × ${height}`
}
