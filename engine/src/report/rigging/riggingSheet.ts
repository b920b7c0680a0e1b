import { type Drawing, drawing, type PaperBox } from '../drawing.ts'
import { borderMarks, type Field, roomOf } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import { SMALL } from '../paper/pen.ts'
import { type Column, headingRow, proseRows, type Row, spaceRow, type TableRow, tableRows } from '../paper/rows.ts'
import { DEFERRAL } from '../sheet/cautions.ts'
import type { LiftSheet, SheetOptions } from '../sheet/liftSheet.ts'
import { printedSheet } from '../sheet/printed.ts'
import { type HungFrom, type SheetStages, type SheetSubject, subjectOf } from '../sheet/subject.ts'
import { riggingView } from '../views/riggingView.ts'
import { sceneOf } from '../views/scene.ts'
import { riggingItems } from './items.ts'

/** A4 landscape, mm. */
const PAGE = { width: 297, height: 210 }
const COLUMN = 112
const GUTTER = 6

/** The rigging of one lift on a sheet of its own: how the piece hangs, and what to bring; undefined when there is no such lift. */
export function riggingSheets(stages: SheetStages, lift: string, options: SheetOptions = {}): Drawing[] | undefined {
  const subject = subjectOf(stages, lift)
  if (subject === undefined) return undefined
  const sheet = printedSheet(subject, options)
  const room = roomOf(PAGE)
  const drawn: PaperBox = { ...room, right: room.right - COLUMN - GUTTER }
  const print: PaperBox = { ...room, left: room.right - COLUMN }
  const half = (room.right - room.left - GUTTER) / 2
  const later = [
    { ...room, right: room.left + half },
    { ...room, left: room.right - half },
  ]
  const view = riggingView(sceneOf(subject), sheet, drawn, '1')
  const pages = pour(rowsOf(subject, sheet, COLUMN), [print], later)
  return pages.map((marks, i) =>
    drawing(`Rigging: ${sheet.title}, sheet ${i + 1} of ${pages.length}`, PAGE.width, PAGE.height, [
      ...borderMarks(PAGE, fieldsOf(sheet, i + 1, pages.length)),
      ...(i === 0 ? [view] : []),
      ...marks,
    ]),
  )
}

function fieldsOf(sheet: LiftSheet, page: number, pages: number): Field[] {
  const { titleBlock: t } = sheet
  const fails = (sheet.use ?? 0) > 1
  return [
    { name: 'Rigging', words: sheet.title, under: `${sheet.id} · ${sheet.system}, ${sheet.hook}`, share: 30 },
    {
      name: 'At the hook',
      words: t.hook,
      under: 'of what the plan may use',
      share: 26,
      ...(fails ? { ink: 'fail' } : {}),
    },
    { name: 'Revision', words: t.revision, under: `${t.content} · ${t.signed}`, share: 24 },
    { name: 'Sheet', words: `${page} of ${pages} · A4`, under: t.notice, share: 18 },
  ]
}

const number = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })
const words = (title: string, share: number): Column => ({ title, share })

function rowsOf(subject: SheetSubject, sheet: LiftSheet, width: number): Row[] {
  const hooks = [subject.main, ...(subject.tail === undefined ? [] : [subject.tail])]
  return [
    ...hooks.flatMap((from) => itemRows(subject, from, sheet, width)),
    ...legRows(sheet, width),
    ...hangRows(sheet, width),
    ...(subject.tail === undefined
      ? []
      : [
          ...proseRows(
            'Drawn: the main hook alone. What each hook carries at every angle of the turn is on the lift sheet.',
            width,
            { size: SMALL, ink: 'quiet' },
          ),
          spaceRow(3),
        ]),
    ...(sheet.inFull === undefined
      ? []
      : [
          headingRow('Names in full', width),
          ...sheet.inFull.flatMap(({ name }) => proseRows(name, width, { size: SMALL, mark: '–' })),
          spaceRow(3),
        ]),
    headingRow('Before it is lifted', width),
    ...[...HANGING, DEFERRAL].flatMap((s) => proseRows(s, width, { size: SMALL, mark: '·' })),
  ]
}

/** Cautions of hanging a piece, in the words of the trade. */
const HANGING: readonly string[] = [
  'Every item by its tag against this list, inspected and in date, before it is hung.',
  'No edge, no twist, no shackle across its pin; hooks close. Nobody under or beside the piece.',
  'Take the load slowly, read it, and look at every leg before the piece leaves its bed. Stop outside the band.',
]

function itemRows(subject: SheetSubject, from: HungFrom, { units }: LiftSheet, width: number): Row[] {
  const rows = riggingItems(subject, from, units).map(
    (item): TableRow => ({
      cells: [
        `${item.count}`,
        item.name,
        item.id,
        item.rated,
        item.mass,
        item.fails ? { words: item.use, ink: 'fail', weight: 700 } : item.use,
      ],
    }),
  )
  const title = `Hangs from the ${from.hook.name}`
  if (rows.length === 0)
    return [headingRow(title, width), ...proseRows('Open: no rigging is planned.', width), spaceRow(3)]
  return [
    headingRow(title, width, 'mass of one'),
    ...tableRows(
      [number('', 6), words('Item', 44), words('tag', 18), number('rated', 18), number('mass', 16), number('use', 13)],
      rows,
      width,
    ),
    spaceRow(3),
  ]
}

function legRows(sheet: LiftSheet, width: number): Row[] {
  if (sheet.legs.length === 0) return []
  const rows = sheet.legs.map(
    (leg): TableRow => ({
      cells: [
        leg.id,
        `${leg.from} → ${leg.to}`,
        leg.length.text,
        leg.angleText,
        leg.tension.text,
        leg.worst.text,
        (leg.use ?? 0) > 1 ? { words: leg.useText, ink: 'fail', weight: 700 } : leg.useText,
      ],
      ...(leg.link === '' && !leg.slack
        ? {}
        : { under: [...(leg.slack ? ['slack as planned'] : []), ...(leg.link === '' ? [] : [leg.link])].join('; ') }),
    }),
  )
  return [
    headingRow('Legs as the piece hangs', width, `${sheet.forceUnit}`),
    ...tableRows(
      [
        words('Leg', 12),
        words('from, to', 34),
        number('length', 17),
        number('off plumb', 13),
        number('tension', 16),
        number('worst', 16),
        number('use', 12),
      ],
      rows,
      width,
    ),
    spaceRow(3),
  ]
}

function hangRows(sheet: LiftSheet, width: number): Row[] {
  const facts: [string, string][] = [
    ['mass of the piece', `${sheet.titleBlock.mass}, ${sheet.mass.basis}`],
    ['hangs off plumb', `${sheet.tilt}, worst ${sheet.worstTilt}`],
    [
      'height from the ground to the hook',
      `${sheet.height.needed.text} ${sheet.lengthUnit} needed, ${sheet.height.available.text} can be had`,
    ],
  ]
  return [
    headingRow('As it hangs', width),
    ...tableRows(
      [words('', 36), words('', 64)],
      facts.map((cells): TableRow => ({ cells })),
      width,
    ),
    spaceRow(3),
  ]
}
