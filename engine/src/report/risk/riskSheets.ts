import type { BreakthroughResult, SimulationResult, WhatIfs } from '../../risk/index.ts'
import { showNumber } from '../../working/quantity.ts'
import { dateText, dayText } from '../civil.ts'
import { box, type Drawing, drawing, type Mark, type PaperBox, text } from '../drawing.ts'
import { borderMarks, type Field, roomOf, shortened } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import { SMALL } from '../paper/pen.ts'
import { type Column, headingRow, proseRows, type Row, spaceRow, type TableRow, tableRows } from '../paper/rows.ts'
import { DEFERRAL, INVENTED } from '../sheet/cautions.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import { chanceCurve, timeLocation } from './curves.ts'

/** A simulation with what it is printed with. */
export interface RiskTold {
  /** Title of the project, and whether its data is invented. */
  title: string
  invented: boolean
  /** Instant from which seconds count. */
  origin: string
  simulation: SimulationResult
  breakthrough?: BreakthroughResult | undefined
  whatIfs?: Pick<WhatIfs, 'measures' | 'still'> | undefined
}

/** A3 landscape, mm. */
const PAGE = { width: 420, height: 297 }
const COLUMN = 138
const GUTTER = 8
const MOST_DRIVERS = 12
const DAY = 86_400

/**
 * How sure the restart is, on one sheet or more: chance curve, drive to breakthrough, percentiles with their errors and costs,
 * ranked drivers, and what each measure buys.
 */
export function riskSheets(told: RiskTold, options: SheetOptions = {}): Drawing[] {
  const room = roomOf(PAGE)
  const drawn = { ...room, right: room.right - COLUMN - GUTTER }
  const print = { ...room, left: room.right - COLUMN }
  const half = (room.right - room.left - GUTTER) / 2
  const later = [
    { ...room, right: room.left + half },
    { ...room, left: room.right - half },
  ]
  const pages = pour(rowsOf(told, COLUMN), [print], later)
  return pages.map((marks, i) =>
    drawing(`Restart under uncertainty, sheet ${i + 1} of ${pages.length}`, PAGE.width, PAGE.height, [
      ...borderMarks(PAGE, fieldsOf(told, options, i + 1, pages.length)),
      ...(i === 0 ? views(told, drawn) : []),
      ...marks,
    ]),
  )
}

function views({ simulation, breakthrough, origin }: RiskTold, room: PaperBox): Mark[] {
  if (breakthrough === undefined) return [chanceCurve(simulation, origin, room)]
  const middle = (room.top + room.bottom) / 2
  return [
    chanceCurve(simulation, origin, { ...room, bottom: middle - GUTTER / 2 }),
    timeLocation(breakthrough, origin, { ...room, top: middle + GUTTER / 2 }),
  ]
}

function fieldsOf(told: RiskTold, { revision, date, contentHash }: SheetOptions, page: number, pages: number): Field[] {
  const { simulation, origin } = told
  const issued = revision === undefined ? 'not issued' : `revision ${revision}`
  return [
    { name: 'Restart under uncertainty', words: told.title, under: 'A forecast from stated assumptions', share: 34 },
    {
      name: 'Restart',
      words: `P50 ${dayText(origin, simulation.restart.p50, true)}, P80 ${dayText(origin, simulation.restart.p80, true)}`,
      under: `${simulation.runs} runs, seed ${simulation.seed}; planned ${dayText(origin, simulation.planned, true)}`,
      share: 34,
    },
    {
      name: 'Revision',
      words: date === undefined ? issued : `${issued}, ${dateText(date)}`,
      under: contentHash === undefined ? 'content not fixed' : `content ${contentHash.slice(0, 12)}`,
      share: 24,
    },
    { name: 'Sheet', words: `${page} of ${pages} · A3`, under: told.invented ? INVENTED : '', share: 18 },
  ]
}

const number = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })
const words = (title: string, share: number): Column => ({ title, share })

function rowsOf(told: RiskTold, width: number): Row[] {
  const { simulation, whatIfs } = told
  return [
    ...percentileRows(told, width),
    ...driverRows(simulation, width),
    ...mergeRows(simulation, width),
    ...(whatIfs === undefined ? [] : [...measureRows(whatIfs, width), ...stillRows(whatIfs, width)]),
    headingRow('What the runs are', width),
    ...[simulation.method, ...simulation.notes, ...leftOut(simulation), DEFERRAL].flatMap((s) =>
      proseRows(`${s.charAt(0).toUpperCase()}${s.slice(1)}`, width, { size: SMALL, mark: '·' }),
    ),
  ]
}

function leftOut({ open, stuck, lost }: SimulationResult): string[] {
  return [
    ...(open.length > 0 ? [`open, and so not counted: ${open.join(', ')}`] : []),
    ...(stuck.length > 0 ? [`no calm hours found in some run: ${stuck.join(', ')}`] : []),
    ...(lost.length > 0 ? [`no activity in the network for ${lost.join(', ')}`] : []),
  ]
}

function percentileRows({ simulation, origin }: RiskTold, width: number): Row[] {
  const rows = (['p10', 'p50', 'p80', 'p90', 'mean'] as const).map(
    (name): TableRow => ({
      cells: [
        name === 'mean' ? 'mean' : name.toUpperCase(),
        dayText(origin, simulation.restart[name], true),
        showNumber(simulation.error[name] / DAY, 1),
        '',
        simulation.listed === undefined ? '' : dayText(origin, simulation.listed[name], true),
        showNumber(Math.round(simulation.cost[name] / 1000) * 1000, 0),
      ],
    }),
  )
  const { day } = simulation
  return [
    headingRow('Date and cost', width),
    ...tableRows(
      [
        words('Chance', 14),
        words('restart', 24),
        number('± days', 12),
        words('', 4),
        words(simulation.listed === undefined ? '' : 'site decides anew', 24),
        number('cost up to it', 24),
      ],
      rows,
      width,
    ),
    ...proseRows(
      `One more day costs ${showNumber(day.p50, 0)} at the P50 and ${showNumber(day.p80, 0)} at the P80 restart. ± is the standard error that so many runs leave.`,
      width,
      { size: SMALL, ink: 'quiet' },
    ),
    spaceRow(3),
  ]
}

const BAR = 34

/** Ranked drivers, each share as a bar to one scale beside its figure. */
function driverRows({ drivers }: SimulationResult, width: number): Row[] {
  const shown = drivers.filter(({ share }) => share > 0).slice(0, MOST_DRIVERS)
  const largest = shown[0]?.share ?? 1
  const bars = shown.map(
    ({ id, name, share }): Row => ({
      height: 4.2,
      marks: ([x, y]) => [
        text([x, y + 2.7], shortened(`${id}  ${name}`, SMALL, width - BAR - 12), { size: SMALL }),
        box(
          {
            left: x + width - BAR - 10,
            right: x + width - 10 - BAR * (1 - share / largest),
            top: y + 0.8,
            bottom: y + 3,
          },
          { fill: 'steel' },
        ),
        text([x + width, y + 2.7], share.toFixed(3), { size: SMALL, anchor: 'end', tabular: true }),
      ],
    }),
  )
  return [headingRow('What drives the spread', width, 'share of the variance of the restart'), ...bars, spaceRow(3)]
}

const MOST_MERGES = 4

function mergeRows({ merges }: SimulationResult, width: number): Row[] {
  if (merges.length === 0) return []
  const rows = merges
    .slice(0, MOST_MERGES)
    .map(
      ({ id, name, paths, bias }): TableRow => ({ cells: [`${id}  ${name}`, `${paths}`, showNumber(bias / DAY, 1)] }),
    )
  return [
    headingRow('Where paths meet, the latest decides', width, 'mean wait beyond the latest mean'),
    ...tableRows([words('Activity', 74), number('paths', 12), number('days', 14)], rows, width),
    spaceRow(3),
  ]
}

function measureRows({ measures }: Pick<WhatIfs, 'measures'>, width: number): Row[] {
  const rows = measures.map(
    (m): TableRow => ({
      cells: [
        `${m.id}  ${m.name}`,
        showNumber(m.price, 0),
        showNumber(m.savedP50, 1),
        showNumber(m.savedP80, 1),
        showNumber(m.errorP80, 1),
        m.perDay === undefined ? '' : showNumber(Math.round(m.perDay / 100) * 100, 0),
      ],
    }),
  )
  return [
    headingRow('What buys it back', width, 'days of the restart, on the same random numbers'),
    ...tableRows(
      [
        words('Measure', 50),
        number('price', 17),
        number('P50', 10),
        number('P80', 10),
        number('±', 8),
        number('a day of P80', 18),
      ],
      rows,
      width,
    ),
    spaceRow(3),
  ]
}

function stillRows({ still }: Pick<WhatIfs, 'still'>, width: number): Row[] {
  const rows = still.map(
    (s): TableRow => ({
      cells: [`${s.id}  ${s.name}`, showNumber(s.savedP50, 1), showNumber(s.savedP80, 1), showNumber(s.errorP80, 1)],
    }),
  )
  return [
    headingRow('Were one of them to stand still', width, 'days of the restart'),
    ...tableRows([words('Driver', 66), number('P50', 12), number('P80', 12), number('±', 10)], rows, width),
    spaceRow(3),
  ]
}
