import type { Answer } from '../../working/answer.ts'
import { showNumber, showQuantity, type UnitSystem } from '../../working/quantity.ts'
import type { SiUnit } from '../../working/unit.ts'

/** A value for a reader, with the SI value it stands for; `open` where it is not known. */
export interface Figure {
  si: number | undefined
  unit: SiUnit
  text: string
}

export const OPEN = 'open'

/** A value as the eye reads it, with its unit. */
export const figure = (answer: Pick<Answer, 'value' | 'unit'>, units: UnitSystem): Figure => ({
  si: answer.value,
  unit: answer.unit,
  text: showQuantity(answer.value, answer.unit, units),
})

/** Scales for columns that are added up: enough digits that the printed sum is the sum of what is printed. */
const EXACT: Record<UnitSystem, Partial<Record<SiUnit, readonly [label: string, factor: number, decimals: number]>>> = {
  SI: { kg: ['t', 1000, 3], m: ['m', 1, 3], N: ['kN', 1000, 1] },
  US: { kg: ['kip', 453.59237, 3], m: ['ft', 0.3048, 3], N: ['kip', 4448.2216152605, 2] },
}

/** Unit of a column that is added up. */
export const exactUnit = (unit: SiUnit, units: UnitSystem): string => EXACT[units][unit]?.[0] ?? unit

/** A value in the unit of a column that is added up, without the unit. */
export function exactFigure(answer: Pick<Answer, 'value' | 'unit'>, units: UnitSystem): Figure {
  const [, factor, decimals] = EXACT[units][answer.unit] ?? ['', 1, 3]
  const text = answer.value === undefined ? OPEN : showNumber(answer.value / factor, decimals)
  return { si: answer.value, unit: answer.unit, text }
}

const USE_DECIMALS = 3
const MOST_DECIMALS = 9

/** Use of a capacity: three decimals, more where rounding would land on the limit. */
export function useText(use: number | undefined): string {
  if (use === undefined) return OPEN
  for (let decimals = USE_DECIMALS; decimals < MOST_DECIMALS; decimals++) {
    if (Number(use.toFixed(decimals)) !== 1 || use === 1) return showNumber(use, decimals)
  }
  return showNumber(use, MOST_DECIMALS)
}

/** Metres in one unit of length. */
export const lengthScale = (units: UnitSystem): number => (units === 'SI' ? 1 : 0.3048)

/** That unit of length, as a view or a table says it once for all its figures. */
export const lengthUnit = (units: UnitSystem): string => (units === 'SI' ? 'm' : 'ft')

/** A length on a drawing: metres or feet, two decimals, no unit (the view says which). */
export const lengthText = (value: number, units: UnitSystem): string => showNumber(value / lengthScale(units), 2)

/** A level on a drawing: signed, ±0.00 at the datum. */
export function levelText(value: number, units: UnitSystem): string {
  const shown = lengthText(value, units)
  if (Number(shown.replace('\u2212', '-')) === 0) return `±${lengthText(0, units)}`
  return value > 0 ? `+${shown}` : shown
}

const DEGREE = Math.PI / 180
export const degreesText = (angle: number): string => `${showNumber(angle / DEGREE, 1)}°`
