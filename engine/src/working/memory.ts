/**
 * What a derivation remembers, so that only what hangs from a change is computed again. A result is kept under a key with
 * the inputs it came from; it is used again while every input is the very same object or value.
 */
export interface Memory {
  /** The result for these inputs: remembered when all are identical to last time, computed otherwise. */
  once<T>(key: string, inputs: readonly unknown[], compute: () => T): T
  /** The earlier value under this key when it is equal in content, so that what hangs from it is left alone. */
  settled<T>(key: string, value: T): T
  /** A copy to try a change in and throw away. */
  fork(): Memory
  /** How many results have been computed, by the first word of the key: the count of work that benches assert. */
  readonly computed: Readonly<Record<string, number>>
}

interface Kept {
  inputs: readonly unknown[]
  value: unknown
}

/** An empty memory: everything asked of it is computed. */
export function freshMemory(): Memory {
  return memoryOf(new Map())
}

function memoryOf(kept: Map<string, Kept>): Memory {
  const computed: Record<string, number> = {}
  return {
    computed,
    once<T>(key: string, inputs: readonly unknown[], compute: () => T): T {
      const last = kept.get(key)
      if (last !== undefined && sameItems(last.inputs, inputs)) return last.value as T
      const value = compute()
      kept.set(key, { inputs, value })
      const family = key.split('/', 1)[0] as string
      computed[family] = (computed[family] ?? 0) + 1
      return value
    },
    settled<T>(key: string, value: T): T {
      const last = kept.get(key)
      if (last !== undefined && sameContent(last.value, value)) return last.value as T
      kept.set(key, { inputs: [], value })
      return value
    },
    fork: () => memoryOf(new Map(kept)),
  }
}

const sameItems = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((x, i) => Object.is(x, b[i]))

/** Equality in content of plain data. */
export function sameContent(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false
  if (Array.isArray(a) !== Array.isArray(b)) return false
  const [keysA, keysB] = [Object.keys(a), Object.keys(b)]
  if (keysA.length !== keysB.length) return false
  return keysA.every(
    (k) => Object.hasOwn(b, k) && sameContent((a as Record<string, unknown>)[k], (b as Record<string, unknown>)[k]),
  )
}
