import type { DiaryEntry } from '../../model/index.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { dateText } from '../civil.ts'
import type { Drawing } from '../drawing.ts'
import { type Field, roomOf } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import { handSheets } from '../paper/handSheets.ts'
import { issuedWords } from '../paper/issued.ts'
import { SMALL } from '../paper/pen.ts'
import {
  type Column,
  headingRow,
  proseRows,
  type Row,
  signatureRow,
  spaceRow,
  type TableRow,
  tableRows,
} from '../paper/rows.ts'
import { type HandPaper, upright } from '../paper/size.ts'
import { temperatureText } from '../temperature.ts'
import { type DailyOptions, type DailySheet, type DailyStages, dailySheet } from './dailySheet.ts'

export interface DailyPageOptions extends DailyOptions {
  /** A4 where none is named. */
  paper?: HandPaper
}

/** The daily report down the page: what the diary says, what is left to do, and the shifts ahead with their hold points. */
export function dailyPages(stages: DailyStages, options: DailyPageOptions = {}): Drawing[] | undefined {
  const sheet = dailySheet(stages, options)
  if (sheet === undefined) return undefined
  const { paper = 'A4' } = options
  const room = roomOf(upright(paper))
  const pages = pour(rowsOf(sheet, room.right - room.left), [room])
  return handSheets('Daily report', paper, pages, (page) => fieldsOf(sheet, options, page))
}

function fieldsOf(sheet: DailySheet, options: DailyOptions, page: string): Field[] {
  const { words, under } = issuedWords(options)
  const late = sheet.actions.filter((a) => a.late).length
  return [
    { name: 'Daily report', words: dateText(sheet.day), under: sheet.project, share: 34 },
    {
      name: 'Actions',
      words: `${sheet.actions.length} open${late === 0 ? '' : `, ${late} late`}`,
      under: `${hours(sheet.lost)} h lost, ${sheet.people} people in ${counted(sheet.entries.length, 'shift')}`,
      share: 28,
      ...(late === 0 ? {} : { ink: 'fail' }),
    },
    { name: 'Revision', words, under, share: 24 },
    { name: 'Sheet', words: page, under: sheet.notice, share: 18 },
  ]
}

const counted = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`
const hours = (seconds: number): string => String(Math.round(seconds / 36) / 100)
const column = (title: string, share: number): Column => ({ title, share })

function table(columns: readonly Column[], rows: readonly TableRow[], width: number, none: string): Row[] {
  return rows.length === 0 ? proseRows(none, width, { ink: 'quiet' }) : tableRows(columns, rows, width)
}

function rowsOf(sheet: DailySheet, width: number): Row[] {
  return [
    ...sheet.entries.flatMap(({ id, entry }) => entryRows(id, entry, sheet.units, width)),
    ...recordedRows(sheet, width),
    ...actionRows(sheet, width),
    ...aheadRows(sheet, width),
    ...permitRows(sheet, width),
    ...instrumentRows(sheet, width),
    ...belowRows(sheet, width),
    spaceRow(3),
    ...proseRows(sheet.deferral, width, { size: SMALL, weight: 700, keep: true, keepOn: true }),
    ...proseRows(sheet.notice, width, { size: SMALL, weight: 700, keep: true, keepOn: true }),
    { ...spaceRow(2), keep: true },
    signatureRow(['written', 'seen by the person in charge', 'seen by the owner'], width, 13),
  ]
}

function entryRows(id: string, entry: DiaryEntry, units: UnitSystem, width: number): Row[] {
  const { shift, by, done, lost, plant, note } = entry
  return [
    headingRow(`Shift ${shift[0]} to ${shift[1]}`, width, `${id}, written by ${by}`),
    ...table(
      [column('Activity', 14), column('What was done', 76)],
      done.map(({ activity, what }) => ({ cells: [activity, what] })),
      width,
      'No work is recorded.',
    ),
    spaceRow(1.5),
    ...table(
      [{ ...column('Hours lost', 14), tabular: true }, column('Cause', 60), column('Activity', 16)],
      lost.map(({ time, cause, activity = '' }) => ({ cells: [hours(time.value ?? 0), cause, activity] })),
      width,
      'No time lost.',
    ),
    spaceRow(1.5),
    ...proseRows(`People: ${peopleWords(entry)}.`, width),
    ...proseRows(`Weather: ${weatherWords(entry, units)}.`, width),
    ...table(
      [column('Plant', 40), column('State', 18), column('Note', 32)],
      plant.map((p) => ({
        cells: [
          p.what,
          { words: p.state, ...(p.state === 'broken down' ? { ink: 'fail' as const } : {}) },
          p.note ?? '',
        ],
      })),
      width,
      'No plant is recorded.',
    ),
    ...(note === undefined ? [] : proseRows(note, width)),
    spaceRow(3),
  ]
}

function peopleWords({ people }: DiaryEntry): string {
  const all = Object.entries(people)
  if (all.length === 0) return 'not recorded'
  const total = all.reduce((sum, [, n]) => sum + n, 0)
  return `${total} (${all.map(([who, n]) => `${who} ${n}`).join(', ')})`
}

function weatherWords({ weather }: DiaryEntry, units: UnitSystem): string {
  const { words, gust, lowest, highest } = weather ?? {}
  const degrees = [lowest?.value, highest?.value].filter((t) => t !== undefined)
  const told = [
    ...(words === undefined ? [] : [words]),
    ...(gust?.value === undefined ? [] : [`gusts to ${showQuantity(gust.value, 'm/s', units)}`]),
    ...(degrees.length === 0 ? [] : [`${degrees.map((t) => temperatureText(t, units)).join(' to ')}`]),
  ]
  return told.length === 0 ? 'not recorded' : told.join(', ')
}

/** What was put on record of opened parts, welds and bolts; days on which nothing was have no such table. */
function recordedRows({ recorded }: DailySheet, width: number): Row[] {
  if (recorded.length === 0) return []
  return [
    headingRow('Put on record', width, 'opened parts, welds and bolts; limits and verdicts stand in the dossier'),
    ...tableRows(
      [column('Record', 38), column('What was done', 40), column('By', 22)],
      recorded.map(({ of, words, by }) => ({ cells: [of, words, by] })),
      width,
    ),
    spaceRow(3),
  ]
}

const actionRows = ({ actions }: DailySheet, width: number): Row[] => [
  headingRow('Actions open', width, 'what is due first stands first'),
  ...table(
    [column('Due', 18), column('Action', 48), column('Owner', 22), column('From entry', 14)],
    actions.map(({ due, what, owner, entry, late }) => ({
      cells: [
        { words: late ? `${dateText(due)}, late` : dateText(due), ...(late ? { ink: 'fail' as const } : {}) },
        what,
        owner,
        entry,
      ],
    })),
    width,
    'None.',
  ),
  spaceRow(3),
]

const WORK = [
  column('Activity', 14),
  column('Name', 34),
  column('From', 18),
  column('Until', 18),
  column('Needs', 16),
  column('', 18),
]

const aheadRows = ({ shifts, from }: DailySheet, width: number): Row[] => [
  headingRow('Shifts ahead', width, from === '' ? '' : `as planned from ${from}, local time`),
  ...(shifts.length === 0
    ? proseRows('No plan gives work for a shift ahead.', width, { ink: 'quiet' })
    : shifts.flatMap((shift) => [
        ...proseRows(
          `${shift.calendar}, ${shift.isUnderWay ? 'under way' : 'next'}: ${shift.from} to ${shift.until}`,
          width,
          { weight: 700, keep: true, keepOn: true },
        ),
        ...tableRows(
          WORK,
          shift.work.map((w) => ({
            cells: [
              w.id,
              w.name,
              w.from,
              w.until,
              w.needs,
              [w.critical ? 'critical' : '', w.ends ? 'ends in it' : ''].filter((s) => s !== '').join(', '),
            ],
          })),
          width,
        ),
        spaceRow(1.5),
      ])),
  spaceRow(2),
]

const permitRows = ({ permits }: DailySheet, width: number): Row[] => [
  headingRow('Permits and hold points of these shifts', width, 'tick when the signature has been seen'),
  ...table(
    [column('What lets it go', 46), column('Activity', 36), column('From', 18)],
    permits.map(({ what, activity, name, from }) => ({
      cells: [{ words: what, tick: true }, `${activity} ${name}`, from],
    })),
    width,
    'The plan names none in these shifts; permits by local rules are not in the project.',
  ),
  spaceRow(3),
]

const instrumentRows = ({ instruments }: DailySheet, width: number): Row[] => [
  headingRow('Instruments to be read', width),
  ...table(
    [column('Instrument', 14), column('Name', 34), column('Why', 52)],
    instruments.map(({ id, name, overdue, words }) => ({
      cells: [
        id,
        name,
        {
          words: overdue ? `overdue${words === '' ? '' : `: ${words}`}` : words,
          ...(overdue ? { ink: 'fail' as const } : {}),
        },
      ],
    })),
    width,
    'None is overdue by the intervals that the project gives.',
  ),
]

/** Reasons that a line has room for; the whole stands in the list of checks. */
const MOST_WORDS = 260

function belowRows({ below: { lines, counts, cautions } }: DailySheet, width: number): Row[] {
  if (lines.length === 0 && counts.length === 0) return []
  return [
    spaceRow(3),
    headingRow('People below ground', width, 'as recorded; the board at the collar is what counts'),
    ...table(
      [column('Counted at', 12), { ...column('Below', 10), tabular: true }, column('By', 30), column('Before', 48)],
      counts.map(({ at, below, by, before }) => ({ cells: [at, String(below), by, before] })),
      width,
      'Nobody was counted on this day.',
    ),
    spaceRow(1.5),
    ...tableRows(
      [column('What is asked', 42), column('Answer', 16), column('What is behind it', 42)],
      lines.map(({ title, verdict, counts, words }) => ({
        cells: [
          title,
          {
            words:
              verdict === 'fail' || verdict === 'open'
                ? `${verdict}, ${counts[verdict]} of ${totalOf(counts)}`
                : verdict,
            ...(verdict === 'fail' ? { ink: 'fail' as const } : {}),
          },
          words.length > MOST_WORDS ? `${words.slice(0, MOST_WORDS).trimEnd()}…` : words,
        ],
      })),
      width,
    ),
    ...cautions.flatMap((said) => proseRows(said, width, { size: SMALL, weight: 700 })),
  ]
}

const totalOf = (counts: Readonly<Record<string, number>>): number => Object.values(counts).reduce((a, b) => a + b, 0)
