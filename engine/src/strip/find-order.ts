import type { MassResult } from '../mass/index.ts'
import { idsMeant, type Model, type Move } from '../model/index.ts'
import { apply, transpose, unit, type Vec3 } from '../numeric/vector.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { blockingGraph, movableSets } from './blocking.ts'
import { type Deadlock, deadlockOf } from './deadlock.ts'
import { asideExit, type Exit, exitsOf, MOVE_SPACE } from './exit.ts'
import {
  type Candidate,
  type Compiled,
  type Costs,
  compiled,
  plainCosts,
  type Reason,
  type Reasons,
} from './operations.ts'
import { instancesOfPiece } from './order.ts'
import { acceptedOverlaps } from './overlap.ts'
import { type Surroundings, surroundingsOf } from './path.ts'
import { type Clause, type Operation, openWay, reachable, type Stuck } from './precedence.ts'
import { cheapestOrder, type Search, type SearchResult } from './search.ts'
import type { OrderStep } from './standing.ts'
import type { StripStep } from './strip.ts'
import { bearingParts, supportChecks } from './support.ts'
import { verifySteps } from './verify.ts'

export interface OrderSearch {
  /** Instances or entries to be reached; none: the targets of the file. */
  targets?: readonly string[]
  /** States that may be looked into. */
  effort?: number
  /** Cost of each piece moved, out and back, s. */
  handling?: number
  /** Ways along edges of the free cones as well; slower. */
  thorough?: boolean
  shouldContinue?: () => boolean
  /** Told after each state of the search: the best so far and what is proven. */
  progress?: (state: { looked: number; cost: number; bound: number }) => void
  /** How many other orders to look for besides the cheapest, each without a piece that it takes; none by default. */
  alternatives?: number
}

/** Another order that reaches the targets, different in what it takes. */
export interface OtherOrder {
  /** The piece of the cheapest order that it does without. */
  without: string
  /** Pieces in order, and which of them the cheapest does not take. */
  pieces: readonly string[]
  instead: readonly string[]
  cost: number
  bound: number
  proven: boolean
}

/** An order proposed, with what is known of how good it is. */
export interface FoundOrder {
  feasible: boolean
  order: readonly StripStep[]
  /** Whether what each step leaves is held and stands: no part of the search, so it may fail here. */
  checks: readonly Check[]
  /** Working time of joints and services, off and on, and handling, by the weights of the settings, s. */
  cost: number
  bound: number
  /** Nothing cheaper exists within the move space. */
  proven: boolean
  moveSpace: string
  /** Why not, when it is not feasible. */
  stuck: readonly Stuck[]
  looked: number
  /** Orders that do without one of the pieces taken, the cheapest first; only when asked for. */
  alternatives: readonly OtherOrder[]
  /** For each target that cannot be reached, the smallest set of pieces that wait for one another, with why. */
  prevented: readonly Prevented[]
}

/** Why a target cannot be reached. */
export interface Prevented extends Deadlock {
  target: string
  /** In words, a line for each piece of the set. */
  because: readonly string[]
}

const EFFORT = 20_000
const SHIFT = 8 * 3600

/**
 * An order that reaches the targets, the cheapest that the search can show: pieces of the file where it has any, single parts
 * and linked groups of parts otherwise, within the lifting capacity. The result is verified like any order.
 */
export function findOrder(model: Model, mass: MassResult, search: OrderSearch, memory: Memory): FoundOrder {
  const around = surroundingsOf(model, mass, memory)
  const { shouldContinue = () => true } = search
  const { found, steps, alternatives, prevented } = proposal(model, mass, search, around, memory)
  const verified = verifySteps(model, mass, steps, memory)
  const order = verified.map(({ step }) => step)
  const feasible = found.feasible && shouldContinue() && order.every(({ failures }) => failures.length === 0)
  const pieces =
    Object.keys(model.project.pieces).length > 0 ? 'the pieces of the file' : 'single parts and linked groups'
  return {
    feasible,
    order,
    checks: supportChecks(model, mass, verified, memory),
    cost: found.cost,
    bound: found.bound,
    proven: found.proven && feasible,
    moveSpace: `${pieces}, no heavier than the strongest hook lifts; ${MOVE_SPACE}; ${costText(model, search)}; nothing is left loose that one of these pieces could take before, other temporary supports are not counted`,
    stuck: found.stuck,
    looked: found.looked,
    alternatives,
    prevented,
  }
}

function proposal(model: Model, mass: MassResult, search: OrderSearch, around: Surroundings, memory: Memory) {
  const { shouldContinue = () => true, thorough = true, effort = EFFORT } = search
  const targets = (search.targets ?? model.project.machine?.targets ?? []).flatMap((id) =>
    idsMeant(model.instances, id),
  )
  const candidates = candidatesOf({ model, mass, around, thorough, shouldContinue, memory })
  const bearing = bearingParts(model, around.cells, memory)
  const made = compiled(model, candidates, costsOf(model, mass, search), bearing, memory)
  const { operations, items } = made
  const possible = new Set(reachable(operations).order)
  const clauses = targets.map((target) => reaching(target, candidates, possible))
  const { progress } = search
  const asked = {
    operations,
    items,
    targets: clauses,
    effort,
    shouldContinue,
    ...(progress === undefined ? {} : { progress }),
  }
  const found = cheapestOrder(asked)
  return {
    found,
    steps: stepsOf(found.order, operations, candidates),
    alternatives: otherOrders(asked, found, search.alternatives ?? 0),
    prevented: found.feasible ? [] : targets.flatMap((target, i) => preventedOf(target, clauses[i] as Clause, made)),
  }
}

/** The cheapest orders that do without one of the pieces taken, one for each set of pieces. */
function otherOrders(asked: Search, found: SearchResult, most: number): readonly OtherOrder[] {
  if (most === 0 || !found.feasible) return []
  const effort = Math.ceil(asked.effort / 10)
  const seen = new Set([[...found.order].sort().join()])
  const others = found.order.flatMap((without): OtherOrder[] => {
    if (asked.shouldContinue?.() === false) return []
    const operations = asked.operations.filter(({ id }) => id !== without)
    const targets = asked.targets.map((clause) => clause.filter((id) => id !== without))
    const { progress: _progress, ...quiet } = asked
    const other = cheapestOrder({ ...quiet, operations, targets, effort })
    const key = [...other.order].sort().join()
    if (!other.feasible || seen.has(key)) return []
    seen.add(key)
    const instead = other.order.filter((id) => !found.order.includes(id))
    return [{ without, pieces: other.order, instead, cost: other.cost, bound: other.bound, proven: other.proven }]
  })
  return others.sort((a, b) => a.cost - b.cost).slice(0, most)
}

function preventedOf(target: string, clause: Clause, { operations, reasons }: Compiled): Prevented[] {
  if (clause.length === 0)
    return [{ target, ids: [], held: [], smallest: true, because: [`no piece that may be taken holds "${target}"`] }]
  const deadlock = deadlockOf(operations, clause)
  if (deadlock === undefined) return []
  return [{ target, ...deadlock, because: deadlock.held.map((held) => heldText(held, operations, reasons)) }]
}

/** A line for a piece that is held, by the reasons of the clauses that hold it. */
function heldText(
  { id, unmet }: Deadlock['held'][number],
  operations: readonly Operation[],
  reasons: Compiled['reasons'],
): string {
  const { needs, ways = [] } = operations.find((o) => o.id === id) as Operation
  const own = reasons[id] as Reasons
  const whys = unmet.map((clause) => {
    const same = (other: Clause): boolean => clause.every((c) => other.includes(c)) && clause.length <= other.length
    const need = needs.findIndex(same)
    if (need >= 0) return reasonText(own.needs[need] as Reason)
    const way = ways.findIndex((clauses) => clauses.some(same))
    const at = (ways[way] ?? []).findIndex(same)
    return way < 0 ? 'it has no way out' : reasonText(own.ways[way]?.[at] as Reason)
  })
  return `"${id}": ${whys.length === 0 ? 'it has no way out' : [...new Set(whys)].join('; and ')}`
}

/** A reason in words. */
export const reasonText = ({ kind, about, joint }: Reason): string =>
  ({
    blocks: `"${about}" is in the way`,
    hides: `"${about}" hides the fasteners of "${joint}"`,
    'hangs on it': `"${about}" would hang on nothing`,
    'is carried by': 'it has to leave the shaft within a larger piece first',
  })[kind]

const HOUR = 3600
const HUNDRED_TONNES = 1e5

/** Costs by the weights of the settings; a handling time given with the search stands in their place. */
function costsOf(model: Model, mass: MassResult, { handling }: OrderSearch): Costs {
  const weights = weightsOf(model)
  const { lifting, liftingHour, risk, crew, hour } = weights
  return {
    ofPiece: ({ parts, aside }) => {
      const time = handling ?? lifting * liftingHour
      if (risk === 0) return time
      const { design, net } = mass.ofSet([...parts], 'found')
      return time + (aside === true ? 0 : (risk * HOUR * (design.value ?? net.value ?? 0)) / HUNDRED_TONNES)
    },
    ofWork: crew * hour,
  }
}

function weightsOf({ project }: Model) {
  const { liftingSystem, crew, hour, liftingHour, risk } = project.settings.orderCost ?? {}
  return {
    lifting: liftingSystem?.value ?? SHIFT,
    liftingHour: liftingHour?.value ?? 1,
    crew: crew?.value ?? 1,
    hour: hour?.value ?? 1,
    risk: risk?.value ?? 0,
  }
}

function costText(model: Model, { handling }: OrderSearch): string {
  const { lifting, liftingHour, crew, hour, risk } = weightsOf(model)
  const basis = model.project.settings.orderCost === undefined ? 'common practice, no source' : 'settings'
  const piece = `each piece moved costs ${(handling ?? lifting * liftingHour) / HOUR} h (${handling === undefined ? basis : 'given'})`
  const work = `an hour on joints and services counts ${crew * hour}`
  return risk === 0 ? `${piece}, ${work}` : `${piece}, ${work}, a hundred tonnes in the air ${risk} h`
}

/** A quick order for a file that has pieces and adopts none: ways up, and along the axis of the machine first. */
export function defaultOrder(model: Model, mass: MassResult, memory: Memory): readonly OrderStep[] {
  const pieces = Object.keys(model.project.pieces)
  if (pieces.length === 0) return []
  const around = surroundingsOf(model, mass, memory)
  const { targets = [] } = model.project.machine ?? {}
  const wanted = targets.length > 0 ? targets : pieces.flatMap((id) => instancesOfPiece(model, id, memory))
  const inputs = [around, mass.pieces, model.project.joints, model.project.services, model.project.steps, ...wanted]
  return memory.once('strip-default', inputs, () => {
    const search = { targets: wanted, effort: 0, thorough: false }
    return proposal(model, mass, search, around, memory).steps
  })
}

/** The least pieces with the target in them that can be got out at all; it is reached once one of them is out. */
function reaching(target: string, candidates: readonly Candidate[], possible: ReadonlySet<string>): Clause {
  const holding = candidates.filter(({ parts, aside }) => aside !== true && parts.has(target))
  const able = holding.filter(({ id }) => possible.has(id))
  const isLeast = (c: Candidate) =>
    !able.some((other) => other.parts.size < c.parts.size && [...other.parts].every((p) => c.parts.has(p)))
  return (able.length > 0 ? able.filter(isLeast) : holding).map(({ id }) => id)
}

/** What the candidates are made from. */
export interface Making {
  model: Model
  mass: MassResult
  around: Surroundings
  thorough: boolean
  shouldContinue: () => boolean
  memory: Memory
}

export function candidatesOf(making: Making): readonly Candidate[] {
  const { model, mass, memory } = making
  const pieces = Object.keys(model.project.pieces)
  if (pieces.length === 0) return withLinkedGroups(making, singles(making))
  const limit = strongestHook(model)
  const lifted = pieces
    .filter((id) => heaviest(mass, id) <= limit)
    .map((id) => candidate(making, id, instancesOfPiece(model, id, memory)))
  return [...asides(making), ...lifted]
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

function candidate(making: Making, id: string, parts: readonly string[]): Candidate {
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
    Object.values(system.hooks).flatMap((hook) => [hook.rated?.value, ...(hook.chart ?? []).map((c) => c.rated.value)]),
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

/** Operations of an order as steps, each by the first way that is open at its turn, with the parts still together. */
function stepsOf(
  order: readonly string[],
  operations: readonly Operation[],
  candidates: readonly Candidate[],
): readonly OrderStep[] {
  const done = new Set<string>()
  const gone = new Map<string, string>()
  return order.map((id, i) => {
    const operation = operations.find((o) => o.id === id) as Operation
    const { piece, parts, exits, aside, support } = candidates.find((c) => c.id === id) as Candidate
    const exit = exits[openWay(operation, done) ?? 0] as Exit
    done.add(id)
    const place = gone.get([...parts].find((p) => !gone.has(p)) ?? ([...parts][0] as string))
    const together = [...parts].filter((part) => gone.get(part) === place)
    for (const part of aside === true ? [] : together) gone.set(part, id)
    return {
      step: `${i + 1}-${id}`,
      pointer: '/order',
      piece,
      parts: together,
      moves: exit.moves,
      stays: aside === true,
      ...(support === undefined ? {} : { support }),
    }
  })
}
