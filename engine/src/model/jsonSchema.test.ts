import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { expectedOf, readQuantity } from '../working/quantity.ts'
import type { SiUnit } from '../working/unit.ts'
import { projectJsonSchema } from './jsonSchema.ts'
import { readText } from './text.ts'

type Schema = Record<string, unknown>
const schema = projectJsonSchema()

/** Every subschema, with where it stands. */
function subschemas(value: unknown, pointer = ''): [string, Schema][] {
  if (typeof value !== 'object' || value === null) return []
  const inner = Object.entries(value).flatMap(([key, v]) => subschemas(v, `${pointer}/${key}`))
  return Array.isArray(value) ? inner : [[pointer, value as Schema], ...inner]
}

test('it is draft 2020-12, titled, and has no address of its own', () => {
  expect(schema).toMatchObject({
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Shieldwright project',
  })
  expect(schema).not.toHaveProperty('$id')
})

test('a quantity is a text, with what is due and an example', () => {
  const parts = (schema.properties as Record<string, Schema>).parts as {
    additionalProperties: { properties: Record<string, Schema> }
  }
  const mass = parts.additionalProperties.properties.mass as { properties: Record<string, Schema> }
  expect(mass.properties.value).toEqual({
    type: 'string',
    description: 'mass. a mass with its unit',
    examples: ['412 t'],
  })
})

test('every example given for a quantity reads as one', () => {
  const units: SiUnit[] = [
    'kg',
    'm',
    's',
    'rad',
    'N',
    'Pa',
    'm/s',
    'kg/m3',
    'N/m3',
    'kg/m',
    'm3',
    '1',
    'm2',
    'm2/kg',
    'kg/s',
    'V',
    'rad/s',
    'm3/s',
    'm3/J',
    'W',
    'K',
    'N m',
    'N/m',
  ]
  const unitsByText = new Map(units.map((unit) => [expectedOf(unit).expected, unit]))
  const examples = subschemas(schema).flatMap(([, s]) =>
    Array.isArray(s.examples) && typeof s.description === 'string'
      ? [[s.description, s.examples[0] as string] as const]
      : [],
  )
  expect(examples.length).toBeGreaterThan(150)
  for (const [description, example] of examples) {
    const unit = [...unitsByText].find(([text]) => description.endsWith(text))?.[1]
    expect(unit, description).toBeDefined()
    expect(typeof readQuantity(example, unit as SiUnit), `${description}: ${example}`).toBe('number')
  }
})

/** A validator of what the schema uses and no more: a second road to what the reader accepts. */
function faults(s: Schema, value: unknown, at: string): string[] {
  // a schema that asks for nothing takes anything: the value of an operation of a patch
  if (Object.keys(s).length === 0) return []
  if (Array.isArray(s.anyOf))
    return s.anyOf.some((o) => faults(o as Schema, value, at).length === 0) ? [] : [`${at}: no alternative`]
  if (Array.isArray(s.oneOf))
    return s.oneOf.some((o) => faults(o as Schema, value, at).length === 0) ? [] : [`${at}: no alternative`]
  if (Array.isArray(s.type))
    return s.type.some((type) => faults({ ...s, type }, value, at).length === 0) ? [] : [`${at}: of no such type`]
  if ('const' in s) return s.const === value ? [] : [`${at}: not ${s.const}`]
  if (Array.isArray(s.enum)) return s.enum.includes(value) ? [] : [`${at}: not in the list`]
  switch (s.type) {
    case 'object':
      return isRecord(value) ? objectFaults(s, value, at) : [`${at}: no object`]
    case 'array':
      return Array.isArray(value) ? arrayFaults(s, value, at) : [`${at}: no list`]
    case 'string':
      return typeof value === 'string' && (s.pattern === undefined || new RegExp(s.pattern as string).test(value))
        ? []
        : [`${at}: no such text`]
    case 'number':
    case 'integer':
      return typeof value === 'number' && (s.type === 'number' || Number.isInteger(value)) ? [] : [`${at}: no number`]
    case 'boolean':
      return typeof value === 'boolean' ? [] : [`${at}: no truth value`]
    default:
      return [`${at}: a schema of type ${s.type} is not known here`]
  }
}

const isRecord = (v: unknown): v is Record<string, unknown> => typeof v === 'object' && v !== null && !Array.isArray(v)

function objectFaults(s: Schema, value: Record<string, unknown>, at: string): string[] {
  const properties = (s.properties ?? {}) as Record<string, Schema>
  const missing = ((s.required ?? []) as string[]).filter((key) => !(key in value)).map((key) => `${at}: no ${key}`)
  const inner = Object.entries(value).flatMap(([key, v]) => {
    const known = properties[key] ?? s.additionalProperties
    if (typeof known !== 'object' || known === null) return [`${at}/${key}: not known`]
    return faults(known as Schema, v, `${at}/${key}`)
  })
  return [...missing, ...inner]
}

function arrayFaults(s: Schema, value: unknown[], at: string): string[] {
  const fixed = (s.prefixItems ?? []) as Schema[]
  return value.flatMap((v, i) => faults((fixed[i] ?? s.items) as Schema, v, `${at}/${i}`))
}

const demo = readText(readFileSync(new URL('../../../examples/recovery/project.yaml', import.meta.url), 'utf8'))
  .document as Record<string, unknown>

test('the invented recovery fits it', () => {
  expect(faults(schema, demo, '')).toEqual([])
})

test('a number in place of a quantity, and a field nobody knows, do not fit it', () => {
  expect(faults(schema, { ...demo, materials: { steel: { density: 7850, colour: 'grey' } } }, '')).toEqual([
    '/materials/steel/density: no such text',
    '/materials/steel/colour: not known',
  ])
})
