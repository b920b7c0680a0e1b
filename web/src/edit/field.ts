import { expectedOf } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'

/** A node of the published JSON Schema, as far as a table needs it. */
export interface SchemaNode {
  type?: string | readonly string[]
  const?: unknown
  enum?: readonly unknown[]
  default?: unknown
  description?: string
  examples?: readonly unknown[]
  pattern?: string
  minimum?: number
  maximum?: number
  minLength?: number
  maxLength?: number
  minItems?: number
  properties?: Readonly<Record<string, SchemaNode>>
  required?: readonly string[]
  additionalProperties?: boolean | SchemaNode
  propertyNames?: SchemaNode
  items?: boolean | SchemaNode
  prefixItems?: readonly SchemaNode[]
  oneOf?: readonly SchemaNode[]
  anyOf?: readonly SchemaNode[]
}

/** What can be typed into a place of the project file. */
export type Field = Scalar | Several | Inner

export type Scalar =
  | { kind: 'quantity'; unit: SiUnit; meaning: string; expected: string; example: string }
  | { kind: 'number'; whole: boolean; least?: number; most?: number; meaning: string }
  | { kind: 'choice'; of: readonly string[]; meaning: string }
  | { kind: 'yes or no'; meaning: string }
  | { kind: 'date'; meaning: string }
  | { kind: 'text'; id: boolean; least: number; meaning: string }

/** Several scalars that are typed into one cell: a list, a fixed number of them, or some by name. */
export type Several =
  | { kind: 'tuple'; items: readonly Scalar[]; meaning: string }
  | { kind: 'list'; item: Scalar; meaning: string }
  | { kind: 'named'; item: Scalar; meaning: string }

/** What has fields of its own: opened in a row's detail. */
export type Inner =
  | { kind: 'object'; fields: readonly NamedField[]; meaning: string }
  | { kind: 'objects'; item: Field; meaning: string }
  | { kind: 'map'; item: Field; meaning: string }
  | { kind: 'variants'; by: string | undefined; of: readonly Variant[]; meaning: string }

export interface NamedField {
  name: string
  field: Field
  required: boolean
}

export interface Variant {
  /** Value of the field that tells it from the others, or what it has that they have not. */
  name: string
  field: Field
}

const UNITS: readonly SiUnit[] = [
  '1',
  'rad',
  'kg',
  'm',
  's',
  'N',
  'Pa',
  'm/s',
  'm/s2',
  'm2',
  'm3',
  'm4',
  'kg/m',
  'kg/m2',
  'kg/m3',
  'kg m2',
  'kg m',
  'N/m',
  'N/m2',
  'N/m3',
  'N m',
  'N m2',
  'm3/s',
  'm3/J',
  '1/m',
  '1/s',
  's/m',
  'kg/s',
  'W',
  'K',
  '1/K',
  'm2/s',
  's2',
  'm3/kg',
  'm2/kg',
  'rad/s',
  'kg2',
  'V',
  'J',
]

/** The schema names a quantity by what is due: "a mass with its unit". */
const UNIT_BY_EXPECTED: ReadonlyMap<string, SiUnit> = new Map(UNITS.map((unit) => [expectedOf(unit).expected, unit]))

/** What can be typed where this schema holds. */
export function fieldOf(node: SchemaNode): Field {
  const meaning = node.description ?? ''
  const variants = node.oneOf ?? node.anyOf
  if (variants !== undefined) return variantsOf(variants, meaning)
  if (node.enum !== undefined) return { kind: 'choice', of: node.enum.map(String), meaning }
  if (node.const !== undefined) return { kind: 'choice', of: [String(node.const)], meaning }
  const type = typeof node.type === 'string' ? node.type : node.type?.find((t) => t !== 'number')
  if (type === 'object') return objectOf(node, meaning)
  if (type === 'array') return listOf(node, meaning)
  if (type === 'boolean') return { kind: 'yes or no', meaning }
  if (type === 'number' || type === 'integer') return numberOf(node, type === 'integer', meaning)
  return textOf(node, meaning)
}

function textOf(node: SchemaNode, description: string): Scalar {
  const [meaning, due] = splitDescription(description)
  const unit = UNIT_BY_EXPECTED.get(due)
  if (unit !== undefined) return { kind: 'quantity', unit, meaning, ...expectedOf(unit) }
  if (node.pattern?.includes('\\d{4}-') === true) return { kind: 'date', meaning: description }
  return {
    kind: 'text',
    id: node.pattern?.startsWith('^[A-Za-z0-9]') === true,
    least: node.minLength ?? 0,
    meaning: description,
  }
}

function splitDescription(description: string): readonly [meaning: string, due: string] {
  const at = description.lastIndexOf('. ')
  return at < 0 ? ['', description] : [description.slice(0, at), description.slice(at + 2)]
}

function numberOf({ minimum, maximum }: SchemaNode, whole: boolean, meaning: string): Scalar {
  const least = minimum !== undefined && minimum > -1e15 ? { least: minimum } : {}
  const most = maximum !== undefined && maximum < 1e15 ? { most: maximum } : {}
  return { kind: 'number', whole, meaning, ...least, ...most }
}

function objectOf(node: SchemaNode, meaning: string): Field {
  if (node.properties === undefined && typeof node.additionalProperties === 'object') {
    const item = fieldOf(node.additionalProperties)
    return isScalar(item) ? { kind: 'named', item, meaning } : { kind: 'map', item, meaning }
  }
  const required = new Set(node.required)
  const fields = Object.entries(node.properties ?? {}).map(([name, inner]) => ({
    name,
    field: fieldOf(inner),
    required: required.has(name),
  }))
  return { kind: 'object', fields, meaning }
}

function listOf(node: SchemaNode, meaning: string): Field {
  const items = node.prefixItems?.map(fieldOf)
  if (items?.every(isScalar)) return { kind: 'tuple', items, meaning }
  const item = fieldOf(typeof node.items === 'object' ? node.items : {})
  return isScalar(item) ? { kind: 'list', item, meaning } : { kind: 'objects', item, meaning }
}

function variantsOf(nodes: readonly SchemaNode[], meaning: string): Field {
  const by = Object.keys(nodes[0]?.properties ?? {}).find((name) =>
    nodes.every((node) => node.properties?.[name]?.const !== undefined),
  )
  const of = nodes.map((node) => ({
    name: by === undefined ? Object.keys(node.properties ?? {}).join(', ') : String(node.properties?.[by]?.const),
    field: fieldOf(node),
  }))
  const [only] = of
  return of.length === 1 && only !== undefined ? only.field : { kind: 'variants', by, of, meaning }
}

const SCALARS: ReadonlySet<string> = new Set(['quantity', 'number', 'choice', 'yes or no', 'date', 'text'])
export const isScalar = (field: Field): field is Scalar => SCALARS.has(field.kind)
/** What fits in one cell. */
export const isCell = (field: Field): field is Scalar | Several =>
  isScalar(field) || field.kind === 'tuple' || field.kind === 'list' || field.kind === 'named'

/** Of several shapes, the one that a value has. */
export function variantOf(field: Extract<Field, { kind: 'variants' }>, value: unknown): Variant | undefined {
  const held = value as Readonly<Record<string, unknown>> | undefined
  if (field.by !== undefined) return field.of.find((v) => v.name === held?.[field.by as string])
  const names = Object.keys(held ?? {})
  return field.of.find((v) => v.field.kind === 'object' && names.every((n) => fieldNames(v.field).includes(n)))
}

const fieldNames = (field: Field): string[] => (field.kind === 'object' ? field.fields.map((f) => f.name) : [])

/**
 * The field at a place below another.
 *
 * @param value what stands there now: it decides between shapes
 * @returns undefined where no field can stand
 */
export function fieldBelow(field: Field, path: readonly string[], value: unknown): Field | undefined {
  const [token, ...rest] = path
  if (token === undefined) return field
  const inner = innerField(field, token, value)
  return inner === undefined
    ? undefined
    : fieldBelow(inner, rest, (value as Record<string, unknown> | undefined)?.[token])
}

function innerField(field: Field, token: string, value: unknown): Field | undefined {
  switch (field.kind) {
    case 'object':
      return field.fields.find((f) => f.name === token)?.field
    case 'map':
    case 'objects':
    case 'list':
    case 'named':
      return field.item
    case 'tuple':
      return field.items[Number(token)]
    case 'variants': {
      // Where nothing stands yet, the first shape that has such a field.
      const shapes = [variantOf(field, value), ...field.of].filter((v) => v !== undefined)
      return shapes.map((v) => innerField(v.field, token, value)).find((inner) => inner !== undefined)
    }
    default:
      return undefined
  }
}
