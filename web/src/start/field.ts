import { readQuantity } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'

/** One thing to type. Examples are shown as hints, and never stand in for a value. */
export interface StartField {
  name: string
  label: string
  example: string
  /** What is due: a quantity in any unit of this dimension, a whole number, a choice, or text. */
  unit?: SiUnit
  whole?: true
  of?: readonly string[]
  /** May be left out; and what is then open, where that needs saying. */
  optional?: string
}

export type Values = Readonly<Record<string, string>>

export const quantity = (
  name: string,
  label: string,
  unit: SiUnit,
  example: string,
  optional?: string,
): StartField => ({
  name,
  label,
  unit,
  example,
  ...(optional === undefined ? {} : { optional }),
})

export const text = (name: string, label: string, example: string, optional?: string): StartField => ({
  name,
  label,
  example,
  ...(optional === undefined ? {} : { optional }),
})

export const choice = (name: string, label: string, of: readonly string[], optional?: string): StartField => ({
  name,
  label,
  of,
  example: of[0] as string,
  ...(optional === undefined ? {} : { optional }),
})

/** What is wrong with a text typed into a field; undefined when nothing is. Ranges are the engine's to say. */
export function faultOf(field: StartField, typed: string): string | undefined {
  const value = typed.trim()
  if (value === '') return field.optional === undefined ? `Missing. Type ${field.example}, or what it is.` : undefined
  if (field.of !== undefined) return field.of.includes(value) ? undefined : `One of: ${field.of.join(', ')}.`
  if (field.whole === true) return /^\d+$/.test(value) ? undefined : `A whole number is due, such as ${field.example}.`
  if (field.unit === undefined) return undefined
  const read = readQuantity(value, field.unit)
  return typeof read === 'number'
    ? undefined
    : `Found “${value}”; ${read.expected} is due, such as ${field.example}. Not kept.`
}

/** An id from a name, unlike those that are taken: letters, digits and dashes. */
export function idOf(name: string, taken: object = {}): string {
  const plain = name
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40)
  const base = plain === '' ? 'one' : plain
  const next = (n: number): string => (Object.hasOwn(taken, `${base}-${n}`) ? next(n + 1) : `${base}-${n}`)
  return Object.hasOwn(taken, base) ? next(2) : base
}
