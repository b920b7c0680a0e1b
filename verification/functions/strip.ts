import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { mass } from '../../engine/src/mass/index.ts'
import { idsMeant, type Model, model } from '../../engine/src/model/index.ts'
import type { Body } from '../../engine/src/numeric/body.ts'
import { freedomOf, wrapNormals } from '../../engine/src/numeric/freedom.ts'
import { AT_REST, IDENTITY, type Vec3 } from '../../engine/src/numeric/vector.ts'
import { type BlockingGraph, blockingGraph } from '../../engine/src/strip/blocking.ts'
import { moveBy } from '../../engine/src/strip/exit.ts'
import { cheapestGrouping } from '../../engine/src/strip/grouping.ts'
import { type Path, wayOf } from '../../engine/src/strip/index.ts'
import { orderCount, splitsOf } from '../../engine/src/strip/order-count.ts'
import { type Clause, type Operation, openWay, reachable } from '../../engine/src/strip/precedence.ts'
import { cheapestOrder } from '../../engine/src/strip/search.ts'
import { cellsOf } from '../../engine/src/strip/shape.ts'
import { freshMemory } from '../../engine/src/working/memory.ts'
import { problemText } from '../../engine/src/working/problem.ts'
import { listOf, numberOf, numberOr, recordOf, rowsOf, textOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'
import { bolting } from './strip-bolting.ts'
import { geometry } from './strip-geometry.ts'
import { standing } from './strip-standing.ts'

/** What cases of this stage call by name, beside the formulas. */
export const functions: Record<string, VerifiedFunction> = {
  ...bolting,
  ...geometry,
  ...standing,
  /** Parts of boxes that leave along axis directions: who blocks whom, what is free, counts of orders and of free sets. */
  'strip.blocks': blocksOf,
  /** Free directions from contact normals. */
  'strip.freedom': (inputs) => {
    const { dimension, solidAngle } = freedomOf(rowsOf(inputs, 'normals') as unknown as Vec3[])
    return { dimension, solidAngle }
  },
  /** Free directions of a journal with axis y, wrapped below over an angle. */
  'strip.bore-freedom': boreFreedomOf,
  /** Operations under and/or precedence: orders that can be done, and sets that can be reached. */
  'strip.orders': ordersOf,
  /** Parts that are parted in two again and again, both halves tied together. */
  'strip.splits': splitsOfCase,
  /** Least cost of reaching targets under and/or precedence. */
  'strip.cheapest': cheapestOf,
  /** Parts grouped into lifted pieces under a capacity. */
  'strip.grouping': groupingOf,
  /** A body of the file's own kind lifted through a round shaft. */
  'strip.through-shaft': throughShaft,
  /** A move of pieces of the invented recovery, with pieces gone. */
  'strip.recovery-way': recoveryWay,
}

const AXES: Readonly<Record<string, Vec3>> = {
  '+x': [1, 0, 0],
  '-x': [-1, 0, 0],
  '+y': [0, 1, 0],
  '-y': [0, -1, 0],
  '+z': [0, 0, 1],
  '-z': [0, 0, -1],
}

const TOLERANCE = 1e-6

function blocksOf(inputs: Inputs): Record<string, Value> {
  const parts = Object.entries(recordOf(inputs, 'parts')).map(([id, boxes]) => boxesPart(id, boxes as number[][]))
  const directions = (listOf(inputs, 'directions') as string[]).map((name) => ({
    name,
    graph: blockingGraph(parts, AXES[name] as Vec3, TOLERANCE),
  }))
  const fixed = new Set(inputs.fixed === undefined ? [] : (listOf(inputs, 'fixed') as string[]))
  const movable = parts.map((p) => p.id).filter((id) => !fixed.has(id))
  const free = movable.map(
    (id) => [id, directions.filter(({ graph }) => graph.get(id)?.size === 0).map((d) => d.name)] as const,
  )
  const subsets = subsetsOf(movable).filter(
    (set) => set.length < parts.length && directions.some((d) => leaves(set, d.graph)),
  )
  const operations = movable.map(
    (id): Operation => ({
      id,
      cost: 1,
      needs: [],
      ways: directions.map(({ graph }) => [...(graph.get(id) ?? [])].map((b) => [b])),
    }),
  )
  return {
    freeSingleParts: Object.fromEntries(free.filter(([, names]) => names.length > 0)),
    oneAtATimeOrders: countedOrders(operations).orders,
    freeSubsets: subsets.length,
    ...fewestRemovals(operations, inputs),
    blockers: Object.fromEntries(directions.map(({ name, graph }) => [name, blockersOf(graph)])),
  }
}

function boxesPart(id: string, boxes: readonly number[][]) {
  const bodies = boxes.map(([x0, y0, z0, x1, y1, z1]): Body => {
    const [a, b, c, d, e, f] = [x0, y0, z0, x1, y1, z1] as [number, number, number, number, number, number]
    return {
      kind: 'box',
      centre: [(a + d) / 2, (b + e) / 2, (c + f) / 2],
      half: [(d - a) / 2, (e - b) / 2, (f - c) / 2],
      turn: IDENTITY,
    }
  })
  return cellsOf(
    id,
    bodies.map((body) => ({ op: 'add', body })),
    AT_REST,
  )
}

const blockersOf = (graph: BlockingGraph): Record<string, string[]> =>
  Object.fromEntries([...graph].filter(([, by]) => by.size > 0).map(([id, by]) => [id, [...by].sort()]))

const leaves = (set: readonly string[], graph: BlockingGraph): boolean =>
  set.every((id) => [...(graph.get(id) ?? [])].every((b) => set.includes(b)))

const subsetsOf = (ids: readonly string[]): string[][] =>
  Array.from({ length: 2 ** ids.length - 1 }, (_, i) => ids.filter((_, k) => (i + 1) & (1 << k)))

function fewestRemovals(operations: readonly Operation[], inputs: Inputs): Record<string, Value> {
  if (inputs.target === undefined) return {}
  const target = textOf(inputs, 'target')
  const { feasible, cost } = cheapestOrder({ operations, targets: [[target]], effort: 1e6 })
  if (!feasible) return { fewestRemovalsToTarget: null }
  return { fewestRemovalsToTarget: cost, fewestRemovalOrders: countPaths(operations, target, cost) }
}

/** Orders of so many operations that end with the target. */
function countPaths(
  operations: readonly Operation[],
  target: string,
  length: number,
  done: readonly string[] = [],
): number {
  const set = new Set(done)
  const ready = operations.filter((o) => !set.has(o.id) && openWay(o, set) !== undefined).map(({ id }) => id)
  if (done.length === length - 1) return Number(ready.includes(target))
  return ready
    .filter((id) => id !== target)
    .reduce((sum, id) => sum + countPaths(operations, target, length, [...done, id]), 0)
}

const MOST_SETS = 1e7

function countedOrders(operations: readonly Operation[]): { orders: number; sets: number } {
  const { orders, sets } = orderCount(operations, MOST_SETS)
  return { orders: Number(orders), sets }
}

/** Parts by number and ties between them, with halves that may not leave the whole. */
function splitsOfCase(inputs: Inputs): Record<string, Value> {
  const forbidden = inputs.forbidden === undefined ? [] : (listOf(inputs, 'forbidden') as number[][])
  const isAllowed = (one: readonly number[], other: readonly number[]): boolean =>
    one.length + other.length < numberOf(inputs, 'parts') ||
    !forbidden.some((half) => [one, other].some((side) => String(side) === String(half)))
  const ties = rowsOf(inputs, 'ties') as unknown as [number, number][]
  const counted = splitsOf(numberOf(inputs, 'parts'), ties, isAllowed)
  if (counted === undefined) return {}
  const { subassemblies, splits, trees, orders, oneAtATime } = counted
  return {
    subassemblies,
    splits,
    trees: Number(trees),
    orders: Number(orders),
    oneAtATime: Number(oneAtATime),
  }
}

function ordersOf(inputs: Inputs): Record<string, Value> {
  return countedOrders(operationsOf(inputs))
}

/** Operations by name with their needs; or so many elements with pairs [first, then]. */
function operationsOf(inputs: Inputs): Operation[] {
  if (inputs.operations !== undefined)
    return Object.entries(recordOf(inputs, 'operations')).map(([id, value]) => {
      const { cost, needs } = value as { cost?: number; needs?: Clause[] }
      return { id, cost: cost ?? 1, needs: (needs ?? []).map((clause) => clause.map(String)) }
    })
  const before = rowsOf(inputs, 'before')
  return Array.from({ length: numberOf(inputs, 'elements') }, (_, i) => ({
    id: String(i),
    cost: 1,
    needs: before.filter(([, then]) => then === i).map(([first]) => [String(first)]),
  }))
}

function cheapestOf(inputs: Inputs): Record<string, Value> {
  const operations = operationsOf(inputs)
  const targets = (listOf(inputs, 'target') as string[]).map((id) => [id])
  const { feasible, cost, order, proven, stuck } = cheapestOrder({ operations, targets, effort: 1e6 })
  if (!feasible) return { feasible, stuck: stuck.map(({ id }) => id).sort() }
  return { feasible, cost, proven, operationSet: [...order].sort(), done: reachable(operations).order.length }
}

function groupingOf(inputs: Inputs): Record<string, Value> {
  const { groups, cost, proven, tooHeavy } = cheapestGrouping({
    mass: recordOf(inputs, 'mass') as Record<string, number>,
    joints: listOf(inputs, 'joints') as unknown as [string, string, number][],
    capacity: numberOf(inputs, 'capacity'),
    costPerLift: numberOf(inputs, 'costPerLift'),
    effort: 1e6,
  })
  if (groups === undefined) return { feasible: false, tooHeavy }
  const named = groups.map((group) => [...group].sort()).sort((a, b) => ((a[0] as string) < (b[0] as string) ? -1 : 1))
  return { feasible: true, cost, proven, pieces: groups.length, groups: named }
}

function boreFreedomOf(inputs: Inputs): Record<string, Value> {
  const { dimension, solidAngle, rays } = freedomOf(
    wrapNormals([0, 0, -1], [1, 0, 0], numberOf(inputs, 'wrap') / 2, true),
  )
  const out = rays.filter((ray) => ray[2] > 1e-9 && Math.abs(ray[1]) < 1e-9)
  const lean = out.map((ray) => Math.atan2(Math.abs(ray[0]), ray[2]))
  return { dimension, solidAngle, lateralHalfAngle: lean.length === 0 ? null : Math.max(...lean) }
}

const readModel = (document: unknown): Model => {
  const read = model(document, freshMemory())
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  return read.model
}

/** A disc on its edge with its axis along x, or flat; the room to the wall of the shaft on its way up. */
function throughShaft(inputs: Inputs): Record<string, Value> {
  const [d, t] = [numberOf(inputs, 'diameter'), numberOf(inputs, 'thickness')]
  const offset = numberOr(inputs, 'offset', 0)
  const flat = textOf(inputs, 'way') === 'flat'
  const ends = flat
    ? [
        ['0 m', '0 m', '0 m'],
        ['0 m', '0 m', `${t} m`],
      ]
    : [
        [`${offset - t / 2} m`, '0 m', '0 m'],
        [`${offset + t / 2} m`, '0 m', '0 m'],
      ]
  const read = readModel({
    schemaVersion: 1,
    about: { title: 'Verification' },
    machine: { pose: { origin: ['0 m', '0 m', '-30 m'], roll: '0 deg', pitch: '0 deg', yaw: '0 deg' } },
    shaft: {
      clearDiameter: `${numberOf(inputs, 'shaft')} m`,
      collar: '0 m',
      slabTop: '-45 m',
      slabThickness: '2 m',
      excavation: '-47 m',
      barrier: '1 m',
      wall: { kind: 'secant piles', toe: '-50 m' },
    },
    materials: { steel: { density: '7850 kg/m3' } },
    parts: {
      disc: {
        name: 'Disc',
        material: 'steel',
        solids: [{ shape: 'cylinder', radius: `${d / 2} m`, from: ends[0], to: ends[1] }],
      },
    },
  })
  const memory = freshMemory()
  const path = wayOf(read, mass(read, memory), { parts: ['disc'], gone: [], moves: [moveBy([0, 0, 60])] }, memory)
  const [wall] = [...path.blocks, ...path.gaps].filter(({ kind }) => kind === 'bore')
  return { fits: wall?.verdict === 'clear', clearance: wall === undefined ? null : wall.gap - wall.depth }
}

const RECOVERY = new URL('../../examples/recovery/project.yaml', import.meta.url)

/** Pieces, or parts, of the invented recovery along way points; which parts and fixed things they strike, and gaps. */
function recoveryWay(inputs: Inputs): Record<string, Value> {
  const read = readModel(parse(readFileSync(RECOVERY, 'utf8')))
  const ids = (name: string): string[] =>
    (listOf(inputs, name) as string[]).flatMap((id) =>
      (read.project.pieces[id]?.parts ?? [id]).flatMap((part) => [...idsMeant(read.instances, part)]),
    )
  const gone = ids('gone')
  const points = [[0, 0, 0], ...rowsOf(inputs, 'points')] as unknown as Vec3[]
  const moves = points.slice(1).map((p, i) => {
    const from = points[i] as Vec3
    return moveBy([p[0] - from[0], p[1] - from[1], p[2] - from[2]])
  })
  const memory = freshMemory()
  const parts = ids('moving').filter((id) => !gone.includes(id))
  const path = wayOf(read, mass(read, memory), { parts, gone, moves }, memory)
  return { ...struck(path), gaps: gapsOnLastMove(path, moves.length - 1) }
}

function struck({ blocks }: Path): Record<string, Value> {
  const named = (kinds: readonly string[]) =>
    [...new Set(blocks.filter((b) => kinds.includes(b.kind)).map((b) => b.with))].sort()
  return { blocked: blocks.length > 0, parts: named(['part']), fixed: named(['obstruction', 'bore', 'slab']) }
}

function gapsOnLastMove({ gaps }: Path, last: number): Record<string, number> {
  const found: Record<string, number> = {}
  for (const { with: to, part, kind, gap, move } of gaps) {
    const key = kind === 'part' ? `${part} to ${to}` : to
    if (move === last && !(key in found)) found[key] = gap
  }
  return found
}
