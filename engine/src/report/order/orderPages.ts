import type { Drawing } from '../drawing.ts'
import { type Field, roomOf } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import { handSheets } from '../paper/handSheets.ts'
import { issuedWords } from '../paper/issued.ts'
import { SMALL } from '../paper/pen.ts'
import { headingRow, proseRows, type Row, signatureRow, spaceRow } from '../paper/rows.ts'
import { type HandPaper, upright } from '../paper/size.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { type OrderSheet, orderSheet } from './orderSheet.ts'
import { fieldHead, waitingField, waitingRow } from './waitingRow.ts'

/** What the sheet of the order is asked for with. */
export interface OrderOptions extends SheetOptions {
  /** A4 where none is named. */
  paper?: HandPaper
}

/** The order down the page: each step with what it waits for and what blocks it; undefined where there are no steps. */
export function orderPages(stages: SheetStages, options: OrderOptions = {}): Drawing[] | undefined {
  const sheet = orderSheet(stages, options)
  if (sheet === undefined) return undefined
  const { paper = 'A4' } = options
  const room = roomOf(upright(paper))
  const pages = pour(rowsOf(sheet, room.right - room.left), [room])
  return handSheets('Order of taking apart', paper, pages, (page) => fieldsOf(sheet, options, page))
}

function fieldsOf(sheet: OrderSheet, options: SheetOptions, page: string): Field[] {
  const { words, under } = issuedWords(options)
  const blocked = sheet.steps.filter((s) => s.blocked.length > 0).length
  return [
    {
      name: 'Order of taking apart',
      words: sheet.adopted ? 'as adopted' : 'a quick default',
      under: sheet.project,
      share: 34,
    },
    {
      name: 'Steps',
      words: blocked === 0 ? `${sheet.steps.length}, each can be done` : `${blocked} of ${sheet.steps.length} blocked`,
      under: 'the return takes them backwards',
      share: 28,
      ...(blocked === 0 ? {} : { ink: 'fail' }),
    },
    { name: 'Revision', words, under, share: 24 },
    { name: 'Sheet', words: page, under: sheet.notice, share: 18 },
  ]
}

const MARKS: readonly string[] = [
  'A filled box: the step of that column must be done before. Boxes that are open: one of them has to be, any of them would do. The ring is the step itself. Red: nothing of what it waits for comes before it.',
  'What another step that is waited for waits for in turn is left out. Waiting follows from shapes, joints and services; supports, bays and tools are checked beside it.',
]

function rowsOf(sheet: OrderSheet, width: number): Row[] {
  const field = waitingField(sheet.steps.length, width)
  const head = fieldHead(field)
  return [
    headingRow('Steps, and what each waits for', width, field === undefined ? '' : 'steps across as down'),
    ...head,
    ...sheet.steps.map((step) => waitingRow(step, field, width, head)),
    spaceRow(3),
    ...(field === undefined ? MARKS.slice(1) : MARKS).flatMap((m) => proseRows(m, width, { size: SMALL, keep: true })),
    spaceRow(1.5),
    ...proseRows(sheet.deferral, width, { size: SMALL, weight: 700, keep: true }),
    ...proseRows(sheet.notice, width, { size: SMALL, weight: 700 }),
    spaceRow(2),
    signatureRow(['order planned', 'order checked', 'accepted'], width, 13),
  ]
}
