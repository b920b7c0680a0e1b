import { z } from 'zod'
import { type Basis, type Given, given } from '../../working/answer.ts'
import { expectedOf, readQuantity } from '../../working/quantity.ts'
import type { SiUnit } from '../../working/unit.ts'
import { isMoment } from '../moment.ts'

/** Between what is expected and its example in a message, so that problems stay data. */
export const EXAMPLE_MARK = ' ⟶ '

/** What is due and an example of it, as one message. */
export const expectation = (expected: string, example?: string): string =>
  example === undefined ? expected : expected + EXAMPLE_MARK + example

export interface Range {
  /** Least allowed SI value. */
  least?: number
  /** The value must be above this. */
  above?: number
  most?: number
}

/**
 * A quantity as text with its unit; read to an input that knows its address. A bare number is refused unless the field is a
 * plain ratio or count.
 */
export function quantity<U extends SiUnit>(unit: U, meaning: string, range: Range = {}) {
  const { expected, example } = expectedOf(unit)
  const text = z.string({ error: () => expectation(expected, example) })
  const input = unit === '1' ? z.union([z.number(), text], { error: () => expectation(expected, example) }) : text
  return input
    .meta({ description: `${meaning}. ${expected}`, examples: [example] })
    .transform((written, context): Given<U> => {
      const value = typeof written === 'number' ? written : readQuantity(written, unit)
      const fault = typeof value === 'number' ? rangeFault(value, range) : value.expected
      if (fault !== undefined)
        context.addIssue({ code: 'custom', message: expectation(fault, example), input: written })
      return given(unit, '', typeof value === 'number' ? value : undefined)
    })
}

const ABSOLUTE_ZERO = -273.15
/** Decimals of a degree that are kept: what a step from one scale to the other leaves beyond them is no figure. */
const DEGREE_DECIMALS = 9

/**
 * A temperature as text in °C or °F, kept in degrees Celsius, so that a ratio of two of them is taken on that scale. A bare
 * number is in degrees Celsius, as projects were first written.
 */
export function temperature(meaning: string) {
  const { expected, example } = expectedOf('°C')
  const message = expectation(expected, example)
  return z
    .union([z.number(), z.string()], { error: () => message })
    .meta({ description: `${meaning}. ${expected}`, examples: [example] })
    .transform((written, context): Given<'°C'> => {
      const celsius = typeof written === 'number' ? written : readQuantity(written, '°C')
      const isRead = typeof celsius === 'number' && celsius >= ABSOLUTE_ZERO
      if (!isRead) context.addIssue({ code: 'custom', message, input: written })
      return given('°C', '', isRead ? Number(celsius.toFixed(DEGREE_DECIMALS)) : undefined)
    })
}

function rangeFault(value: number, { least, above, most }: Range): string | undefined {
  if (!Number.isFinite(value)) return 'a finite number'
  if (least !== undefined && value < least) return least === 0 ? 'zero or more' : `at least ${least} (SI)`
  if (above !== undefined && value <= above) return above === 0 ? 'more than zero' : `more than ${above} (SI)`
  if (most !== undefined && value > most) return `at most ${most} (SI)`
  return undefined
}

export const mass = (meaning: string) => quantity('kg', meaning, { least: 0 })
export const length = (meaning: string) => quantity('m', meaning, { least: 0 })
export const level = (meaning: string) => quantity('m', meaning)
export const duration = (meaning: string) => quantity('s', meaning, { least: 0 })
export const angle = (meaning: string) => quantity('rad', meaning)
export const ratio = (meaning: string) => quantity('1', meaning, { least: 0 })
/** A share of a whole: from 0 to 1. */
export const share = (meaning: string) => quantity('1', meaning, { least: 0, most: 1 })
/** A factor on a load: one or more. */
export const factor = (meaning: string) => quantity('1', meaning, { least: 1 })
export const speed = (meaning: string) => quantity('m/s', meaning, { least: 0 })

/** Three coordinates, each with its unit; the frame is said in the meaning. */
export const point = (meaning: string) =>
  z.tuple([level(`x, ${meaning}`), level(`y, ${meaning}`), level(`z, ${meaning}`)])
/** A direction as three plain numbers, of any length; the frame is said in the meaning. */
export const direction = (meaning: string) =>
  z.tuple([quantity('1', `x, ${meaning}`), quantity('1', `y, ${meaning}`), quantity('1', `z, ${meaning}`)])
export const planPoint = (meaning: string) => z.tuple([level(`x, ${meaning}`), level(`y, ${meaning}`)])
export const span = (meaning: string) => z.tuple([level(`from, ${meaning}`), level(`to, ${meaning}`)])
/** A span that things move in: from its lesser end to its greater one. */
export const ordered = (meaning: string) =>
  span(meaning).refine(([from, to]) => from.value === undefined || to.value === undefined || from.value <= to.value, {
    error: () => expectation('the lesser end first', '[-5 m, 5 m]'),
  })
/** Words that a verdict rests on: blanks are none. */
export const said = z.string().regex(/\S/, { error: () => expectation('some words', 'report 12, rev. B') })

const LONGEST_NAME = 200
export const name = z
  .string({ error: () => expectation('a name', 'Cutting head hub') })
  .min(1)
  .max(LONGEST_NAME)
export const note = z.string().max(2000).optional()

/** Ids are words of letters, digits, dot, dash and underscore: they stand in pointers and file names as they are. */
export const id = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/, {
  error: () => expectation('an id of letters, digits, ".", "-" and "_"', 'drive-03'),
})

/** SHA-256, hexadecimal. */
export const digest = z.string().regex(/^[0-9a-f]{64}$/, {
  error: () => expectation('a SHA-256: 64 hexadecimal digits, small letters', '0'.repeat(64)),
})

/** A collection: entities by id. */
export const collection = <T extends z.ZodType>(entity: T) => z.record(id, entity).default({})

const dateExpected = () => expectation('a date, year-month-day', '2032-12-09')
export const date = z
  .string({ error: dateExpected })
  .regex(/^\d{4}-\d{2}-\d{2}$/, { error: dateExpected, abort: true })
  .refine(isOfCalendar, { error: dateExpected })

/** Whether the month has that day. */
function isOfCalendar(text: string): boolean {
  const [year, month, day] = text.split('-').map(Number) as [number, number, number]
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0
  return day >= 1 && day <= days
}

const momentExpected = () =>
  expectation('a day, local time on it, or time with its offset from UTC, in that form (ISO 8601)', '2032-03-05T07:30')
/** A day, local time in the zone of the programme, or time with its offset. */
export const moment = z.string({ error: momentExpected }).refine(isMoment, { error: momentExpected })

export const timeOfDay = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$|^24:00$/, { error: () => expectation('a time of day', '07:00') })

export const massBasis = z.enum(['weighed', 'calculated', 'catalogue', 'estimated'])
export type MassBasis = z.infer<typeof massBasis>

/** A mass with how it is known; a missing uncertainty, date or source leaves what hangs from it open. */
export const knownMass = z.strictObject({
  value: mass('mass'),
  basis: massBasis,
  uncertainty: ratio('standard uncertainty as a share of the value').optional(),
  date: date.optional(),
  source: z.string().optional(),
})

const isGiven = (value: object): value is Given => (value as Given).kind === 'given' && 'pointer' in value

/** Writes into every input under `value` where in the file it stands; `value` is freshly parsed and not yet shared. */
export function addressInputs<T>(value: T, pointer: string, basis?: Basis): T {
  if (typeof value !== 'object' || value === null) return value
  if (isGiven(value)) {
    value.pointer = pointer
    if (basis !== undefined) value.basis = basis
    return value
  }
  const own = massBasis.safeParse((value as { basis?: unknown }).basis)
  for (const [key, inner] of Object.entries(value)) {
    addressInputs(
      inner,
      `${pointer}/${key.replace(/~/g, '~0').replace(/\//g, '~1')}`,
      own.success && key === 'value' ? own.data : undefined,
    )
  }
  return value
}
