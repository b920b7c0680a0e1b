import { z } from 'zod'
import { name, note } from './field.ts'

const pointer = z.string().regex(/^\/[^/]/, 'a place in this file, such as "/systems/tower"')

/** One operation of a JSON Patch (RFC 6902) on this file. */
const operation = z.discriminatedUnion('op', [
  z.strictObject({ op: z.enum(['add', 'replace', 'test']), path: pointer, value: z.unknown() }),
  z.strictObject({ op: z.literal('remove'), path: pointer }),
  z.strictObject({ op: z.enum(['move', 'copy']), path: pointer, from: pointer }),
])

/** A branch of the project: what would be different. It decides nothing until somebody adopts it. */
export const scenario = z.strictObject({
  name,
  /** What speaks for it, and what it waits for. */
  why: z.string().optional(),
  patch: z.array(operation).min(1),
  note,
})
