import { showNumber, shownScale, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'

/** Figure and unit apart, so that figures of a column align and the unit is written once and quietly. */
export interface Figure {
  number: string
  unit: string
}

export function figureOf(value: number | undefined, unit: SiUnit, system: UnitSystem, like = value): Figure {
  if (value === undefined || like === undefined) return { number: 'open', unit: '' }
  const { factor, zero = 0, decimals, label } = shownScale(like, unit, system)
  return { number: showNumber(value / factor - zero, decimals), unit: label }
}

/** How far two values are apart, in the unit that suits `like`: of temperatures so many degrees, wherever their scale begins. */
export function differenceOf(by: number, unit: SiUnit, system: UnitSystem, like: number): Figure {
  const { factor, decimals, label } = shownScale(like, unit, system)
  return { number: showNumber(by / factor, decimals), unit: label }
}

/** Use of a limit: three decimals; more where rounding would land on the limit, so that the figure never says 1.000 of a failure. */
export function textOfUse(use: number | undefined): string {
  if (use === undefined) return ''
  for (let decimals = 3; decimals < 9; decimals++) {
    const text = use.toFixed(decimals)
    if (Number(text) !== 1 || use === 1) return text
  }
  return String(use)
}

const WEEKDAY = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']
const MONTH = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** A date in words: "Mon 14 Mar 2033". Instants are UTC milliseconds. */
export function dateText(instant: number | undefined, weekday = true): string {
  if (instant === undefined || Number.isNaN(instant)) return 'open'
  const d = new Date(instant)
  return `${weekday ? `${WEEKDAY[d.getUTCDay()]} ` : ''}${d.getUTCDate()} ${MONTH[d.getUTCMonth()]} ${d.getUTCFullYear()}`
}

export function hoursText(seconds: number | undefined): string {
  if (seconds === undefined) return 'open'
  return seconds >= 36 * 3600 ? `${showNumber(seconds / 86400, 1)} d` : `${showNumber(seconds / 3600, 1)} h`
}

export const degrees = (radians: number | undefined): string =>
  radians === undefined ? 'open' : `${showNumber((radians * 180) / Math.PI, 1)}°`
