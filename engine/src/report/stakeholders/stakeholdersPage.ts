import { showNumber } from '../../working/quantity.ts'
import type { Drawing } from '../drawing.ts'
import { type Field, roomOf, shortened } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import { handSheets } from '../paper/handSheets.ts'
import { issuedWords } from '../paper/issued.ts'
import { BODY, SMALL } from '../paper/pen.ts'
import {
  type Cell,
  type Column,
  headingRow,
  proseRows,
  type Row,
  spaceRow,
  type TableRow,
  tableRows,
} from '../paper/rows.ts'
import { type HandPaper, upright } from '../paper/size.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import {
  type StakeholderStages,
  type StakeholdersAsked,
  type StakeholdersSheet,
  stakeholdersSheet,
} from './stakeholdersSheet.ts'

export interface StakeholdersOptions extends SheetOptions, StakeholdersAsked {
  /** A4 where none is named. */
  paper?: HandPaper
}

/** Runs of a sheet that is asked for from a page: a second's work; on screen and on paper the same. */
export const ON_ASKING = { runs: 2000, seed: 1 }

/** How the page is set: size of its print, most rows of a list, and whether each row keeps to one line. */
interface Setting {
  size: number
  most: number
  cut: boolean
}

const LARGE = 3.3
const SETTINGS: readonly Setting[] = [
  ...[8, 7, 6, 5].map((most) => ({ size: LARGE, most, cut: false })),
  ...[8, 7, 6, 5, 4].map((most) => ({ size: BODY, most, cut: false })),
  ...[5, 4, 3, 2, 1].map((most) => ({ size: BODY, most, cut: true })),
]

/** One page for people who are not engineers, always one: restart, what moved it and why, risks, hold points, what waits for whom. */
export function stakeholdersPage(stages: StakeholderStages, options: StakeholdersOptions): Drawing[] | undefined {
  const sheet = stakeholdersSheet(stages, options)
  if (sheet === undefined) return undefined
  const { paper = 'A4' } = options
  const room = roomOf(upright(paper))
  const width = room.right - room.left
  const set = (setting: Setting) => pour(rowsOf(sheet, width, setting), [room])
  // set smaller until everything stands on one page; a list says what it leaves out
  const pages = set(SETTINGS.find((setting) => set(setting).length === 1) ?? (SETTINGS.at(-1) as Setting))
  return handSheets('Where the recovery stands', paper, pages, (page) => fieldsOf(sheet, options, page))
}

function fieldsOf(sheet: StakeholdersSheet, options: SheetOptions, page: string): Field[] {
  const { words, under } = issuedWords(options)
  const [, even, sure] = sheet.restart
  return [
    { name: 'Where the recovery stands', words: sheet.project, under: `as of ${sheet.asOf}`, share: 34 },
    { name: 'Restart, fairly sure', words: sure?.day ?? '', under: `even chance ${even?.day ?? ''}`, share: 26 },
    { name: 'Revision', words, under, share: 26 },
    { name: 'Sheet', words: page, under: sheet.notice, share: 18 },
  ]
}

const words = (title: string, share: number): Column => ({ title, share })
const number = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })

/** Days later or earlier, in words. */
export function movedWords(days: number): string {
  if (days === 0) return 'unchanged'
  const size = Math.abs(days)
  return `${size} day${size === 1 ? '' : 's'} ${days > 0 ? 'later' : 'earlier'}`
}

const movedCell = (days: number | undefined): string | Cell =>
  days === undefined ? '' : { words: movedWords(days), ...(days > 0 ? { ink: 'fail' as const } : {}) }

/** Words of a name, cut to one line of a column where the page is set so. */
const named = (text: string, width: number, share: number, { cut, size }: Setting): string =>
  cut ? shortened(text, size, (width - 14) * share * 0.95) : text

const more = (all: number, most: number, what: string, width: number): Row[] =>
  all <= most ? [] : proseRows(`${all - most} more ${what}.`, width, { size: SMALL, ink: 'quiet' })

function rowsOf(sheet: StakeholdersSheet, width: number, setting: Setting): Row[] {
  const blocks = [restartRows, moverRows, riskRows, holdRows, waitingRows]
  return [
    ...leadRows(sheet, width),
    ...blocks.flatMap((rows) => [...rows(sheet, width, setting), spaceRow(3)]),
    ...[...sheet.cautions, ...(sheet.notice === '' ? [] : [sheet.notice])].flatMap((said) =>
      proseRows(said, width, { size: SMALL, weight: 700 }),
    ),
  ]
}

const LEAD = 5

function leadRows({ restart: [planned, even, sure], asOf }: StakeholdersSheet, width: number): Row[] {
  const moved = sure?.overBefore ?? sure?.overBaseline
  const against = sure?.overBefore === undefined ? 'than was agreed' : 'than in the issue before'
  const than = moved === undefined ? '' : moved === 0 ? ', as before' : `, ${movedWords(moved)} ${against}`
  return [
    ...proseRows(`Tunnelling is fairly sure to have started again by ${sure?.day}${than}.`, width, {
      size: LEAD,
      weight: 700,
    }),
    ...proseRows(
      `As of ${asOf}. As likely before as after ${even?.day}; on ${planned?.day} if nothing at all goes wrong.`,
      width,
      { size: LARGE, ink: 'quiet' },
    ),
    spaceRow(3),
  ]
}

function restartRows(
  { restart, baseline, before, error, cost, currency, watched }: StakeholdersSheet,
  width: number,
  { size }: Setting,
): Row[] {
  const columns = [
    words('', 38),
    words('Tunnelling starts again', 20),
    words(baseline === undefined ? '' : `against the baseline of ${baseline.day}`, 26),
    words(before === undefined ? '' : `since ${before.name}`, 24),
  ]
  const rows = restart.map(
    ({ name, day, overBaseline, overBefore }, i): TableRow => ({
      cells: [name, { words: day, weight: i === 0 ? 400 : 700 }, movedCell(overBaseline), movedCell(overBefore)],
    }),
  )
  const unit = currency === '' ? '' : `, ${currency}`
  const said = [
    ...(baseline === undefined ? ['No baseline is kept, so nothing is said of what was agreed.'] : []),
    `The four-in-five date is known to about ${showNumber(error, 1)} days from the runs made.`,
    `Cost up to the restart${unit}: ${money(cost.p50)} with an even chance, ${money(cost.p80)} four times in five. A day later costs ${money(cost.day)}.`,
    watched.all === 0
      ? 'Neighbourhood: no instrument has been read against a level yet.'
      : `Neighbourhood: ${watched.above} of ${watched.all} instruments read stand above a level that asks for a response.`,
  ]
  return [
    headingRow('When tunnelling starts again', width),
    ...tableRows(columns, rows, width, size),
    spaceRow(1),
    ...said.flatMap((line) => proseRows(line, width, { size, mark: '·' })),
  ]
}

const THOUSAND = 1000
const money = (amount: number): string => showNumber(Math.round(amount / THOUSAND) * THOUSAND, 0)
const daysText = (days: number): string => `${days > 0 ? '+' : ''}${showNumber(days, 1)}`

function moverRows({ movers, moversSince }: StakeholdersSheet, width: number, setting: Setting): Row[] {
  const { most, size } = setting
  const sum = (all: StakeholdersSheet['movers']): number => all.reduce((total, { days }) => total + days, 0)
  const rows: TableRow[] = [
    ...movers.slice(0, most).map(({ words, days, recorded }) => ({
      cells: [named(words, width, 0.54, setting), daysText(days), '', named(recorded, width, 0.32, setting)],
    })),
    ...(movers.length > most
      ? [{ cells: [`${movers.length - most} others together`, daysText(sum(movers.slice(most))), '', ''] }]
      : []),
    { cells: ['Planned restart', daysText(sum(movers)), '', ''], sum: true },
  ]
  const none = moversSince === '' ? 'Neither a baseline nor an issue before to hold it against.' : 'Nothing moved it.'
  return [
    headingRow('What moved the planned restart, and why', width, moversSince === '' ? '' : `since ${moversSince}`),
    ...(movers.length === 0
      ? proseRows(none, width, { size, ink: 'quiet' })
      : tableRows([words('Work', 54), number('Days', 10), GAP, words('Delay on record', 32)], rows, width, size)),
  ]
}

/** Between figures and the words right of them. */
const GAP = words('', 2)

function riskRows({ risks }: StakeholdersSheet, width: number, setting: Setting): Row[] {
  const { most, size } = setting
  const rows = risks.slice(0, most).map(
    ({ name, chance, days, price, against, owner }): TableRow => ({
      cells: [
        named(name, width, 0.34, setting),
        `${Math.round(chance * 100)} %`,
        showNumber(days, 0),
        money(price),
        '',
        named(against, width, 0.28, setting),
        named(owner, width, 0.14, setting),
      ],
    }),
  )
  const columns = [
    words('Risk', 34),
    number('Chance', 8),
    number('Days', 6),
    number('Price', 11),
    GAP,
    words('What can be done about it', 28),
    words('Whose', 14),
  ]
  const said =
    'Days and price are when it happens, most likely; the price is its own cost and those days at what a day costs.'
  return [
    headingRow('What could still go wrong', width, 'dearest on average first'),
    ...(rows.length === 0
      ? proseRows('No risk that can still happen is in the project.', width, { size, ink: 'quiet' })
      : [
          ...tableRows(columns, rows, width, size),
          ...proseRows(said, width, { size: SMALL, ink: 'quiet' }),
          ...more(risks.length, most, 'are in the register', width),
        ]),
  ]
}

function holdRows({ holds }: StakeholdersSheet, width: number, setting: Setting): Row[] {
  const { size } = setting
  const rows = holds.map(({ day, name, what }) => ({
    cells: [day, named(name, width, 0.44, setting), named(what, width, 0.36, setting)],
  }))
  return [
    headingRow('The next hold points', width, 'nothing goes on until they are signed'),
    ...(rows.length === 0
      ? proseRows('The plan has none ahead.', width, { size, ink: 'quiet' })
      : tableRows([words('Planned', 16), words('After', 44), words('What is signed', 36)], rows, width, size)),
  ]
}

function waitingRows({ waiting }: StakeholdersSheet, width: number, setting: Setting): Row[] {
  const { most, size } = setting
  const rows = waiting.slice(0, most).map(
    ({ who, open, failing, first, by }): TableRow => ({
      cells: [
        named(who, width, 0.22, setting),
        String(open),
        failing === 0 ? '0' : { words: String(failing), ink: 'fail' },
        '',
        named(first, width, 0.46, setting),
        by,
      ],
    }),
  )
  const columns = [
    words('Who decides', 22),
    number('Open', 6),
    number('Failing', 8),
    GAP,
    words('First of it', 46),
    words('The plan is there on', 16),
  ]
  return [
    headingRow('What waits for whose decision', width, 'open: something is missing or undecided'),
    ...(rows.length === 0
      ? proseRows('Nothing is open and nothing fails.', width, { size, ink: 'quiet' })
      : [...tableRows(columns, rows, width, size), ...more(waiting.length, most, 'have something to decide', width)]),
  ]
}
