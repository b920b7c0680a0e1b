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
  let text = ''
  for (const token of path) text += `/${escaped(String(token))}`
  return text
}

/** Most tokens hold neither sign: those are left as they are. */
const escaped = (token: string): string =>
  token.includes('~') || token.includes('/') ? token.replace(/~/g, '~0').replace(/\//g, '~1') : token

/** What stands at a pointer; undefined when nothing does. Only own properties are seen, and of a list its items. */
export function at(document: unknown, pointer: string): unknown {
  const path = readPointer(pointer)
  return path === undefined ? undefined : path.reduce(child, document)
}

/** An item of a list or a field of an object; undefined when there is none. */
export function child(value: unknown, token: string): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, token)) return undefined
  return Array.isArray(value) && !isIndex(token) ? undefined : (value as Record<string, unknown>)[token]
}

/** Digits without a leading zero, as RFC 6901 has it. */
export const isIndex = (token: string): boolean => /^(0|[1-9]\d*)$/.test(token)
