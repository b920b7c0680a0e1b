import { dateText } from '../civil.ts'
import type { DossierLimit, DossierReading } from './readings.ts'

/** Digits that a reading is printed with. */
const DIGITS = 6

/** A figure in the unit of what is measured, as it was written down. */
export const valueText = (value: number | string | undefined): string =>
  value === undefined ? 'open' : typeof value === 'string' ? value : String(Number(value.toPrecision(DIGITS)))

/** What is accepted, in words: "0.05 to 0.35 mm". */
export function limitText(limit: DossierLimit | undefined, unit = ''): string {
  if (limit === undefined) return 'no limit is given'
  const { atLeast, atMost, code } = limit
  const words = [
    ...(atLeast !== undefined && atMost !== undefined
      ? [`${valueText(atLeast)} to ${valueText(atMost)}`]
      : [
          ...(atLeast === undefined ? [] : [`at least ${valueText(atLeast)}`]),
          ...(atMost === undefined ? [] : [`at most ${valueText(atMost)}`]),
        ]),
    ...(code === undefined ? [] : [`code ${code} or better`]),
  ].join(', ')
  return unit === '' || code !== undefined ? words : `${words}\u00a0${unit}`
}

/** A reading with who took it, who saw it, and whether it stands. */
export function readingText({ of, value, by, on, witness, standsNot, note }: DossierReading): string {
  const place = of === undefined || of === '' ? '' : `${of}: `
  const seen = witness === undefined ? '' : `, seen by ${witness}`
  const said = note === undefined ? '' : `, ${note}`
  const gone = standsNot === undefined ? '' : ` (${standsNot})`
  return `${place}${valueText(value)}, ${by}, ${dateText(on)}${seen}${said}${gone}`
}

export const readingsText = (readings: readonly DossierReading[]): string =>
  readings.length === 0 ? 'nothing is read' : readings.map(readingText).join('; ')
