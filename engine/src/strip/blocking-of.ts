import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { spreadDirections } from '../numeric/directions.ts'
import { type Freedom, freedomOf } from '../numeric/freedom.ts'
import { extentGap } from '../numeric/hull.ts'
import { boxesMeet, shadowPairs } from '../numeric/prune.ts'
import { dot, norm, scale, subtract, unit, type Vec3 } from '../numeric/vector.ts'
import type { Memory } from '../working/memory.ts'
import { type BlockingGraph, graphAlong, movableSets, strongComponents } from './blocking.ts'
import { contactNormals } from './contact.ts'
import { contactGap, overlapsAsFound, overlapTolerance, pairKey } from './overlap.ts'
import { type Block, blockBetween, type MayOverlap } from './pair-block.ts'
import { allCells, type PartCells } from './shape.ts'

/** How two parts hold each other, as found. Directions are numbers in the list of `Blocking`. */
export interface PairBlocking {
  parts: readonly [string, string]
  /** Unit normals of their contacts, into the first; none: they do not touch. */
  normals: readonly Vec3[]
  /** Directions along which the first cannot begin to move for the second; the second is held along the opposite ones. */
  held: readonly number[]
  /** Directions along which the first, all the way out, would strike the second. */
  blocked: readonly number[]
  /** The same where inner and outer shapes disagree: neither free nor blocked is sure. */
  open: readonly number[]
}

/** How a part is held by all others together. */
export interface PartBlocking {
  /** Directions in which it may begin to move: the cone that its contacts leave, exact. */
  freedom: Freedom
  /** Further directions looked at for this part alone: rays that make up its cone and are not in the list. */
  own: readonly Vec3[]
  /** For each of its own directions, what blocks it all the way out. */
  ownBlockers: readonly (readonly string[])[]
  /** Directions of the list along which nothing blocks it. */
  free: readonly number[]
}

/** What blocks what along one direction, all the way out and at once. */
export interface DirectionalBlocking {
  direction: Vec3
  blockers: BlockingGraph
  /** For each part, the parts that touch it and keep it from beginning to move. */
  holders: BlockingGraph
  /** Sets of parts of which each blocks the next, all the way round. */
  components: readonly (readonly string[])[]
  /** Of these, the sets that nothing outside blocks: the least that can leave. */
  movable: readonly (readonly string[])[]
}

export interface Blocking {
  /** Unit vectors, machine frame; with each its opposite. */
  directions: readonly Vec3[]
  /** No direction lies farther than this from one of the list, rad: what the sample may miss between them. */
  coverage: number
  method: string
  /** Pairs that touch, or of which one blocks the other along a direction of the list. */
  pairs: readonly PairBlocking[]
  parts: Readonly<Record<string, PartBlocking>>
  /** The same for any direction, exact and not from the sample; machine frame. */
  along(direction: Vec3): DirectionalBlocking
}

const STEPS = 1
const SPREAD = spreadDirections(STEPS)

const METHOD =
  'each pair by the convex hull of what it passes, along a sample of directions that holds with each its opposite, completed for each part by the rays that make up the cone its contacts leave free; any other direction is exact when it is asked for. Between sampled directions a solid cone of free ones narrower than the coverage may be missed where it does not begin at a contact; slots, bores and blind holes are not'

/**
 * Who blocks whom among the parts of the machine as found, for every pair: to begin with, and all the way out. Joints,
 * services, the shaft and what is fixed in it are left aside. Each pair hangs from its own two shapes, so an edited part
 * is looked at again and the others are not.
 */
export function blockingOf(model: Model, mass: MassResult, memory: Memory): Blocking {
  const cells = allCells(model, mass, memory)
  const tolerance = overlapTolerance(model).value as number
  const gap = contactGap(model).value as number
  const may = mayOverlap(model, mass, memory)
  return memory.once('strip-blocking', [cells, tolerance, gap, may], () =>
    blockingAmong({ parts: [...cells.values()], tolerance, gap, may, memory }),
  )
}

/** Parts, what counts as overlap and as contact, and which solids may overlap. */
export interface Among {
  parts: readonly PartCells[]
  tolerance: number
  gap: number
  /** By `pairKey`, with the solids of the part of the lesser id first. */
  may: ReadonlyMap<string, MayOverlap>
  memory: Memory
}

/** The same of parts from anywhere. */
export function blockingAmong(among: Among): Blocking {
  const { directions, coverage } = SPREAD
  const pairs = pairsOf(among)
  return {
    directions,
    coverage,
    method: METHOD,
    pairs,
    parts: partsOf(among, pairs),
    along: (direction) => blockingAlong(among, unit(direction)),
  }
}

/** Overlaps that the file accepts: those solids are not looked at. */
function mayOverlap(model: Model, mass: MassResult, memory: Memory): Among['may'] {
  const accepted = overlapsAsFound(model, mass, memory).filter((o) => o.accepted !== undefined && o.depth <= o.accepted)
  const lists = accepted.map(({ parts: [a, b], solids }) => {
    const named = solids.map(([i, j]) => (a < b ? `${i}/${j}` : `${j}/${i}`))
    return [pairKey(a, b), memory.settled(`strip-may/${pairKey(a, b)}`, named)] as const
  })
  return memory.once('strip-mayOverlap', lists.flat(), () => new Map(lists))
}

/** For each pair that could meet, the directions along which the first could. */
function candidatesOf(parts: readonly PartCells[]): Map<number, number[]> {
  const { directions } = SPREAD
  const extents = parts.map((p) => p.extent)
  const found = new Map<number, number[]>()
  const note = (i: number, j: number, k: number): void => {
    const key = i * parts.length + j
    const known = found.get(key)
    if (known === undefined) found.set(key, [k])
    else known.push(k)
  }
  for (const [k, direction] of directions.entries()) {
    const back = OPPOSITE[k] as number
    if (back < k) continue
    shadowPairs(extents, direction, (i, j) => {
      const [a, b] = [extents[i], extents[j]] as [PartCells['extent'], PartCells['extent']]
      if (boxesMeet(a, b, direction)) note(i, j, k)
      if (boxesMeet(a, b, directions[back] as Vec3)) note(i, j, back)
    })
  }
  return found
}

/** Number of the opposite of each direction. */
const OPPOSITE = SPREAD.directions.map((d) =>
  SPREAD.directions.findIndex((e) => norm(subtract(e, scale(d, -1))) < 1e-9),
)

function pairsOf(among: Among): readonly PairBlocking[] {
  const { parts, tolerance, gap, may, memory } = among
  const found: PairBlocking[] = []
  for (const [key, tried] of candidatesOf(parts)) {
    const [a, b] = [parts[Math.floor(key / parts.length)], parts[key % parts.length]] as [PartCells, PartCells]
    const allowed = may.get(pairKey(a.id, b.id))
    const pair = memory.once(`strip-pair/${a.id}/${b.id}`, [a, b, tolerance, gap, allowed], () =>
      pairBlocking(a, b, tried, among),
    )
    if (pair.blocked.length + pair.open.length + pair.normals.length > 0) found.push(pair)
  }
  return found
}

function pairBlocking(a: PartCells, b: PartCells, tried: readonly number[], among: Among): PairBlocking {
  const { directions } = SPREAD
  const block = blockIn(among, a, b)
  const normals = extentGap(a.extent, b.extent) > among.gap ? [] : contactNormals(a, b, among.gap)
  const fates = tried.map((k) => [k, block(directions[k] as Vec3)] as const)
  const having = (fate: Block): number[] => fates.filter(([, f]) => f === fate).map(([k]) => k)
  return {
    parts: [a.id, b.id],
    normals,
    held: directions.flatMap((d, k) => (isHeld(d, normals) ? [k] : [])),
    blocked: having('blocked'),
    open: having('open'),
  }
}

/** How one part fares against another, whichever of the two has the lesser id. */
function blockIn({ tolerance, may }: Among, a: PartCells, b: PartCells): (direction: Vec3) => Block {
  const allowed = may.get(pairKey(a.id, b.id)) ?? []
  const own = a.id < b.id ? allowed : allowed.map((pair) => pair.split('/').reverse().join('/'))
  return blockBetween(a, b, tolerance, own)
}

const SLACK = 1e-9
const isHeld = (d: Vec3, normals: readonly Vec3[]): boolean => normals.some((n) => dot(n, d) < -SLACK)

function partsOf(among: Among, pairs: readonly PairBlocking[]): Blocking['parts'] {
  const into = new Map<string, Vec3[]>(among.parts.map(({ id }) => [id, []]))
  const taken = new Map<string, Set<number>>(among.parts.map(({ id }) => [id, new Set()]))
  for (const { parts, normals, blocked, open } of pairs) {
    const [a, b] = parts
    into.get(a)?.push(...normals)
    into.get(b)?.push(...normals.map((n) => scale(n, -1)))
    for (const k of [...blocked, ...open]) {
      taken.get(a)?.add(k)
      taken.get(b)?.add(OPPOSITE[k] as number)
    }
  }
  const free = (id: string): number[] => SPREAD.directions.flatMap((_, k) => (taken.get(id)?.has(k) ? [] : [k]))
  return Object.fromEntries(
    among.parts.map((part) => [part.id, { ...ownWays(part, into.get(part.id) as Vec3[], among), free: free(part.id) }]),
  )
}

/** The free cone of a part, and what blocks it along the rays of that cone. */
function ownWays(part: PartCells, normals: readonly Vec3[], among: Among): Omit<PartBlocking, 'free'> {
  const { memory, parts } = among
  const settled = memory.settled(`strip-normals/${part.id}`, normals)
  const freedom = memory.once(`strip-freedom/${part.id}`, [settled], () => freedomOf(settled))
  const own = memory.once(`strip-own/${part.id}`, [freedom], () => freedom.rays.filter((ray) => !isListed(ray)))
  const ownBlockers = own.map((ray) =>
    parts.filter((other) => other !== part && boxesMeet(part.extent, other.extent, ray)),
  )
  const asked = [...new Set(ownBlockers.flat())]
  const blocked = new Map(asked.map((other) => [other, blockedRays(part, other, own, among)]))
  return {
    freedom,
    own,
    ownBlockers: ownBlockers.map((others, k) => others.filter((o) => blocked.get(o)?.has(k)).map(({ id }) => id)),
  }
}

const isListed = (ray: Vec3): boolean => SPREAD.directions.some((d) => norm(subtract(d, ray)) < 1e-6)

/** Which of a part's own directions another part blocks; an undecided one counts. */
function blockedRays(part: PartCells, other: PartCells, own: readonly Vec3[], among: Among): ReadonlySet<number> {
  const allowed = among.may.get(pairKey(part.id, other.id))
  const inputs = [part, other, own, among.tolerance, allowed]
  return among.memory.once(`strip-ray/${part.id}/${other.id}`, inputs, () => {
    const block = blockIn(among, part, other)
    return new Set(own.flatMap((ray, k) => (block(ray) === 'free' ? [] : [k])))
  })
}

function blockingAlong(among: Among, direction: Vec3): DirectionalBlocking {
  const { parts, gap } = among
  const blockers = graphAlong(parts, direction, (a, b) => blockIn(among, a, b)(direction))
  const ids = parts.map(({ id }) => id)
  return {
    direction,
    blockers,
    holders: holdersAlong(parts, direction, gap),
    components: strongComponents(ids, (id) => [...(blockers.get(id) ?? [])]),
    movable: movableSets(blockers, new Set(ids)),
  }
}

function holdersAlong(parts: readonly PartCells[], direction: Vec3, gap: number): BlockingGraph {
  return new Map(
    parts.map((a) => [
      a.id,
      new Set(
        parts
          .filter(
            (b) => a !== b && extentGap(a.extent, b.extent) <= gap && isHeld(direction, contactNormals(a, b, gap)),
          )
          .map(({ id }) => id),
      ),
    ]),
  )
}
