import type { BreakthroughResult, SimulationResult } from '../../risk/index.ts'
import { dayText } from '../civil.ts'
import { line, type Mark, type PaperBox, type PaperPoint, text, type View } from '../drawing.ts'
import { EDGE, HEAD, HIDDEN, SMALL, THIN } from '../paper/pen.ts'
import { aroundMonths, frameOf, levelMarks, monthMarks, type PlotField } from './plotField.ts'

const TITLE = 8
const AXIS = 12
const FOOT = 5

const field = (room: PaperBox, [from, to]: readonly [number, number], top: number): PlotField => {
  const box = { left: room.left + AXIS, right: room.right, top: room.top + TITLE, bottom: room.bottom - FOOT }
  return {
    box,
    x: (t) => box.left + ((t - from) / (to - from)) * (box.right - box.left),
    y: (v) => box.bottom - (v / top) * (box.bottom - box.top),
  }
}

const titleMark = (room: PaperBox, words: string): Mark =>
  text([room.left, room.top + HEAD], words, { size: HEAD, weight: 700 })

const POINTS = 160
const NEARLY_ALL = 0.995

/** Share of the runs that have restarted by a day, with the plan's date and the percentiles on it. */
export function chanceCurve(simulation: SimulationResult, origin: string, room: PaperBox): View {
  const { sorted, planned, restart, band } = simulation
  // the last few runs in a thousand would take half the paper
  const last = Math.floor(NEARLY_ALL * (sorted.length - 1))
  const span = aroundMonths(origin, Math.min(sorted[0] as number, planned), sorted[last] as number)
  const plot = field(room, span, 1)
  const { x, y, box: b } = plot
  const points = Array.from({ length: POINTS + 1 }, (_, i): PaperPoint => {
    const rank = Math.round((i / POINTS) * last)
    return [x(sorted[rank] as number), y((rank + 1) / sorted.length)]
  })
  const called = (['p10', 'p50', 'p80', 'p90'] as const).map((name) => ({ name, share: Number(name.slice(1)) / 100 }))
  return {
    kind: 'view',
    id: 'chance',
    title: 'Chance that the drive has resumed',
    marks: [
      titleMark(room, 'Chance that the drive has resumed'),
      ...monthMarks(origin, span, plot),
      ...levelMarks(
        [0, 0.2, 0.4, 0.6, 0.8, 1].map((value) => ({ value, words: value.toFixed(1) })),
        plot,
      ),
      line(
        [
          [x(planned), b.top],
          [x(planned), b.bottom],
        ],
        HIDDEN,
      ),
      text([x(planned) + 1.2, b.top + 3.4], `plan ${dayText(origin, planned, true)}`, { size: SMALL }),
      line(points, EDGE),
      ...called.flatMap(({ name, share }): Mark[] => [
        line(
          [
            [x(band[name][0]), y(share)],
            [x(band[name][1]), y(share)],
          ],
          { width: 1.1, ink: 'now' },
        ),
        text(
          [x(band[name][1]) + 1.6, y(share) + 2.6],
          `${name.toUpperCase()} ${dayText(origin, restart[name], true)}`,
          {
            size: SMALL,
            weight: name === 'p50' || name === 'p80' ? 700 : 400,
          },
        ),
      ]),
      frameOf(plot),
    ],
  }
}

/** Distance driven over time: the middle course, and the stretch between one run in ten and four in five. */
export function timeLocation(breakthrough: BreakthroughResult, origin: string, room: PaperBox): View {
  const { course, reaches } = breakthrough
  const length = course.at(-1)?.at as number
  const span = aroundMonths(origin, course[0]?.p10 as number, course.at(-1)?.p80 as number)
  const plot = field(room, span, length)
  const { x, y } = plot
  const run = (name: 'p10' | 'p50' | 'p80'): PaperPoint[] => course.map((c) => [x(c[name]), y(c.at)])
  const ends = [0, ...reaches.map(({ to }) => to)]
  return {
    kind: 'view',
    id: 'drive',
    title: 'The drive after the restart',
    marks: [
      titleMark(room, 'The drive after the restart: distance over time, P10 to P80, P50 in ink'),
      ...monthMarks(origin, span, plot),
      { kind: 'shape', loops: [[...run('p10'), ...run('p80').reverse()]], fill: 'pale' },
      ...levelMarks(roomFor(ends, y), plot),
      line(run('p10'), THIN),
      line(run('p80'), THIN),
      line(run('p50'), EDGE),
      ...reaches.map(({ to, reached }): Mark => {
        const words = `P50 ${dayText(origin, reached.p50, true)} · P80 ${dayText(origin, reached.p80, true)}`
        // what ends near the right edge is written to its left
        const late = x(reached.p80) > (plot.box.left + plot.box.right) / 2
        return text([late ? x(reached.p10) - 9 : x(reached.p80) + 2, y(to) + (to === length ? 3.6 : -0.9)], words, {
          size: SMALL,
          anchor: late ? 'end' : 'start',
        })
      }),
      frameOf(plot),
    ],
  }
}

const APART = 3.2

/** Level lines that have room for their words; the last reach always. */
function roomFor(ends: readonly number[], y: (v: number) => number): { value: number; words: string }[] {
  const kept: number[] = []
  for (const value of [...ends].reverse()) {
    if (kept.every((other) => Math.abs(y(other) - y(value)) > APART)) kept.push(value)
  }
  return kept.map((value) => ({ value, words: `${Math.round(value)} m` }))
}
