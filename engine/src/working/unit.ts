/**
 * Units at the boundary, dimensions inside. Inside the engine every value is SI (kg, m, s, N, Pa, rad);
 * text with a unit exists only where a person or a file meets it.
 *
 * Source of factors: exact definitions (international yard and pound, standard gravity 9.80665 m/s²) as printed in
 * NIST SP 811 Appendix B; from memory, cross-checked in tests against an independent unit library.
 */

/** Exponents of kg, m, s, K and A. Angles and counts have none. */
export type Dimension = readonly [kg: number, m: number, s: number, K: number, A: number]

const NONE: Dimension = [0, 0, 0, 0, 0]
const MASS: Dimension = [1, 0, 0, 0, 0]
const LENGTH: Dimension = [0, 1, 0, 0, 0]
const TIME: Dimension = [0, 0, 1, 0, 0]
const FORCE: Dimension = [1, 1, -2, 0, 0]
const PRESSURE: Dimension = [1, -1, -2, 0, 0]

interface Unit {
  dimension: Dimension
  /** SI value of one such unit. */
  factor: number
  /** An angle is dimensionless, but a plain number may not stand where an angle is due. */
  angle?: true
}

/** Exact by definition, and written out: a product such as 12 × 0.0254 is off in its last bit. */
const POUND = 0.45359237
const POUND_FORCE = 4.4482216152605
const INCH = 0.0254
const FOOT = 0.3048

const unit = (dimension: Dimension, factor: number): Unit => ({ dimension, factor })
const angle = (factor: number): Unit => ({ dimension: NONE, factor, angle: true })

/** Base names a unit text may be built from. `lb` and `kip` are listed as mass; a force field reads them as force. */
const UNITS: Readonly<Record<string, Unit>> = {
  '1': unit(NONE, 1),
  '%': unit(NONE, 0.01),
  ppm: unit(NONE, 1e-6),
  rad: angle(1),
  deg: angle(Math.PI / 180),
  '°': angle(Math.PI / 180),
  kg: unit(MASS, 1),
  g: unit(MASS, 1e-3),
  t: unit(MASS, 1000),
  kt: unit(MASS, 1e6),
  lb: unit(MASS, POUND),
  kip: unit(MASS, 453.59237),
  'short-ton': unit(MASS, 907.18474),
  'long-ton': unit(MASS, 1016.0469088),
  m: unit(LENGTH, 1),
  mm: unit(LENGTH, 1e-3),
  cm: unit(LENGTH, 1e-2),
  km: unit(LENGTH, 1e3),
  in: unit(LENGTH, INCH),
  ft: unit(LENGTH, FOOT),
  yd: unit(LENGTH, 0.9144),
  mi: unit(LENGTH, 1609.344),
  s: unit(TIME, 1),
  min: unit(TIME, 60),
  h: unit(TIME, 3600),
  d: unit(TIME, 86400),
  wk: unit(TIME, 604800),
  N: unit(FORCE, 1),
  kN: unit(FORCE, 1e3),
  MN: unit(FORCE, 1e6),
  kgf: unit(FORCE, 9.80665),
  tf: unit(FORCE, 9806.65),
  lbf: unit(FORCE, POUND_FORCE),
  kipf: unit(FORCE, 4448.2216152605),
  Pa: unit(PRESSURE, 1),
  kPa: unit(PRESSURE, 1e3),
  MPa: unit(PRESSURE, 1e6),
  GPa: unit(PRESSURE, 1e9),
  bar: unit(PRESSURE, 1e5),
  psi: unit(PRESSURE, POUND_FORCE / INCH ** 2),
  ksi: unit(PRESSURE, (1000 * POUND_FORCE) / INCH ** 2),
  psf: unit(PRESSURE, POUND_FORCE / FOOT ** 2),
  ksf: unit(PRESSURE, (1000 * POUND_FORCE) / FOOT ** 2),
  pcf: unit([1, -3, 0, 0, 0], POUND / FOOT ** 3),
  mph: unit([0, 1, -1, 0, 0], 0.44704),
  l: unit([0, 3, 0, 0, 0], 1e-3),
  L: unit([0, 3, 0, 0, 0], 1e-3),
  gal: unit([0, 3, 0, 0, 0], 0.003785411784),
  J: unit([1, 2, -2, 0, 0], 1),
  kJ: unit([1, 2, -2, 0, 0], 1e3),
  W: unit([1, 2, -3, 0, 0], 1),
  kW: unit([1, 2, -3, 0, 0], 1e3),
  hp: unit([1, 2, -3, 0, 0], 550 * FOOT * POUND_FORCE),
  Hz: unit([0, 0, -1, 0, 0], 1),
  K: unit([0, 0, 0, 1, 0], 1),
  V: unit([1, 2, -3, 0, -1], 1),
  kV: unit([1, 2, -3, 0, -1], 1e3),
}

/** Read as force where a force is due: the trade writes pounds and kips for both. */
const FORCE_READING: Readonly<Record<string, string>> = { lb: 'lbf', kip: 'kipf' }

/** Names that mean different things to different people: refused, with what to write instead. */
export const AMBIGUOUS: Readonly<Record<string, string>> = {
  ton: 'write "t" (1000 kg), "short-ton" (2000 lb) or "long-ton" (2240 lb)',
  tons: 'write "t" (1000 kg), "short-ton" (2000 lb) or "long-ton" (2240 lb)',
  tonf: 'write "tf" (1000 kgf) or a force in kN or kip',
  T: 'write "t" for 1000 kg',
}

const SUPERSCRIPT: Readonly<Record<string, string>> = { '⁻': '-', '¹': '1', '²': '2', '³': '3', '⁴': '4' }

/** Product of unit names such as `kN/m3`, `N mm`, `kg/m³`, `m/h`; undefined when a name is not known. */
export function readUnit(text: string, forceDue = false): Unit | undefined {
  const plain = text.trim().replace(/[⁻¹²³⁴]/g, (c) => SUPERSCRIPT[c] as string)
  if (plain === '') return undefined
  const [over, ...under] = plain.split('/')
  let result: Unit = { dimension: NONE, factor: 1 }
  for (const [index, side] of [over ?? '', ...under].entries()) {
    for (const name of side.split(/[\s·.*]+/).filter((n) => n !== '')) {
      const factor = readPower(name, forceDue)
      if (factor === undefined) return undefined
      result = times(result, factor, index === 0 ? 1 : -1)
    }
  }
  return result
}

function readPower(name: string, forceDue: boolean): Unit | undefined {
  const match = /^(.*?[^\d^-]|1)(?:\^?(-?\d))?$/.exec(name)
  if (match === null) return undefined
  const base = match[1] as string
  const found = UNITS[forceDue && base in FORCE_READING ? (FORCE_READING[base] as string) : base]
  if (found === undefined || !Object.hasOwn(UNITS, base)) return undefined
  return times({ dimension: NONE, factor: 1 }, found, match[2] === undefined ? 1 : Number(match[2]))
}

function times(a: Unit, b: Unit, power: number): Unit {
  const dimension = a.dimension.map((x, i) => x + power * (b.dimension[i] as number)) as unknown as Dimension
  const product = { dimension, factor: a.factor * b.factor ** power }
  return a.angle || b.angle ? { ...product, angle: true } : product
}

export const sameDimension = (a: Dimension, b: Dimension): boolean =>
  a.every((x, i) => Math.abs(x - (b[i] as number)) < 1e-9)

/** SI unit labels the engine speaks. A label is a type as well, so that a force cannot meet a mass. */
export type SiUnit =
  | '1'
  | 'rad'
  | 'kg'
  | 'm'
  | 's'
  | 'N'
  | 'Pa'
  | 'm/s'
  | 'm/s2'
  | 'm2'
  | 'm3'
  | 'm4'
  | 'm6'
  | 'kg/m'
  | 'kg/m2'
  | 'kg/m3'
  | 'kg m2'
  | 'kg m'
  | 'N/m'
  | 'N/m2'
  | 'N/m3'
  | 'N m'
  | 'N m2'
  | 'm3/s'
  | 'm3/J'
  | '1/m'
  | '1/s'
  | 's/m'
  | 'kg/s'
  | 'W'
  | 'K'
  | '1/K'
  | 'm2/s'
  | 's2'
  | 'm3/kg'
  | 'm2/kg'
  | 'rad/s'
  | 'kg2'
  | 'V'
  | 'J'
  /** A temperature on its own scale, an SI unit by name: it is compared and shown, and enters no formula. */
  | '°C'

/** Dimension of an SI label; throws on a label that the table does not know (a broken promise of our own). */
export function dimensionOf(label: SiUnit): Dimension {
  const found = readUnit(label)
  if (found === undefined) throw new Error(`unit label "${label}" is not in the table`)
  return found.dimension
}
