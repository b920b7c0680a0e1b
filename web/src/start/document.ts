import type { Operation } from '@shieldwright/engine/working/patch.ts'
import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import type { Values } from './field.ts'

/** A part of a project file before it is read. */
export type Raw = Readonly<Record<string, unknown>>

export const section = (document: unknown, name: string): Raw => (at(document, `/${name}`) ?? {}) as Raw
/** The first entry of a collection: the guide leads to one of each. */
export const firstOf = (document: unknown, name: string): readonly [id: string, entry: Raw] | undefined =>
  Object.entries(section(document, name))[0] as [string, Raw] | undefined

/** What stands at a place, as it would be typed; empty for nothing. */
export function typedAt(entry: unknown, pointer: string): string {
  const value = at(entry, pointer)
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? String(value) : ''
}

/** Puts an entry into a section, which is made when it is not there. */
export function putEntry(document: unknown, name: string, id: string, entry: unknown): Operation[] {
  return at(document, `/${name}`) === undefined
    ? [{ op: 'add', path: `/${name}`, value: { [id]: entry } }]
    : [{ op: 'add', path: pointerOf(name, id), value: entry }]
}

/** Puts fields into an object, which is made when it is not there; what else stands in it stays. */
export const putFields = (document: unknown, pointer: string, fields: Raw): Operation[] => [
  { op: 'add', path: pointer, value: { ...((at(document, pointer) ?? {}) as Raw), ...fields } },
]

/** Only what was typed. */
export function typedOnly(values: Values, names: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    names.flatMap((name) => (values[name]?.trim() ? [[name, (values[name] as string).trim()]] : [])),
  )
}

export const three = (values: Values, [x, y, z]: readonly [string, string, string]): string[] =>
  [x, y, z].map((name) => (values[name] ?? '').trim())
