/** Seconds in a day of the plan's own clock. */
export const DAY = 86_400

/** A day of the calendar. */
export interface CivilDay {
  year: number
  /** 1 to 12. */
  month: number
  day: number
}

/** Civil date of an instant, counted from the origin: days are whole days of the plan's own clock. */
export function civilDay(origin: string, seconds: number): CivilDay {
  const [y, m, d] = origin.slice(0, 10).split('-').map(Number) as [number, number, number]
  const days = daysFromCivil(y, m, d) + Math.floor(seconds / DAY)
  return civilFromDays(days)
}

/** Days since 1 March of year 0 (proleptic Gregorian), and back: the usual shift of the year to March (from memory). */
function daysFromCivil(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year
  const m = (month + 9) % 12
  return (
    365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + Math.floor((m * 306 + 5) / 10) + day - 1
  )
}

function civilFromDays(days: number): CivilDay {
  let year = Math.floor((10000 * days + 14780) / 3652425)
  let rest = days - daysFromCivil(year, 3, 1)
  if (rest < 0) {
    year--
    rest = days - daysFromCivil(year, 3, 1)
  }
  const shifted = Math.floor((100 * rest + 52) / 3060)
  const month = ((shifted + 2) % 12) + 1
  return { year: year + (month <= 2 ? 1 : 0), month, day: rest - Math.floor((shifted * 306 + 5) / 10) + 1 }
}

export const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** A day in words: 9 Dec. */
export function dayText(origin: string, seconds: number, withYear = false): string {
  const { year, month, day } = civilDay(origin, seconds)
  return `${day} ${MONTHS[month - 1]}${withYear ? ` ${year}` : ''}`
}

/** `2032-12-09` as 9 Dec 2032; any other text as it is. */
export function dateText(date: string): string {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date) ?? []
  const name = MONTHS[Number(month) - 1]
  return name === undefined ? date : `${Number(day)} ${name} ${year}`
}
