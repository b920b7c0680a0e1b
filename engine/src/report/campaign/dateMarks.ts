import { DAY, dayText } from '../civil.ts'
import { box, type Mark, type PaperBox, standFor, type Text, text, textBox } from '../drawing.ts'
import { hatch } from '../paper/hatch.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import type { Spot, Wish } from './labelBook.ts'
import { stroke, together, upright } from './pens.ts'
import { dateWords } from './words.ts'

/** Instants of the simulated restart, s from the start of the programme. */
export interface Simulated {
  p10?: number
  p50: number
  p80: number
  p90?: number
}

/** Restart as planned, as the earliest, and as simulated: a hatch from the even chance to four in five. */
export function restartMarks(campaign: Campaign, field: Field, simulated: Simulated | undefined): Mark[] {
  const { axis, layout } = field
  const { k } = layout.sheet
  const [top, bottom] = [layout.wind.top, layout.field.bottom]
  const { restart, restartUnlimited, agreed, origin } = campaign
  const marks: Mark[] = []
  if (simulated !== undefined && simulated.p80 > axis.from && simulated.p50 < axis.to) {
    const room: PaperBox = { left: axis.xAt(simulated.p50), right: axis.xAt(simulated.p80), top, bottom }
    const words = `Restart with an even chance by ${dateWords(origin, simulated.p50)}, with four in five by ${dateWords(origin, simulated.p80)}.`
    marks.push(
      standFor('/programme/restart', words, [
        ...together(hatch(box(room, {}).loops, 1.7 * k, Math.PI / 4, stroke(0.15 * k, 'fail'))),
        ...(axis.shows(simulated.p50)
          ? [upright(room.left, top, bottom, stroke(0.35 * k, 'fail', [2 * k, 1 * k]))]
          : []),
        ...(axis.shows(simulated.p80) ? [upright(room.right, top, bottom, stroke(0.6 * k, 'fail'))] : []),
        ...[simulated.p10, simulated.p90].flatMap((at) =>
          at === undefined || !axis.shows(at)
            ? []
            : [upright(axis.xAt(at), top, bottom, stroke(0.2 * k, 'fail', [0.4 * k, 0.9 * k]))],
        ),
      ]),
    )
  }
  if (
    restartUnlimited !== undefined &&
    axis.shows(restartUnlimited) &&
    Math.abs(restartUnlimited - (restart ?? 0)) > DAY
  )
    marks.push(upright(axis.xAt(restartUnlimited), top, bottom, stroke(0.2 * k, 'quiet', [0.5 * k, 0.9 * k])))
  if (agreed?.restart !== undefined && axis.shows(agreed.restart))
    marks.push(
      standFor('/programme/baselines', `Restart as agreed, ${agreed.name}: ${dateWords(origin, agreed.restart)}.`, [
        upright(axis.xAt(agreed.restart), top, bottom, stroke(0.25 * k, 'quiet', [0.3 * k, 0.9 * k])),
      ]),
    )
  if (restart !== undefined && axis.shows(restart))
    marks.push(
      standFor('/programme/restart', `Restart planned ${dateWords(origin, restart)}.`, [
        upright(axis.xAt(restart), top, bottom, stroke(0.5 * k)),
      ]),
    )
  return marks
}

/** What the dates are called: beside their line, as high among the lanes as there is room, in one line where two find none. */
export function dateWishes(campaign: Campaign, field: Field, simulated: Simulated | undefined): Wish[] {
  const { axis, layout } = field
  const { k, type } = layout.sheet
  const { restart, restartUnlimited, agreed, origin } = campaign
  const apart = restart !== undefined && restartUnlimited !== undefined && Math.abs(restart - restartUnlimited) > DAY
  const dates: { at: number | undefined; words: string; ink: 'ink' | 'quiet' | 'fail' }[] = [
    { at: apart ? restartUnlimited : undefined, words: 'earliest, nobody queues', ink: 'quiet' },
    { at: agreed?.restart, words: 'as agreed', ink: 'quiet' },
    { at: restart, words: restartName(campaign, apart), ink: 'ink' },
    { at: simulated?.p10, words: 'one in ten', ink: 'fail' },
    { at: simulated?.p50, words: 'even chance', ink: 'fail' },
    { at: simulated?.p80, words: 'four in five', ink: 'fail' },
    { at: simulated?.p90, words: 'nine in ten', ink: 'fail' },
  ]
  const size = type.small
  const [top, bottom] = [layout.uses.bottom, layout.lanes.bottom]
  return dates.flatMap(({ at, words, ink }): Wish[] => {
    if (at === undefined || !axis.shows(at)) return []
    const day = dayText(origin, at, true)
    return [
      {
        forms: [[words, day], [`${words} ${day}`]],
        spots: besideLine(axis.xAt(at), 0.9 * k, { from: top + size * 1.15, to: bottom, step: size / 2 }),
        size,
        ink,
        weight: 700,
        isDue: true,
      },
    ]
  })
}

/** Left of an upright, then right of it, from the top down. */
function besideLine(x: number, air: number, { from, to, step }: { from: number; to: number; step: number }): Spot[] {
  const count = Math.max(1, Math.floor((to - from) / step))
  return Array.from({ length: count }, (_, i): Spot[] => [
    { x: x - air, y: from + i * step, anchor: 'end' },
    { x: x + air, y: from + i * step, anchor: 'start' },
  ]).flat()
}

/** What is drawn ahead of a data date is a forecast, no longer the plan. */
const restartName = ({ isActual }: Campaign, apart: boolean): string =>
  `restart${apart ? ', with queues' : isActual ? ', forecast' : ' as planned'}`

/** The flag of today under the ruler, kept on the sheet; undefined when today is not shown. */
export function todayFlag({ today, origin, isActual }: Campaign, { axis, layout }: Field): Text | undefined {
  if (today === undefined || !axis.shows(today)) return undefined
  const { k, type } = layout.sheet
  const look = { size: type.small, weight: 700, ink: 'paper', anchor: 'middle' } as const
  const words = text(
    [axis.xAt(today), layout.ruler + 1.6 * k + type.small * 0.9],
    `${isActual ? 'data date' : 'today'} ${dayText(origin, today)}`,
    look,
  )
  const half = words.width / 2 + 1
  const x = Math.min(axis.right - half, Math.max(axis.left + half, words.at[0]))
  return { ...words, at: [x, words.at[1]] }
}

/** Today: a red line from the ruler to the foot, with its flag on the ruler. */
export function todayMarks(campaign: Campaign, field: Field): Mark[] {
  const { axis, layout } = field
  const { today, origin, isActual } = campaign
  const words = todayFlag(campaign, field)
  if (today === undefined || words === undefined) return []
  const flag = textBox(words)
  return [
    standFor(
      '/programme/today',
      isActual
        ? `Data date, ${dateWords(origin, today)}: before it what happened, after it the forecast.`
        : `Today is ${dateWords(origin, today)}.`,
      [
        upright(axis.xAt(today), layout.ruler, layout.field.bottom, stroke(0.5 * layout.sheet.k, 'fail')),
        box(
          { left: flag.left - 1, right: flag.right + 1, top: flag.top - 0.7, bottom: flag.bottom + 0.5 },
          { fill: 'fail' },
        ),
        words,
      ],
    ),
  ]
}
