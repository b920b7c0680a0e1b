import { box, type Line, line, type Mark, type PaperBox, type PaperPoint, text } from '../drawing.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import { stroke } from './pens.ts'
import { LIGHT } from './rows.ts'
import type { Track } from './trackOf.ts'
import { moreOf } from './words.ts'

const HEAVY = 100_000

/** Width of a track by what is on it, mm on A2. */
export const trackWidth = (mass: number | undefined): number =>
  mass === undefined || mass < LIGHT ? 0.4 : mass < HEAVY ? 0.8 : 1.7

/** Where a track runs, in parts: what lies before, rises, lies on its bay, descends, lies after. */
export interface Way {
  before: PaperPoint[]
  rise: PaperPoint[]
  lane: PaperPoint[]
  descend: PaperPoint[]
  after: PaperPoint[]
}

/** The parts of a track that the paper shows; a part outside it is empty. */
export function wayOf(track: Track, campaign: Campaign, field: Field): Way {
  const { axis, machine } = field
  const [low, high] = [field.before(track), field.onBay(track)]
  const [up, top] = [axis.xAt(track.lifting), axis.xAt(track.out)]
  const back = track.back === undefined ? undefined : axis.xAt(track.back)
  const down = track.home === undefined ? undefined : axis.xAt(track.home)
  const home = campaign.sinking.home ?? campaign.stripBegins
  const named = machine.nameOf.get(track.piece)?.right ?? 0
  const first = track.off === undefined ? Math.min(Math.max(axis.xAt(home) + 1.2, named + 1), up) : up
  const leaves = campaign.sinking.breakOut?.start ?? campaign.restart ?? axis.to
  const last = track.off === undefined ? axis.xAt(leaves) : (down ?? 0)
  const part = (from: number | undefined, to: number | undefined, points: PaperPoint[]): PaperPoint[] =>
    from === undefined || to === undefined || to < axis.from || from > axis.to ? [] : points
  return {
    before: part(
      home,
      track.lifting,
      first < up
        ? [
            [first, low],
            [up, low],
          ]
        : [],
    ),
    rise: part(track.lifting, track.out, [
      [up, low],
      [top, high],
    ]),
    lane: part(track.out, track.back ?? axis.to, [
      [top, high],
      [back ?? axis.right, high],
    ]),
    descend: part(track.back, track.home, [
      [back as number, high],
      [down as number, low],
    ]),
    after: part(
      track.home,
      leaves,
      (down ?? last) < last
        ? [
            [down as number, low],
            [last, low],
          ]
        : [],
    ),
  }
}

/** One polyline for each run of parts that follow each other. */
export function runsOf({ before, rise, lane, descend, after }: Way): PaperPoint[][] {
  const runs: PaperPoint[][] = []
  for (const part of [before, rise, lane, descend, after]) {
    if (part.length === 0) continue
    const run = runs.at(-1)
    const [first] = part as [PaperPoint]
    const end = run?.at(-1)
    if (run !== undefined && end !== undefined && end[0] === first[0] && end[1] === first[1]) run.push(...part.slice(1))
    else runs.push([...part])
  }
  return runs
}

/** What lies behind a track is broken where it crosses: paper along its way. Threads of a row are cased together. */
export function trackCasing(track: Track, campaign: Campaign, field: Field): Mark[] {
  const { k } = field.layout.sheet
  const width = trackWidth(track.mass) * k
  return runsOf(wayOf(track, campaign, field)).map((run) => line(run, stroke(width + 1.3 * k, 'paper')))
}

/** The way of a piece: solid where it is done, hollow to come, dashed when light; a second line where it returns heavier. */
export function trackMarks(track: Track, campaign: Campaign, field: Field): Mark[] {
  const { k } = field.layout.sheet
  const way = wayOf(track, campaign, field)
  const width = trackWidth(track.mass) * k
  return [...body(track, way, width, campaign, field), ...heavier(track, way, width, k), ...openEnd(track, way, k)]
}

function body(track: Track, way: Way, width: number, campaign: Campaign, field: Field): Mark[] {
  const { today } = campaign
  const { k } = field.layout.sheet
  const split = today === undefined ? field.axis.left - 1 : field.axis.xAt(today)
  const done = runsOf(way).flatMap((run) => cutAt(run, split, 'left'))
  const isLight = track.mass === undefined || track.mass < LIGHT
  // parts of a light track are dashed one by one, so that threads beside each other keep step
  const ahead = (isLight ? partsOf(way) : runsOf(way)).flatMap((run) => cutAt(run, split, 'right'))
  const threads = (field.rows.rowOf.get(track.piece)?.tracks.length ?? 1) > 3
  return [
    ...done.map((run) => line(run, stroke(width, 'ink'))),
    ...ahead.flatMap((run) => (isLight ? dashed(run, threads ? width * 0.6 : width * 0.8, k) : hollow(run, width, k))),
  ]
}

const partsOf = ({ before, rise, lane, descend, after }: Way): PaperPoint[][] =>
  [before, rise, lane, descend, after].filter((part) => part.length > 1)

function hollow(run: PaperPoint[], width: number, k: number): Line[] {
  const inside = Math.max(0.25 * k, width - 0.46 * k)
  return [line(run, stroke(width, 'ink')), line(run, stroke(inside, 'paper'))]
}

const DASH = [1.4, 0.7] as const

/** Dashes that begin at a whole step across the sheet, whatever day the track begins. */
function dashed(run: PaperPoint[], width: number, k: number): Line[] {
  const [first, second] = run as [PaperPoint, PaperPoint]
  const step = (DASH[0] + DASH[1]) * k
  const pen = stroke(width, 'ink', [DASH[0] * k, DASH[1] * k])
  const isLevel = run.length === 2 && first[1] === second[1] && second[0] - first[0] > step
  if (!isLevel) return [line(run, pen)]
  const from: PaperPoint = [Math.ceil(first[0] / step) * step, first[1]]
  const end: PaperPoint = [from[0] - DASH[1] * k, first[1]]
  return [...(end[0] > first[0] ? [line([first, end], stroke(width))] : []), line([from, second], pen)]
}

/** The part of a run left or right of an upright line. */
function cutAt(run: readonly PaperPoint[], x: number, side: 'left' | 'right'): PaperPoint[][] {
  const keeps = (p: PaperPoint): boolean => (side === 'left' ? p[0] <= x : p[0] >= x)
  const result: PaperPoint[][] = []
  let current: PaperPoint[] = []
  run.forEach((p, i) => {
    const q = run[i - 1]
    if (q !== undefined && keeps(p) !== keeps(q) && p[0] !== q[0]) {
      const y = q[1] + ((x - q[0]) / (p[0] - q[0])) * (p[1] - q[1])
      current.push([x, y])
      if (!keeps(p)) {
        result.push(current)
        current = []
      }
    }
    if (keeps(p)) current.push(p)
  })
  if (current.length > 1) result.push(current)
  return result.filter((part) => part.length > 1)
}

/** What returns heavier descends with a second line beside it. */
function heavier(track: Track, way: Way, width: number, k: number): Mark[] {
  if (moreOf(track) <= 0 || way.descend.length === 0) return []
  const by = width / 2 + 0.75 * k
  return [
    line(
      way.descend.map(([x, y]): PaperPoint => [x + by, y]),
      stroke(0.3 * k, 'fail'),
    ),
  ]
}

/** A piece that does not come back, or whose return has no date, ends in a stop across its track. */
function openEnd(track: Track, { lane }: Way, k: number): Mark[] {
  const end = lane.at(-1)
  if (track.back !== undefined || end === undefined) return []
  return [
    line(
      [
        [end[0], end[1] - 1.2 * k],
        [end[0], end[1] + 1.2 * k],
      ],
      stroke(0.5 * k),
    ),
  ]
}

/** Turns and weighings on the track: a turned square, a small beam. */
export function eventMarks(track: Track, field: Field): Mark[] {
  const { axis, layout } = field
  const { k } = layout.sheet
  const y = field.onBay(track)
  return track.events.flatMap((event): Mark[] => {
    if (!axis.shows(event.at) || event.at < track.out || (track.back !== undefined && event.at > track.back)) return []
    const x = axis.xAt(event.at)
    if (event.kind === 'weighed')
      return [{ kind: 'circle', centre: [x, y], radius: 0.8 * k, fill: 'paper', stroke: stroke(0.3 * k) }]
    const r = 1.25 * k
    return [
      {
        kind: 'shape',
        loops: [
          [
            [x, y - r],
            [x + r, y],
            [x, y + r],
            [x - r, y],
          ],
        ],
        fill: 'paper',
        stroke: stroke(0.35 * k),
      },
    ]
  })
}

/** Boxes along a track that no label may stand on. */
export function trackBoxes(track: Track, campaign: Campaign, field: Field): PaperBox[] {
  const half = (trackWidth(track.mass) * field.layout.sheet.k) / 2 + 0.2
  return runsOf(wayOf(track, campaign, field)).flatMap((run) =>
    run.slice(1).map(([x, y], i): PaperBox => {
      const [px, py] = run[i] as PaperPoint
      return {
        left: Math.min(x, px) - half,
        right: Math.max(x, px) + half,
        top: Math.min(y, py) - half,
        bottom: Math.max(y, py) + half,
      }
    }),
  )
}

/** The block of the machine in the shaft, from when it lies on its cradle to when it leaves. */
export function machineBlock(campaign: Campaign, field: Field): Mark[] {
  const { axis, layout, machine } = field
  const { home, breakOut } = campaign.sinking
  const { k } = layout.sheet
  const [from, to] = [home ?? campaign.stripBegins, breakOut?.finish ?? campaign.restart ?? axis.to]
  if (from > axis.to || to < axis.from) return []
  const [left, right] = [axis.xAt(from), axis.xAt(to)]
  const leaves = axis.xAt(breakOut?.start ?? to)
  return [
    box({ left, right, top: machine.top, bottom: machine.bottom }, { fill: 'paper', stroke: stroke(0.3 * k) }),
    ...machineNames(field),
    ...(breakOut === undefined || !axis.shows(breakOut.start)
      ? []
      : [
          box(
            { left: leaves, right, top: machine.top, bottom: machine.bottom },
            { fill: 'steel', stroke: stroke(0.3 * k) },
          ),
          arrow(
            leaves + 0.5 * k,
            Math.min(axis.right, Math.max(right, leaves + 6 * k)),
            (machine.top + machine.bottom) / 2,
            k,
          ),
        ]),
  ]
}

const arrow = (left: number, right: number, y: number, k: number): Mark => ({
  kind: 'shape',
  loops: [
    [
      [left, y - 0.25 * k],
      [right - 2.4 * k, y - 0.25 * k],
      [right - 2.4 * k, y - 1.1 * k],
      [right, y],
      [right - 2.4 * k, y + 1.1 * k],
      [right - 2.4 * k, y + 0.25 * k],
      [left, y + 0.25 * k],
    ],
  ],
  fill: 'ink',
})

/** What lies in the machine, at the left of its row, where its track begins. */
const machineNames = ({ machine, layout }: Field): Mark[] =>
  machine.rows.flatMap(({ name }) =>
    name === undefined ? [] : [text([name.left, name.y], name.words, { size: layout.sheet.type.small })],
  )
