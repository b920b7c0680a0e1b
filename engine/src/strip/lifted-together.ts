import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { type Extent, extentAround } from '../numeric/hull.ts'
import type { Memory } from '../working/memory.ts'
import { jointSides } from './joint.ts'
import { instancesOfPiece } from './order.ts'
import type { Surroundings } from './path.ts'

/** Pieces of the file that a search may lift as one. */
export interface LiftedTogether {
  id: string
  pieces: readonly string[]
  parts: readonly string[]
}

/** What is offered as one lift, and how many more there would have been. */
export interface Unions {
  unions: readonly LiftedTogether[]
  leftOut: number
}

const MOST_PIECES = 2
const MOST_UNIONS = 60

/**
 * Pieces of the file that may leave as one: tied to one another by joints, without parts in common, together no heavier than
 * `limit` by the design mass of each as found and as returned, kept apart by no rule, with lifting points where the file
 * gives any, none of them turned on the way, and small enough for a bay that the file gives to one of them.
 *
 * @param limit what the strongest hook lifts, kg
 * @param heaviest design mass of a piece of the file, kg, the greater of out and back
 */
export function liftedTogether(
  model: Model,
  around: Surroundings,
  limit: number,
  heaviest: (piece: string) => number,
  memory: Memory,
): Unions {
  const { pieces, settings } = model.project
  const most = settings.grouping?.most ?? MOST_PIECES
  const parts = new Map(Object.keys(pieces).map((id) => [id, instancesOfPiece(model, id, memory)]))
  const turned = new Set(Object.values(model.project.lifts).flatMap((l) => (l.kind === 'turn' ? [l.piece] : [])))
  const alone = [...parts.keys()].filter((id) => !turned.has(id) && heaviest(id) <= limit)
  const tied = tiedPieces(model, parts, alone, memory)
  const fits = (set: readonly string[]): boolean =>
    set.reduce((sum, id) => sum + heaviest(id), 0) <= limit &&
    hasPoints(model, set) &&
    hasBay(model, around, set, parts) &&
    !isKeptApart(
      model,
      set.flatMap((id) => parts.get(id) ?? []),
    )
  let level: string[][] = alone.map((id) => [id])
  const found: string[][] = []
  for (let size = 2; size <= most; size++) {
    const wider = level.flatMap((set) =>
      alone
        .filter((id) => !set.includes(id) && set.some((s) => tied.get(s)?.has(id)) && isApartFrom(id, set, parts))
        .map((id) => [...set, id].sort()),
    )
    level = [...new Map(wider.map((set) => [set.join('+'), set])).values()].filter(fits)
    found.push(...level)
  }
  const unions = found.map((set) => ({
    id: set.join('.'),
    pieces: set,
    parts: set.flatMap((id) => parts.get(id) ?? []),
  }))
  return { unions: unions.slice(0, MOST_UNIONS), leftOut: Math.max(0, unions.length - MOST_UNIONS) }
}

type Parts = ReadonlyMap<string, readonly string[]>

/** Pieces with a joint between a part of one and a part of the other. */
function tiedPieces(
  model: Model,
  parts: Parts,
  pieces: readonly string[],
  memory: Memory,
): ReadonlyMap<string, ReadonlySet<string>> {
  const holders = new Map<string, string[]>()
  for (const id of pieces) for (const part of parts.get(id) ?? []) holders.set(part, [...(holders.get(part) ?? []), id])
  const tied = new Map<string, Set<string>>(pieces.map((id) => [id, new Set()]))
  for (const { sides } of jointSides(model, memory)) {
    const [a, b] = sides.map((side) => side.flatMap((part) => holders.get(part) ?? [])) as [string[], string[]]
    for (const one of a)
      for (const other of b)
        if (one !== other) {
          tied.get(one)?.add(other)
          tied.get(other)?.add(one)
        }
  }
  return tied
}

const isApartFrom = (id: string, set: readonly string[], parts: Parts): boolean => {
  const own = new Set(parts.get(id))
  return !set.some((other) => (parts.get(other) ?? []).some((part) => own.has(part)))
}

/** A lift of its own needs points to be lifted by, once the file gives points at all. */
function hasPoints({ project }: Model, set: readonly string[]): boolean {
  const pointed = (id: string): boolean => Object.keys(project.pieces[id]?.points ?? {}).length > 0
  return set.some(pointed) || !Object.keys(project.pieces).some(pointed)
}

/** Whether a bay that one of the pieces is given is large enough for all of them, as driven. */
function hasBay({ project }: Model, around: Surroundings, set: readonly string[], parts: Parts): boolean {
  const bays = set.flatMap((id) => project.bays[project.pieces[id]?.bay ?? ''] ?? [])
  if (bays.length === 0) return true
  const cells = set.flatMap((id) =>
    (parts.get(id) ?? []).flatMap((part): Extent[] => {
      const cell = around.cells.get(part)
      return cell === undefined ? [] : [cell.extent]
    }),
  )
  const e = extentAround(cells)
  const plan = [e[3] - e[0], e[4] - e[1]].sort((a, b) => a - b) as [number, number]
  return bays.some(({ size }) => {
    const [short, long] = size.map((s) => s.value ?? Number.POSITIVE_INFINITY).sort((a, b) => a - b)
    return plan[0] <= (short as number) && plan[1] <= (long as number)
  })
}

/** Whether a set of parts holds two that a rule keeps apart. */
export function isKeptApart({ project, instances }: Model, parts: readonly string[]): boolean {
  const held = new Set(parts.flatMap((id) => [id, instances.byId.get(id)?.entry ?? id]))
  return (project.settings.grouping?.apart ?? []).some((rule) => rule.filter((id) => held.has(id)).length > 1)
}

/** Whether a set of parts holds some but not all of what a rule keeps together. */
export function isTornApart({ project, instances }: Model, parts: readonly string[]): boolean {
  const held = new Set(parts.flatMap((id) => [id, instances.byId.get(id)?.entry ?? id]))
  return (project.settings.grouping?.together ?? []).some((rule) => {
    const count = rule.filter((id) => held.has(id)).length
    return count > 0 && count < rule.length
  })
}

/** The greater design mass of a set of parts, as found and as returned, kg; net where an allowance is open. */
export const heaviestOf = (mass: MassResult, parts: readonly string[]): number =>
  Math.max(
    ...(['found', 'returned'] as const).map((state) => {
      const { design, net } = mass.ofSet([...parts], state)
      return design.value ?? net.value ?? 0
    }),
  )
