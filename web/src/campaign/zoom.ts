/** Days that are shown, to the hour where they are few; undefined, all there are. */
export type Window = { from: number; to: number } | undefined

interface Days {
  from: number
  to: number
}

/** A shift. */
const SHORTEST = 8 / 24
/** Windows shorter than this end on whole hours, others on whole days. */
const BY_HOURS = 5

/** The window made narrower or wider about a day that keeps its place; undefined when it would be all. */
export function zoomed(window: Window, whole: Days, about: number, factor: number): Window {
  const { from, to } = window ?? whole
  const length = Math.max(SHORTEST, (to - from) * factor)
  const share = Math.min(1, Math.max(0, (about - from) / (to - from)))
  return fitted(about - share * length, length, whole)
}

/** The window moved by days. */
export function moved(window: Window, whole: Days, days: number): Window {
  if (window === undefined) return undefined
  return fitted(window.from + days, window.to - window.from, whole)
}

/** A window that a day lies in: the same where it does, else as long about it. */
export function showing(window: Window, whole: Days, day: number): Window {
  if (window === undefined || (day >= window.from && day <= window.to)) return window
  const length = window.to - window.from
  return fitted(day - length / 2, length, whole)
}

function fitted(from: number, length: number, whole: Days): Window {
  if (length >= whole.to - whole.from) return undefined
  const start = rounded(Math.min(Math.max(from, whole.from), whole.to - length), length)
  return { from: start, to: rounded(start + length, length) }
}

const rounded = (days: number, length: number): number =>
  length < BY_HOURS ? Math.round(days * 24) / 24 : Math.round(days)

/** The hours of one day. */
export function shiftOn(day: number, hours: { from: number; to: number }): Window {
  const first = Math.floor(day)
  return { from: first + hours.from / 24, to: first + hours.to / 24 }
}
