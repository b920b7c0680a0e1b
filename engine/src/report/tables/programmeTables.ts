import { type Activity, dayLengths, type Link, localAt, lookAhead, shiftsAt } from '../../programme/index.ts'
import { type Column, moment, number, type Table, words } from './table.ts'
import type { Told } from './tables.ts'

const DAY = 86_400

/** Local time of elapsed seconds, to the minute; undefined where there is none. */
export function localTime({ programme }: Pick<Told, 'programme'>, seconds: number | undefined): string | undefined {
  const zone = programme.solved?.zone
  if (zone === undefined || seconds === undefined || !Number.isFinite(seconds)) return undefined
  const { date, time } = localAt(zone, seconds)
  return `${date}T${time}`
}

const PROGRAMME: readonly Column[] = [
  words('activity'),
  words('name'),
  words('phase'),
  words('state'),
  moment('start'),
  moment('finish'),
  number('work left, days'),
  number('total float, days'),
  number('float in the plan, days'),
  words('drives the restart'),
  words('waits for'),
  words('predecessors'),
  words('resources'),
  words('calendar'),
  words('hold point'),
  moment('earliest start'),
  moment('latest finish'),
  moment('baseline finish'),
  number('slip, days'),
  words('from'),
]

/** Every activity of the plan with its dates, floats and what it waits for; days are working days of its own calendar. */
export function programmeTable(told: Told): Table {
  const { activities, plan, slippage } = told.programme
  const rows = Object.values(activities)
    .sort((a, b) => (plan[a.id]?.start ?? 0) - (plan[b.id]?.start ?? 0))
    .map((a) => {
      const dates = plan[a.id]
      const days = (seconds: number | undefined) => workingDays(told, a, seconds)
      const slip = slippage?.slips[a.id]
      return [
        a.id,
        a.name,
        a.phase,
        a.state ?? 'ahead',
        localTime(told, dates?.start),
        localTime(told, dates?.finish),
        days(a.work[1]),
        days(dates?.totalFloat),
        days(dates?.planFloat),
        dates?.planCritical ? 'yes' : '',
        [dates?.waitsFor?.activity, dates?.waitsFor?.resource].filter((w) => w !== undefined).join(' by '),
        a.after.map(linkText).join('; '),
        needsText(a.needs),
        a.calendar,
        holdText(told, a.id, a.holdPoint),
        localTime(told, dates?.earlyStart),
        localTime(told, dates?.lateFinish),
        localTime(told, slip?.baseline.finish),
        days(slip?.working),
        a.from.join(' '),
      ]
    })
  return { name: 'programme', title: 'Programme', columns: PROGRAMME, rows }
}

function workingDays({ model }: Told, { calendar }: Activity, seconds: number | undefined): number | undefined {
  const programme = model.project.programme
  if (seconds === undefined || programme === undefined || !Number.isFinite(seconds)) return undefined
  return rounded(seconds / dayLengths(programme)(calendar), 3)
}

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals))

const linkText = ({ to, type, lag }: Link): string =>
  `${to} ${type}${lag === 0 ? '' : ` ${lag < 0 ? '-' : '+'} ${rounded(Math.abs(lag) / DAY, 2)} d`}`

/** The hold point, and punch items that are not closed. */
const holdText = ({ programme }: Told, id: string, holdPoint: string | undefined): string | undefined => {
  const held = (programme.held?.[id] ?? []).map((item) => `punch item ${item}`)
  return held.length === 0 ? holdPoint : [...(holdPoint === undefined ? [] : [holdPoint]), ...held].join('; ')
}

const needsText = (needs: Readonly<Record<string, number>>): string =>
  Object.entries(needs)
    .map(([resource, n]) => `${n} ${resource}`)
    .join(', ')

const AHEAD: readonly Column[] = [
  words('activity'),
  words('name'),
  words('state'),
  moment('start'),
  moment('finish'),
  words('ends in the span'),
  words('drives the restart'),
  number('float in the plan, days'),
  words('resources'),
  words('waits for'),
  words('hold point'),
]

/** Where a look-ahead begins: at the data date, else today, else with the programme. */
export function lookFrom({ programme, model }: Pick<Told, 'programme' | 'model'>): number {
  if (programme.progress !== undefined) return programme.progress.dataDate
  const today = model.project.programme?.today
  const zone = programme.solved?.zone
  return today === undefined || zone === undefined ? 0 : Math.max(0, (Date.parse(today) - zone.origin) / 1000)
}

/** What goes on and what starts in the weeks ahead. */
export function lookAheadTable(told: Told): Table {
  const weeks = told.weeks ?? 3
  const { activities } = told.programme
  const rows = lookAhead(told.programme, lookFrom(told), weeks).map((e) => [
    e.id,
    e.name,
    e.state,
    localTime(told, e.start),
    localTime(told, e.finish),
    e.ends ? 'yes' : '',
    e.critical ? 'yes' : '',
    workingDays(told, activities[e.id] as Activity, e.float),
    needsText(e.needs),
    e.waitsFor,
    holdText(told, e.id, e.holdPoint),
  ])
  return { name: 'look-ahead', title: `Look-ahead, ${weeks} weeks`, columns: AHEAD, rows }
}

const SHIFT: readonly Column[] = [
  words('calendar'),
  words('shift'),
  moment('shift starts'),
  moment('shift ends'),
  words('activity'),
  words('name'),
  words('state'),
  moment('runs from'),
  moment('runs until'),
  words('ends in the shift'),
  words('drives the restart'),
  words('resources'),
  words('waits for'),
  words('hold point'),
]

/** What runs in the shift under way at the data date, else today, calendar by calendar; where one rests, in its next shift. */
export function shiftTable(told: Told): Table {
  const typed = told.model.project.programme
  const shifts = typed === undefined ? [] : shiftsAt(told.programme, typed, lookFrom(told))
  const rows = shifts.flatMap(({ calendar, start, end, isUnderWay, work }) =>
    work.map((e) => [
      calendar,
      isUnderWay ? 'under way' : 'next',
      localTime(told, start),
      localTime(told, end),
      e.id,
      e.name,
      e.state,
      localTime(told, e.from),
      localTime(told, e.until),
      e.finish <= end ? 'yes' : '',
      e.critical ? 'yes' : '',
      needsText(e.needs),
      e.waitsFor,
      holdText(told, e.id, e.holdPoint),
    ]),
  )
  return { name: 'shift', title: 'Shift under way', columns: SHIFT, rows }
}

/** Columns that intake reads, then what helps to fill them in. */
const PROGRESS: readonly Column[] = [
  words('activity'),
  words('start'),
  words('finish'),
  words('remaining days'),
  words('logic'),
  words('note'),
  words('name'),
  moment('planned start'),
  moment('planned finish'),
]

/** Progress as it stands, to be filled in and read back: dates as they were written, in text. */
export function progressTable(told: Told): Table {
  const { activities, plan } = told.programme
  const progress = told.model.project.programme?.progress ?? {}
  const rows = Object.values(activities)
    .sort((a, b) => (plan[a.id]?.start ?? 0) - (plan[b.id]?.start ?? 0))
    .map((a) => [
      a.id,
      progress[a.id]?.start,
      progress[a.id]?.finish,
      remainingText(progress[a.id]?.remainingDays),
      progress[a.id]?.logic === 'released' ? 'released' : undefined,
      progress[a.id]?.note,
      a.name,
      localTime(told, plan[a.id]?.start),
      localTime(told, plan[a.id]?.finish),
    ])
  return { name: 'progress', title: 'Progress', columns: PROGRESS, rows }
}

const remainingText = (days: number | readonly [number, number, number] | undefined): string | undefined =>
  days === undefined ? undefined : typeof days === 'number' ? String(days) : days.join(' / ')

const DELIVERIES: readonly Column[] = [
  words('delivery'),
  words('ordered'),
  words('arrived'),
  words('days to go'),
  words('note'),
  words('what'),
  words('activity'),
  moment('planned arrival'),
  words('first needed by'),
  moment('needed on'),
]

/** Deliveries as they stand, to be filled in and read back. */
export function deliveriesTable(told: Told): Table {
  const { plan } = told.programme
  const typed = told.model.project.programme
  const rows = Object.entries(typed?.deliveries ?? {}).map(([id, d]) => {
    const progress = typed?.progress[d.activity]
    const first = told
      .neededBy(d)
      .reduce<string | undefined>(
        (best, a) => (best === undefined || startOf(told, a) < startOf(told, best) ? a : best),
        undefined,
      )
    return [
      id,
      progress?.start,
      progress?.finish,
      remainingText(progress?.remainingDays),
      progress?.note,
      d.what,
      d.activity,
      localTime(told, plan[d.activity]?.finish),
      first,
      first === undefined ? undefined : localTime(told, plan[first]?.start),
    ]
  })
  return { name: 'deliveries', title: 'Deliveries', columns: DELIVERIES, rows }
}

const startOf = ({ programme }: Told, id: string): number => programme.plan[id]?.start ?? Number.POSITIVE_INFINITY
