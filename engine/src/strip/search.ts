import { type Clause, canReach, type Operation, openWay, reachable, type Stuck } from './precedence.ts'

export interface Search {
  operations: readonly Operation[]
  /** Cost of what operations open. */
  items?: Readonly<Record<string, number>>
  /** Each has to be met in the end. */
  targets: readonly Clause[]
  /** States that may be looked into. */
  effort: number
  shouldContinue?: () => boolean
  /** Told after each state: the best so far, and what is proven. */
  progress?: (state: { looked: number; cost: number; bound: number }) => void
}

/** How a search ended. */
export interface SearchResult {
  feasible: boolean
  /** Operations in an order in which they can be done; the best known. */
  order: readonly string[]
  cost: number
  /** No set of these operations reaches the targets for less. */
  bound: number
  proven: boolean
  /** States looked into. */
  looked: number
  /** What cannot be done at all, and why, when the targets cannot be reached. */
  stuck: readonly Stuck[]
}

/**
 * Least cost of reaching the targets under and/or precedence: best first over sets of what is done (A*, with a bound that
 * never promises too little). What every solution has to contain is done as soon as it can be: needs never come undone and
 * cost hangs from the set alone, so that loses nothing. The problem contains hitting set, so effort is bounded; the result
 * says what is proven.
 */
export function cheapestOrder(search: Search): SearchResult {
  const { operations, targets } = search
  if (!canReach(operations, targets, NONE)) {
    const { stuck } = reachable(operations)
    return {
      feasible: false,
      order: [],
      cost: Number.POSITIVE_INFINITY,
      bound: Number.POSITIVE_INFINITY,
      proven: true,
      looked: 0,
      stuck,
    }
  }
  const useful = relevant(operations, targets)
  const necessary = new Set(useful.filter(({ id }) => !canReach(useful, targets, new Set([id]))).map(({ id }) => id))
  return bestFirst(search, useful, necessary)
}

const NONE: ReadonlySet<string> = new Set()

/** Operations that some need of a target leads to. */
function relevant(operations: readonly Operation[], targets: readonly Clause[]): readonly Operation[] {
  const known = new Map(operations.map((o) => [o.id, o]))
  const wanted = new Set(targets.flat())
  for (const id of wanted) {
    const { needs, ways } = known.get(id) ?? { needs: [] }
    for (const next of [...needs, ...(ways ?? []).flat()].flat()) wanted.add(next)
  }
  return operations.filter(({ id }) => wanted.has(id))
}

interface State {
  done: ReadonlySet<string>
  order: readonly string[]
  cost: number
  least: number
}

function bestFirst(search: Search, operations: readonly Operation[], necessary: ReadonlySet<string>): SearchResult {
  const { targets, effort, shouldContinue = () => true, progress } = search
  const before = alikeBefore(search, operations)
  const costs = costsOf(search, operations)
  const owed = owedBy(landmarksOf(operations, targets, necessary), operations)
  const isGoal = ({ done }: State) => targets.every((clause) => clause.some((id) => done.has(id)))
  const queue = new Queue()
  const seen = new Set<string>()
  let best = thinned(operations, targets, costs)
  queue.push(stateOf([], costs, necessary, owed))
  let looked = 0
  for (let state = queue.pop(); state !== undefined; state = queue.pop()) {
    if (state.least >= best.cost - HAIR) return ended(best, best.cost, looked)
    if (isGoal(state)) return ended(state, state.cost, looked)
    if (looked >= effort || !shouldContinue()) return ended(best, Math.min(state.least, best.cost), looked)
    looked++
    progress?.({ looked, cost: best.cost, bound: Math.min(state.least, best.cost) })
    const children = followers(operations, state.done, necessary, before)
    for (const id of children) {
      const child = stateOf([...state.order, id], costs, necessary, owed)
      const key = [...child.done].sort().join()
      if (!seen.has(key) && child.least < best.cost - HAIR) {
        seen.add(key)
        queue.push(child)
        if (isGoal(child) && child.cost < best.cost) best = child
      }
    }
  }
  return ended(best, best.cost, looked)
}

const HAIR = 1e-9

const ended = ({ order, cost }: Pick<State, 'order' | 'cost'>, bound: number, looked: number): SearchResult => ({
  feasible: true,
  order,
  cost,
  bound,
  proven: cost - bound <= HAIR * Math.max(1, cost),
  looked,
  stuck: [],
})

/** What can be done next; one that every solution contains, if there is one, alone. */
function followers(
  operations: readonly Operation[],
  done: ReadonlySet<string>,
  necessary: ReadonlySet<string>,
  before: ReadonlyMap<string, string>,
): string[] {
  const ready = operations.filter((o) => !done.has(o.id) && openWay(o, done) !== undefined).map(({ id }) => id)
  const forced = ready.find((id) => necessary.has(id))
  if (forced !== undefined) return [forced]
  return ready.filter((id) => {
    const first = before.get(id)
    return first === undefined || done.has(first)
  })
}

/**
 * Of operations that are alike, each is done only after the one before it: to exchange the two in every clause, target and
 * cost changes nothing, so any solution has a twin that takes them in this order.
 */
function alikeBefore({ targets, items = {} }: Search, operations: readonly Operation[]): ReadonlyMap<string, string> {
  const uses = new Map<string, number>()
  for (const { opens = [] } of operations) for (const item of opens) uses.set(item, (uses.get(item) ?? 0) + 1)
  const prices = new Map(operations.map((o) => [o.id, priceOf(o, items, uses)]))
  const before = new Map<string, string>()
  const last = new Map<string, string[]>()
  for (const { id } of operations) {
    const price = prices.get(id) as string
    const alike = last.get(price) ?? []
    const twin = alike.find((other) => isUnchanged(operations, targets, prices, other, id))
    if (twin !== undefined) before.set(id, twin)
    last.set(price, twin === undefined ? [...alike, id] : alike.map((other) => (other === twin ? id : other)))
  }
  return before
}

/** What an operation costs and opens, with what it alone opens as a price. */
function priceOf(
  { cost, opens = [] }: Operation,
  items: Readonly<Record<string, number>>,
  uses: ReadonlyMap<string, number>,
): string {
  const shared = opens.filter((item) => (uses.get(item) as number) > 1)
  const own = opens.filter((item) => uses.get(item) === 1).reduce((sum, item) => sum + (items[item] ?? 0), cost)
  return `${own}/${[...shared].sort().join()}`
}

/** Whether to exchange two operations everywhere leaves everything as it is. */
function isUnchanged(
  operations: readonly Operation[],
  targets: readonly Clause[],
  prices: ReadonlyMap<string, string>,
  a: string,
  b: string,
): boolean {
  const swapped = (id: string): string => (id === a ? b : id === b ? a : id)
  const text = (clause: Clause, rename: (id: string) => string): string =>
    [...new Set(clause.map(rename))].sort().join('+')
  const all = (clauses: readonly Clause[], rename: (id: string) => string): string =>
    [...new Set(clauses.map((c) => text(c, rename)))].sort().join(' ')
  const shape = ({ needs, ways }: Operation, rename: (id: string) => string): string =>
    `${all(needs, rename)}|${(ways ?? [[]])
      .map((w) => all(w, rename))
      .sort()
      .join('/')}`
  const plain = (id: string): string => id
  const known = new Map(operations.map((o) => [o.id, o]))
  if (prices.get(a) !== prices.get(b) || all(targets, plain) !== all(targets, swapped)) return false
  return operations.every((o) => shape(o, swapped) === shape(known.get(swapped(o.id)) as Operation, plain))
}

/** Cost of a set of operations: their own, and what they open, each once. */
type Costs = (ids: Iterable<string>) => number

function costsOf({ items = {} }: Search, operations: readonly Operation[]): Costs {
  const known = new Map(operations.map((o) => [o.id, o]))
  return (ids) => {
    const opened = new Set<string>()
    let sum = 0
    for (const id of ids) {
      const operation = known.get(id) as Operation
      sum += operation.cost
      for (const item of operation.opens ?? []) opened.add(item)
    }
    for (const item of opened) sum += items[item] ?? 0
    return sum
  }
}

/**
 * Never promises too little: what is done and what every solution contains have to be paid for in any case, and something of
 * each landmark besides.
 */
function stateOf(order: readonly string[], costs: Costs, necessary: ReadonlySet<string>, owed: Owed): State {
  const done = new Set(order)
  const paid = new Set([...done, ...necessary])
  return { done, order, cost: costs(done), least: costs(paid) + owed(paid) }
}

/** Sets of operations of which every solution contains at least one, none of them necessary alone: clauses without which no target is met. */
function landmarksOf(
  operations: readonly Operation[],
  targets: readonly Clause[],
  necessary: ReadonlySet<string>,
): readonly Clause[] {
  const clauses = [...targets, ...operations.flatMap(({ needs, ways = [] }) => [...needs, ...ways.flat()])]
  const distinct = new Map(clauses.map((clause) => [[...new Set(clause)].sort().join(), clause]))
  const found: Clause[] = []
  for (const clause of [...distinct.values()].sort((a, b) => a.length - b.length)) {
    if (found.length >= MOST_LANDMARKS) return found
    const holdsAnother = found.some((other) => other.every((id) => clause.includes(id)))
    if (clause.some((id) => necessary.has(id)) || holdsAnother) continue
    if (!canReach(operations, targets, new Set(clause))) found.push(clause)
  }
  return found
}

const MOST_LANDMARKS = 200

/** What has to be paid for landmarks of which nothing is paid yet. */
type Owed = (paid: ReadonlySet<string>) => number

/** The cost of an operation is shared out among the landmarks that it is in, so that none is counted twice. */
function owedBy(landmarks: readonly Clause[], operations: readonly Operation[]): Owed {
  const cost = new Map(operations.map((o) => [o.id, o.cost]))
  const uses = new Map<string, number>()
  for (const id of landmarks.flat()) uses.set(id, (uses.get(id) ?? 0) + 1)
  const share = (id: string): number => (cost.get(id) ?? Number.POSITIVE_INFINITY) / (uses.get(id) as number)
  const least = landmarks.map((clause) => Math.min(...clause.map(share)))
  return (paid) =>
    landmarks.reduce((sum, clause, i) => (clause.some((id) => paid.has(id)) ? sum : sum + (least[i] as number)), 0)
}

/** A first solution: everything that can be done, less whatever can be left out, the dearest first. */
function thinned(operations: readonly Operation[], targets: readonly Clause[], costs: Costs): State {
  const left = new Set<string>()
  for (const { id } of [...operations].sort((a, b) => costs([b.id]) - costs([a.id])))
    if (canReach(operations, targets, new Set([...left, id]))) left.add(id)
  const { order } = reachable(operations.filter(({ id }) => !left.has(id)))
  return { done: new Set(order), order, cost: costs(order), least: costs(order) }
}

/** States by what they promise at least; among equals the one that has done most. */
class Queue {
  private readonly heap: State[] = []

  push(state: State): void {
    this.heap.push(state)
    let at = this.heap.length - 1
    while (at > 0) {
      const up = (at - 1) >> 1
      if (!before(this.heap[at] as State, this.heap[up] as State)) break
      this.swap(at, up)
      at = up
    }
  }

  pop(): State | undefined {
    const top = this.heap[0]
    const last = this.heap.pop()
    if (last === undefined || this.heap.length === 0) return top
    this.heap[0] = last
    for (let at = 0; ; ) {
      const [l, r] = [2 * at + 1, 2 * at + 2]
      let least = at
      if (l < this.heap.length && before(this.heap[l] as State, this.heap[least] as State)) least = l
      if (r < this.heap.length && before(this.heap[r] as State, this.heap[least] as State)) least = r
      if (least === at) return top
      this.swap(at, least)
      at = least
    }
  }

  private swap(i: number, j: number): void {
    const held = this.heap[i] as State
    this.heap[i] = this.heap[j] as State
    this.heap[j] = held
  }
}

const before = (a: State, b: State): boolean =>
  a.least < b.least - HAIR || (a.least < b.least + HAIR && a.done.size > b.done.size)
