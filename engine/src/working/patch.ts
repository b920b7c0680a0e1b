import { sameContent } from './memory.ts'
import { readPointer } from './pointer.ts'
import { foundText, type Problem } from './problem.ts'

/** One operation of a JSON Patch (RFC 6902). */
export type Operation =
  | { op: 'add' | 'replace' | 'test'; path: string; value: unknown }
  | { op: 'remove'; path: string }
  | { op: 'move' | 'copy'; path: string; from: string }

export type Patch = readonly Operation[]

export type Patched = { document: unknown } | { problems: Problem[] }

/** Names that would reach an object's own machinery instead of its data. */
const FORBIDDEN = new Set(['__proto__', 'constructor', 'prototype'])

/**
 * The document after a patch, sharing everything the patch does not touch: an untouched branch keeps its identity.
 * All or nothing: the first operation that cannot be done is reported and nothing is changed.
 */
export function applyPatch(document: unknown, patch: Patch): Patched {
  let current = document
  for (const [index, operation] of patch.entries()) {
    const next = applyOperation(current, operation, `/${index}`)
    if ('problems' in next) return next
    current = next.document
  }
  return { document: current }
}

function applyOperation(document: unknown, operation: Operation, place: string): Patched {
  const refuse = (found: string, expected: string): Patched => ({
    problems: [{ pointer: operation.path ?? place, found, expected }],
  })
  const path = readPointer(operation.path)
  if (path === undefined) return refuse(foundText(operation.path), 'a JSON Pointer, such as "/parts/head/mass"')
  if (path.some((token) => FORBIDDEN.has(token))) return refuse(foundText(operation.path), 'a path of plain names')
  switch (operation.op) {
    case 'add':
      return set(document, path, operation.value, 'add')
    case 'replace':
      return set(document, path, operation.value, 'replace')
    case 'remove':
      return set(document, path, undefined, 'remove')
    case 'test': {
      const found = lookUp(document, path)
      return sameContent(found, operation.value)
        ? { document }
        : refuse(foundText(found), `the value ${foundText(operation.value)}`)
    }
    case 'move':
    case 'copy':
      return transfer(document, operation, path)
    default:
      return refuse(foundText((operation as { op: unknown }).op), 'one of add, remove, replace, move, copy, test')
  }
}

function transfer(document: unknown, operation: Extract<Operation, { from: string }>, path: string[]): Patched {
  const from = readPointer(operation.from)
  const value = from === undefined ? undefined : lookUp(document, from)
  if (from === undefined || value === undefined)
    return { problems: [{ pointer: operation.from, found: 'nothing', expected: 'a value to take' }] }
  if (operation.op === 'copy') return set(document, path, value, 'add')
  const removed = set(document, from, undefined, 'remove')
  return 'problems' in removed ? removed : set(removed.document, path, value, 'add')
}

function lookUp(document: unknown, path: readonly string[]): unknown {
  let value = document
  for (const token of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, token)) return undefined
    value = (value as Record<string, unknown>)[token]
  }
  return value
}

type How = 'add' | 'replace' | 'remove'

function set(
  document: unknown,
  path: readonly string[],
  value: unknown,
  how: How,
  done: readonly string[] = [],
): Patched {
  const [token, ...rest] = path
  if (token === undefined) return how === 'remove' ? { document: null } : { document: value }
  const pointer = [...done, token].map((t) => `/${t}`).join('')
  if (typeof document !== 'object' || document === null) {
    return { problems: [{ pointer, found: foundText(document), expected: 'an object or a list to put this in' }] }
  }
  const here = (document as Record<string, unknown>)[token]
  const exists = Object.hasOwn(document, token)
  if (rest.length > 0) {
    if (!exists) return { problems: [{ pointer, found: 'nothing', expected: 'a value to go into' }] }
    const inner = set(here, rest, value, how, [...done, token])
    return 'problems' in inner ? inner : { document: withItem(document, token, inner.document, 'replace') }
  }
  if (how !== 'add' && !exists) return { problems: [{ pointer, found: 'nothing', expected: `a value to ${how}` }] }
  if (Array.isArray(document) && !isPlace(token, document.length, how)) {
    return { problems: [{ pointer, found: foundText(token), expected: `a place in a list of ${document.length}` }] }
  }
  return { document: withItem(document, token, value, how) }
}

const isPlace = (token: string, length: number, how: How): boolean =>
  (how === 'add' && token === '-') || (/^(0|[1-9]\d*)$/.test(token) && Number(token) < length + Number(how === 'add'))

function withItem(container: object, token: string, value: unknown, how: How): unknown {
  if (Array.isArray(container)) {
    const index = token === '-' ? container.length : Number(token)
    return container.toSpliced(index, how === 'add' ? 0 : 1, ...(how === 'remove' ? [] : [value]))
  }
  if (how !== 'remove') return { ...container, [token]: value }
  const { [token]: _removed, ...others } = container as Record<string, unknown>
  return others
}

/** The patch that turns one document into another: objects by key, lists as a whole. */
export function patchBetween(before: unknown, after: unknown, path = ''): Operation[] {
  if (sameContent(before, after)) return []
  if (!isRecord(before) || !isRecord(after)) return [{ op: 'replace', path, value: after }]
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])]
  return keys.flatMap((key): Operation[] => {
    const pointer = `${path}/${key.replace(/~/g, '~0').replace(/\//g, '~1')}`
    if (!Object.hasOwn(after, key)) return [{ op: 'remove', path: pointer }]
    if (!Object.hasOwn(before, key)) return [{ op: 'add', path: pointer, value: after[key] }]
    return patchBetween(before[key], after[key], pointer)
  })
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
