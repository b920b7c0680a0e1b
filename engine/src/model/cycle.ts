/**
 * One circle of a graph of predecessors, if there is any: each id after the next, the last after the first. Iterative: a
 * file may hold a very long chain.
 *
 * @param after for each id, what it comes after; ids that are not keys are passed over
 */
export function cycleIn(after: Readonly<Record<string, readonly string[]>>): string[][] {
  const state = new Map<string, 'open' | 'done'>()
  for (const root of Object.keys(after)) {
    const path: { id: string; next: number }[] = state.has(root) ? [] : [{ id: root, next: 0 }]
    if (path.length > 0) state.set(root, 'open')
    while (path.length > 0) {
      const top = path[path.length - 1] as { id: string; next: number }
      const child = (after[top.id] ?? [])[top.next++]
      if (child === undefined) {
        state.set(top.id, 'done')
        path.pop()
      } else if (state.get(child) === 'open') {
        return [path.slice(path.findIndex((p) => p.id === child)).map((p) => p.id)]
      } else if (!state.has(child) && Object.hasOwn(after, child)) {
        state.set(child, 'open')
        path.push({ id: child, next: 0 })
      }
    }
  }
  return []
}
