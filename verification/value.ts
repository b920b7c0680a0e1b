import { type Dimension, readUnit } from '../engine/src/working/unit.ts'
import type { Value } from './types.ts'

/** A number as a case writes it: its SI value, and the unit it was written in for showing results beside it. */
export interface Written {
  si: number
  /** SI value of one such unit. */
  factor: number
  label: string
  /** Absent where no unit was written. */
  dimension?: Dimension
}

const NUMBER_WITH_UNIT = /^([+\-−]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/

/** Reads "412 t", "5 %", "33.3" or 33.3; undefined when it is not a number with a known unit. */
export function readWritten(value: unknown): Written | undefined {
  if (typeof value === 'number') return { si: value, factor: 1, label: '' }
  const match = typeof value === 'string' ? NUMBER_WITH_UNIT.exec(value.trim()) : null
  if (match === null) return undefined
  const [, digits = '', label = ''] = match
  const number = Number(digits.replace('−', '-'))
  if (label === '') return { si: number, factor: 1, label }
  const unit = readUnit(label)
  return unit && { si: number * unit.factor, factor: unit.factor, label, dimension: unit.dimension }
}

/** A case's input as a function receives it: every quantity in SI, the rest as written. */
export function siValue(value: unknown): Value {
  if (Array.isArray(value)) return value.map(siValue)
  if (isRecord(value)) return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, siValue(inner)]))
  return readWritten(value)?.si ?? (value as Value)
}

export const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const DIGITS = 7

/** A number for the eye, in a unit. */
export function shown(si: number, { factor, label }: Pick<Written, 'factor' | 'label'>): string {
  const number = Number((si / factor).toPrecision(DIGITS))
  return label === '' ? String(number) : `${number} ${label}`
}

/** Any value for the eye. */
export function shownValue(value: unknown): string {
  if (typeof value === 'number') return shown(value, { factor: 1, label: '' })
  if (value === undefined || value === null) return 'open'
  return typeof value === 'string' ? value : JSON.stringify(value)
}
