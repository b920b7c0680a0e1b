import type { Model } from '../../model/index.ts'
import { dayLengths, localAt, type ProgrammeResult, type Solved } from '../../programme/index.ts'
import { showNumber } from '../../working/quantity.ts'
import { civilDay, DAY, dateText, dayText } from '../civil.ts'
import { box, type Drawing, drawing, line, type Mark, type PaperBox, standFor, text, textBox } from '../drawing.ts'
import { wrapText } from '../fontWidth.ts'
import { borderMarks, type Field, roomOf } from '../paper/border.ts'
import { FINE, GRID, RULE, SMALL, THIN } from '../paper/pen.ts'
import { LYING } from '../paper/size.ts'
import { monthMarks } from '../risk/plotField.ts'
import { DEFERRAL, INVENTED } from '../sheet/cautions.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import { type Band, type Bar, bandsOf, type Dated, datedOf, LABEL_SIZE, type Span } from './bands.ts'
import { linkMarks, numberSample, type Placed } from './links.ts'

/** Papers of the programme; lying, for time runs across. */
export const PROGRAMME_PAPERS = ['A3', 'A4', 'Letter'] as const
export type ProgrammePaper = (typeof PROGRAMME_PAPERS)[number]

export interface ProgrammeSheetOptions extends SheetOptions {
  paper?: ProgrammePaper
}

const LANE = 4.4
const BAR = 2
const BAND_HEAD = 4
const AXIS = 6
const LEGEND = 4.8
const LINE = 2.6

/**
 * The programme over time on one sheet or more: activities in bands by phase, packed where they leave room, the driving path in full
 * ink with its links, days without work shaded by the calendar of each band, the baseline below and the data date across.
 *
 * @returns the sheets; undefined without a plan
 */
export function programmeSheets(
  { model, programme }: { model: Model; programme: ProgrammeResult },
  options: ProgrammeSheetOptions = {},
): Drawing[] | undefined {
  const { solved, origin } = programme
  const starts = Object.values(programme.plan)
  if (solved === undefined || origin === undefined || starts.length === 0) return undefined
  const paper = options.paper ?? 'A3'
  const size = LYING[paper]
  const room = roomOf(size)
  const told = wrapText(`${slipWords(programme)}${DEFERRAL}`, PRINT, room.right - room.left)
  const field: PaperBox = { ...room, bottom: room.bottom - AXIS - LEGEND - told.length * LINE }
  const days = floatWords(model, solved)
  const pages = cutIntoSheets(datedOf(programme), programme, field, days)
  return pages.map(({ slices, span }, i) =>
    drawing(`Programme, sheet ${i + 1} of ${pages.length}`, size.width, size.height, [
      ...borderMarks(size, fieldsOf(model, programme, { ...options, paper }, i + 1, pages.length)),
      ...slices.flatMap((slice) => shading(slice, solved, span)),
      ...timeMarks(origin, span, field),
      ...slices.flatMap((slice) => bandMarks(slice, field)),
      ...linkMarks(slices.flatMap(placed)),
      ...slices.flatMap((slice) =>
        slice.lanes.flatMap((lane, k) => lane.flatMap((bar) => barMarks(bar, laneTop(slice, k), programme, span))),
      ),
      ...dataDateMarks(programme, field, span),
      ...legendMarks(programme, { ...room, top: field.bottom + AXIS }, told),
    ]),
  )
}

/** A stretch of time across a sheet. */
interface Window extends Span {
  from: number
  to: number
}

interface Page {
  slices: readonly Slice[]
  span: Window
}

type Words = (dated: Dated, to: number) => string

/** As many activities on a sheet as it holds, by start, each sheet with the stretch of time that it needs. */
function cutIntoSheets(dated: readonly Dated[], programme: ProgrammeResult, field: PaperBox, days: Words): Page[] {
  const pages: Page[] = []
  for (let first = 0; first < dated.length; ) {
    let count = dated.length - first
    let page = pageOf(dated, first, count, programme, field, days)
    while (page === undefined && count > 1) {
      count = Math.max(1, Math.floor(count * SHRINK))
      page = pageOf(dated, first, count, programme, field, days)
    }
    if (page === undefined) throw new Error('a sheet holds at least one activity')
    pages.push(page)
    first += count
  }
  return pages
}

/** Fewer activities are tried on a sheet by this much at a time. */
const SHRINK = 0.93

function pageOf(
  dated: readonly Dated[],
  first: number,
  count: number,
  programme: ProgrammeResult,
  field: PaperBox,
  days: Words,
): Page | undefined {
  const chosen = dated.slice(first, first + count)
  const next = dated[first + count]?.dates.start
  const last = next ?? Math.max(...chosen.map((d) => d.dates.finish))
  const from = Math.floor((chosen[0]?.dates.start ?? 0) / DAY) * DAY
  const to = Math.max(from + 7 * DAY, Math.ceil(last / DAY) * DAY)
  const x = (seconds: number): number =>
    field.left + ((Math.min(to, Math.max(from, seconds)) - from) / (to - from)) * (field.right - field.left)
  const span: Window = { from, to, left: field.left, right: field.right, x }
  let top = field.top
  const slices = bandsOf(chosen, programme, span, (d) => days(d, to)).map((band): Slice => {
    const slice = { ...band, top }
    top = bottomOf(slice)
    return slice
  })
  return top <= field.bottom || count === 1 ? { slices, span } : undefined
}

const LONGEST_BY_WEEKS = 200 * DAY

/** Months across a long stretch, Mondays across a short one. */
function timeMarks(origin: string, { from, to, x }: Window, field: PaperBox): Mark[] {
  if (to - from > LONGEST_BY_WEEKS) return monthMarks(origin, [from, to], { box: field, x, y: () => 0 })
  const mondays: number[] = []
  for (let day = Math.ceil(from / DAY); day * DAY < to; day++)
    if (new Date(`${dayOf(origin, day)}T00:00:00Z`).getUTCDay() === 1) mondays.push(day)
  const every = Math.max(1, Math.ceil((mondays.length * 20) / (field.right - field.left)))
  return mondays.flatMap((day, i): Mark[] => [
    line(
      [
        [x(day * DAY), field.top],
        [x(day * DAY), field.bottom + (i % every === 0 ? 1.2 : 0)],
      ],
      GRID,
    ),
    ...(i % every === 0 && x(day * DAY) < field.right - 18
      ? [
          text([x(day * DAY) + 0.6, field.bottom + 3], dayText(origin, day * DAY, i === 0), {
            size: SMALL,
            ink: 'quiet',
          }),
        ]
      : []),
  ])
}

const dayOf = (origin: string, day: number): string => {
  const { year, month, day: of } = civilDay(origin, day * DAY)
  return `${year}-${String(month).padStart(2, '0')}-${String(of).padStart(2, '0')}`
}

/** Float in days of the activity's own calendar, and its end where the sheet ends before it. */
function floatWords({ project }: Model, { zone }: Solved): Words {
  const day = project.programme === undefined ? () => DAY : dayLengths(project.programme)
  return ({ activity: { calendar, state }, dates }, to) => {
    const isOver = dates.finish > to + 1
    const end = isOver ? `to ${dateText(localAt(zone, dates.finish).date)}` : ''
    const isDriving = dates.planCritical || state === 'done'
    return [isDriving ? '' : `${showNumber(dates.planFloat / day(calendar), 0)} d`, end]
      .filter((w) => w !== '')
      .join('  ')
  }
}

/** A band at its place on a sheet. */
interface Slice extends Band {
  top: number
}

/** The bars of a slice, each where it stands. */
const placed = (slice: Slice): Placed[] =>
  slice.lanes.flatMap((lane, k) =>
    lane.map((bar) => {
      const top = laneTop(slice, k)
      return { bar, middle: top + 0.5 + BAR / 2, label: textBox(labelOf(bar, top)) }
    }),
  )

const laneTop = ({ top }: Slice, k: number): number => top + BAND_HEAD + k * LANE
const bottomOf = ({ top, lanes }: Slice): number => top + BAND_HEAD + lanes.length * LANE

/** Least width of a day without work that is shaded, mm: below it the paper would be grey all over. */
const LEAST_SHADE = 0.35

/** Stretches without work on the calendar of a band, where they are wide enough to be seen. */
function shading(slice: Slice, { calendars }: Solved, { x, from, to }: Window): Mark[] {
  const calendar = calendars.get(slice.calendar)
  if (calendar === undefined || calendar.always) return []
  const marks: Mark[] = []
  const shade = (a: number, b: number): void => {
    if (b - a < DAY || x(b) - x(a) < LEAST_SHADE) return
    marks.push(box({ left: x(a), right: x(b), top: slice.top + BAND_HEAD, bottom: bottomOf(slice) }, { fill: 'pale' }))
  }
  let free = from
  for (let i = 0; i < calendar.from.length && free < to; i++) {
    const [begins, ends] = [calendar.from[i] as number, calendar.to[i] as number]
    if (ends <= from) continue
    shade(free, Math.min(begins, to))
    free = Math.max(free, ends)
  }
  return marks
}

function bandMarks(slice: Slice, field: PaperBox): Mark[] {
  const words = slice.phase
  const by = slice.calendar === '' ? '' : `shaded: no work on "${slice.calendar}"`
  return [
    line(
      [
        [field.left, slice.top + 0.4],
        [field.right, slice.top + 0.4],
      ],
      RULE,
    ),
    text([field.left, slice.top + 3.2], words, { size: SMALL, weight: 700 }),
    text([field.right, slice.top + 3.2], by, { size: LABEL_SIZE, anchor: 'end', ink: 'quiet' }),
  ]
}

function barMarks(bar: Bar, top: number, { progress }: ProgrammeResult, { x }: Window): Mark[] {
  const { activity, dates, left, right, was } = bar
  const [up, down] = [top + 0.5, top + 0.5 + BAR]
  const look = dates.planCritical ? ({ fill: 'ink' } as const) : ({ fill: 'steel', stroke: FINE } as const)
  const isInstant = dates.finish === dates.start
  const now = progress === undefined ? undefined : x(progress.dataDate)
  const done = activity.state === 'done' ? right : activity.state === 'under way' && now !== undefined ? now : left
  return [
    standFor(`/programme/activities/${activity.id}`, `${activity.id}, ${activity.name}`, [
      ...(was === undefined ? [] : ghost(was, down + 0.7)),
      ...(isInstant
        ? [diamond(left, (up + down) / 2, look)]
        : [
            box(
              { left, right, top: up, bottom: down },
              activity.state === 'done' ? { fill: 'paper', stroke: FINE } : look,
            ),
          ]),
      ...(isInstant || done <= left
        ? []
        : [box({ left, right: Math.min(done, right), top: up + 0.55, bottom: down - 0.55 }, { fill: 'edge' })]),
      labelOf(bar, top),
    ]),
  ]
}

const labelOf = ({ dates, label, labelAt }: Bar, top: number) =>
  text([labelAt, top + 0.5 + BAR - 0.25], label, { size: LABEL_SIZE, weight: dates.planCritical ? 700 : 400 })

const diamond = (x: number, y: number, { fill }: { fill: 'ink' | 'steel' }): Mark => ({
  kind: 'shape',
  loops: [
    [
      [x, y - 1.1],
      [x + 1.1, y],
      [x, y + 1.1],
      [x - 1.1, y],
    ],
  ],
  fill,
  stroke: FINE,
})

/** The baseline: a line of its own with an end at each side. */
const ghost = ({ left, right }: { left: number; right: number }, y: number): Mark[] => {
  const stroke = { width: 0.35, ink: 'air' } as const
  return [
    line(
      [
        [left, y],
        [right, y],
      ],
      stroke,
    ),
    ...[left, right].map((at) =>
      line(
        [
          [at, y - 0.5],
          [at, y + 0.5],
        ],
        stroke,
      ),
    ),
  ]
}

function dataDateMarks({ progress, solved }: ProgrammeResult, field: PaperBox, { x, from, to }: Window): Mark[] {
  if (progress === undefined || solved === undefined) return []
  if (progress.dataDate < from || progress.dataDate > to) return []
  const at = x(progress.dataDate)
  const { date, time } = localAt(solved.zone, progress.dataDate)
  const isRight = at < field.right - 40
  return [
    line(
      [
        [at, field.top],
        [at, field.bottom + 1.2],
      ],
      { width: 0.5, ink: 'now' },
    ),
    text([at + (isRight ? 0.8 : -0.8), field.bottom + 5.6], `data date ${dateText(date)}, ${time}`, {
      size: SMALL,
      ink: 'now',
      anchor: isRight ? 'start' : 'end',
    }),
  ]
}

/** What each mark means, with a sample of it. */
function legendMarks({ progress, slippage }: ProgrammeResult, room: PaperBox, told: readonly string[]): Mark[] {
  const y = room.top + 2.6
  const sample = (left: number): PaperBox => ({ left, right: left + 6, top: y - 1.6, bottom: y + 0.4 })
  const items: [string, (left: number) => Mark[]][] = [
    ['drives the restart', (left) => [box(sample(left), { fill: 'ink' })]],
    ['others, with their float in working days', (left) => [box(sample(left), { fill: 'steel', stroke: FINE })]],
    [
      'waits for a resource',
      (left) => [
        line(
          [
            [left, y - 0.6],
            [left + 6, y - 0.6],
          ],
          { ...THIN, dash: [0.9, 0.6] },
        ),
      ],
    ],
    ['a number n: from the end of the one to the start of the other, in brackets for a resource', numberSample(y)],
    ...(progress === undefined
      ? []
      : [
          [
            'done',
            (left) => [
              box(sample(left), { fill: 'paper', stroke: FINE }),
              box({ ...sample(left), top: y - 1.05, bottom: y - 0.15 }, { fill: 'edge' }),
            ],
          ] as [string, (left: number) => Mark[]],
        ]),
    ...(slippage === undefined
      ? []
      : [
          [`baseline "${slippage.name}"`, (left) => ghost({ left, right: left + 6 }, y - 0.6)] as [
            string,
            (left: number) => Mark[],
          ],
        ]),
  ]
  let left = room.left
  const marks = items.flatMap(([words, draw]) => {
    const at = left
    const label = text([at + 7.2, y], words, { size: SMALL, ink: 'quiet' })
    left = at + 7.2 + label.width + 5
    return [...draw(at), label]
  })
  return [
    ...marks,
    ...told.map((words, i) => text([room.left, room.top + 6.4 + i * LINE], words, { ...PRINT, ink: 'quiet' })),
  ]
}

const PRINT = { size: LABEL_SIZE, weight: 400, tabular: false } as const

function slipWords({ slippage }: ProgrammeResult): string {
  const slip = slippage?.restart?.slip
  if (slip === undefined) return ''
  if (Math.abs(slip) < DAY / 2) return 'Restart as in the baseline. '
  return `Restart ${showNumber(Math.abs(slip) / DAY, 1)} days ${slip > 0 ? 'after' : 'before'} the baseline. `
}

function fieldsOf(
  { project }: Model,
  { restart, solved, basis }: ProgrammeResult,
  { revision, date, contentHash, paper }: ProgrammeSheetOptions,
  page: number,
  pages: number,
): Field[] {
  const issued = revision === undefined ? 'not issued' : `revision ${revision}`
  const ends = restart === undefined || solved === undefined ? undefined : localAt(solved.zone, restart).date
  return [
    { name: 'Programme', words: project.about.title, under: 'A plan from stated durations, no promise', share: 38 },
    {
      name: 'Restart planned',
      words: ends === undefined ? 'open' : dateText(ends),
      under: `by the ${basis ?? 'plan'}; times of ${solved?.zone.name ?? ''}`,
      share: 28,
    },
    {
      name: 'Revision',
      words: date === undefined ? issued : `${issued}, ${dateText(date)}`,
      under: contentHash === undefined ? 'content not fixed' : `content ${contentHash.slice(0, 12)}`,
      share: 26,
    },
    {
      name: 'Sheet',
      words: `${page} of ${pages} · ${paper}`,
      under: project.about.invented ? INVENTED : '',
      share: 20,
    },
  ]
}
