import { encounter } from '../numeric/encounter.ts'
import { extentAround, extentGap, movedExtent } from '../numeric/hull.ts'
import { straightMotion } from '../numeric/motion.ts'
import { AT_REST, scale, type Vec3, ZERO } from '../numeric/vector.ts'
import { pairKey } from './overlap.ts'
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
  if (parts.length === 0) return new Map()
  const around = extentAround(parts.map((p) => p.extent))
  const far = Math.hypot(around[3] - around[0], around[4] - around[1], around[5] - around[2]) + 1
  const sweep = scale(direction, far)
  const motion = straightMotion(AT_REST, sweep)
  const limits = { tolerance, reach: 0, resolution: tolerance }
  return new Map(
    parts.map((a) => {
      const passed = movedExtent(a.extent, ZERO, sweep)
      const blockers = parts.filter((b) => {
        if (a === b || accepted.has(pairKey(a.id, b.id)) || extentGap(passed, b.extent) > 0) return false
        const own = a.solids.map((s) => s.cell)
        const other = b.solids.map((s) => s.cell)
        return encounter(own, other, motion, limits).verdict !== 'clear'
      })
      return [a.id, new Set(blockers.map((b) => b.id))]
    }),
  )
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
