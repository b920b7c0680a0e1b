import { SMALL } from '../paper/pen.ts'
import { type Column, headingRow, proseRows, type Row, spaceRow, type TableRow, tableRows } from '../paper/rows.ts'
import type { CarrierGroup } from './carriers.ts'
import { CONTENTS_SOURCE, type PlanItem } from './contents.ts'
import type { LiftSheet } from './liftSheet.ts'
import { verdictWord } from './sheetChecks.ts'

const COLUMNS: readonly Column[] = [
  { title: 'What carries', share: 50 },
  { title: 'demand', share: 18, align: 'end', tabular: true },
  { title: 'limit', share: 18, align: 'end', tabular: true },
  { title: 'use', share: 11, align: 'end', tabular: true },
  { title: '', share: 10 },
  { title: 'check', share: 9, align: 'end', tabular: true },
]

/** What carries the load, from the machine to the ground: every component with its use, its clause and its check. */
export function carrierBlock({ carriers }: LiftSheet, width: number): Row[] {
  if (carriers.length === 0) return []
  return [
    headingRow('What carries the load, from the machine to the ground', width, 'numbers of the checks below'),
    ...carriers.flatMap((group) => groupRows(group, width)),
  ]
}

function groupRows({ title, clause, rows }: CarrierGroup, width: number): Row[] {
  const cells = rows.map(
    ({ of, check }): TableRow => ({
      cells: [
        of,
        check.demand,
        check.capacity,
        check.useText,
        { words: verdictWord(check.verdict), weight: check.verdict === 'pass' ? 400 : 700 },
        `[${check.number}]`,
      ],
      ink: check.verdict === 'fail' ? 'fail' : 'ink',
    }),
  )
  const size = SMALL + 0.1
  const untitled = COLUMNS.map((c) => ({ ...c, title: '' }))
  return [
    ...proseRows(title, width, { size, weight: 700, keep: true, keepOn: true }),
    ...proseRows(clause, width, { size: SMALL, ink: 'quiet', keep: true, keepOn: true }),
    ...tableRows(untitled, cells, width, size),
    spaceRow(1.2),
  ]
}

/** What public rules ask of a plan: where this sheet says it, and what is to be attached by hand. */
export function contentsBlock({ contents }: LiftSheet, width: number): Row[] {
  const missing = contents.filter((item) => item.state !== 'here').length
  return [
    headingRow('What a plan for this lift is to hold', width, `${missing} of ${contents.length} not on this sheet`),
    ...tableRows(
      [
        { title: '', share: 22 },
        { title: 'asked', share: 46 },
        { title: 'where, or what is missing', share: 48 },
      ],
      contents.map((item, i) => itemRow(item, contents[i - 1]?.group !== item.group)),
      width,
      SMALL + 0.1,
    ),
    ...proseRows(`List ${CONTENTS_SOURCE}.`, width, { size: SMALL, ink: 'quiet' }),
  ]
}

const itemRow = ({ group, what, where, state }: PlanItem, first: boolean): TableRow => ({
  cells: [
    { words: first ? group : '', weight: 700 },
    what,
    state === 'by hand'
      ? { words: `to attach: ${where}`, weight: 700, tick: true }
      : { words: where, weight: state === 'open' ? 700 : 400 },
  ],
})
