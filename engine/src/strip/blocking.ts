import { boxesMeet, shadowPairs } from '../numeric/prune.ts'
import { scale, type Vec3 } from '../numeric/vector.ts'
import { pairKey } from './overlap.ts'
import { type Block, blockBetween } from './pair-block.ts'
import type { PartCells } from './shape.ts'

/** For each part, the parts that block it along one direction, all the way out. */
export type BlockingGraph = ReadonlyMap<string, ReadonlySet<string>>

/**
 * Directional blocking graph: part i is blocked by j when i, moved along `direction` without end, would strike j deeper than
 * the tolerance. A pair that is not decided counts as blocked.
 *
 * @param direction unit vector, machine frame
 * @param accepted pairs that may overlap, as `pairKey`
 * Source: definition after Wilson and Latombe, Artificial Intelligence 71(2), 1994 (from memory).
 */
export function blockingGraph(
  parts: readonly PartCells[],
  direction: Vec3,
  tolerance: number,
  accepted: ReadonlySet<string> = new Set(),
): BlockingGraph {
  return graphAlong(parts, direction, (a, b) =>
    accepted.has(pairKey(a.id, b.id)) ? 'free' : blockBetween(a, b, tolerance)(direction),
  )
}

/** The graph along a direction; only pairs that could meet are asked about. */
export function graphAlong(
  parts: readonly PartCells[],
  direction: Vec3,
  blockOf: (a: PartCells, b: PartCells) => Block,
): BlockingGraph {
  const blockers = parts.map((): number[] => [])
  const ask = (i: number, j: number): void => {
    if (blockOf(parts[i] as PartCells, parts[j] as PartCells) !== 'free') blockers[i]?.push(j)
  }
  const backwards = scale(direction, -1)
  const extents = parts.map((p) => p.extent)
  shadowPairs(extents, direction, (i, j) => {
    const [a, b] = [extents[i], extents[j]] as [PartCells['extent'], PartCells['extent']]
    if (boxesMeet(a, b, direction)) ask(i, j)
    if (boxesMeet(a, b, backwards)) ask(j, i)
  })
  const ids = (list: readonly number[]) => [...list].sort((x, y) => x - y).map((j) => (parts[j] as PartCells).id)
  return new Map(parts.map(({ id }, i) => [id, new Set(ids(blockers[i] as number[]))]))
}

/**
 * Least sets of parts that can leave together along the graph's direction: strong components that nothing outside them
 * blocks. Where no single part is free these are the pieces to take.
 *
 * @param present parts still there
 * @param fixed parts that never leave; a set that holds one cannot move
 */
export function movableSets(
  graph: BlockingGraph,
  present: ReadonlySet<string>,
  fixed: ReadonlySet<string> = new Set(),
): readonly (readonly string[])[] {
  const blockers = (id: string): string[] => [...(graph.get(id) ?? [])].filter((b) => present.has(b))
  return strongComponents([...present], blockers).filter((set) => {
    const own = new Set(set)
    return set.every((id) => !fixed.has(id) && blockers(id).every((b) => own.has(b)))
  })
}

/** Strong components of a graph (Tarjan, 1972; from memory), without recursion: a machine may be deep. */
export function strongComponents(nodes: readonly string[], next: (id: string) => readonly string[]): string[][] {
  const index = new Map<string, number>()
  const low = new Map<string, number>()
  const stack: string[] = []
  const onStack = new Set<string>()
  const components: string[][] = []
  const enter = (id: string) => {
    index.set(id, index.size)
    low.set(id, index.get(id) as number)
    stack.push(id)
    onStack.add(id)
    return { id, arcs: next(id), at: 0 }
  }
  const lower = (id: string, to: number) => low.set(id, Math.min(low.get(id) as number, to))
  const close = (id: string) => {
    const component: string[] = []
    for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
      onStack.delete(top)
      component.push(top)
      if (top === id) break
    }
    components.push(component.reverse())
  }
  for (const root of nodes) {
    const path = index.has(root) ? [] : [enter(root)]
    for (let top = path[path.length - 1]; top !== undefined; top = path[path.length - 1]) {
      const to = top.arcs[top.at++]
      if (to === undefined) {
        path.pop()
        if (low.get(top.id) === index.get(top.id)) close(top.id)
        const above = path[path.length - 1]
        if (above !== undefined) lower(above.id, low.get(top.id) as number)
      } else if (!index.has(to)) path.push(enter(to))
      else if (onStack.has(to)) lower(top.id, index.get(to) as number)
    }
  }
  return components
}
