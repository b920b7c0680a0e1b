/**
 * Working time as sorted intervals with a prefix sum, so that clock and work turn into each other by look-up. Times are
 * elapsed seconds from the start of the programme; work is seconds inside the intervals. The end of a shift and the start of
 * the next are the same working instant: the first is reported as a finish, the second as a start.
 */
export interface Calendar {
  id: string
  /** Starts and ends of the working stretches; neighbours that touch are one. */
  readonly from: Float64Array
  readonly to: Float64Array
  /** Work before each stretch. */
  readonly before: Float64Array
  /** Longest stretch, s. */
  readonly longest: number
  /** Stretch of each day, and of each slice of work, to begin a search at. */
  readonly byDay: Int32Array
  readonly byWork: Int32Array
  /** Works without a break. */
  readonly always: boolean
}

const SLICE = 86_400

/** A calendar from stretches in rising order, without overlap; zero-length ones and touching ends are cleared up. */
export function calendarOf(id: string, stretches: readonly (readonly [number, number])[]): Calendar {
  const joined: [number, number][] = []
  for (const [start, end] of stretches) {
    const last = joined[joined.length - 1]
    if (end <= start) continue
    if (last !== undefined && start <= last[1]) last[1] = Math.max(last[1], end)
    else joined.push([start, end])
  }
  const from = Float64Array.from(joined, ([start]) => start)
  const to = Float64Array.from(joined, ([, end]) => end)
  const before = new Float64Array(joined.length)
  for (let i = 1; i < joined.length; i++) {
    before[i] = (before[i - 1] as number) + (to[i - 1] as number) - (from[i - 1] as number)
  }
  const longest = joined.reduce((most, [start, end]) => Math.max(most, end - start), 0)
  const always = joined.length === 1 && (from[0] as number) <= 0 && to[0] === Number.POSITIVE_INFINITY
  return { id, from, to, before, longest, byDay: indexBy(to), byWork: indexBy(workAfter(from, to, before)), always }
}

/** Works day and night without end. */
export const ALWAYS: Calendar = calendarOf('always', [[0, Number.POSITIVE_INFINITY]])

function workAfter(from: Float64Array, to: Float64Array, before: Float64Array): Float64Array {
  return before.map((b, i) => b + (to[i] as number) - (from[i] as number))
}

/** For each slice of the axis, the first stretch whose end lies past the slice's start. */
function indexBy(ends: Float64Array): Int32Array {
  const finite = ends.length === 0 || !Number.isFinite(ends[ends.length - 1] as number) ? 0 : (ends.at(-1) as number)
  const index = new Int32Array(Math.floor(finite / SLICE) + 2)
  let i = 0
  for (let slice = 0; slice < index.length; slice++) {
    while (i < ends.length - 1 && (ends[i] as number) <= slice * SLICE) i++
    index[slice] = i
  }
  return index
}

/** First stretch that ends after a time; the number of stretches when none does. */
function stretchAfter(calendar: Calendar, time: number): number {
  const { to, byDay } = calendar
  let i = time <= 0 ? 0 : (byDay[Math.min(byDay.length - 1, Math.floor(time / SLICE))] as number)
  while (i < to.length && (to[i] as number) <= time) i++
  return i
}

/** Work done from second zero to a time. Before second zero every second counts as one of (negative) work. */
export function workAt(calendar: Calendar, time: number): number {
  if (calendar.always || time < 0) return time
  const { from, before, to } = calendar
  const i = stretchAfter(calendar, time)
  if (i < from.length) return (before[i] as number) + Math.max(0, time - (from[i] as number))
  const last = from.length - 1
  return last < 0 ? 0 : (before[last] as number) + (to[last] as number) - (from[last] as number)
}

/** The working instant at or after a time, as a start; never (Infinity) past the calendar's end. */
export function startAt(calendar: Calendar, time: number): number {
  if (calendar.always) return time
  const i = stretchAfter(calendar, time)
  return i < calendar.from.length ? Math.max(time, calendar.from[i] as number) : Number.POSITIVE_INFINITY
}

/** The working instant at or before a time, as a finish; second zero when there is none. */
export function finishAt(calendar: Calendar, time: number): number {
  if (calendar.always) return time
  const { from, to } = calendar
  let i = stretchAfter(calendar, time)
  if (i < from.length && (from[i] as number) < time) return time
  i--
  return i < 0 ? Math.min(time, 0) : Math.min(time, to[i] as number)
}

/** When work is done that begins at or after a time. No work takes no time and waits for no shift. */
export function addWork(calendar: Calendar, time: number, work: number): number {
  if (calendar.always || work <= 0) return work <= 0 ? time : time + work
  if (time >= 0 && work <= SLICE) {
    const end = soonAfter(calendar, time, work)
    if (end >= 0) return end
  }
  const done = workAt(calendar, time) + work
  return done <= 0 ? done : clockOf(calendar, done)
}

/** The same for a day's work or less: the stretches that follow are walked, not looked up again; −1 where that says nothing. */
function soonAfter(calendar: Calendar, time: number, work: number): number {
  const { from, to, before } = calendar
  let i = stretchAfter(calendar, time)
  if (i >= from.length) return -1
  const done = (before[i] as number) + Math.max(0, time - (from[i] as number)) + work
  if (done <= (before[i] as number)) return -1
  while (i < from.length - 1 && (before[i + 1] as number) < done) i++
  const end = (from[i] as number) + done - (before[i] as number)
  return end <= (to[i] as number) + 1e-6 ? end : Number.POSITIVE_INFINITY
}

/** Latest start of work that is done by a time; before second zero when there is not enough. */
export function subtractWork(calendar: Calendar, time: number, work: number): number {
  if (calendar.always || work <= 0) return time - Math.max(0, work)
  const done = workAt(calendar, time) - work
  return done < 0 ? done : startOf(calendar, done)
}

/** The time at which an amount of work is reached, as a finish. */
function clockOf({ from, before, to, byWork }: Calendar, work: number): number {
  if (from.length === 0) return Number.POSITIVE_INFINITY
  let i = byWork[Math.min(byWork.length - 1, Math.max(0, Math.floor(work / SLICE)))] as number
  // the index gives the first stretch that reaches past the slice's start; step back over the one that ends right there
  while (i > 0 && (before[i] as number) >= work) i--
  while (i < from.length - 1 && (before[i + 1] as number) < work) i++
  const end = (from[i] as number) + work - (before[i] as number)
  return end <= (to[i] as number) + 1e-6 ? end : Number.POSITIVE_INFINITY
}

/** The time from which an amount of work has been reached, as a start: the next shift's begin where a shift ends. */
function startOf(calendar: Calendar, work: number): number {
  const { from, before } = calendar
  let i = calendar.byWork[Math.min(calendar.byWork.length - 1, Math.max(0, Math.floor(work / SLICE)))] as number
  while (i > 0 && (before[i] as number) > work) i--
  while (i < from.length - 1 && (before[i + 1] as number) <= work) i++
  return (from[i] as number) + work - (before[i] as number)
}

/** Earliest start at or after a time whose whole duration lies inside one stretch; never when it fits nowhere. */
export function unbrokenFrom(calendar: Calendar, time: number, duration: number): number {
  if (calendar.always || duration <= 0) return time
  if (duration > calendar.longest) return Number.POSITIVE_INFINITY
  for (let i = stretchAfter(calendar, time); i < calendar.from.length; i++) {
    const start = Math.max(time, calendar.from[i] as number)
    if (start + duration <= (calendar.to[i] as number)) return start
  }
  return Number.POSITIVE_INFINITY
}

/** Latest start whose whole duration lies inside one stretch and is done by a time; −Infinity when there is none. */
export function unbrokenUntil(calendar: Calendar, time: number, duration: number): number {
  if (calendar.always || duration <= 0) return time - Math.max(0, duration)
  for (let i = Math.min(stretchAfter(calendar, time), calendar.from.length - 1); i >= 0; i--) {
    const end = Math.min(time, calendar.to[i] as number)
    if (end - duration >= (calendar.from[i] as number)) return end - duration
  }
  return Number.NEGATIVE_INFINITY
}

/** Times that are working in every one of the calendars: a crew's hours inside a noise window, say. */
export function intersectionOf(calendars: readonly Calendar[]): Calendar {
  const distinct = [...new Set(calendars)].filter((c) => !c.always)
  if (distinct.length === 0) return ALWAYS
  return distinct.reduce((a, b) => calendarOf(`${a.id} ∩ ${b.id}`, overlaps(a, b)))
}

function overlaps(a: Calendar, b: Calendar): [number, number][] {
  const both: [number, number][] = []
  for (let i = 0, j = 0; i < a.from.length && j < b.from.length; ) {
    const start = Math.max(a.from[i] as number, b.from[j] as number)
    const end = Math.min(a.to[i] as number, b.to[j] as number)
    if (end > start) both.push([start, end])
    if ((a.to[i] as number) <= (b.to[j] as number)) i++
    else j++
  }
  return both
}

/** Times that are working in any of the calendars. */
export function unionOf(calendars: readonly Calendar[]): Calendar {
  const distinct = [...new Set(calendars)]
  if (distinct.length === 1) return distinct[0] as Calendar
  if (distinct.some((c) => c.always)) return ALWAYS
  const all = distinct.flatMap((c) => Array.from(c.from, (start, i): [number, number] => [start, c.to[i] as number]))
  return calendarOf(
    distinct.map((c) => c.id).join(' ∪ '),
    all.sort((a, b) => a[0] - b[0]),
  )
}
