import type { Operation } from '@shieldwright/engine/working/patch.ts'
import { at, child, pointerOf, readPointer } from '@shieldwright/engine/working/pointer.ts'

/**
 * The operation that puts a value at a place, making the objects above it where there are none; undefined as value takes
 * it away. Nothing when nothing would change.
 */
export function writing(document: unknown, pointer: string, value: unknown): Operation[] {
  const path = readPointer(pointer) ?? []
  const stands = at(document, pointer)
  if (value === undefined) return stands === undefined ? [] : [{ op: 'remove', path: pointer }]
  if (stands !== undefined) return stands === value ? [] : [{ op: 'replace', path: pointer, value }]
  const depth = depthOf(document, path)
  const below = path.slice(depth + 1)
  return [{ op: 'add', path: pointerOf(...path.slice(0, depth + 1)), value: nested(below, value) }]
}

function depthOf(document: unknown, path: readonly string[]): number {
  let inside: unknown = document
  for (const [depth, token] of path.entries()) {
    inside = child(inside, token)
    if (inside === undefined) return depth
  }
  return path.length
}

const nested = (path: readonly string[], value: unknown): unknown =>
  path.reduceRight<unknown>((inner, token) => ({ [token]: inner }), value)
