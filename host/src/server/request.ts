import { hasHalfCharacter } from '@shieldwright/engine/working/plain.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { foundText, type Problem } from '@shieldwright/engine/working/problem.ts'
import type { Context } from 'hono'
import { z } from 'zod'

/** A text that both databases can keep as it is: PostgreSQL takes no NUL, and no encoding half a character. */
export const text = (least: number, most: number) =>
  z.string().min(least).max(most).refine(isKept, 'a text of whole characters without NUL')

export const isKept = (words: string): boolean => !words.includes('\0') && !hasHalfCharacter(words)

/** The body of a request as a schema has it, or every fault in it with its place. */
export async function bodyAs<T>(
  context: Context,
  schema: z.ZodType<T>,
): Promise<{ body: T } | { problems: readonly Problem[] }> {
  const raw: unknown = await context.req.json().catch(() => undefined)
  const read = schema.safeParse(raw)
  if (read.success) return { body: read.data }
  return {
    problems: read.error.issues.map(({ path, message }) => ({
      pointer: pointerOf(...path.map(String)),
      found: foundText(path.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown>)?.[key], raw)),
      expected: message,
    })),
  }
}

/**
 * Bytes of a body as its header says, which the connection holds it to; undefined where it comes in pieces. NaN where the header
 * is no count of bytes, which is within no limit. To look at the body itself makes a stream of it, which costs more than all
 * else on the way of a small request.
 */
export function lengthSaid({ req }: Context): number | undefined {
  const length = req.header('content-length')
  if (length === undefined && (req.method === 'GET' || req.method === 'HEAD')) return 0
  if (length === undefined || req.header('transfer-encoding') !== undefined) return undefined
  return /^\d+$/.test(length) ? Number(length) : Number.NaN
}

/** An answer that says what was wrong with the request. */
export const refusal = (
  context: Context,
  status: 400 | 401 | 403 | 404 | 409 | 411 | 413 | 415 | 429,
  problems: readonly Problem[],
): Response => context.json({ problems }, status)
