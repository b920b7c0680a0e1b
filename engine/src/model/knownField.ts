import type { z } from 'zod'

/** Names a schema knows for the object at a path within it; empty where it knows none. */
export function knownFields(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  const here = path.reduce<Schema[]>(
    (schemas, key) => schemas.flatMap((s) => bare(s).flatMap((b) => under(b, key))),
    [schema as unknown as Schema],
  )
  return here.flatMap(bare).flatMap((s) => (s._zod.def.type === 'object' ? Object.keys(s._zod.def.shape) : []))
}

type Schema = z.core.$ZodTypes

/** What stands behind defaults, options and transforms; each member of a union. */
function bare(schema: Schema): Schema[] {
  const { def } = schema._zod
  switch (def.type) {
    case 'optional':
    case 'default':
    case 'nullable':
    case 'readonly':
      return bare(def.innerType as Schema)
    case 'pipe':
      return bare(def.in as Schema)
    case 'union':
      return def.options.flatMap((o) => bare(o as Schema))
    default:
      return [schema]
  }
}

function under(schema: Schema, key: PropertyKey): Schema[] {
  const { def } = schema._zod
  switch (def.type) {
    case 'object':
      return Object.hasOwn(def.shape, key) ? [def.shape[key as string] as Schema] : []
    case 'array':
      return [def.element as Schema]
    case 'tuple':
      return def.items[Number(key)] === undefined ? [] : [def.items[Number(key)] as Schema]
    case 'record':
      return [def.valueType as Schema]
    default:
      return []
  }
}
