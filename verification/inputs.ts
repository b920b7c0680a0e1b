import type { Inputs, Value } from './types.ts'

/** A number, or an Error that names the input. */
export const numberOf = (inputs: Inputs, name: string): number => number(inputs[name], name)

/** A number that may be left out. */
export const numberOr = (inputs: Inputs, name: string, otherwise: number): number =>
  inputs[name] === undefined ? otherwise : numberOf(inputs, name)

/** A list of numbers. */
export const numbersOf = (inputs: Inputs, name: string): number[] =>
  listOf(inputs, name).map((value, i) => number(value, `${name}[${i}]`))

/** A list of lists of numbers, such as points. */
export const rowsOf = (inputs: Inputs, name: string): number[][] =>
  listOf(inputs, name).map((row, i) =>
    list(row, `${name}[${i}]`).map((value, j) => number(value, `${name}[${i}][${j}]`)),
  )

/** A word, such as a kind or a mode. */
export function textOf(inputs: Inputs, name: string): string {
  const value = inputs[name]
  if (typeof value === 'string' || typeof value === 'number') return String(value)
  throw unexpected(name, value, 'a text')
}

/** A list of anything. */
export const listOf = (inputs: Inputs, name: string): readonly Value[] => list(inputs[name], name)

/** Values by name, such as the activities of a network. */
export function recordOf(inputs: Inputs, name: string): Readonly<Record<string, Value>> {
  const value = inputs[name]
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Record<string, Value>
  throw unexpected(name, value, 'values by name')
}

function number(value: Value, name: string): number {
  if (typeof value === 'number') return value
  throw unexpected(name, value, 'a number, or a quantity in a unit that is known')
}

function list(value: Value, name: string): readonly Value[] {
  if (Array.isArray(value)) return value
  throw unexpected(name, value, 'a list')
}

const unexpected = (name: string, value: Value, expected: string): Error =>
  new Error(`input "${name}": found ${JSON.stringify(value) ?? 'nothing'}, expected ${expected}`)
