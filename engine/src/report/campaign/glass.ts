import type { UnitSystem } from '../../working/quantity.ts'
import { DAY, dayText } from '../civil.ts'
import { box, type Mark, type PaperBox, type PaperPoint, standFor, text } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import type { LiftDay, LiftRun } from './liftDays.ts'
import { level, stroke, tear, upright } from './pens.ts'
import { dayWords, hookText, KIND_WORDS, weekdayText } from './words.ts'

const LEAST_WIDTH = 42
const MOST_WIDTH = 130

/** Days of lifting as a row of equal windows: hours across, true elevation also above the collar, ribbons as high as the piece. */
export function glassMarks(campaign: Campaign, field: Field, units: UnitSystem): Mark[] {
  const { glass, sheet } = field.layout
  if (glass === undefined) return []
  const most = Math.max(2, Math.floor((glass.right - glass.left) / (LEAST_WIDTH * sheet.k)))
  const days = daysOn(campaign, field)
  const chosen = chosenDays(days, most)
  if (chosen.length === 0) return []
  const gap = 2 * sheet.k
  const width = Math.min(MOST_WIDTH * sheet.k, (glass.right - glass.left - gap * (chosen.length - 1)) / chosen.length)
  const scale = elevationOf(campaign, glass, sheet.k, chosen)
  const windows = chosen.map((day, i) => {
    const left = glass.left + i * (width + gap)
    return { day, room: { ...glass, left, right: left + width } }
  })
  return [
    ...windows.map(({ day, room }) => wedge(day, room, field)),
    ...windows.map(({ day, room }) =>
      standFor(
        pointerOfDay(day),
        dayWords(day, campaign, units),
        windowMarks(day, room, campaign, field, scale, units),
      ),
    ),
  ]
}

const pointerOfDay = ({ runs }: LiftDay): string =>
  `/lifts/${(runs.find((r) => r.isClose) ?? (runs[0] as LiftRun)).lift}`

/** Days with a lift of which the paper shows a part. */
export const daysOn = ({ lifts }: Campaign, { axis }: Field): LiftDay[] =>
  lifts.filter(({ day }) => (day + 1) * DAY > axis.from && day * DAY < axis.to)

/** All days where they fit; else those that turn, use two hooks or come near the rating, then the heaviest; in their order. */
export function chosenDays(days: readonly LiftDay[], most: number): LiftDay[] {
  if (days.length <= most) return [...days]
  const rank = ({ runs }: LiftDay): number =>
    (runs.some((r) => r.isClose) ? 1e9 : 0) + Math.max(...runs.map((r) => r.demand ?? 1e8))
  return [...days]
    .sort((a, b) => rank(b) - rank(a) || a.day - b.day)
    .slice(0, most)
    .sort((a, b) => a.day - b.day)
}

/** What is not under the glass, in one line. */
export function tallyWords(campaign: Campaign, field: Field, units: UnitSystem): string {
  const { glass, sheet } = field.layout
  const days = daysOn(campaign, field)
  if (glass === undefined || days.length === 0) return ''
  const most = Math.max(2, Math.floor((glass.right - glass.left) / (LEAST_WIDTH * sheet.k)))
  const chosen = new Set(chosenDays(days, most))
  const rest = days.filter((d) => !chosen.has(d))
  if (rest.length === 0) return ''
  const runs = rest.flatMap((d) => d.runs)
  const heaviest = runs.reduce((a, b) => ((b.demand ?? 0) > (a.demand ?? 0) ? b : a))
  const use = Math.max(...runs.map((r) => r.use ?? 0))
  return `Not under the glass: ${runs.length} lifts on ${rest.length} days, the heaviest ${heaviest.short} with ${hookText(heaviest, units)}, use at most ${use.toFixed(2)}.`
}

interface Elevation {
  y(z: number): number
  head: number
  foot: number
}

function elevationOf({ model }: Campaign, glass: PaperBox, k: number, days: readonly LiftDay[]): Elevation {
  const { shaft } = model.project
  const heights = days.flatMap((d) => d.runs).flatMap((r) => r.heights)
  const floor = shaft?.slabTop.value ?? Math.min(0, ...heights.map((h) => h.low))
  const high = Math.max(8, ...heights.map((h) => h.high)) + 1
  const [head, foot] = [glass.top + 13.5 * k, glass.bottom - 4.6 * k]
  const mm = (foot - head) / (high - floor)
  return { y: (z) => foot - (z - floor) * mm, head, foot }
}

function wedge({ day }: LiftDay, room: PaperBox, { axis, layout }: Field): Mark {
  const { k } = layout.sheet
  return {
    kind: 'shape',
    loops: [
      [
        [axis.xAt(day * DAY), layout.field.bottom + 0.6 * k],
        [axis.xAt((day + 1) * DAY), layout.field.bottom + 0.6 * k],
        [room.right, room.top],
        [room.left, room.top],
      ],
    ],
    fill: 'pale',
    stroke: stroke(0.1 * k, 'hair'),
  }
}

function windowMarks(
  day: LiftDay,
  room: PaperBox,
  campaign: Campaign,
  { layout }: Field,
  elevation: Elevation,
  units: UnitSystem,
): Mark[] {
  const { k } = layout.sheet
  const { from, to } = campaign.hours
  const { shaft } = campaign.model.project
  const hourAt = (hour: number): number => room.left + ((hour - from) / (to - from)) * (room.right - room.left)
  const collar = elevation.y(0)
  return [
    box({ left: room.left, right: room.right, top: room.top, bottom: room.bottom }, { fill: 'paper' }),
    level(room.top, room.left, room.right, stroke(0.45 * k)),
    ...headWords(day, room, campaign, layout.sheet, units),
    box({ left: room.left, right: room.right, top: collar, bottom: elevation.foot }, { fill: 'ground' }),
    ...[3, 6, 9, 12, 15, 18, 21]
      .filter((h) => h > from && h < to)
      .flatMap((h): Mark[] => [
        upright(hourAt(h), elevation.foot, elevation.foot + 0.9 * k, stroke(0.2 * k)),
        text([hourAt(h), elevation.foot + 0.9 * k + layout.sheet.type.small], String(h), {
          size: layout.sheet.type.small,
          ink: 'quiet',
          anchor: 'middle',
        }),
      ]),
    level(elevation.foot, room.left, room.right, stroke(0.25 * k)),
    ...day.runs.flatMap((run) => ribbon(run, day.day, { from, to }, hourAt, elevation, campaign, k)),
    level(collar, room.left, room.right, stroke(0.4 * k)),
    ...(shaft === undefined
      ? []
      : [
          level(
            elevation.y(shaft.barrier.value as number),
            room.left,
            room.right,
            stroke(0.18 * k, 'quiet', [1 * k, 0.7 * k]),
          ),
        ]),
  ]
}

type Sheet = Field['layout']['sheet']

function headWords(
  { day, runs }: LiftDay,
  room: PaperBox,
  { origin }: Campaign,
  { k, type }: Sheet,
  units: UnitSystem,
): Mark[] {
  const width = room.right - room.left - 0.8 * k
  const bold = { size: type.small, weight: 700, tabular: false } as const
  const plain = { size: type.small, weight: 400, tabular: false } as const
  const heaviest = runs.reduce((a, b) => ((b.demand ?? 0) > (a.demand ?? 0) ? b : a))
  const names = [...new Set(runs.map((r) => `${r.short}, ${KIND_WORDS[r.kind]}`))]
  const fits = (words: string, face: typeof bold | typeof plain): boolean => textWidth(words, face) <= width
  const name =
    [names.join('; '), `${names[0]}${names.length > 1 ? ` + ${names.length - 1}` : ''}`, heaviest.short].find((w) =>
      fits(w, bold),
    ) ?? ''
  const date =
    [
      `${weekdayText(origin, day * DAY)} ${dayText(origin, day * DAY)} · ${hookText(heaviest, units)}`,
      `${dayText(origin, day * DAY)} · ${hookText(heaviest, units)}`,
      dayText(origin, day * DAY),
    ].find((w) => fits(w, plain)) ?? ''
  const use = heaviest.use === undefined ? 'use open' : `use ${heaviest.use.toFixed(3)}`
  const fails = runs.some((r) => r.fails)
  const top = room.top + type.small + 0.5 * k
  const step = type.small * 1.22
  return [
    text([room.left, top], name, bold),
    text([room.left, top + step], date, { ...plain, ink: 'quiet' }),
    text([room.left, top + 2 * step], fails ? `${use}, a check FAILS` : use, {
      ...plain,
      ink: fails ? 'fail' : 'quiet',
    }),
  ]
}

/** A piece as high as it is along its way; at rest before and after, from rigging to unrigging. */
function ribbon(
  run: LiftRun,
  day: number,
  { from, to }: { from: number; to: number },
  hourAt: (hour: number) => number,
  elevation: Elevation,
  { today }: Campaign,
  k: number,
): Mark[] {
  const [first, last] = [run.heights[0], run.heights.at(-1)]
  if (first === undefined || last === undefined) return []
  const hour = (seconds: number): number => Math.min(to, Math.max(from, seconds / 3600 - day * 24))
  const heights = [{ ...first, at: run.rigged }, ...run.heights, { ...last, at: run.landed }]
  const points = heights.map((h) => ({ x: hourAt(hour(h.at)), low: elevation.y(h.low), high: elevation.y(h.high) }))
  const loop: PaperPoint[] = [
    ...points.map(({ x, low }): PaperPoint => [x, Math.min(low, elevation.foot)]),
    ...points.reverse().map(({ x, high }): PaperPoint => [x, high]),
  ]
  const isDone = today !== undefined && run.finish <= today
  const over = run.finish > (day + to / 24) * DAY
  return [
    { kind: 'shape', loops: [loop], fill: isDone ? 'steel' : 'paper', stroke: stroke(0.3 * k) },
    ...(over ? [tear(hourAt(to), (elevation.head + elevation.foot) / 2, k, stroke(0.3 * k, 'fail'))] : []),
  ]
}

/** The caption above the windows. */
export const glassWords = ({ hours }: Campaign): string =>
  `Lift days under the glass: hours ${hours.from} to ${hours.to}, true elevation also above the collar; each ribbon is as high as the piece, the dashed line is the barrier.`
