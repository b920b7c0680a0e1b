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
  'N/m': ['a stiffness or line load with its unit', '30 kN/m'],
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
    // "−3 ft 4 in" means −(3 ft 4 in)
    total += terms.length > 1 && term !== terms[0] && (terms[0] as Term).number < 0 ? -value : value
  }
  return total
}

interface Term {
  number: number
  unitText: string
}

function splitTerms(text: string): Term[] | undefined {
  const terms: Term[] = []
  let at = 0
  const trimmed = text.trim()
  while (at < trimmed.length) {
    NUMBER.lastIndex = at
    const match = NUMBER.exec(trimmed)
    if (match === null) return undefined
    const after = NUMBER.lastIndex
    const next = /\s[+\-\u2212]?\.?\d/.exec(trimmed.slice(after))
    const end = next === null ? trimmed.length : after + next.index
    const digits = match[0].replace(/[ \u00a0\u202f]/g, '').replace('\u2212', '-')
    terms.push({ number: Number(digits), unitText: trimmed.slice(after, end).trim() })
    at = next === null ? trimmed.length : end + 1
  }
  return terms.length === 0 || terms.length > 3 ? undefined : terms
}

function readTerm({ number, unitText }: Term, unit: SiUnit): number | QuantityFault {
  const wanted = expectedOf(unit)
  if (!Number.isFinite(number)) return wanted
  if (unitText === '') return unit === '1' ? number : wanted
  const advice = Object.hasOwn(AMBIGUOUS, unitText) ? AMBIGUOUS[unitText] : undefined
  if (advice !== undefined)
    return { ...wanted, expected: `${wanted.expected}; "${unitText}" alone is ambiguous: ${advice}` }
  const due = dimensionOf(unit)
  const read = [readUnit(unitText), readUnit(unitText, true)].find(
    (u) => u !== undefined && sameDimension(u.dimension, due),
  )
  if (read === undefined) return wanted
  if ((unit === 'rad') !== (read.angle === true) && !unit.includes('rad')) return wanted
  const value = number * read.factor
  return Number.isFinite(value) ? value : wanted
}

export type UnitSystem = 'SI' | 'US'

interface Scale {
  label: string
  factor: number
  decimals: number
  /** SI magnitude from which it is used. */
  from: number
}

const scale = (label: string, factor: number, decimals: number, from = factor): Scale => ({
  label,
  factor,
  decimals,
  from,
})
const LB = 0.45359237
const FT = 0.3048
const LBF = LB * 9.80665

/** Scales from the largest down: the first whose unit the magnitude reaches is used. */
const SHOWN: Record<UnitSystem, Partial<Record<SiUnit, readonly Scale[]>>> = {
  SI: {
    kg: [scale('t', 1000, 1), scale('kg', 1, 0)],
    m: [scale('m', 1, 2, 0.1), scale('mm', 1e-3, 1)],
    s: [scale('d', 86400, 1), scale('h', 3600, 1), scale('min', 60, 0), scale('s', 1, 1)],
    rad: [scale('°', Math.PI / 180, 1)],
    N: [scale('kN', 1000, 1)],
    Pa: [scale('MPa', 1e6, 2), scale('kPa', 1e3, 1)],
    'm/s': [scale('m/s', 1, 1)],
    'N/m3': [scale('kN/m³', 1000, 1)],
    'N m': [scale('kN m', 1000, 1)],
    'N/m': [scale('kN/m', 1000, 1)],
  },
  US: {
    kg: [scale('kip', 1000 * LB, 1), scale('lb', LB, 0)],
    m: [scale('ft', FT, 2, 0.1), scale('in', 0.0254, 2)],
    s: [scale('d', 86400, 1), scale('h', 3600, 1), scale('min', 60, 0), scale('s', 1, 1)],
    rad: [scale('°', Math.PI / 180, 1)],
    N: [scale('kip', 1000 * LBF, 1)],
    Pa: [scale('ksi', (1000 * LBF) / 0.0254 ** 2, 2), scale('psf', LBF / FT ** 2, 0)],
    'm/s': [scale('mph', (5280 * FT) / 3600, 1)],
    m2: [scale('ft²', FT ** 2, 1)],
    m3: [scale('ft³', FT ** 3, 1)],
    'kg/m3': [scale('lb/ft³', LB / FT ** 3, 1)],
    'kg/m': [scale('lb/ft', LB / FT, 2)],
    'N/m3': [scale('lbf/ft³', LBF / FT ** 3, 1)],
    'N m': [scale('kip ft', 1000 * LBF * FT, 1)],
    'N/m': [scale('kip/ft', (1000 * LBF) / FT, 2)],
  },
}

/** The scale a value of this unit is shown in. */
export function shownScale(value: number, unit: SiUnit, system: UnitSystem): Scale {
  const scales = SHOWN[system][unit] ?? [scale(unit === '1' ? '' : unit.replace(/2$/, '²').replace(/3$/, '³'), 1, 3, 0)]
  return scales.find((s) => value === 0 || Math.abs(value) >= s.from) ?? (scales[scales.length - 1] as Scale)
}

/** Value for the eye, with its unit: "565.9 t", "−29.42 m", "0.951". Rounded for reading only. */
export function showQuantity(value: number | undefined, unit: SiUnit, system: UnitSystem = 'SI'): string {
  if (value === undefined) return 'open'
  const s = shownScale(value, unit, system)
  const number = showNumber(value / s.factor, s.decimals)
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

/** Text that reads back to exactly the same SI value, for writing a file. */
export function writeQuantity(value: number, unit: SiUnit): string {
  return unit === '1' ? String(value) : `${value} ${unit}`
}
