import type { Drawing } from '../drawing.ts'
import { type Field, roomOf } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import { handSheets } from '../paper/handSheets.ts'
import { issuedWords } from '../paper/issued.ts'
import { SMALL } from '../paper/pen.ts'
import {
  besideRow,
  type Column,
  headingHolds,
  headingRow,
  proseRows,
  type Row,
  signatureRow,
  spaceRow,
  type TableRow,
  tableRows,
} from '../paper/rows.ts'
import { type HandPaper, upright } from '../paper/size.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import { type SheetCheck, verdictWord } from '../sheet/sheetChecks.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { boltPicture } from './boltPicture.ts'
import { BOLTING_CAUTIONS, type BoltUpBlock, type BoltUpSheet, boltUpSheets } from './boltUpSheet.ts'
import { tickGrid } from './tickGrid.ts'

/** What bolt-up sheets are asked for with. */
export interface BoltUpOptions extends SheetOptions {
  /** A4 where none is named. */
  paper?: HandPaper
}

/**
 * Bolt-up sheets to carry to the joint: bolts, passes with their figures, order, boxes to tick and to sign; each step of the
 * return begins a page.
 *
 * @param step the sheet of one step, or of all in the order of the return
 * @returns pages; undefined where no such step closes a joint with bolts
 */
export function boltUpPages(
  stages: SheetStages,
  step: string | undefined,
  options: BoltUpOptions = {},
): Drawing[] | undefined {
  const sheets = boltUpSheets(stages, options).filter((s) => step === undefined || s.step === step)
  if (sheets.length === 0) return undefined
  return sheets.flatMap((sheet) => pagesOf(sheet, options))
}

/** Sizes at which the pictures are tried; the largest that takes fewest sheets is kept. */
const SHRUNK = [1, 0.88, 0.76]

function pagesOf(sheet: BoltUpSheet, options: BoltUpOptions): Drawing[] {
  const { paper = 'A4' } = options
  const room = roomOf(upright(paper))
  const [pages = []] = SHRUNK.map((scale) => pour(rowsOf(sheet, room.right - room.left, scale), [room])).sort(
    (a, b) => a.length - b.length,
  )
  return handSheets(`Bolt-up: ${sheet.title}`, paper, pages, (page) => fieldsOf(sheet, options, page))
}

function fieldsOf(sheet: BoltUpSheet, options: SheetOptions, page: string): Field[] {
  const { words, under } = issuedWords(options)
  const [place, of] = sheet.place
  return [
    {
      name: 'Bolt-up on the return',
      words: sheet.piece,
      under: `${sheet.step}, ${place} of ${of} on the return`,
      share: 34,
    },
    { name: 'Checks', words: sheet.summary, under: sheet.project, share: 27, ...(sheet.fails ? { ink: 'fail' } : {}) },
    { name: 'Revision', words, under, share: 24 },
    { name: 'Sheet', words: page, under: sheet.notice, share: 18 },
  ]
}

const number = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })
const words = (title: string, share: number): Column => ({ title, share })

function rowsOf(sheet: BoltUpSheet, width: number, scale: number): Row[] {
  return [
    ...sheet.blocks.flatMap((block) => [...blockRows(block, width, scale), spaceRow(4)]),
    ...(sheet.others.length === 0
      ? []
      : [
          headingRow('Closed in another way', width),
          ...proseRows(`Welded, pinned or seated, each by its own instruction: ${sheet.others.join(', ')}.`, width),
          spaceRow(4),
        ]),
    headingRow('Cautions', width),
    ...[...BOLTING_CAUTIONS, sheet.deferral].flatMap((c) =>
      proseRows(c, width, { size: SMALL, mark: '–', keep: true }),
    ),
    ...proseRows(sheet.notice, width, { size: SMALL, weight: 700 }),
  ]
}

/** Side of the picture of so many bolts, mm. */
const sideOf = (count: number): number => (count <= 24 ? 62 : count < 60 ? 80 : 88)
const GAP = 6

function blockRows(block: BoltUpBlock, width: number, scale: number): Row[] {
  return [
    ...jointRows(block, width),
    factRow(block, width, scale),
    spaceRow(2.5),
    ...orderRows(block, width),
    ...(block.cautions.length + block.open.length === 0 ? [] : [spaceRow(1)]),
    ...block.cautions.flatMap((c) => proseRows(c, width, { size: SMALL, mark: '–' })),
    ...(block.open.length === 0
      ? []
      : proseRows(`Open, and so not to be tightened by this sheet: ${block.open.join(', ')}.`, width, { weight: 700 })),
    spaceRow(2),
    ...checkRows(block.checks, width),
    spaceRow(2),
    signatureRow(['tightened by', 'tool and gauge, in date', 'witnessed', 'checked again'], width, 13),
  ]
}

/** The joint with what it joins beside it; under it where those names are too long. */
function jointRows({ joint, between, bolts }: BoltUpBlock, width: number): Row[] {
  const beside = `${between}: ${bolts}`
  if (headingHolds(joint, beside, width)) return [headingRow(joint, width, beside)]
  return [headingRow(joint, width, bolts), ...proseRows(between, width, { size: SMALL, keep: true, keepOn: true })]
}

/** The bolts where they stand; beside them what they are, and the passes. */
function factRow(block: BoltUpBlock, width: number, scale: number): Row {
  const picture = boltPicture(block, sideOf(block.count) * scale)
  const room = picture === undefined ? width : width - picture.width - GAP
  const facts = tableRows(
    [words('', 36), words('', 64)],
    block.facts.map(({ name, words }): TableRow => ({ cells: [{ words: name, ink: 'quiet' }, words] })),
    room,
  )
  const rows = [...facts, spaceRow(2.5), ...passRows(block, room)]
  return besideRow(picture ?? { width: 0, height: 0, marks: () => [] }, rows, picture === undefined ? 0 : GAP)
}

function passRows(block: BoltUpBlock, width: number): Row[] {
  const last = block.passes.at(-1)
  const box = { words: '', tick: true } as const
  const check = { cells: ['check', 'as the last', last?.tension ?? '', last?.setting ?? '', box, ''] }
  const again = { cells: ['again', '', '', '', box, ''], under: block.recheck }
  return tableRows(
    [
      words('pass', 12),
      words('of the preload', 20),
      number('tension', 20),
      number(block.tool, 24),
      words('done', 9),
      words('date, name', 26),
    ],
    [...block.passes.map((p): TableRow => ({ cells: [p.name, p.share, p.tension, p.setting, box, ''] })), check, again],
    width,
  )
}

/** Each stroke in its order, with a box a pass. */
function orderRows(block: BoltUpBlock, width: number): Row[] {
  const known = block.strokes.length > 0
  const strokes = known
    ? block.strokes.map((bolts) => bolts.join('+'))
    : Array.from({ length: block.count }, (_, i) => `${i + 1}`)
  const title = known ? 'Order of each pass' : 'A box a bolt: number them on the joint, opposite ones in turn'
  const passes = [...block.passes.map((p) => `pass ${p.name}`), 'check']
  return [{ ...proseRows(title, width, { weight: 700 })[0], keep: true } as Row, ...tickGrid(strokes, passes, width)]
}

function checkRows(checks: readonly SheetCheck[], width: number): Row[] {
  if (checks.length === 0) return []
  return tableRows(
    [
      words('Check', 62),
      words('its id', 58),
      number('demand', 20),
      number('limit', 20),
      number('use', 12),
      words('', 14),
    ],
    checks.map((c): TableRow => {
      const ink = c.verdict === 'fail' ? 'fail' : 'ink'
      const word = { words: verdictWord(c.verdict), weight: c.verdict === 'pass' ? 400 : 700 } as const
      return {
        cells: [c.title, c.id, c.demand, c.capacity, c.useText, word],
        ink,
        ...(c.verdict === 'open' && c.why !== '' ? { under: `${c.why}; decides: ${c.decidedBy}` } : {}),
      }
    }),
    width,
    SMALL,
  )
}
