/** JSON Pointer (RFC 6901). */

/** Tokens of a pointer; undefined when the text is not one. */
export function readPointer(pointer: string): string[] | undefined {
  if (pointer === '') return []
  if (!pointer.startsWith('/') || /~(?![01])/.test(pointer)) return undefined
  return pointer
    .slice(1)
    .split('/')
    .map((token) => token.replace(/~1/g, '/').replace(/~0/g, '~'))
}

/** Pointer text of a path. */
export function pointerOf(...path: readonly (string | number)[]): string {
  return path.map((token) => `/${String(token).replace(/~/g, '~0').replace(/\//g, '~1')}`).join('')
}

/** What stands at a pointer; undefined when nothing does. Only own properties are seen. */
export function at(document: unknown, pointer: string): unknown {
  let value = document
  for (const token of readPointer(pointer) ?? ['\u0000']) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, token)) return undefined
    value = (value as Record<string, unknown>)[token]
  }
  return value
}
