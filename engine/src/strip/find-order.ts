import type { MassResult } from '../mass/index.ts'
import { idsMeant, type Model } from '../model/index.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { candidate, candidatesOf, type Making, unionsOf, withTurns } from './candidates.ts'
import { type Deadlock, deadlockOf } from './deadlock.ts'
import { type Exit, MOVE_SPACE, TURN_SPACE } from './exit.ts'
import { jointSides } from './joint.ts'
import type { LiftedTogether } from './lifted-together.ts'
import {
  type Candidate,
  type Compiled,
  type Costs,
  compiled,
  itemCosts,
  type Reason,
  type Reasons,
} from './operations.ts'
import { instancesOfPiece } from './order.ts'
import { orderCount, splitsOf } from './order-count.ts'
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
  /** Whether pieces of the file may be lifted together; true by default. */
  together?: boolean
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
  /** Pieces that the order takes and the file lacks: pieces of the file lifted as one. */
  newPieces: readonly LiftedTogether[]
  /** The least cost with each piece of the file lifted alone; none where none were joined. */
  apart?: { cost: number; bound: number; proven: boolean }
  /** How much was chosen from. */
  space: {
    /** Pieces, unions of them and steps aside that could be taken. */
    operations: number
    /** Orders in which the pieces taken can go, in digits; undefined where there were too many sets to count. */
    orders?: string
    /** Where few pieces are taken: ways to part them two by two by their joints alone, in digits. */
    partings?: string
  }
  /** Parts that a step leaves hanging on nothing, which no piece could take before: each wants a support, counted in the cost. */
  supports: readonly { piece: string; parts: readonly string[] }[]
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
  const made = proposal(model, mass, search, around, memory)
  const { found, steps, alternatives, prevented, unions, leftOut, apart, supports } = made
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
    moveSpace: `${pieces}${togetherText(model, unions.length, leftOut)}, no heavier than the strongest hook lifts; ${MOVE_SPACE}; ${TURN_SPACE}; ${costText(model, search)}; nothing is left loose that one of these pieces could take before, and what is left loose otherwise wants a temporary support at ${supportHours(model)} h each`,
    stuck: found.stuck,
    looked: found.looked,
    alternatives,
    newPieces: unions.filter(({ id }) => found.order.includes(id)),
    ...(apart === undefined ? {} : { apart }),
    space: made.space,
    supports,
    prevented,
  }
}

function togetherText(model: Model, count: number, leftOut: number): string {
  if (count === 0) return ''
  const most = model.project.settings.grouping?.most ?? 2
  const more = leftOut === 0 ? '' : `, ${leftOut} more were left out`
  return ` and ${count} unions of up to ${most} of them that joints tie, that no rule keeps apart and of which none is turned, each straight up or forward and up${more}`
}

function proposal(model: Model, mass: MassResult, search: OrderSearch, around: Surroundings, memory: Memory) {
  const { shouldContinue = () => true, thorough = true, effort = EFFORT } = search
  const targets = (search.targets ?? model.project.machine?.targets ?? []).flatMap((id) =>
    idsMeant(model.instances, id),
  )
  const making = { model, mass, around, thorough, shouldContinue, memory }
  const straight = candidatesOf(making)
  const { unions, leftOut } = search.together === false ? { unions: [], leftOut: 0 } : unionsOf(making)
  const bearing = bearingParts(model, around.cells, memory)
  const compile = (candidates: readonly Candidate[]) =>
    compiled(model, candidates, costsOf(model, mass, search), bearing, memory)
  const ask = (candidates: readonly Candidate[], clauses: readonly Clause[]): Asked => {
    const made = compile(candidates)
    const { progress } = search
    const { operations, items } = made
    const asked = { operations, items, targets: clauses, effort, shouldContinue, ...(progress ? { progress } : {}) }
    return { candidates, made, asked, found: cheapestOrder(asked) }
  }
  const clausesOf = (candidates: readonly Candidate[]): readonly Clause[] => {
    const possible = new Set(reachable(compile(candidates).operations).order)
    return targets.map((target) => reaching(target, candidates, possible))
  }
  const first = ask(straight, clausesOf(straight))
  const stuck = new Set(first.found.stuck.map(({ id }) => id))
  const plain = first.found.feasible || !thorough ? straight : withTurns(making, straight, stuck)
  const apart = plain === straight ? first : ask(plain, clausesOf(plain))
  const all = (): readonly Candidate[] => [...plain, ...unions.map((union) => unionCandidate(making, union))]
  const solved = solvedOver(making, apart, unions, ask, () => ask(all(), clausesOf(all())))
  const { candidates, made, asked, found } = solved
  const known = new Set(candidates.filter(({ exits }) => exits !== HOPED).map(({ id }) => id))
  return {
    found,
    unions,
    leftOut,
    ...(unions.length === 0 || !apart.found.feasible ? {} : { apart: costOf(apart.found) }),
    supports: found.order.flatMap((id) => {
      const parts = made.unsupported[id] ?? []
      return parts.length === 0 ? [] : [{ piece: id, parts }]
    }),
    space: {
      operations: plain.length + unions.length,
      ...(found.feasible ? leewayOf(model, found.order, candidates, asked.operations, memory) : {}),
    },
    steps: stepsOf(found.order, asked.operations, candidates),
    alternatives: otherOrders(
      asked,
      known,
      found,
      search.alternatives ?? 0,
      known.size === plain.length + unions.length,
    ),
    prevented: found.feasible ? [] : targets.flatMap((target, i) => preventedOf(target, asked.targets[i] ?? [], made)),
  }
}

/** With unions where there are any; where they gain nothing, the pieces stay as the file has them. */
function solvedOver(
  making: Making,
  apart: Asked,
  unions: readonly LiftedTogether[],
  ask: (candidates: readonly Candidate[], clauses: readonly Clause[]) => Asked,
  eagerly: () => Asked,
): Asked {
  if (unions.length === 0) return apart
  if (!apart.found.feasible) return eagerly()
  const joined = lazily(making, apart, unions, ask)
  const isWorthIt = joined.found.cost < apart.found.cost * (1 - 1e-9)
  return isWorthIt ? joined : { ...apart, found: { ...apart.found, ...boundOf(joined.found, apart.found) } }
}

/** What the wider search proved of the cheaper order. */
const boundOf = (wide: SearchResult, { cost }: SearchResult) => {
  const bound = Math.min(wide.bound, cost)
  return { bound, proven: cost - bound <= 1e-9 * Math.max(1, cost), looked: wide.looked }
}

/** In how many orders the pieces taken can go, and in how many ways their joints alone part them. */
function leewayOf(
  model: Model,
  order: readonly string[],
  candidates: readonly Candidate[],
  operations: readonly Operation[],
  memory: Memory,
): Pick<FoundOrder['space'], 'orders' | 'partings'> {
  const { orders } = orderCount(
    operations.filter(({ id }) => order.includes(id)),
    MOST_SETS,
  )
  const taken = order.map((id) => candidates.find((c) => c.id === id) as Candidate)
  const holders = (side: readonly string[]): number[] =>
    taken.flatMap(({ parts }, i) => (side.some((part) => parts.has(part)) ? [i] : []))
  const ties = jointSides(model, memory).flatMap(({ sides: [a, b] }) =>
    holders(a).flatMap((one) => holders(b).map((other) => [one, other] as const)),
  )
  const trees = splitsOf(taken.length, ties)?.trees
  return {
    ...(orders === undefined ? {} : { orders: String(orders) }),
    ...(trees === undefined || trees === 0n ? {} : { partings: String(trees) }),
  }
}

/** Sets that a count of orders may pass through. */
const MOST_SETS = 20_000

/** A problem put to the search, and what came of it. */
interface Asked {
  candidates: readonly Candidate[]
  made: Compiled
  asked: Search
  found: SearchResult
}

const costOf = ({ cost, bound, proven }: SearchResult) => ({ cost, bound, proven })

/** Ways of a union nobody has looked at yet: free, so that no bound promises too much. */
const HOPED: readonly Exit[] = [{ moves: [], blockers: [], from: 'shaft' }]

const unionCandidate = (making: Making, { id, parts }: LiftedTogether): Candidate =>
  candidate({ ...making, thorough: false }, id, parts)

/**
 * Unions cost geometry, so each is taken for free to go until a cheapest order uses it; then its ways are looked at and the
 * search starts again. The last order uses none that is only hoped for, and its bound holds for all of them.
 */
function lazily(
  making: Making,
  { candidates: plain, asked: { targets } }: Asked,
  unions: readonly LiftedTogether[],
  ask: (candidates: readonly Candidate[], clauses: readonly Clause[]) => Asked,
): Asked {
  const looked = new Map<string, Candidate>()
  // Like pieces, such as motors around the axis, are looked at together: the search would ask for one after another.
  const kindOf = ({ parts }: LiftedTogether): string =>
    parts
      .map((id) => making.model.instances.byId.get(id)?.entry ?? id)
      .sort()
      .join()
  for (;;) {
    const offered = unions.map(
      ({ id, parts }): Candidate => looked.get(id) ?? { id, piece: id, parts: new Set(parts), exits: HOPED },
    )
    const solved = ask([...plain, ...offered], targets)
    const hoped = unions.filter(({ id }) => solved.found.order.includes(id) && !looked.has(id))
    if (hoped.length === 0) return solved
    const kinds = new Set(hoped.map(kindOf))
    for (const union of unions)
      if (kinds.has(kindOf(union)) && !looked.has(union.id)) looked.set(union.id, unionCandidate(making, union))
  }
}

/**
 * The cheapest orders that do without one of the pieces taken, one for each set of pieces; of unions only those whose ways
 * are known, so that none is proven where others were left aside.
 */
function otherOrders(
  whole: Search,
  known: ReadonlySet<string>,
  found: SearchResult,
  most: number,
  isWhole: boolean,
): readonly OtherOrder[] {
  if (most === 0 || !found.feasible) return []
  const asked = { ...whole, operations: whole.operations.filter(({ id }) => known.has(id)) }
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
    return [
      { without, pieces: other.order, instead, cost: other.cost, bound: other.bound, proven: other.proven && isWhole },
    ]
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
    ofSupport: supportHours(model) * HOUR,
  }
}

/** What steps cost by the measure of the search: pieces moved, joints and services opened, off and on; no supports. */
export function costOfSteps(model: Model, mass: MassResult, steps: readonly StripStep[], memory: Memory): number {
  const costs = costsOf(model, mass, {})
  const items = itemCosts(model, costs.ofWork, memory)
  const opened = new Set(
    steps.flatMap((s) => [...s.joints.map((id) => `joint ${id}`), ...s.services.map((id) => `service ${id}`)]),
  )
  const isAside = ({ step }: StripStep): boolean => model.project.steps[step]?.stays === true
  const moved = steps.map((s) =>
    costs.ofPiece({ parts: new Set(s.parts), ...(isAside(s) ? { aside: true as const } : {}) }),
  )
  return [...moved, ...[...opened].map((item) => items[item] ?? 0)].reduce((sum, cost) => sum + cost, 0)
}

/** Hours to build and strike a temporary support: common practice, no source, where the settings say nothing. */
const supportHours = ({ project }: Model): number => (project.settings.orderCost?.support?.value ?? 4 * HOUR) / HOUR

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
    const search = { targets: wanted, effort: 0, thorough: false, together: false }
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
