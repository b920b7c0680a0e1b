import { readQuantity, shownScale, showQuantity } from '@shieldwright/engine/working/quantity.ts'
import type { Field, Scalar, Several } from './field.ts'

/** The text of a value as it stands in a cell: as it was typed. */
export function cellText(value: unknown): string {
  if (value === undefined || value === null) return ''
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (Array.isArray(value)) return value.map(cellText).join(', ')
  if (typeof value === 'object')
    return Object.entries(value)
      .map(([name, inner]) => `${name}: ${cellText(inner)}`)
      .join(', ')
  return String(value)
}

/** What a text says in a field: a value, nothing at all, or why it is refused. */
export type Read = { value: unknown } | { absent: true } | { fault: string }

/** Reads what was typed into a cell. What only the whole project can tell (an id that names nothing) is not looked at. */
export function readCell(field: Scalar | Several, text: string): Read {
  const trimmed = text.trim()
  if (trimmed === '') return { absent: true }
  switch (field.kind) {
    case 'tuple':
      return readTuple(field.items, split(trimmed))
    case 'list':
      return readAll(split(trimmed).map((item) => readScalar(field.item, item)))
    case 'named':
      return readNamed(field.item, trimmed)
    default:
      return readScalar(field, trimmed)
  }
}

const split = (text: string): string[] =>
  text
    .split(/[,;]\s*/)
    .map((item) => item.trim())
    .filter((item) => item !== '')

function readTuple(items: readonly Scalar[], texts: readonly string[]): Read {
  if (texts.length !== items.length)
    return { fault: `${items.length} values are due here, parted by commas; found ${texts.length}.` }
  return readAll(texts.map((text, i) => readScalar(items[i] as Scalar, text)))
}

function readAll(reads: readonly Read[]): Read {
  const fault = reads.find((read) => 'fault' in read)
  return fault ?? { value: reads.map((read) => ('value' in read ? read.value : undefined)) }
}

function readNamed(item: Scalar, text: string): Read {
  const pairs = split(text).map((pair): readonly [string, Read] => {
    const colon = pair.lastIndexOf(':')
    if (colon <= 0) return [pair, { fault: `A name and a value are due, such as “${pair}: 1”.` }]
    return [pair.slice(0, colon).trim(), readScalar(item, pair.slice(colon + 1).trim())]
  })
  const fault = pairs.find(([, read]) => 'fault' in read)?.[1]
  return (
    fault ?? {
      value: Object.fromEntries(pairs.map(([name, read]) => [name, 'value' in read ? read.value : undefined])),
    }
  )
}

function readScalar(field: Scalar, text: string): Read {
  switch (field.kind) {
    case 'quantity':
      return readTyped(field, text)
    case 'number':
      return readNumber(field, text)
    case 'choice': {
      const chosen = field.of.find((option) => option.toLowerCase() === text.toLowerCase())
      return chosen === undefined ? { fault: `One of these is due: ${field.of.join(', ')}.` } : { value: chosen }
    }
    case 'yes or no': {
      const said = { yes: true, true: true, no: false, false: false }[text.toLowerCase()]
      return said === undefined ? { fault: 'Yes or no is due.' } : { value: said }
    }
    case 'date':
      return /^\d{4}-\d{2}-\d{2}$/.test(text)
        ? { value: text }
        : { fault: 'A date is due: year-month-day, such as 2032-12-09.' }
    case 'text':
      return { value: text }
    default:
      return field satisfies never
  }
}

type QuantityField = Extract<Scalar, { kind: 'quantity' }>

function readTyped(field: QuantityField, text: string): Read {
  const { unit, example } = field
  const value = readQuantity(text, unit)
  if (typeof value === 'number') return { value: unit === '1' && Number.isFinite(Number(text)) ? Number(text) : text }
  const bare = Number(text.replace('\u2212', '-').replace(/[\s\u202f\u00a0]/g, ''))
  if (Number.isFinite(bare)) return { fault: unitMissing(field, bare) }
  return { fault: `${sentence(value.expected)} is due, such as ${example}.` }
}

/** "A mass needs its unit. Type 47.9 t or 105.6 kip." The unit is the one of the field's example. */
function unitMissing({ unit, expected, example }: QuantityField, bare: number): string {
  const label = parted(example)?.unit ?? shownScale(1, unit, 'SI').label
  const value = readQuantity(`${bare} ${label}`, unit)
  const what = sentence(expected.replace(/ with its unit$/, ''))
  const typed = `${bare} ${label}`
  if (typeof value !== 'number') return `${what} needs its unit, such as ${example}.`
  const us = shownScale(value, unit, 'US')
  const other = showQuantity(value, unit, 'US').replace('\u00a0', ' ')
  return us.label === shownScale(value, unit, 'SI').label
    ? `${what} needs its unit. Type ${typed}.`
    : `${what} needs its unit. Type ${typed} or ${other}.`
}

const sentence = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1)

function readNumber({ whole, least, most }: Extract<Scalar, { kind: 'number' }>, text: string): Read {
  const value = Number(text.replace('\u2212', '-').replace(/[\s\u202f\u00a0]/g, ''))
  const range = [least === undefined ? '' : ` from ${least}`, most === undefined ? '' : ` to ${most}`].join('')
  const sound =
    Number.isFinite(value) &&
    (!whole || Number.isInteger(value)) &&
    value >= (least ?? value) &&
    value <= (most ?? value)
  return sound
    ? { value }
    : { fault: `A ${whole ? 'whole ' : ''}number${range} is due, such as ${Math.max(1, least ?? 1)}.` }
}

/** A quantity in the other system than it was typed in; empty where there is none or it would say the same. */
export function otherText(field: Field | undefined, text: string): string {
  if (field?.kind !== 'quantity' || text === '' || field.unit === '1') return ''
  // a temperature without its unit is in degrees Celsius, as projects were first written
  const isBare = field.unit === 'K' && Number.isFinite(Number(text))
  const value = readQuantity(isBare ? `${text} °C` : text, field.unit)
  if (typeof value !== 'number') return ''
  const [si, us] = [showQuantity(value, field.unit, 'SI'), showQuantity(value, field.unit, 'US')]
  if (si === us) return ''
  return isCustomary(text) ? si : us
}

const isCustomary = (text: string): boolean =>
  /\b(ft|in|yd|mi|lb|lbf|kip|kipf|psi|ksi|psf|ksf|pcf|mph|gal|short-ton|long-ton)\d?\b|°F/.test(text)

/** A figure apart: digits before the point, digits after it, and the unit, so that a column aligns on the decimal. */
export interface Parted {
  whole: string
  fraction: string
  unit: string
}

/** A text that is one figure with its unit, parted; undefined for anything else ("63 ft 4 in"). */
export function parted(text: string): Parted | undefined {
  const match = /^([+\-\u2212]?\d[\d\u202f\u00a0]*)(\.\d+)?(?:\s?([^\d\s].*))?$/.exec(text)
  if (match === null || /\s[+\-\u2212]?\d/.test(match[3] ?? '')) return undefined
  return { whole: (match[1] as string).replace('-', '\u2212'), fraction: match[2] ?? '', unit: match[3] ?? '' }
}
