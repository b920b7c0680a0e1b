import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import type { Demo } from './demo.fixture.ts'

/** Collections whose ids are renamed: their names say what they are about, and nothing may hang from that. */
const RENAMED = ['parts', 'joints', 'services', 'lifts', 'steps'] as const

/** A project with other ids, in another order, and how an old id is called in it. */
export interface Shuffled<D> {
  document: D
  renamed: (id: string) => string
}

/** The same project under other names: ids of machine, lifts and steps replaced everywhere, and every collection in another order. */
export function shuffled<D extends Demo>(document: D, seed: number): Shuffled<D> {
  const random = xoroshiro128plus(seed)
  const names = new Map(
    RENAMED.flatMap((section) => {
      const ids = mixed(Object.keys(document[section]), random)
      return ids.map((id, i) => [id, `${section.slice(0, 2)}_${i}`] as const)
    }),
  )
  const renamed = (id: string): string => names.get(id) ?? derivedName(id, names)
  return { document: mapped(document, renamed, random, 0) as D, renamed }
}

/** What is named after entities: an instance `CH-SPK-03`, derived activities `S04-crown.out`, `S04-crown.close.J-FS-CR`. */
function derivedName(id: string, names: ReadonlyMap<string, string>): string {
  const [, entry, copy] = /^(.+)(-\d{2,3})$/.exec(id) ?? []
  const named = entry === undefined ? undefined : names.get(entry)
  if (named !== undefined) return named + copy
  return id
    .split('.')
    .map((word) => names.get(word) ?? word)
    .join('.')
}

/** Collections stand at the first level, and in the programme one deeper; only there is the order of names without meaning. */
const DEEPEST_MIXED = 2

function mapped(value: unknown, renamed: (id: string) => string, random: Random, depth: number): unknown {
  if (typeof value === 'string') return renamed(value)
  if (Array.isArray(value)) return value.map((item) => mapped(item, renamed, random, depth + 1))
  if (typeof value !== 'object' || value === null) return value
  const entries = Object.entries(value)
  const ordered = depth <= DEEPEST_MIXED ? mixed(entries, random) : entries
  return Object.fromEntries(ordered.map(([key, inner]) => [renamed(key), mapped(inner, renamed, random, depth + 1)]))
}

type Random = ReturnType<typeof xoroshiro128plus>

function mixed<T>(items: readonly T[], random: Random): T[] {
  const result = [...items]
  for (let i = result.length - 1; i > 0; i--) {
    const j = uniformInt(random, 0, i)
    const [a, b] = [result[i] as T, result[j] as T]
    result[i] = b
    result[j] = a
  }
  return result
}
