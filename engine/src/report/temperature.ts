import { fahrenheitOf } from '../working/fahrenheit.ts'
import type { UnitSystem } from '../working/quantity.ts'

/** A temperature that is kept in degrees Celsius, in the units of the reader, to a tenth of a degree. */
export const temperatureText = (celsius: number, units: UnitSystem): string =>
  units === 'US' ? `${fahrenheitOf(celsius)}\u00a0°F` : `${celsius}\u00a0°C`
