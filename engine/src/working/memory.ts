/**
 * What a derivation remembers, so that only what hangs from a change is computed again. A result is kept under a key with
 * the inputs it came from; it is used again while every input is the very same object or value.
 */
export interface Memory {
  /** The result for these inputs: remembered when all are identical to last time, computed otherwise. */
  once<T>(key: string, inputs: readonly unknown[], compute: () => T): T
  /**
   * What is made of each entry of a collection, in its order. Of a changed collection only entries that are not the very same
   * are looked into; where all that is made is the very same as last time, so is the list.
   *
   * @param shared what all of them are made with besides the entry; when it changes, all are made again
   */
  each<E, T>(
    key: string,
    collection: Readonly<Record<string, E>>,
    shared: readonly unknown[],
    make: (id: string, entry: E) => T,
  ): readonly T[]
  /** The earlier value under this key when it is equal in content, so that what hangs from it is left alone. */
  settled<T>(key: string, value: T): T
  /** A memory over this one to try a change in: what is computed there stays there. */
  fork(): Fork
  /** How many results have been computed, by the first word of the key: the count of work that benches assert. */
  readonly computed: Readonly<Record<string, number>>
}

/** A memory that is thrown away, or kept. */
export interface Fork extends Memory {
  /** Hands everything computed here to the memory this was forked from, and gives that back. */
  keep(): Memory
}

interface Kept {
  inputs: readonly unknown[]
  value: unknown
}

/** An empty memory: everything asked of it is computed. */
export function freshMemory(): Memory {
  return memoryOf(new Map(), () => undefined)
}

/** A memory over an earlier one, which it looks into and never writes to: a fork costs nothing, whatever it came from holds. */
function memoryOf(own: Map<string, Kept>, earlier: (key: string) => Kept | undefined): Memory {
  const keptAt = (key: string): Kept | undefined => own.get(key) ?? earlier(key)
  const computed: Record<string, number> = {}
  const count = (key: string): void => {
    const end = key.indexOf('/')
    const family = end < 0 ? key : key.slice(0, end)
    computed[family] = (computed[family] ?? 0) + 1
  }
  const memory: Memory = {
    computed,
    once<T>(key: string, inputs: readonly unknown[], compute: () => T): T {
      const last = keptAt(key)
      if (last !== undefined && sameItems(last.inputs, inputs)) return last.value as T
      const value = compute()
      own.set(key, { inputs, value })
      count(key)
      return value
    },
    each<E, T>(
      key: string,
      collection: Readonly<Record<string, E>>,
      shared: readonly unknown[],
      make: (id: string, entry: E) => T,
    ): readonly T[] {
      const [last, inputs] = [keptAt(key), [collection, ...shared]]
      if (last !== undefined && sameItems(last.inputs, inputs)) return (last.value as Made<E, T>).made
      const isAlike = last !== undefined && sameItems(last.inputs.slice(1), shared)
      const value = madeOfEach(collection, isAlike ? (last.value as Made<E, T>) : NOTHING_MADE, (id, entry) => {
        count(key)
        return make(id, entry)
      })
      own.set(key, { inputs, value })
      return value.made
    },
    settled<T>(key: string, value: T): T {
      const last = keptAt(key)
      if (last !== undefined && sameContent(last.value, value)) return last.value as T
      own.set(key, { inputs: [], value })
      return value
    },
    fork: () => forkOf(memory, own, computed, keptAt),
  }
  return memory
}

function forkOf(
  from: Memory,
  kept: Map<string, Kept>,
  counted: Record<string, number>,
  earlier: (key: string) => Kept | undefined,
): Fork {
  const own = new Map<string, Kept>()
  const fork = memoryOf(own, earlier)
  return {
    ...fork,
    keep: () => {
      for (const [key, value] of own) kept.set(key, value)
      for (const [family, n] of Object.entries(fork.computed)) counted[family] = (counted[family] ?? 0) + n
      return from
    },
  }
}

/** What was made of each entry of a collection, in its order. */
interface Made<E, T> {
  ids: readonly string[]
  entries: readonly E[]
  made: readonly T[]
}

const NOTHING_MADE: Made<never, never> = { ids: [], entries: [], made: [] }

function madeOfEach<E, T>(
  collection: Readonly<Record<string, E>>,
  before: Made<E, T>,
  make: (id: string, entry: E) => T,
): Made<E, T> {
  const [ids, entries] = [Object.keys(collection), Object.values(collection)]
  const placeOf = placesIn(before.ids)
  const made = entries.map((entry, i) => {
    const id = ids[i] as string
    const place = placeOf(id, i)
    return place !== undefined && Object.is(before.entries[place], entry) ? (before.made[place] as T) : make(id, entry)
  })
  return { ids, entries, made: sameItems(made, before.made) ? before.made : made }
}

/** Where an id stood: mostly where it stands now; looked up only once one was put in before it, or taken out. */
function placesIn(ids: readonly string[]): (id: string, now: number) => number | undefined {
  let places: Map<string, number> | undefined
  return (id, now) => {
    if (ids[now] === id) return now
    places ??= new Map(ids.map((known, i) => [known, i]))
    return places.get(id)
  }
}

/** The very same objects or values, in the same order. */
export function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false
  return true
}

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
