import { shownScale, type UnitSystem } from '../working/quantity.ts'

/** A temperature that is kept in degrees Celsius, in the units of the reader; no tenth where there is none. */
export function temperatureText(celsius: number, units: UnitSystem): string {
  const { label, factor, zero = 0, decimals } = shownScale(celsius, '°C', units)
  return `${Number((celsius / factor - zero).toFixed(decimals))}\u00a0${label}`
}
