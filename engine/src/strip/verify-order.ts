import type { MassResult } from '../mass/index.ts'
import { coordinates, idsMeant, type Model, type Move } from '../model/index.ts'
import type { Vec3 } from '../numeric/vector.ts'
import { given } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { candidatesOf } from './candidates.ts'
import { type Exit, exitsOf, MOVE_SPACE, moveBy } from './exit.ts'
import { type RepairedOrder, repaired } from './nearest-order.ts'
import { compiled, plainCosts } from './operations.ts'
import { instancesOfPiece } from './order.ts'
import { type Surroundings, surroundingsOf } from './path.ts'
import { type Operation, openWay } from './precedence.ts'
import { type OrderStep, placeSteps, SHAFT } from './standing.ts'
import type { StepFailure, StripStep } from './strip.ts'
import { bearingParts } from './support.ts'
import { verifySteps } from './verify.ts'

/** A move as written outside the project file, SI. */
export type WrittenMove =
  | { kind: 'translate'; by: Vec3 }
  | { kind: 'rotate'; turn: number; axis: 'x' | 'y' | 'z'; about: Vec3 }

/** A step as written outside the project file: a piece, its parts, and how it moves. */
export interface WrittenStep {
  piece: string
  /** Instances or entries; none: those of the project's piece of that name. */
  parts?: readonly string[]
  /** None: a way is looked for. */
  moves?: readonly WrittenMove[]
  /** It stays in the shaft at the end of its moves. */
  stays?: boolean
}

/** Where an order fails, and what it comes to step by step. */
export interface VerifiedOrder {
  feasible: boolean
  failures: readonly MendedFailure[]
  steps: readonly StripStep[]
  /** Of an order that fails, the nearest that works. */
  nearest?: NearestOrder
}

/** A fault, with what of the nearest order mends it. */
export interface MendedFailure extends StepFailure {
  mend?: Mend
}

/** The part of a change that mends one fault. */
export interface Mend {
  /** Pieces that go before the step in the nearest order and do not in this one; those that hold a blocker, where any do. */
  first: readonly string[]
  /** The way that is open at its turn in the nearest order; none where the piece was dropped. */
  moves: readonly WrittenMove[]
  /** The piece can never go: it is left out. */
  dropped: boolean
}

/** The pieces of an order in one that works, with what was changed: moved, added, dropped. */
export interface NearestOrder extends RepairedOrder {
  /** The way of each that is open at its turn. */
  ways: Readonly<Record<string, readonly WrittenMove[]>>
  /** Ways that were looked at for the pieces; a written move counts where it stands in the file. */
  moveSpace: string
}

/**
 * Nearest to an order of pieces that fails, an order of pieces that works: each at its turn where it can be, what is lacking
 * added, what can never go dropped. Parts given with a step are those of the piece of that name.
 */
export function nearestOrder(
  model: Model,
  mass: MassResult,
  order: readonly WrittenStep[],
  memory: Memory,
): NearestOrder {
  return nearestTo(model, mass, order, memory).nearest
}

function nearestTo(model: Model, mass: MassResult, order: readonly WrittenStep[], memory: Memory) {
  const around = surroundingsOf(model, mass, memory)
  const candidates = candidatesOf({ model, mass, around, thorough: false, shouldContinue: () => true, memory })
  const { operations, items } = compiled(
    model,
    candidates,
    plainCosts(HANDLING),
    bearingParts(model, around.cells, memory),
    memory,
  )
  const aside = new Map(candidates.flatMap(({ id, piece, aside: is }) => (is === true ? [[piece, id] as const] : [])))
  const ids = order.map(({ piece, stays }) => (stays === true ? (aside.get(piece) ?? piece) : piece))
  const near = repaired(operations, items, ids)
  const ways = Object.fromEntries(
    near.order.map((id, turn) => {
      const operation = operations.find((o) => o.id === id) as Operation
      const exits = candidates.find((c) => c.id === id)?.exits ?? []
      const open = openWay(operation, new Set(near.order.slice(0, turn))) ?? 0
      return [id, (exits[open]?.moves ?? []).map(writtenMove)]
    }),
  )
  return { nearest: { ...near, ways, moveSpace: MOVE_SPACE }, ids, candidates }
}

/** What of the nearest order mends each fault of an order. */
export function mendsOf(
  model: Model,
  mass: MassResult,
  order: readonly WrittenStep[],
  failures: readonly (StepFailure & { place: number })[],
  memory: Memory,
): { nearest: NearestOrder; mends: readonly Mend[] } {
  const { nearest, ids, candidates } = nearestTo(model, mass, order, memory)
  const mends = failures.map(({ place, blockers }): Mend => {
    const id = ids[place] as string
    const turn = nearest.order.indexOf(id)
    if (turn < 0) return { first: [], moves: [], dropped: true }
    const before = nearest.order.slice(0, turn)
    const earlier = before.filter((other) => !ids.slice(0, place).includes(other))
    const holds = (other: string): boolean => blockers.some((b) => candidates.find((c) => c.id === other)?.parts.has(b))
    const holding = earlier.filter(holds)
    return { first: holding.length > 0 ? holding : earlier, moves: nearest.ways[id] ?? [], dropped: false }
  })
  return { nearest, mends }
}

/** Cost of a piece more, s, against the hours of joints and services (common practice, no source). */
const HANDLING = 8 * 3600

/** An order that the user wrote, verified: at which step, by which part or joint, in which direction it fails. */
export function verifyOrder(
  model: Model,
  mass: MassResult,
  order: readonly WrittenStep[],
  memory: Memory,
): VerifiedOrder {
  const around = surroundingsOf(model, mass, memory)
  const steps: OrderStep[] = []
  for (const written of order) steps.push(orderStep(model, written, steps, around, memory))
  const verified = verifySteps(model, mass, steps, memory).map(({ step }) => step)
  const failures = verified.flatMap((step, place) => step.failures.map((failure) => ({ ...failure, place })))
  if (failures.length === 0) return { feasible: true, failures, steps: verified }
  const { nearest, mends } = mendsOf(model, mass, order, failures, memory)
  return {
    feasible: false,
    failures: failures.map(({ place: _place, ...failure }, i) => ({ ...failure, mend: mends[i] as Mend })),
    steps: verified,
    nearest,
  }
}

function orderStep(
  model: Model,
  written: WrittenStep,
  before: readonly OrderStep[],
  around: Surroundings,
  memory: Memory,
): OrderStep {
  const { piece, stays = false } = written
  const known = model.project.pieces[piece] === undefined ? [] : instancesOfPiece(model, piece, memory)
  const parts = written.parts?.flatMap((id) => orItself(idsMeant(model.instances, id), id)) ?? known
  const step = {
    step: String(before.length + 1),
    pointer: '/order',
    piece,
    parts: parts.length > 0 ? parts : [piece],
    stays,
  }
  return { ...step, moves: written.moves?.map(moveOf) ?? foundMoves(model, step.parts, before, around) }
}

/** A name that means no part is kept, so that the step says so. */
const orItself = (ids: readonly string[], id: string): readonly string[] => (ids.length > 0 ? ids : [id])

/** The way that least of what still stands with the parts blocks. */
function foundMoves(
  model: Model,
  parts: readonly string[],
  before: readonly OrderStep[],
  around: Surroundings,
): readonly Move[] {
  const there = parts.filter((id) => around.cells.has(id))
  const probe = { step: 'probe', pointer: '/order', piece: 'probe', parts: there, moves: [], stays: false }
  const placed = placeSteps([...before, probe], around.cells.keys()).at(-1)
  if (placed === undefined || there.length === 0) return [moveBy([0, 0, 1])]
  const blocked = ({ blockers }: Exit): number => blockers.filter((id) => placed.staying.has(id)).length
  const ways = exitsOf(model, there, around, { written: [], thorough: true }).filter(
    ({ from }) => (from === 'shaft') === (placed.group === SHAFT),
  )
  const [best] = [...ways].sort((a, b) => blocked(a) - blocked(b) || a.moves.length - b.moves.length)
  return best?.moves ?? [moveBy([0, 0, 1])]
}

/** A written move as the engine keeps moves; its figures have no address in the project file. */
export function moveOf(move: WrittenMove): Move {
  if (move.kind === 'translate') return moveBy(move.by)
  const [x, y, z] = move.about
  return {
    turn: given('rad', '', move.turn),
    axis: move.axis,
    about: [given('m', '', x), given('m', '', y), given('m', '', z)],
  }
}

/** A move as it is written outside the project file. */
export const writtenMove = (move: Move): WrittenMove =>
  'by' in move
    ? { kind: 'translate', by: coordinates(move.by) }
    : { kind: 'rotate', turn: move.turn.value as number, axis: move.axis, about: coordinates(move.about) }
