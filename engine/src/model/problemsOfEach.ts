import type { Memory } from '../working/memory.ts'
import type { Problem } from '../working/problem.ts'

const NONE: readonly Problem[] = []

/** Problems of each entry of a collection by itself: an edit looks into the entries that it touched, and no others. */
export function problemsOfEach<E>(
  memory: Memory,
  key: string,
  collection: Readonly<Record<string, E>>,
  shared: readonly unknown[],
  problemsOf: (id: string, entry: E) => readonly Problem[],
): readonly Problem[] {
  const all = memory.each(key, collection, shared, (id, entry) => {
    const problems = problemsOf(id, entry)
    return problems.length === 0 ? NONE : problems
  })
  return memory.once(`${key}/all`, [all], () => all.flat())
}
