import { applyPatch, type Operation, type Patch } from './patch.ts'
import { at, child, pointerOf, readPointer } from './pointer.ts'

/** A place that a patch touches, with what stood there before and what stands there after; undefined for nothing. */
export interface Touched {
  pointer: string
  before: unknown
  after: unknown
}

/**
 * The patch that takes another back.
 *
 * @param document what the patch was applied to
 * @returns applied to the document after the patch, it gives the document before it; the order of names may differ
 * @throws when the patch cannot be applied to the document
 */
export function inversePatch(document: unknown, patch: Patch): Operation[] {
  let current = document
  const back: Operation[] = []
  for (const operation of patch) {
    back.unshift(...inverseOf(current, operation))
    current = after(current, [operation])
  }
  return back
}

function after(document: unknown, patch: Patch): unknown {
  const patched = applyPatch(document, patch)
  if ('problems' in patched) throw new Error(`the patch does not fit its document at ${patched.problems[0]?.pointer}`)
  return patched.document
}

function inverseOf(document: unknown, operation: Operation): Operation[] {
  switch (operation.op) {
    case 'test':
      return []
    case 'add':
    case 'copy':
      return [unput(document, operation.path)]
    case 'replace':
      return [{ op: 'replace', path: operation.path, value: at(document, operation.path) }]
    case 'remove':
      return [{ op: 'add', path: operation.path, value: at(document, operation.path) }]
    case 'move': {
      const without = after(document, [{ op: 'remove', path: operation.from }])
      const putBack: Operation = { op: 'add', path: operation.from, value: at(document, operation.from) }
      return operation.from === operation.path ? [] : [unput(without, operation.path), putBack]
    }
    default:
      return operation satisfies never
  }
}

/** Takes back what "add" puts: into a list it makes room, on a name it replaces. */
function unput(document: unknown, path: string): Operation {
  const tokens = readPointer(path) as string[]
  const container = tokens.slice(0, -1).reduce(child, document)
  const last = tokens.at(-1)
  if (last === undefined) return { op: 'replace', path, value: document }
  if (Array.isArray(container))
    return { op: 'remove', path: last === '-' ? pointerOf(...tokens.slice(0, -1), container.length) : path }
  const stood = child(container, last)
  return stood === undefined ? { op: 'remove', path } : { op: 'replace', path, value: stood }
}

/** Places that a patch reads or writes. What is put into a list, or taken out of it, touches the whole list: the others move. */
export function touchedPlaces(document: unknown, patch: Patch): string[] {
  const places = new Set<string>()
  let current = document
  for (const operation of patch) {
    for (const place of placesOf(current, operation)) places.add(place)
    current = after(current, [operation])
  }
  return [...places]
}

function placesOf(document: unknown, operation: Operation): string[] {
  const keepsPlaces = operation.op === 'replace' || operation.op === 'test'
  const pointers = 'from' in operation ? [operation.path, operation.from] : [operation.path]
  return keepsPlaces ? pointers : pointers.map((pointer) => listAround(document, pointer) ?? pointer)
}

function listAround(document: unknown, pointer: string): string | undefined {
  const container = (readPointer(pointer) as string[]).slice(0, -1)
  return container.length > 0 && Array.isArray(container.reduce(child, document)) ? pointerOf(...container) : undefined
}

/** The places that a patch touches, with what they held before and hold after it. */
export function touchedBy(document: unknown, patch: Patch): Touched[] {
  const changed = after(document, patch)
  return touchedPlaces(document, patch).map((pointer) => ({
    pointer,
    before: at(document, pointer),
    after: at(changed, pointer),
  }))
}

/**
 * The places of `mine` that meet a place of `theirs`: the same, above it or below it. With none, the two patches, made on
 * the same document, can be applied one after the other in either order with the same result.
 */
export function meetingPlaces(mine: readonly string[], theirs: readonly string[]): string[] {
  return mine.filter((place) => theirs.some((other) => isWithin(place, other) || isWithin(other, place)))
}

const isWithin = (inner: string, outer: string): boolean => inner === outer || inner.startsWith(`${outer}/`)
