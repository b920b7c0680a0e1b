import { SMALL } from '../paper/pen.ts'
import { type Column, headingRow, proseRows, type Row, spaceRow, type TableRow, tableRows } from '../paper/rows.ts'
import type { LiftSheet } from './liftSheet.ts'
import { withRef } from './refs.ts'

const words = (title: string, share: number): Column => ({ title, share })
const time = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })

/** The way in time: stages, the point of no return, where the piece can wait, and what is done when something fails. */
export function dayBlock(sheet: LiftSheet, width: number): Row[] {
  const { day, refs, lengthUnit } = sheet
  if (day.stages.length === 0) return []
  const stages = day.stages.map(
    (s, i): TableRow => ({ cells: [`${i + 1} ${s.name}`, s.from, s.takes, s.until, s.back, s.at], under: s.by }),
  )
  return [
    headingRow('The way in time', width, withRef('hours and minutes from the load being taken', refs.shift)),
    ...tableRows(
      [
        words('stage', 22),
        time('from', 12),
        time('takes', 12),
        time('until', 12),
        time('back in', 14),
        words(`hook then: forward, left, level, ${lengthUnit}`, 44),
      ],
      stages,
      width,
    ),
    ...proseRows(withRef(day.pointOfNoReturn, refs.shelter), width, { weight: 700 }),
    spaceRow(2),
    ...holdingRows(sheet, width),
    spaceRow(2),
    ...refugeRows(sheet, width),
  ]
}

const holdingRows = ({ day }: LiftSheet, width: number): Row[] =>
  tableRows(
    [words('where it can wait', 46), words('when', 30), words('how', 40)],
    day.holding.map((h): TableRow => ({ cells: [h.name, h.when, h.how] })),
    width,
    SMALL + 0.1,
  )

const refugeRows = ({ day, refs }: LiftSheet, width: number): Row[] =>
  tableRows(
    [
      words('stage', 22),
      words('fails', 26),
      words('then', 38),
      time('at most', 14),
      words(withRef('meanwhile', refs.holds), 20),
    ],
    day.refuges.map((r): TableRow => ({ cells: [r.stage, r.failure, r.position, r.time, r.holds] })),
    width,
    SMALL + 0.1,
  )

/** From net mass to design load: what is added, into what it enters, and by which clause. */
export function allowanceBlock({ allowances }: LiftSheet, width: number): Row[] {
  if (allowances.length === 0) return []
  return [
    headingRow('Allowances, each once', width, 'into load, corners or rating'),
    ...tableRows(
      [
        words('Allowance', 42),
        time('', 18),
        words('hook', 15),
        words('rigging', 15),
        words('beams', 15),
        words('ground', 15),
      ],
      allowances.map((a): TableRow => ({ cells: [a.title, a.value, ...a.enters], under: `${a.clause}. ${a.note}` })),
      width,
      SMALL + 0.1,
    ),
  ]
}
