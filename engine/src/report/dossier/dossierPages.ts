import type { Drawing } from '../drawing.ts'
import { type Field, roomOf } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import { handSheets } from '../paper/handSheets.ts'
import { issuedWords } from '../paper/issued.ts'
import { SMALL } from '../paper/pen.ts'
import { headingRow, proseRows, type Row, signatureRow, spaceRow, type TableRow, tableRows } from '../paper/rows.ts'
import { type HandPaper, upright } from '../paper/size.ts'
import { verdictWord } from '../sheet/sheetChecks.ts'
import { type DossierOptions, type DossierSheet, type DossierStages, dossierSheet } from './dossierSheet.ts'
import { boltRows, partRows, weighingRows, weldRows } from './machineRows.ts'
import { column, figures, type Print, printOf } from './recordRows.ts'
import { punchRows, serviceRows, signatureRows, testRows } from './runRows.ts'

export interface DossierPageOptions extends DossierOptions {
  /** A4 where none is named. */
  paper?: HandPaper
}

/** The commissioning dossier down the page: what is on record of the machine until it runs again, and what is still open. */
export function dossierPages(stages: DossierStages, options: DossierPageOptions = {}): Drawing[] {
  const { paper = 'A4' } = options
  const sheet = dossierSheet(stages, options)
  const room = roomOf(upright(paper))
  const pages = pour(rowsOf(printOf(sheet, room.right - room.left)), [room])
  return handSheets('Commissioning dossier', paper, pages, (page) => fieldsOf(sheet, options, page))
}

function fieldsOf(sheet: DossierSheet, options: DossierOptions, page: string): Field[] {
  const { words, under } = issuedWords(options)
  return [
    {
      name: 'Commissioning dossier',
      words: sheet.isEmpty ? 'nothing is on record' : openWords(sheet),
      under: sheet.project,
      share: 30,
    },
    {
      name: 'Checks',
      words: sheet.summary,
      under: 'numbered in the list at the end',
      share: 30,
      ...(sheet.fails ? { ink: 'fail' } : {}),
    },
    { name: 'Revision', words, under, share: 24 },
    { name: 'Sheet', words: page, under: sheet.notice, share: 18 },
  ]
}

const openWords = ({ lines }: DossierSheet): string => {
  const open = lines.reduce((n, line) => n + line.open, 0)
  return open === 0 ? 'nothing is open' : `${open} still open`
}

function rowsOf(print: Print): Row[] {
  const { sheet, width } = print
  return [
    ...overviewRows(print),
    ...partRows(print),
    ...weldRows(print),
    ...boltRows(print),
    ...weighingRows(print),
    ...serviceRows(print),
    ...testRows(print),
    ...punchRows(print),
    ...signatureRows(print),
    ...checkRows(print),
    ...proseRows(sheet.deferral, width, { size: SMALL, weight: 700, keep: true, keepOn: true }),
    ...proseRows(sheet.notice, width, { size: SMALL, weight: 700, keep: true, keepOn: true }),
    { ...spaceRow(2), keep: true },
    signatureRow(['put together', 'machine maker', 'accepted by the owner'], width, 13),
  ]
}

function overviewRows({ sheet, width }: Print): Row[] {
  const rows = sheet.lines.filter(({ due }) => due > 0)
  return [
    headingRow('What is on record, and what is open', width),
    ...(rows.length === 0
      ? proseRows('Nothing is on record, and nothing in the project asks for a record.', width, { weight: 700 })
      : tableRows(
          [
            column('Records', 34),
            figures('planned or on record', 16),
            figures('still open', 14),
            column('open means', 36),
          ],
          rows.map(
            ({ name, due, open, means }): TableRow => ({
              cells: [name, String(due), { words: String(open), ...(open > 0 ? { weight: 700 } : {}) }, means],
            }),
          ),
          width,
        )),
    spaceRow(4),
  ]
}

/** Every check once, by the number that the figures carry. */
function checkRows({ sheet, width }: Print): Row[] {
  if (sheet.checks.length === 0) return []
  return [
    headingRow('Checks', width, 'by the number that stands beside the figures; the worst first'),
    ...tableRows(
      [
        figures('', 5),
        column('Check', 44),
        column('its id', 40),
        figures('demand', 14),
        figures('limit', 14),
        column('', 12),
      ],
      sheet.checks.map(
        (c): TableRow => ({
          cells: [
            `[${c.number}]`,
            c.title,
            c.id,
            c.demand,
            c.capacity,
            { words: verdictWord(c.verdict), weight: c.verdict === 'pass' ? 400 : 700 },
          ],
          ...(c.verdict === 'fail' ? { ink: 'fail' } : {}),
          ...(c.why === '' ? {} : { under: `${c.why}${c.verdict === 'open' ? `; decides: ${c.decidedBy}` : ''}` }),
        }),
      ),
      width,
      SMALL,
    ),
    spaceRow(4),
  ]
}
