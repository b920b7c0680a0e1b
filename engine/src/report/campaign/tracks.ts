import { line, type Mark, type PaperPoint, type Stroke } from '../drawing.ts'
import { HIDDEN } from '../paper/pen.ts'
import type { Campaign, Track } from './campaign.ts'
import type { Field } from './field.ts'

const LIGHT = 10_000
const HEAVY = 100_000

/** Width of a track by what is on it, mm. */
const trackWidth = (mass: number | undefined): number =>
  mass === undefined || mass < LIGHT ? 0.4 : mass < HEAVY ? 0.8 : 1.7

/** The way of a piece: in the machine or on its parent's lane, up, along its lane, down again. */
export function trackMarks(track: Track, campaign: Campaign, field: Field): Mark[] {
  const points = trackPoints(track, campaign, field)
  const width = trackWidth(track.mass)
  const done = campaign.today !== undefined && track.out <= campaign.today
  const under = line(points, { width: width + 1.4, ink: 'paper' })
  if (done) return [under, line(points, { width, ink: 'ink' })]
  if (width < 0.8) return [under, line(points, { ...HIDDEN, width })]
  const open: Stroke = { width: width - 0.5, ink: 'paper' }
  return [under, line(points, { width, ink: 'ink' }), line(points, open)]
}

function trackPoints(track: Track, campaign: Campaign, field: Field): PaperPoint[] {
  const [x1, x2] = [field.axis.xAt(track.out), field.axis.xAt(track.back ?? campaign.end)]
  const [low, high] = [startY(track, campaign, field), laneY(track, campaign, field)]
  const before = Math.max(field.room.left, x1 - 12)
  const start: PaperPoint[] =
    track.off === undefined
      ? [
          [before, low],
          [x1, low],
        ]
      : [[x1, low]]
  const end: PaperPoint[] =
    track.back === undefined
      ? [[x2, high]]
      : [
          [x2, high],
          [x2, low],
          ...(track.off === undefined ? [[Math.min(field.room.right, x2 + 12), low] as PaperPoint] : []),
        ]
  return [...start, [x1, high], ...end]
}

/** Rows within a lane, in the order of arrival. */
export function laneY(track: Track, { tracks }: Campaign, field: Field): number {
  const { top, bottom } = field.lanes.get(track.bay) as { top: number; bottom: number }
  const own = tracks.filter((t) => t.bay === track.bay)
  return top + ((bottom - top) * (own.indexOf(track) + 1)) / (own.length + 1)
}

/** In the machine: by level, evenly spaced; off another piece: that piece's lane. */
function startY(track: Track, campaign: Campaign, field: Field): number {
  const parent = campaign.tracks.find((t) => t.piece === track.off)
  if (parent !== undefined) return laneY(parent, campaign, field)
  const own = campaign.tracks.filter((t) => t.off === undefined).sort((a, b) => b.level - a.level)
  const levels = own.map((t) => t.level)
  const [top, bottom] = [field.yOf(Math.max(...levels) + 1.5), field.yOf(Math.min(...levels) - 3.5)]
  return top + ((bottom - top) * (own.indexOf(track) + 0.5)) / own.length
}

/** Light pieces of one kind on one bay go out together: one label for them. */
export function bundled(tracks: readonly Track[]): Track[][] {
  const bundles = new Map<string, Track[]>()
  for (const track of tracks) {
    const light = track.mass !== undefined && track.mass < LIGHT
    const key = light ? `${track.bay} ${track.name.replace(/[\s-]*\d+$/, '')}` : track.piece
    bundles.set(key, [...(bundles.get(key) ?? []), track])
  }
  return [...bundles.values()]
}
