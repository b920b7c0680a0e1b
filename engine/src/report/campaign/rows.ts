import { DAY } from '../civil.ts'
import type { PaperBox } from '../drawing.ts'
import type { Campaign } from './campaign.ts'
import type { Track } from './trackOf.ts'

/** Tracks that share a row: one piece, or light pieces of a kind as parallel threads. */
export interface Row {
  tracks: readonly Track[]
  /** Name without its number, when there are several. */
  name: string
  top: number
  bottom: number
  /** Middle of the tracks. */
  y: number
  hasWork: boolean
}

export interface Rows {
  rows: readonly Row[]
  rowOf: ReadonlyMap<string, Row>
  /** Paper y of a piece on its bay. */
  yOf: ReadonlyMap<string, number>
  lanes: ReadonlyMap<string, { top: number; bottom: number }>
}

export const LIGHT = 10_000
/** More tracks than this: light ones are bundled by bay and day, whatever they are called. */
const MANY = 34

/** Light pieces of one kind on one bay go together; of very many, all light ones of a bay that leave on one day. */
export function bundled(tracks: readonly Track[]): Track[][] {
  const bundles = new Map<string, Track[]>()
  for (const track of tracks) {
    const light = track.mass !== undefined && track.mass < LIGHT
    const kind = tracks.length > MANY ? `day ${Math.floor(track.out / DAY)}` : baseName(track.short)
    const key = light ? `${track.bay} ${track.off ?? ''} ${kind}` : `piece ${track.piece}`
    bundles.set(key, [...(bundles.get(key) ?? []), track])
  }
  return [...bundles.values()]
}

/** "Motor 4" → "Motor"; what two names have in common where they differ more. */
export const baseName = (name: string): string => name.replace(/[\s,-]*\d+$/, '')

const nameOf = (tracks: readonly Track[]): string => {
  const names = new Set(tracks.map((t) => baseName(t.short)))
  return names.size === 1 ? ([...names][0] as string) : 'light pieces'
}

/** Heights asked for on A2, mm. */
const PLAIN = 4.9
const WITH_WORK = 9.6
const THREAD = 0.62
const LANE_GAP = 1.2

interface AskedRow {
  bay: string
  tracks: Track[]
  hasWork: boolean
  height: number
}

function askedRows(campaign: Campaign): AskedRow[] {
  const bundles = bundled(campaign.tracks)
  return campaign.lanes.flatMap(({ bay }) =>
    bundles
      .filter((b) => b[0]?.bay === bay)
      .map((tracks) => {
        const hasWork = campaign.works.some((w) => w.where === bay && tracks.some((t) => t.piece === w.piece))
        return { bay, tracks, hasWork, height: (hasWork ? WITH_WORK : PLAIN) + (tracks.length - 1) * THREAD }
      }),
  )
}

/** Height that all lanes ask for, on A2. */
export const lanesHeight = (campaign: Campaign): number =>
  askedRows(campaign).reduce((sum, r) => sum + r.height, 0) + campaign.lanes.length * LANE_GAP

/** Rows of every lane from the top down, in the order of arrival, fitted to the room. */
export function rowsOf(campaign: Campaign, room: PaperBox): Rows {
  const f = (room.bottom - room.top) / lanesHeight(campaign)
  const lanes = new Map<string, { top: number; bottom: number }>()
  const rows: Row[] = []
  let y = room.top
  for (const { bay, tracks, hasWork, height } of askedRows(campaign)) {
    if (!lanes.has(bay)) y += LANE_GAP * f
    const lane = lanes.get(bay) ?? { top: y - LANE_GAP * f, bottom: y }
    const middle = hasWork ? y + (3.1 + ((tracks.length - 1) * THREAD) / 2) * f : y + (height / 2 + 0.9) * f
    rows.push({ tracks, name: nameOf(tracks), top: y, bottom: y + height * f, y: middle, hasWork })
    y += height * f
    lanes.set(bay, { top: lane.top, bottom: y })
  }
  const placed = rows.flatMap((row) => row.tracks.map((t, i) => [t.piece, row, threadY(row, i, f)] as const))
  return {
    rows,
    rowOf: new Map(placed.map(([piece, row]) => [piece, row])),
    yOf: new Map(placed.map(([piece, , at]) => [piece, at])),
    lanes,
  }
}

const threadY = ({ tracks, y }: Row, i: number, f: number): number => y + (i - (tracks.length - 1) / 2) * THREAD * f
