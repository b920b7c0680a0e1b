import type { MassResult } from '../mass/index.ts'
import { type Model, type Move, ratedRows } from '../model/index.ts'
import { apply, transpose, unit, type Vec3 } from '../numeric/vector.ts'
import type { Memory } from '../working/memory.ts'
import { blockingGraph, movableSets } from './blocking.ts'
import { asideExit, exitsOf, turnedExits } from './exit.ts'
import { heaviestOf, isTornApart, type LiftedTogether, liftedTogether } from './lifted-together.ts'
import { type Candidate, compiled, plainCosts } from './operations.ts'
import { instancesOfPiece } from './order.ts'
import { acceptedOverlaps } from './overlap.ts'
import type { Surroundings } from './path.ts'
import { reachable } from './precedence.ts'
import { bearingParts } from './support.ts'

/** What the candidates are made from. */
export interface Making {
  model: Model
  mass: MassResult
  around: Surroundings
  thorough: boolean
  shouldContinue: () => boolean
  memory: Memory
}

/** What may be taken: pieces of the file and what it puts aside, or single parts and groups that only move together. */
export function candidatesOf(making: Making): readonly Candidate[] {
  const { model, mass, memory } = making
  const pieces = Object.keys(model.project.pieces)
  if (pieces.length === 0) return withLinkedGroups(making, singles(making))
  const limit = strongestHook(model)
  const lifted = pieces
    .filter((id) => heaviest(mass, id) <= limit)
    .map((id) => candidate(making, id, instancesOfPiece(model, id, memory)))
  const kept = lifted.filter(({ parts }) => !isTornApart(model, [...parts]) || isWithin(parts, lifted, model))
  return [...asides(making), ...kept]
}

/** Taken from a larger piece that keeps the rule: that is work on the surface. */
const isWithin = (parts: ReadonlySet<string>, lifted: readonly Candidate[], model: Model): boolean =>
  lifted.some(
    (other) =>
      other.parts.size > parts.size &&
      [...parts].every((p) => other.parts.has(p)) &&
      !isTornApart(model, [...other.parts]),
  )

/** Pieces that may be lifted as one, as the rules of the file have it. */
export function unionsOf({ model, mass, around, memory }: Making) {
  const { unions, leftOut } = liftedTogether(model, around, strongestHook(model), (id) => heaviest(mass, id), memory)
  const isLight = ({ parts }: LiftedTogether): boolean => heaviestOf(mass, parts) <= strongestHook(model)
  return { unions: unions.filter((u) => isLight(u) && !isTornApart(model, u.parts)), leftOut }
}

/** Pieces that the file puts aside. */
const asides = ({ model, around, memory }: Making): readonly Candidate[] =>
  model.project.order.flatMap((id): Candidate[] => {
    const step = model.project.steps[id]
    if (step?.stays !== true) return []
    const parts = instancesOfPiece(model, step.piece, memory)
    const exit = memory.once(`strip-aside/${id}`, [around, parts, step.moves], () =>
      asideExit(parts, step.moves, around),
    )
    return [
      {
        id,
        piece: step.piece,
        parts: new Set(parts),
        exits: [exit],
        aside: true,
        ...(step.support === undefined ? {} : { support: step.support }),
      },
    ]
  })

export function candidate(making: Making, id: string, parts: readonly string[]): Candidate {
  const { model, around, thorough, shouldContinue, memory } = making
  const written = writtenMoves(model, id)
  const exits = shouldContinue()
    ? memory.once(`strip-exits/${id}`, [around, parts, thorough, ...written], () =>
        exitsOf(model, parts, around, { written, thorough }),
      )
    : []
  return { id, piece: id, parts: new Set(parts), exits }
}

/** Moves of the first step of the file that takes a piece away, where no larger piece takes its parts before. */
function writtenMoves({ project }: Model, piece: string): readonly (readonly Move[])[] {
  const { steps, order, pieces } = project
  const parts = pieces[piece]?.parts ?? []
  const holds = (other: string): boolean =>
    other !== piece && parts.every((part) => pieces[other]?.parts.includes(part))
  const taking = order.filter((id) => steps[id]?.stays === false)
  const own = taking.findIndex((id) => steps[id]?.piece === piece)
  const step = steps[taking[own] ?? '']
  const carried = taking.slice(0, Math.max(0, own)).some((id) => holds(steps[id]?.piece as string))
  return step === undefined || carried ? [] : [step.moves]
}

const singles = (making: Making): readonly Candidate[] =>
  [...making.around.cells.keys()].map((id) => candidate(making, id, making.memory.settled(`strip-single/${id}`, [id])))

/** Greatest rated load of any hook, kg; no limit where none is known. */
function strongestHook({ project }: Model): number {
  const rated = Object.values(project.systems).flatMap((system) =>
    Object.values(system.hooks).flatMap((hook) => [
      hook.rated?.value,
      ...ratedRows(hook).map((row) => row.rated.value),
    ]),
  )
  const known = rated.filter((value) => value !== undefined)
  return known.length === 0 ? Number.POSITIVE_INFINITY : Math.max(...known)
}

/** The heavier of a piece as found and as it goes back: design mass, or the net one where an allowance is open. */
function heaviest(mass: MassResult, id: string): number {
  const { found, returned } = mass.pieces[id] as MassResult['pieces'][string]
  return Math.max(...[found, returned].map(({ design, net }) => design.value ?? net.value ?? 0))
}

/** Where single parts get stuck, groups that only move together are candidates as well. */
function withLinkedGroups(making: Making, parts: readonly Candidate[]): readonly Candidate[] {
  const { model, around, memory } = making
  const { operations } = compiled(model, parts, plainCosts(1), bearingParts(model, around.cells, memory), memory)
  const stuck = new Set(reachable(operations).stuck.map(({ id }) => id))
  if (stuck.size === 0) return parts
  const cells = [...around.cells.values()]
  const accepted = new Set(acceptedOverlaps(model, memory).keys())
  const moves = parts.flatMap(({ exits }) => exits.flatMap((exit) => exit.moves))
  const groups = [...new Set(moves.map(directionKey))]
    .map((key) => apply(transpose(around.machine.turn), directionOfKey(key)))
    .flatMap((d) => movableSets(blockingGraph(cells, d, around.tolerance, accepted), stuck))
    .filter((group) => group.length > 1)
  const distinct = [...new Map(groups.map((g) => [[...g].sort().join('+'), g])).entries()]
  return [...parts, ...distinct.map(([id, group]) => candidate(making, id, group))]
}

const directionKey = (move: Move): string =>
  'by' in move
    ? unit(move.by.map((x) => x.value as number) as unknown as Vec3)
        .map((x) => x.toFixed(9))
        .join()
    : '0,0,1'
const directionOfKey = (key: string): Vec3 => key.split(',').map(Number) as unknown as Vec3

/** Candidates that straight moves never get out, with ways that begin with a turn; the others as they are. */
export function withTurns(
  { around, shouldContinue, memory }: Making,
  candidates: readonly Candidate[],
  stuck: ReadonlySet<string>,
): readonly Candidate[] {
  return candidates.map((c) => {
    if (!stuck.has(c.id) || c.aside === true || !shouldContinue()) return c
    const ids = memory.settled(`strip-turned/${c.id}`, [...c.parts])
    const turned = memory.once(`strip-turns/${c.id}`, [around, ids], () => turnedExits(ids, around))
    return turned.length === 0 ? c : { ...c, exits: [...c.exits, ...turned] }
  })
}
