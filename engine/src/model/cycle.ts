type Graph = Readonly<Record<string, readonly string[]>>

/**
 * The shortest circle of a graph of predecessors, if there is any: each id after the next, the last after the first. Of
 * several as short, the one found first in the order of the keys. Iterative: a file may hold a very long chain.
 *
 * @param after for each id, what it comes after; ids that are not keys are passed over
 */
export function cycleIn(after: Graph): string[][] {
  const left = new Left(after)
  let best: string[] | undefined
  for (const id of Object.keys(after)) {
    if (!left.has(id)) continue
    best = shortestThrough(id, left, best?.length ?? Number.POSITIVE_INFINITY) ?? best
    // Every circle through it has been seen, and without it much of the rest falls away.
    left.drop(id)
  }
  return best === undefined ? [] : [best]
}

/** What can still lie on a circle: it comes after something that is left, and something that is left comes after it. */
class Left {
  private readonly ids: Set<string>
  private readonly before = new Map<string, string[]>()
  private readonly open = new Map<string, { after: number; before: number }>()

  constructor(private readonly graph: Graph) {
    this.ids = new Set(Object.keys(graph))
    for (const id of this.ids) this.before.set(id, [])
    for (const id of this.ids) for (const to of this.after(id)) this.before.get(to)?.push(id)
    for (const id of this.ids)
      this.open.set(id, { after: this.after(id).length, before: this.before.get(id)?.length ?? 0 })
    for (const [id, { after, before }] of this.open) if (after === 0 || before === 0) this.drop(id)
  }

  has(id: string): boolean {
    return this.ids.has(id)
  }

  after(id: string): string[] {
    return (this.graph[id] ?? []).filter((to) => this.ids.has(to))
  }

  /** Takes one away, and all that can then no longer lie on a circle. */
  drop(first: string): void {
    const gone = [first]
    for (let id = gone.pop(); id !== undefined; id = gone.pop()) {
      if (!this.ids.has(id)) continue
      for (const to of this.after(id)) this.lose(to, 'before', gone)
      for (const from of this.before.get(id) ?? []) if (this.ids.has(from)) this.lose(from, 'after', gone)
      this.ids.delete(id)
    }
  }

  private lose(id: string, side: 'after' | 'before', gone: string[]): void {
    const open = this.open.get(id)
    if (open !== undefined && --open[side] === 0) gone.push(id)
  }
}

/** The shortest circle through an id by breadth first, where it is shorter than a length. */
function shortestThrough(root: string, left: Left, limit: number): string[] | undefined {
  const cameFrom = new Map<string, string | undefined>([[root, undefined]])
  let front = [root]
  for (let length = 1; front.length > 0 && length < limit; length++) {
    const next: string[] = []
    for (const id of front)
      for (const to of left.after(id)) {
        if (to === root) return wayTo(id, cameFrom)
        if (cameFrom.has(to)) continue
        cameFrom.set(to, id)
        next.push(to)
      }
    front = next
  }
  return undefined
}

function wayTo(last: string, cameFrom: ReadonlyMap<string, string | undefined>): string[] {
  const way: string[] = []
  for (let id: string | undefined = last; id !== undefined; id = cameFrom.get(id)) way.push(id)
  return way.reverse()
}
