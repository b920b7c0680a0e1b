import { dateText } from '../civil.ts'
import { SMALL } from '../paper/pen.ts'
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
import { verdictWord } from '../sheet/sheetChecks.ts'
import type { DossierSheet } from './dossierSheet.ts'
import { limitText, readingsText } from './limitWords.ts'
import type { DossierMeasure } from './readings.ts'

/** How the pages print a sheet: its width, and the mark of each check. */
export interface Print {
  sheet: DossierSheet
  width: number
  /** Verdict with its place in the list of checks, such as "passes [7]"; a failure in its ink. */
  judged: (ids: readonly string[]) => Cell
  /** The places alone, such as "[7] [8]". */
  refs: (ids: readonly string[]) => string
}

export const column = (title: string, share: number): Column => ({ title, share })
export const figures = (title: string, share: number): Column => ({ title, share, tabular: true })

export function printOf(sheet: DossierSheet, width: number): Print {
  const byId = new Map(sheet.checks.map((c) => [c.id, c]))
  const known = (ids: readonly string[]) => ids.flatMap((id) => byId.get(id) ?? [])
  return {
    sheet,
    width,
    refs: (ids) =>
      known(ids)
        .map(({ number }) => `[${number}]`)
        .join(' '),
    judged: (ids) => {
      const checks = known(ids)
      const fails = checks.some(({ verdict }) => verdict === 'fail')
      const isSettled = checks.every(({ verdict }) => verdict === 'pass')
      return {
        words: checks.map(({ verdict, number }) => `${verdictWord(verdict)}\u00a0[${number}]`).join(', '),
        weight: isSettled ? 400 : 700,
        ...(fails ? { ink: 'fail' as const } : {}),
      }
    },
  }
}

/** A section of the dossier; a quiet line where it has nothing. */
export function section(title: string, aside: string, rows: readonly Row[], none: string, { width }: Print): Row[] {
  return [
    headingRow(title, width, aside),
    ...(rows.length === 0 ? proseRows(none, width, { ink: 'quiet' }) : rows),
    spaceRow(4),
  ]
}

/** What one record is, in heavy letters, held to what follows. */
export const titleRows = (words: string, { width }: Print): Row[] => [
  ...proseRows(words, width, { weight: 700, keep: true, keepOn: true }),
]

/** What is said of a record under a name, and how it is judged. */
export type Fact = readonly [name: string, words: string, checks?: readonly string[]]

/** Names, what is said of them, and their verdicts, without a head. */
export const factRows = (facts: readonly Fact[], { width, judged }: Print): Row[] => [
  ...tableRows(
    [column('', 20), column('', 69), column('', 15)],
    facts.map(
      ([name, words, checks]): TableRow => ({
        cells: [{ words: name, ink: 'quiet' }, words, judged(checks ?? [])],
      }),
    ),
    width,
    SMALL,
  ),
  spaceRow(0.8),
]

export const measureRows = (measures: readonly DossierMeasure[], { width, judged }: Print): Row[] =>
  measures.length === 0
    ? []
    : tableRows(
        [column('Measured', 27), column('Accepted, and by what', 27), column('Read, by, on', 35), column('', 15)],
        measures.map(({ what, unit, limit, from, readings, checks }) => ({
          cells: [
            what,
            `${limitText(limit, unit)}${from === undefined ? '' : `; ${from}`}`,
            readingsText(readings),
            judged(checks),
          ],
        })),
        width,
        SMALL,
      )

/** Someone's act: by whom, and on which day. */
export const actText = (act: { by: string; on: string } | undefined, none: string): string =>
  act === undefined ? none : `${act.by}, ${dateText(act.on)}`

/** A moment, of which a day is written as one. */
export const momentText = (moment: string): string => {
  const [day = '', time = ''] = moment.split('T')
  return time === '' ? dateText(day) : `${dateText(day)}, ${time}`
}

export const listed = (words: readonly string[]): string => words.filter((w) => w !== '').join('; ')
