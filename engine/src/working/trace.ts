import { sameContent } from './memory.ts'
import { child, pointerOf, readPointer } from './pointer.ts'

/**
 * What a computation read of its input, by address (a JSON Pointer into the input): values as text, lists of names as text.
 * A computation that is a function of its input gives the same again while every one of these reads the same.
 */
export interface Reads {
  values: Readonly<Record<string, string>>
  keys: Readonly<Record<string, string>>
}

/** What stood at an address when it was read, and what stands there now. */
export interface ReadChange {
  address: string
  before: string
  after: string
}

/**
 * Runs a computation over an input that notes everything that is read of it.
 *
 * @param input plain data; maps, sets and typed arrays in it count as read whole
 * @param run a function of its input alone; what it returns may hold parts of the noting input and is to be thrown away
 * @param kept shortens texts: the same for the same
 */
export function tracedReads<T extends object>(input: T, run: (noting: T) => unknown, kept = whole): Reads {
  const note: Note = { values: {}, keys: {}, kept, known: new Map() }
  run(notingOf(input, '', note) as T)
  return { values: note.values, keys: note.keys }
}

const whole = (text: string): string => text

/**
 * Addresses that read otherwise in this input than they did: nothing is computed again to find out.
 *
 * @param kept what the texts were shortened by when they were read
 */
export function readChanges({ values, keys }: Reads, input: object, kept = whole): ReadChange[] {
  const valuesNow = Object.entries(values).map(([address, before]): ReadChange => {
    return { address, before, after: valueText(input, address, before, kept) }
  })
  const keysNow = Object.entries(keys).map(([address, before]): ReadChange => {
    return { address, before, after: kept(keysText(found(input, address))) }
  })
  return [...valuesNow, ...keysNow].filter(({ before, after }) => before !== after)
}

interface Note {
  values: Record<string, string>
  keys: Record<string, string>
  kept: (text: string) => string
  known: Map<object, { address: string; noting: object }>
}

/** Stands for another address that led to the same thing: it is read there. */
const SAME_AS = 'same as '

function notingOf(value: object, address: string, note: Note): object {
  const before = note.known.get(value)
  if (before !== undefined) return before.noting
  const noting = new Proxy(Array.isArray(value) ? [] : {}, {
    get: (_, key) => {
      if (typeof key === 'symbol') return Reflect.get(value, key)
      if (!Object.hasOwn(value, key) && key in value) return Reflect.get(value, key)
      return noted(value, key, address, note)
    },
    has: (_, key) => {
      if (typeof key === 'string') noted(value, key, address, note)
      return Reflect.has(value, key)
    },
    ownKeys: () => {
      note.keys[address] = note.kept(keysText(value))
      return Reflect.ownKeys(value)
    },
    getOwnPropertyDescriptor: (_, key) => {
      const is = Reflect.getOwnPropertyDescriptor(value, key)
      if (is === undefined || typeof key === 'symbol') return is
      const own = noted(value, key, address, note)
      return { value: own, enumerable: is.enumerable === true, writable: true, configurable: key !== 'length' }
    },
    getPrototypeOf: () => Reflect.getPrototypeOf(value),
  })
  note.known.set(value, { address, noting })
  return noting
}

function noted(container: object, key: string, at: string, note: Note): unknown {
  const value = Reflect.get(container, key)
  const address = at + pointerOf(key)
  if (!isOpen(value)) {
    note.values[address] = note.kept(textOf(value))
    return value
  }
  const before = note.known.get(value)
  note.values[address] = before === undefined || before.address === address ? shapeOf(value) : SAME_AS + before.address
  return notingOf(value, address, note)
}

/** True for what is looked into name by name. */
const isOpen = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && (Array.isArray(value) || isPlainObject(value))

const isPlainObject = (value: object): boolean => {
  const prototype = Object.getPrototypeOf(value)
  return prototype === Object.prototype || prototype === null
}

const shapeOf = (value: object): string => (Array.isArray(value) ? '[…]' : '{…}')

function valueText(input: object, address: string, before: string, kept: (text: string) => string): string {
  const value = found(input, address)
  if (!isOpen(value)) return kept(textOf(value))
  if (!before.startsWith(SAME_AS)) return shapeOf(value)
  return sameContent(value, found(input, before.slice(SAME_AS.length))) ? before : shapeOf(value)
}

function found(input: object, address: string): unknown {
  return (readPointer(address) ?? []).reduce<unknown>((value, token) => {
    if (Array.isArray(value) && token === 'length') return value.length
    return child(value, token)
  }, input)
}

/** Names in their order: a computation may go by it. */
const keysText = (value: unknown): string =>
  typeof value === 'object' && value !== null ? JSON.stringify(Object.keys(value)) : textOf(value)

/** Digits to which numbers are told apart: one less than they hold, so that "25.4 m" and "25400 mm" are one value. */
const DIGITS = 15

/**
 * Text of a value that is read whole: the same for the same content.
 *
 * @param digits significant digits to which numbers are told apart
 */
export function textOf(value: unknown, digits = DIGITS): string {
  if (value === undefined) return 'nothing'
  if (typeof value === 'number')
    return Number.isFinite(value) ? String(Number(value.toPrecision(digits))) : String(value)
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'nothing'
  const inner = (part: unknown): string => textOf(part, digits)
  if (value instanceof Map) return `map ${inner([...value])}`
  if (value instanceof Set) return `set ${inner([...value])}`
  if (ArrayBuffer.isView(value)) return inner(Array.from(value as unknown as ArrayLike<number>))
  if (Array.isArray(value)) return `[${value.map(inner).join()}]`
  const entries = Object.entries(value).map(([name, part]) => `${JSON.stringify(name)}:${inner(part)}`)
  return `{${entries.join()}}`
}
