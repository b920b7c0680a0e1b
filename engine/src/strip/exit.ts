import type { Model, Move } from '../model/index.ts'
import { encounter } from '../numeric/encounter.ts'
import { freedomOf, withoutRepeats } from '../numeric/freedom.ts'
import { type Extent, extentAround, extentGap, reachAlong } from '../numeric/hull.ts'
import { AT_REST, apply, norm, scale, transpose, unit, type Vec3 } from '../numeric/vector.ts'
import { given } from '../working/answer.ts'
import { boreMeetings } from './bore.ts'
import { contactNormals } from './contact.ts'
import { legsOf } from './leg.ts'
import { type Mover, viewsFrom } from './meet.ts'
import { posesAlong } from './motion.ts'
import { contactGap } from './overlap.ts'
import type { Surroundings } from './path.ts'
import type { PartCells } from './shape.ts'

/** A way out for a piece: its moves, and the parts that must be gone before. */
export interface Exit {
  moves: readonly Move[]
  blockers: readonly string[]
  /** Out of the shaft by the hook; otherwise off a piece that lies on the surface already. */
  from: 'shaft' | 'surface'
}

export interface ExitSearch {
  /** Moves that the file holds for the piece; they are tried as well. */
  written: readonly (readonly Move[])[]
  /** Edges of the cone of free directions as well, and not only the axis of the machine. */
  thorough: boolean
}

/** What ways out are looked for, in words. */
export const MOVE_SPACE =
  'the moves that the file holds for a piece, and straight moves without turning: up; or, before going up, one straight move along the machine axis or an edge of the cone of free directions of the contacts, as far as clears one of the parts that block the way up; on the surface, one straight move along a machine axis or such an edge'

/**
 * Ways out of a piece, each with what blocks it, the machine being whole. A way that needs more gone than another is left
 * out, and so is one that strikes the shaft or something fixed in it.
 *
 */
export function exitsOf(
  model: Model,
  ids: readonly string[],
  around: Surroundings,
  { written, thorough }: ExitSearch,
): readonly Exit[] {
  const parts = ids.map((id) => around.cells.get(id) as PartCells)
  const others = [...around.cells.values()].filter((c) => !ids.includes(c.id))
  const directions = thorough ? directionsOf(model, parts, others, around) : alongTheAxis(around)
  const up = shaftExit([], parts, others, around)
  const legs = directions.flatMap((d) => stepsAside(d, parts, up.blockers, around).map((s) => scale(d, s)))
  const tried = [
    up,
    ...legs.map((leg) => shaftExit([leg], parts, others, around)),
    ...written.map((moves) => triedExit(moves, parts, others, around)),
  ]
  const shaft = tried.filter((e) => !e.struck)
  const surface = directions.map((d) => surfaceExit(d, parts, others, around))
  if (around.bore === undefined) return undominated([...shaft, ...surface]).map(exitInTheOpen)
  return [...undominated(shaft), ...undominated(surface)].map(({ moves, blockers, from }) => ({
    moves,
    blockers,
    from,
  }))
}

const DEGREE = Math.PI / 180
const ROLLS = [30, -30, 60, -60, 90, -90, 180].map((d) => d * DEGREE)
const QUARTERS = [90, -90].map((d) => d * DEGREE)

/** What turns are looked for, in words. */
export const TURN_SPACE =
  'for a piece that no straight move gets out, one turn and then up: by 30, 60, 90 or 180 degrees about the line along site x through the origin of the machine, or by a quarter about a level or an upright line through the middle of the piece'

/**
 * Ways out with one turn first: rolled about the line along site x through the machine's origin, or turned a quarter about
 * the piece's own middle, then up. Swept as all moves are, so a turn that strikes on the way is seen.
 */
export function turnedExits(ids: readonly string[], around: Surroundings): readonly Exit[] {
  const parts = ids.map((id) => around.cells.get(id) as PartCells)
  const others = [...around.cells.values()].filter((c) => !ids.includes(c.id))
  const { machine } = around
  const e = extentAround(parts.map((c) => c.extent))
  const middle = apply(machine.turn, [(e[0] + e[3]) / 2, (e[1] + e[4]) / 2, (e[2] + e[5]) / 2])
  const own = middle.map((x, i) => x + (machine.shift[i] as number)) as unknown as Vec3
  const up = moveBy([0, 0, rise([], parts, around) + spread(parts)])
  const turns = [
    ...ROLLS.map((turn) => turnBy(turn, 'x', machine.shift)),
    ...(['x', 'y', 'z'] as const).flatMap((axis) => QUARTERS.map((turn) => turnBy(turn, axis, own))),
  ]
  const free = turns.map((turn) => triedExit([turn, up], parts, others, around)).filter(({ struck }) => !struck)
  return undominated(free).map(({ moves, blockers, from }) => ({ moves, blockers, from }))
}

/** A turn that the file does not hold; its figures have no address. */
const turnBy = (turn: number, axis: 'x' | 'y' | 'z', [x, y, z]: Vec3): Move => ({
  turn: given('rad', '', turn),
  axis,
  about: [given('m', '', x), given('m', '', y), given('m', '', z)],
})

/** The way aside that the file gives for a piece that stays in the shaft, with what blocks it. */
export function asideExit(ids: readonly string[], moves: readonly Move[], around: Surroundings): Exit {
  const parts = ids.map((id) => around.cells.get(id) as PartCells)
  const others = [...around.cells.values()].filter((c) => !ids.includes(c.id))
  const { blockers } = triedExit(moves, parts, others, around)
  return { moves, blockers, from: 'shaft' }
}

/** Without a shaft the machine stands in the open: every way is there from the start. */
const exitInTheOpen = ({ moves, blockers }: Exit): Exit => ({ moves, blockers, from: 'shaft' })

interface TriedExit extends Exit {
  /** Strikes something that cannot go. */
  struck: boolean
}

/** Machine axes and edges of the cone of free directions, site frame. */
function directionsOf(
  model: Model,
  parts: readonly PartCells[],
  others: readonly PartCells[],
  around: Surroundings,
): readonly Vec3[] {
  const gap = contactGap(model).value as number
  const normals = withoutRepeats(parts.flatMap((p) => others.flatMap((o) => contactNormals(p, o, gap))))
  const rays = normals.length > MOST_NORMALS ? [] : freedomOf(normals).rays
  return withoutRepeats([...AXES, ...rays.slice(0, MOST_RAYS)].map((d) => unit(apply(around.machine.turn, d))))
}

const alongTheAxis = ({ machine }: Surroundings): readonly Vec3[] =>
  [1, -1].map((sign) => unit(apply(machine.turn, [sign, 0, 0])))

const MOST_NORMALS = 60
const MOST_RAYS = 8
const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
]

const MARGIN = 0.02
const MOST_STEPS = 4

/** How far to go aside so that one after another of what blocks the way up is cleared, at most a few of them, m. */
function stepsAside(
  direction: Vec3,
  parts: readonly PartCells[],
  blockers: readonly string[],
  { cells, machine }: Surroundings,
): number[] {
  const local = apply(transpose(machine.turn), direction)
  const lowest = (part: PartCells): number =>
    -Math.max(...part.solids.map(({ cell }) => reachAlong(cell.outer, scale(local, -1))))
  const highest = (part: PartCells): number => Math.max(...part.solids.map(({ cell }) => reachAlong(cell.outer, local)))
  const tail = Math.min(...parts.map(lowest))
  const steps = blockers.map((id) => highest(cells.get(id) as PartCells) - tail + MARGIN)
  const nearer = blockers.flatMap((id) => parts.map((p) => highest(cells.get(id) as PartCells) - lowest(p) + MARGIN))
  const useful = [...new Set([...steps, ...nearer].filter((s) => s > MARGIN / 2).map((s) => Math.ceil(100 * s) / 100))]
  return useful
    .sort((a, b) => a - b)
    .filter((_, i, all) => i % Math.ceil(all.length / MOST_STEPS) === 0)
    .slice(0, MOST_STEPS)
}

/** Aside by the legs given, then up until all of it is above the collar. */
function shaftExit(
  legs: readonly Vec3[],
  parts: readonly PartCells[],
  others: readonly PartCells[],
  around: Surroundings,
): TriedExit {
  return triedExit([...legs, [0, 0, rise(legs, parts, around)] as Vec3].map(moveBy), parts, others, around)
}

function triedExit(
  moves: readonly Move[],
  parts: readonly PartCells[],
  others: readonly PartCells[],
  around: Surroundings,
): TriedExit {
  const mover = moverAlong(moves, parts, around)
  const fixed = around.obstructions.some((o) => isStruck(mover, [o.cell], o.cell.extent))
  const wall = around.bore !== undefined && boreMeetings(mover, around.bore).some((m) => m.verdict !== 'clear')
  return { moves, blockers: blockersOn(mover, others, around), from: 'shaft', struck: fixed || wall }
}

function rise(legs: readonly Vec3[], parts: readonly PartCells[], { machine, bore, cells }: Surroundings): number {
  const down = apply(transpose(machine.turn), [0, 0, -1])
  const bottomOf = (list: Iterable<PartCells>): number =>
    -Math.max(...[...list].flatMap((p) => p.solids.map(({ cell }) => reachAlong(cell.outer, down)))) + machine.shift[2]
  const sunk = legs.reduce((sum, leg) => sum + leg[2], 0)
  const top = bore?.collar ?? bottomOf(parts) + 2 * spread(cells.values())
  return top - (bottomOf(parts) + sunk) + 1
}

const spread = (cells: Iterable<PartCells>): number => {
  const e = extentAround([...cells].map((c) => c.extent))
  return norm([e[3] - e[0], e[4] - e[1], e[5] - e[2]])
}

function surfaceExit(
  direction: Vec3,
  parts: readonly PartCells[],
  others: readonly PartCells[],
  around: Surroundings,
): TriedExit {
  const moves = [moveBy(scale(direction, spread([...parts, ...others]) + 1))]
  return {
    moves,
    blockers: blockersOn(moverAlong(moves, parts, around), others, around),
    from: 'surface',
    struck: false,
  }
}

/** A straight move that the file does not hold; its figures have no address. */
export const moveBy = ([x, y, z]: Vec3): Move => ({ by: [given('m', '', x), given('m', '', y), given('m', '', z)] })

const moverAlong = (
  moves: readonly Move[],
  parts: readonly PartCells[],
  { machine, tolerance }: Surroundings,
): Mover => ({
  parts,
  legs: legsOf(moves, posesAlong(AT_REST, moves)),
  machine,
  limits: { tolerance, reach: 0, resolution: tolerance },
  views: new Map(),
})

const blockersOn = (mover: Mover, others: readonly PartCells[], { ignores }: Surroundings): string[] =>
  others
    .filter((other) =>
      isStruck(
        mover,
        other.solids.map((s) => s.cell),
        other.extent,
        (part) => part.solids.some((p) => other.solids.some((q) => ignores(part.id, p.index, other.id, q.index))),
      ),
    )
    .map(({ id }) => id)

/** Whether a thing as found is struck, or not sure to be missed, on any leg. */
function isStruck(
  mover: Mover,
  cells: readonly PartCells['solids'][number]['cell'][],
  extent: Extent,
  mayOverlap: (part: PartCells) => boolean = () => false,
): boolean {
  return viewsFrom(mover, AT_REST).some(({ motion, whole, passed }) => {
    if (extentGap(whole, extent) > 0) return false
    return mover.parts.some((part, i) => {
      if (extentGap(passed[i] as Extent, extent) > 0 || mayOverlap(part)) return false
      const own = part.solids.map(({ cell }) => cell)
      return encounter(own, cells, motion, mover.limits).verdict !== 'clear'
    })
  })
}

/** Ways that no other way of the list makes needless: fewer blockers, then fewer moves. */
function undominated(exits: readonly TriedExit[]): TriedExit[] {
  const sorted = [...exits].sort((a, b) => a.blockers.length - b.blockers.length || a.moves.length - b.moves.length)
  const kept: (TriedExit & { set: ReadonlySet<string> })[] = []
  for (const exit of sorted) {
    const set = new Set(exit.blockers)
    if (!kept.some((k) => [...k.set].every((b) => set.has(b)))) kept.push({ ...exit, set })
  }
  return kept
}
