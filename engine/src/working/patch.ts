import { sameContent } from './memory.ts'
import { isForbidden, unplainPart } from './plain.ts'
import { child, isIndex, pointerOf, readPointer } from './pointer.ts'
import { foundText, type Problem } from './problem.ts'

/** One operation of a JSON Patch (RFC 6902). */
export type Operation =
  | { op: 'add' | 'replace' | 'test'; path: string; value: unknown }
  | { op: 'remove'; path: string }
  | { op: 'move' | 'copy'; path: string; from: string }

export type Patch = readonly Operation[]

export type Patched = { document: unknown } | { problems: Problem[] }

/**
 * The document after a patch, sharing everything the patch does not touch: an untouched branch keeps its identity.
 * All or nothing: the first operation that cannot be done is reported and nothing is changed. The patch may come from
 * anywhere: what is no operation, and values that are no plain data, are refused.
 */
export function applyPatch(document: unknown, patch: Patch): Patched {
  let current = document
  for (const [index, operation] of patch.entries()) {
    const fault = operationFault(operation, index)
    const next = fault === undefined ? applyOperation(current, operation) : { problems: [fault] }
    if ('problems' in next) return next
    current = next.document
  }
  return { document: current }
}

const OPERATIONS: Readonly<Record<string, 'value' | 'from' | 'path'>> = {
  add: 'value',
  replace: 'value',
  test: 'value',
  remove: 'path',
  move: 'from',
  copy: 'from',
}

/** What keeps something from being an operation at all. */
function operationFault(operation: unknown, index: number): Problem | undefined {
  const { op, path, from, value } = (operation ?? {}) as Partial<Record<string, unknown>>
  const fault = (found: unknown, expected: string, pointer: unknown = path): Problem => ({
    pointer: typeof pointer === 'string' ? pointer : '',
    found: `${foundText(found)} in operation ${index}`,
    expected,
  })
  const takes = typeof op === 'string' && Object.hasOwn(OPERATIONS, op) ? OPERATIONS[op] : undefined
  if (takes === undefined) return fault(op, `one of ${Object.keys(OPERATIONS).join(', ')}`)
  for (const pointer of takes === 'from' ? [path, from] : [path]) {
    const tokens = typeof pointer === 'string' ? readPointer(pointer) : undefined
    if (tokens === undefined) return fault(pointer, 'a JSON Pointer, such as "/parts/head/mass"', pointer ?? path)
    if (tokens.some(isForbidden)) return fault(pointer, 'a path of plain names', pointer)
  }
  if (takes === 'from' && `${path}/`.startsWith(`${from}/`) && path !== from && op === 'move')
    return fault(from, 'a place that is not inside what is moved')
  const unplain = takes === 'value' ? unplainPart(value) : undefined
  return unplain === undefined ? undefined : fault(unplain, 'plain data, as JSON can hold it')
}

function applyOperation(document: unknown, operation: Operation): Patched {
  const path = readPointer(operation.path) as string[]
  switch (operation.op) {
    case 'add':
    case 'replace':
      return set(document, path, operation.value, operation.op)
    case 'remove':
      return set(document, path, undefined, 'remove')
    case 'test': {
      const found = path.reduce(child, document)
      return sameContent(found, operation.value)
        ? { document }
        : refused(operation.path, foundText(found), `the value ${foundText(operation.value)}`)
    }
    case 'move':
    case 'copy':
      return transfer(document, operation, path)
    default:
      return operation satisfies never
  }
}

const refused = (pointer: string, found: string, expected: string): Patched => ({
  problems: [{ pointer, found, expected }],
})

function transfer(document: unknown, operation: Extract<Operation, { from: string }>, path: string[]): Patched {
  const from = readPointer(operation.from) as string[]
  const value = from.reduce(child, document)
  if (value === undefined) return refused(operation.from, 'nothing', 'a value to take')
  if (operation.op === 'copy') return set(document, path, value, 'add')
  const removed = set(document, from, undefined, 'remove')
  return 'problems' in removed ? removed : set(removed.document, path, value, 'add')
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
  if (token === undefined)
    return how === 'remove' ? refused('', 'the whole document', 'a part of it') : { document: value }
  const pointer = pointerOf(...done, token)
  if (typeof document !== 'object' || document === null)
    return refused(pointer, foundText(document), 'an object or a list to put this in')
  const exists = child(document, token) !== undefined
  if (rest.length > 0) {
    if (!exists) return refused(pointer, 'nothing', 'a value to go into')
    const inner = set(child(document, token), rest, value, how, [...done, token])
    return 'problems' in inner ? inner : { document: withItem(document, token, inner.document, 'replace') }
  }
  if (Array.isArray(document) && !isPlace(token, document.length, how))
    return refused(pointer, foundText(token), `a place in a list of ${document.length}`)
  if (how !== 'add' && !exists) return refused(pointer, 'nothing', `a value to ${how}`)
  return { document: withItem(document, token, value, how) }
}

const isPlace = (token: string, length: number, how: How): boolean =>
  (how === 'add' && token === '-') || (isIndex(token) && Number(token) < length + Number(how === 'add'))

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
    const pointer = path + pointerOf(key)
    if (!Object.hasOwn(after, key)) return [{ op: 'remove', path: pointer }]
    if (!Object.hasOwn(before, key)) return [{ op: 'add', path: pointer, value: after[key] }]
    return patchBetween(before[key], after[key], pointer)
  })
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
