import type { ProgrammeResult } from '../../programme/index.ts'
import { showNumber } from '../../working/quantity.ts'
import { civilDay, DAY, MONTHS } from '../civil.ts'
import { box, line, type Mark, type PaperBox, type PaperPoint, text } from '../drawing.ts'
import { FINE, GRID, THIN } from '../paper/pen.ts'
import type { Campaign } from './campaign.ts'
import { type Stretch, type TimeAxis, weekOf } from './timeAxis.ts'

const LABEL = 3.2
const SMALL = 2.8

/** The ruler: one box a week, black and white, as wide as the stretch makes it; months above; a tear where the pace changes. */
export function rulerMarks(campaign: Campaign, axis: TimeAxis, room: PaperBox): Mark[] {
  const y = room.top
  const marks: Mark[] = []
  for (let day = Math.floor(campaign.begin / DAY), k = 0; day * DAY < campaign.end; day += 7, k++) {
    const [left, right] = [axis.xAt(day * DAY), axis.xAt(Math.min(campaign.end, (day + 7) * DAY))]
    marks.push(box({ left, right, top: y, bottom: y + 2 }, { fill: k % 2 === 0 ? 'ink' : 'paper', stroke: FINE }))
  }
  return [
    ...marks,
    ...monthMarks(campaign, axis, room),
    ...axis.stretches.flatMap((s, i) => [...paceWords(s, room), ...(i === 0 ? [] : tearMarks(s.left, room))]),
  ]
}

function monthMarks(campaign: Campaign, axis: TimeAxis, room: PaperBox): Mark[] {
  const marks: Mark[] = []
  let free = room.left
  for (let day = Math.floor(campaign.begin / DAY); day * DAY < campaign.end; day++) {
    const date = civilDay(campaign.origin, day * DAY)
    if (date.day !== 1 && day !== 0) continue
    const x = axis.xAt(day * DAY)
    marks.push(
      line(
        [
          [x, room.top - 5],
          [x, room.top],
        ],
        FINE,
      ),
    )
    const words = text(
      [x + 0.8, room.top - 2],
      `${MONTHS[date.month - 1]}${date.month === 1 || day === 0 ? ` ${date.year}` : ''}`,
      { size: LABEL },
    )
    if (x < free || x + words.width > room.right) continue
    free = x + words.width + 2
    marks.push(words)
  }
  return marks
}

function paceWords(stretch: Stretch, room: PaperBox): Mark[] {
  const words = text([stretch.left + 1, room.top + 5.6], `${showNumber(weekOf(stretch), 1)} mm a week`, {
    size: SMALL,
    ink: 'quiet',
  })
  return stretch.right - stretch.left < words.width + 2 ? [] : [words]
}

function tearMarks(x: number, room: PaperBox): Mark[] {
  const tear = (y: number): PaperPoint[] => [
    [x - 0.8, y - 2],
    [x + 0.8, y - 0.7],
    [x - 0.8, y + 0.7],
    [x + 0.8, y + 2],
  ]
  return [
    line(
      [
        [x, room.top + 3],
        [x, room.bottom],
      ],
      GRID,
    ),
    ...[room.top + 1, room.bottom].map((y) => line(tear(y), THIN)),
  ]
}

const PHASE_ROWS = 5
const PHASE_STEP = 4.4

/** Phases of the plan over the months: a line from the first start to the last finish, in the lowest row that is free. */
export function phaseMarks(programme: ProgrammeResult, axis: TimeAxis, room: PaperBox): Mark[] {
  const free = new Array<number>(PHASE_ROWS).fill(room.left)
  const without: string[] = []
  const marks = phasesOf(programme).flatMap(({ phase, start, finish }): Mark[] => {
    const [left, right] = [axis.xAt(start), axis.xAt(finish)]
    const words = text([left, 0], phase.replace(/^\d+ /, ''), { size: SMALL, ink: 'quiet' })
    const row = free.findIndex((x) => x <= left)
    if (row < 0 || left + words.width > room.right) {
      without.push(phase)
      return []
    }
    free[row] = Math.max(right, left + words.width) + 2
    const y = room.top - 8 - row * PHASE_STEP
    const rule: readonly PaperPoint[] = [
      [left, y + 0.8],
      [Math.max(right, left + 0.5), y + 0.8],
    ]
    return [line(rule, THIN), { ...words, at: [left, y] }]
  })
  if (without.length === 0) return marks
  return [
    ...marks,
    text([room.right, room.top - 12 - PHASE_ROWS * PHASE_STEP], `No room for: ${without.join(', ')}`, {
      size: SMALL,
      ink: 'quiet',
      anchor: 'end',
    }),
  ]
}

/** First start and last finish of each phase, in the order of their starts. */
function phasesOf({ activities, plan }: ProgrammeResult): { phase: string; start: number; finish: number }[] {
  const ends = new Map<string, { phase: string; start: number; finish: number }>()
  for (const { id, phase } of Object.values(activities)) {
    const planned = plan[id]
    if (planned === undefined) continue
    const known = ends.get(phase) ?? { phase, ...planned }
    ends.set(phase, {
      phase,
      start: Math.min(known.start, planned.start),
      finish: Math.max(known.finish, planned.finish),
    })
  }
  return [...ends.values()].sort((a, b) => a.start - b.start)
}
