import type { UnitSystem } from '../../working/quantity.ts'
import { DAY } from '../civil.ts'
import type { Campaign } from './campaign.ts'
import { fieldSides, type Layout, layoutOf, type Sheet } from './layout.ts'
import { type MachineRows, machineRows } from './machineRows.ts'
import { lanesHeight, type Rows, rowsOf } from './rows.ts'
import { packed } from './supplyMarks.ts'
import { type TimeAxis, timeAxis } from './timeAxis.ts'
import type { Track } from './trackOf.ts'

/** Where things lie: time across, elevation up, lanes above the collar. */
export interface Field {
  axis: TimeAxis
  layout: Layout
  rows: Rows
  machine: MachineRows
  /** Paper y of a level below the collar. */
  yOf(level: number): number
  /** Paper y of a piece on its bay, and of where it comes from: the machine, or the piece it is taken off. */
  onBay(track: Track): number
  before(track: Track): number
}

/** What stretch of time is drawn, days from the start, and how. */
export interface Stretch {
  from?: number
  to?: number
  isEven?: boolean
}

export function fieldOf(campaign: Campaign, sheet: Sheet, stretch: Stretch, units: UnitSystem): Field {
  const sides = fieldSides(sheet)
  const stripDays = Math.floor(Math.min(campaign.stripBegins, campaign.sinking.home ?? campaign.stripBegins) / DAY)
  const firstLift = campaign.lifts[0]?.day ?? stripDays
  const axis = timeAxis({
    from: stretch.from ?? Math.floor(campaign.begin / DAY),
    to: stretch.to ?? Math.ceil(campaign.end / DAY),
    lifts: [
      ...campaign.lifts.map((l) => l.day),
      ...daysBetween(stripDays, Math.min(firstLift, stripDays + LONGEST_STRIP)),
    ],
    works: campaign.works.map((w) => [Math.floor(w.start / DAY), Math.ceil(w.finish / DAY)] as const),
    ...sides,
    ...(sheet.head ? {} : { leastWait: ON_SCREEN }),
    ...(stretch.isEven === undefined ? {} : { isEven: stretch.isEven }),
  })
  const layout = layoutOf(campaign, sheet, lanesHeight(campaign), packed(campaign, axis, sheet).rows)
  const yOf = (level: number): number => layout.collar - (level * 1000) / layout.scale
  const rows = rowsOf(campaign, layout.lanes)
  const machine = machineRows(campaign, axis, sheet, yOf, units)
  const onBay = (track: Track): number => rows.yOf.get(track.piece) as number
  const before = (track: Track): number =>
    track.off === undefined ? (machine.yOf.get(track.piece) as number) : (rows.yOf.get(track.off) ?? machine.top)
  return { axis, layout, rows, machine, yOf, onBay, before }
}

/** On the page one can come closer: waiting may be drawn narrower before it is cut, mm a day. */
const ON_SCREEN = 0.08

/** Days from the machine on its cradle to the first lift that are drawn at the pace of lifts. */
const LONGEST_STRIP = 30

const daysBetween = (from: number, to: number): number[] =>
  Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i)
