import { AMBIGUOUS, dimensionOf, readUnit, type SiUnit, sameDimension } from './unit.ts'

/** What a field of each kind is called, and an example a person can copy. */
const KINDS: Partial<Record<SiUnit, readonly [name: string, example: string]>> = {
  kg: ['a mass with its unit', '412 t'],
  m: ['a length with its unit', '63 ft 4 in'],
  s: ['a duration with its unit', '40 min'],
  rad: ['an angle with its unit', '1.4 deg'],
  N: ['a force with its unit', '392 kN'],
  Pa: ['a pressure or stress with its unit', '210 kPa'],
  'm/s': ['a speed with its unit', '18 m/s'],
  m2: ['an area with its unit', '12 m2'],
  m3: ['a volume with its unit', '3100 l'],
  'kg/m3': ['a density with its unit', '7850 kg/m3'],
  'kg/m': ['a mass per length with its unit', '7.9 kg/m'],
  'N/m3': ['a unit weight with its unit', '18.5 kN/m3'],
  K: ['a temperature with its unit', '40 °C'],
  '°C': ['a temperature with its unit', '40 °C'],
  'N m': ['a moment or torque with its unit', '2200 kN m'],
  'N/m': ['a stiffness or line load with its unit', '30 kN/m'],
  W: ['a power with its unit', '120 kW'],
  'm3/s': ['a flow with its unit', '14 m3/s'],
  'm3/J': ['a flow for a power, with its unit', '100 ft3/min/hp'],
  '1': ['a plain number or a percentage', '5 %'],
}

export interface QuantityFault {
  expected: string
  example: string
}

/** What a value of this unit is called in a message, and an example of it. */
export function expectedOf(unit: SiUnit): QuantityFault {
  const [expected, example] = KINDS[unit] ?? [`a quantity in ${unit}`, `1 ${unit}`]
  return { expected, example }
}

const NUMBER = /[+\-\u2212]?(?:\d+(?:[ \u00a0\u202f]\d{3})*(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?/y
const LONGEST_TEXT = 80

/**
 * SI value of a text such as "412 t", "63 ft 4 in", "18 m/s", "−0.1 deg", "5 %".
 *
 * @returns the value, or what was expected instead. A bare number is read only where no dimension is due.
 */
export function readQuantity(text: string, unit: SiUnit): number | QuantityFault {
  const wanted = expectedOf(unit)
  if (text.length > LONGEST_TEXT) return wanted
  const terms = splitTerms(text)
  if (terms === undefined) return wanted
  let total = 0
  for (const term of terms) {
    const value = readTerm(term, unit)
    if (typeof value !== 'number') return value
    // "−3 ft 4 in" means −(3 ft 4 in), and "−0 ft 4 in" −(4 in)
    total += term !== terms[0] && isNegative(terms[0] as Term) ? -value : value
  }
  return total
}

interface Term {
  number: number
  unitText: string
}

const isNegative = ({ number }: Term): boolean => number < 0 || Object.is(number, -0)

function splitTerms(text: string): Term[] | undefined {
  const terms: Term[] = []
  let at = 0
  const trimmed = text.trim()
  while (at < trimmed.length) {
    NUMBER.lastIndex = at
    const match = NUMBER.exec(trimmed)
    if (match === null) return undefined
    const after = NUMBER.lastIndex
    // a second number opens a second term; the 1 of "1/m" does not
    const next = /\s(?!1\/)[+\-\u2212]?\.?\d/.exec(trimmed.slice(after))
    const end = next === null ? trimmed.length : after + next.index
    const digits = match[0].replace(/[ \u00a0\u202f]/g, '').replace('\u2212', '-')
    terms.push({ number: Number(digits), unitText: trimmed.slice(after, end).trim() })
    at = next === null ? trimmed.length : end + 1
  }
  if (terms.length === 0 || terms.length > 3 || terms.slice(1).some(isNegative)) return undefined
  return terms
}

function readTerm({ number, unitText }: Term, unit: SiUnit): number | QuantityFault {
  const wanted = expectedOf(unit)
  if (!Number.isFinite(number)) return wanted
  if (unitText === '') return unit === '1' ? number : wanted
  const advice = Object.hasOwn(AMBIGUOUS, unitText) ? AMBIGUOUS[unitText] : undefined
  if (advice !== undefined)
    return { ...wanted, expected: `${wanted.expected}; "${unitText}" alone is ambiguous: ${advice}` }
  if (isTemperature(unit)) {
    const scale = temperatureScale(unitText, unit)
    return scale === undefined ? wanted : (number + scale.zero) * scale.factor
  }
  const read = unitFor(unitText, unit)
  if (read === undefined) return wanted
  // turns per second are no radians per second, and a plain number is no angle
  if (unit.includes('rad') !== (read.angle === true)) return wanted
  const value = number * read.factor
  return Number.isFinite(value) ? value : wanted
}

interface TemperatureScale {
  /** Of the unit's degrees to one of the scale, and degrees from the unit's zero to the scale's own. */
  factor: number
  zero: number
}

type TemperatureUnit = 'K' | '°C'

/** Scales by the unit that values are kept in (definitions of the SI and of the degree Fahrenheit). */
const TEMPERATURES: Readonly<Record<TemperatureUnit, Readonly<Record<string, TemperatureScale>>>> = {
  K: { K: { factor: 1, zero: 0 }, '°C': { factor: 1, zero: 273.15 }, '°F': { factor: 5 / 9, zero: 459.67 } },
  '°C': { K: { factor: 1, zero: -273.15 }, '°C': { factor: 1, zero: 0 }, '°F': { factor: 5 / 9, zero: -32 } },
}

const isTemperature = (unit: SiUnit): unit is TemperatureUnit => Object.hasOwn(TEMPERATURES, unit)

const temperatureScale = (text: string, unit: TemperatureUnit): TemperatureScale | undefined =>
  Object.hasOwn(TEMPERATURES[unit], text) ? TEMPERATURES[unit][text] : undefined

/** The unit of a text, read as force where a force is due; undefined when it is of another dimension. */
function unitFor(text: string, unit: SiUnit): ReturnType<typeof readUnit> {
  const due = dimensionOf(unit)
  return [readUnit(text), readUnit(text, true)].find((u) => u !== undefined && sameDimension(u.dimension, due))
}

export type UnitSystem = 'SI' | 'US'

interface Scale {
  label: string
  factor: number
  decimals: number
  /** SI magnitude from which it is used. */
  from: number
  /** Of a temperature: degrees from the zero of its unit to the scale's own. */
  zero?: number
}

/** Label, decimals, and from which magnitude of that unit it is used; 1 where it is left out. */
type ShownUnit = readonly [label: string, decimals: number, from?: number]

const TIMES: readonly ShownUnit[] = [
  ['d', 1],
  ['h', 1],
  ['min', 0],
  ['s', 1],
]

/** From the largest down: the first whose unit the magnitude reaches is used. */
const SHOWN: Record<UnitSystem, Partial<Record<SiUnit, readonly ShownUnit[]>>> = {
  SI: {
    kg: [
      ['t', 1],
      ['kg', 0, 10],
      ['kg', 1],
    ],
    m: [
      ['m', 2, 0.1],
      ['mm', 1],
    ],
    s: TIMES,
    rad: [['°', 1]],
    N: [['kN', 1]],
    Pa: [
      ['MPa', 2],
      ['kPa', 1],
    ],
    'm/s': [
      ['m/s', 1],
      ['m/min', 2],
      ['m/h', 2],
    ],
    'N/m3': [['kN/m³', 1]],
    'N m': [['kN m', 1]],
    'N/m': [['kN/m', 1]],
    W: [['kW', 1]],
    K: [['°C', 1]],
    '°C': [['°C', 1]],
    'm3/J': [['m³/min/kW', 2]],
  },
  US: {
    kg: [
      ['kip', 1],
      ['lb', 0, 10],
      ['lb', 1],
    ],
    m: [
      ['ft', 2, 1 / 3],
      ['in', 2],
    ],
    s: TIMES,
    rad: [['°', 1]],
    N: [
      ['kip', 1],
      ['lbf', 0, 10],
      ['lbf', 1],
    ],
    Pa: [
      ['ksi', 2],
      ['psf', 0],
    ],
    'm/s': [
      ['mph', 1],
      ['ft/min', 2],
      ['ft/h', 2],
    ],
    'm/s2': [['ft/s²', 2]],
    m2: [['ft²', 1]],
    m3: [['ft³', 1]],
    'kg/m3': [
      ['lb/ft³', 1],
      ['lb/ft³', 4, 0],
    ],
    'kg/m': [['lb/ft', 2]],
    'N/m3': [['lbf/ft³', 1]],
    'N m': [['kip ft', 1]],
    'N/m': [['kip/ft', 2]],
    W: [['hp', 1]],
    K: [['°F', 1]],
    '°C': [['°F', 1]],
    'm3/s': [['ft³/min', 0]],
    'm3/J': [['ft³/min/hp', 1]],
  },
}

/** The scale a value of this unit is shown in. */
export function shownScale(value: number, unit: SiUnit, system: UnitSystem): Scale {
  const scales = (SHOWN[system][unit] ?? []).map((shown) => scaleOf(shown, unit))
  return scales.find((s) => value === 0 || Math.abs(value) >= s.from) ?? scales.at(-1) ?? plainScale(unit)
}

/** Of the very unit that reading knows by this label, so that what is shown can be read. */
function scaleOf([label, decimals, from = 1]: ShownUnit, unit: SiUnit): Scale {
  const temperature = isTemperature(unit) ? temperatureScale(label, unit) : undefined
  if (temperature !== undefined) return { label, decimals, from: 0, ...temperature }
  const factor = unitFor(label, unit)?.factor
  if (factor === undefined) throw new Error(`"${label}" is no unit to show ${unit} in`)
  return { label, factor, decimals, from: from * factor }
}

const plainScale = (unit: SiUnit): Scale => ({
  label: unit === '1' ? '' : unit.replace(/2$/, '²').replace(/3$/, '³'),
  factor: 1,
  decimals: 3,
  from: 0,
})

/** Digits that the lesser of two values in one row keeps. */
const LEAST_SHOWN = 10

/**
 * Of two values that are compared in one row, the one in whose unit both are shown: the greater, or the lesser where too
 * little of it would be left in the unit of the greater.
 */
export function likeOf(values: readonly (number | undefined)[], unit: SiUnit, system: UnitSystem): number {
  const sizes = values.map((v) => Math.abs(v ?? 0)).filter((v) => v > 0)
  if (sizes.length === 0) return 0
  const [least, greatest] = [Math.min(...sizes), Math.max(...sizes)]
  const { factor, decimals } = shownScale(greatest, unit, system)
  return least / factor < LEAST_SHOWN * 10 ** -decimals ? least : greatest
}

/** Value for the eye, with its unit: "565.9 t", "−29.42 m", "0.951". Rounded for reading only; in the unit that suits `like`. */
export function showQuantity(value: number | undefined, unit: SiUnit, system: UnitSystem = 'SI', like = value): string {
  if (value === undefined) return 'open'
  const s = shownScale(like ?? value, unit, system)
  const number = showNumber(value / s.factor - (s.zero ?? 0), s.decimals)
  return s.label === '' ? number : `${number}\u00a0${s.label}`
}

/** Fixed decimals, U+2212 minus, thin no-break groups. */
export function showNumber(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals)
  const [whole, fraction] = text.split('.') as [string, string | undefined]
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole
  const sign = value < 0 && Number(text) !== 0 ? '\u2212' : ''
  return sign + grouped + (fraction === undefined ? '' : `.${fraction}`)
}

const MOST_DIGITS = 17

/**
 * Text that reads back to exactly the same SI value, for writing a file: in US customary units with as few digits as that
 * takes, and in SI where no number of that unit gives the value again.
 */
export function writeQuantity(value: number, unit: SiUnit, system: UnitSystem = 'SI'): string {
  const inSi = unit === '1' ? String(value) : `${value} ${unit}`
  const { label, factor, zero = 0 } = shownScale(value, unit, system)
  if (system === 'SI' || label === '') return inSi
  for (let digits = 1; digits <= MOST_DIGITS; digits++) {
    const text = `${Number((value / factor - zero).toPrecision(digits))} ${label}`
    if (readQuantity(text, unit) === value) return text
  }
  return inSi
}
