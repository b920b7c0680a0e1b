import type { UnitSystem } from '../../working/quantity.ts'
import { textWidth } from '../fontWidth.ts'
import type { Campaign } from './campaign.ts'
import type { Sheet } from './layout.ts'
import { baseName, bundled } from './rows.ts'
import type { TimeAxis } from './timeAxis.ts'
import type { Track } from './trackOf.ts'
import { massText } from './words.ts'

/** What a row of the machine is called, with its place. */
interface RowName {
  words: string
  left: number
  right: number
  y: number
}

/** Rows of the machine block: pieces that come out of the shaft, in the order of their levels, not to scale. */
export interface MachineRows {
  top: number
  bottom: number
  rows: readonly { tracks: readonly Track[]; y: number; name: RowName | undefined }[]
  yOf: ReadonlyMap<string, number>
  nameOf: ReadonlyMap<string, RowName>
}

const THREAD = 0.5

export function machineRows(
  campaign: Campaign,
  axis: TimeAxis,
  sheet: Sheet,
  paperY: (level: number) => number,
  units: UnitSystem,
): MachineRows {
  const { machine, shaft } = campaign.model.project
  const own = campaign.tracks.filter((t) => t.off === undefined)
  const levels = own.map((t) => t.level)
  const radius = (machine?.shieldDiameter?.value ?? Math.max(6, Math.max(...levels) - Math.min(...levels) + 6)) / 2
  const centre = machine?.pose.origin[2].value ?? (shaft?.slabTop.value as number) + radius
  const floor = shaft?.slabTop.value
  const [top, bottom] = [
    paperY(Math.min(-0.5, centre + radius)),
    paperY(Math.max(floor ?? Number.NEGATIVE_INFINITY, centre - radius)),
  ]
  const bundles = bundled(own).sort((a, b) => meanLevel(b) - meanLevel(a))
  const air = (bottom - top) / (bundles.length + 1.3)
  const rows = bundles.map((tracks, i) => {
    const y = top + air * (i + 0.65)
    return { tracks, y, name: nameAt(tracks, y, air, campaign, axis, sheet, units) }
  })
  const yOf = new Map(
    rows.flatMap(({ tracks, y }) => {
      // many threads in one row would run together: there they lie on one line
      const pitch = (air * 0.7) / tracks.length < THREAD ? 0 : THREAD
      return tracks.map((t, i) => [t.piece, y + (i - (tracks.length - 1) / 2) * pitch] as const)
    }),
  )
  const nameOf = new Map(
    rows.flatMap(({ tracks, name }) => (name === undefined ? [] : tracks.map((t) => [t.piece, name] as const))),
  )
  return { top, bottom, rows, yOf, nameOf }
}

const meanLevel = (tracks: readonly Track[]): number => tracks.reduce((sum, t) => sum + t.level, 0) / tracks.length

/**
 * Name and mass at the left of a row inside the block, where they end before anything begins to move or is worked on there;
 * else beside the block, in the open shaft.
 */
function nameAt(
  tracks: readonly Track[],
  y: number,
  air: number,
  campaign: Campaign,
  axis: TimeAxis,
  { type, k }: Sheet,
  units: UnitSystem,
): RowName | undefined {
  const [first] = tracks as [Track]
  const home = campaign.sinking.home ?? campaign.stripBegins
  if (air < type.small * 0.98 || home > axis.to || first.lifting < axis.from) return undefined
  const block = Math.max(axis.left, axis.xAt(home))
  const busy = Math.min(
    ...campaign.tracks.map((t) => t.lifting).filter((t) => t > axis.from),
    ...campaign.works.filter((w) => w.inMachine && w.finish > axis.from).map((w) => w.start),
  )
  const dug = campaign.sinking.dig.at(-1)?.finish
  const open = home <= axis.from ? block : Math.max(axis.left, dug === undefined ? axis.left : axis.xAt(dug))
  const name = tracks.length === 1 ? first.short : `${tracks.length} × ${baseName(first.short)}`
  const full = `${name}  ${massText(first.mass, units)}`
  const inside = axis.xAt(busy) - block - 2.4 * k
  const outside = block - open - 3 * k
  const width = (words: string): number => textWidth(words, { size: type.small, weight: 400, tabular: false })
  const base = y + type.small * 0.35
  const at = (words: string, left: number): RowName => ({ words, left, right: left + width(words), y: base })
  if (width(full) <= inside) return at(full, block + 1.4 * k)
  if (width(full) <= outside) return at(full, block - 1 * k - width(full))
  if (width(name) <= inside) return at(name, block + 1.4 * k)
  return width(name) <= outside ? at(name, block - 1 * k - width(name)) : undefined
}
