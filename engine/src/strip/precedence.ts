/** At least one of these has been done. */
export type Clause = readonly string[]

/** Something that can be done once its needs are met: and/or precedence. */
export interface Operation {
  id: string
  /** Its own cost. */
  cost: number
  /** What it opens; each is paid for once, by the first that opens it. */
  opens?: readonly string[]
  /** Every clause has to be met. */
  needs: readonly Clause[]
  /** Besides, all clauses of one of these have to be met; none given: nothing more is needed. */
  ways?: readonly (readonly Clause[])[]
}

/** An operation that cannot be reached, and the clauses of its nearest way that stay unmet. */
export interface Stuck {
  id: string
  unmet: readonly Clause[]
}

const isMet = (clause: Clause, done: ReadonlySet<string>): boolean => clause.some((id) => done.has(id))

/** Number of the first way that is open, 0 where there are no ways to choose from; undefined when it cannot be done. */
export function openWay({ needs, ways }: Operation, done: ReadonlySet<string>): number | undefined {
  if (!needs.every((clause) => isMet(clause, done))) return undefined
  if (ways === undefined) return 0
  const way = ways.findIndex((clauses) => clauses.every((clause) => isMet(clause, done)))
  return way < 0 ? undefined : way
}

/** Clauses that keep an operation from being done: those of its needs, and of the way that lacks the fewest. */
export function unmetOf({ needs, ways }: Operation, done: ReadonlySet<string>): readonly Clause[] {
  const own = needs.filter((clause) => !isMet(clause, done))
  const lacks = (ways ?? []).map((clauses) => clauses.filter((clause) => !isMet(clause, done)))
  const [nearest] = lacks.sort((a, b) => a.length - b.length)
  return [...own, ...(nearest ?? [])]
}

/**
 * Everything that can be done at all, in an order in which it can, and what is stuck: doing more never undoes a need, so
 * marking until nothing is left to mark finds it all.
 */
export function reachable(operations: readonly Operation[]): { order: readonly string[]; stuck: readonly Stuck[] } {
  const done = new Set<string>()
  for (let before = -1; before < done.size; ) {
    before = done.size
    for (const operation of operations)
      if (!done.has(operation.id) && openWay(operation, done) !== undefined) done.add(operation.id)
  }
  const stuck = operations
    .filter(({ id }) => !done.has(id))
    .map((operation) => ({ id: operation.id, unmet: unmetOf(operation, done) }))
  return { order: [...done], stuck }
}

/** Whether a set of clauses can be met without some operations. */
export function canReach(
  operations: readonly Operation[],
  targets: readonly Clause[],
  without: ReadonlySet<string>,
): boolean {
  const { order } = reachable(operations.filter(({ id }) => !without.has(id)))
  const done = new Set(order)
  return targets.every((clause) => isMet(clause, done))
}

/** The first step of an order that cannot be done at its turn. */
export function firstUnmet(
  operations: readonly Operation[],
  order: readonly string[],
): { step: number; id: string; unmet: readonly Clause[] } | undefined {
  const known = new Map(operations.map((o) => [o.id, o]))
  const done = new Set<string>()
  for (const [step, id] of order.entries()) {
    const operation = known.get(id)
    if (operation === undefined || openWay(operation, done) === undefined)
      return { step, id, unmet: operation === undefined ? [] : unmetOf(operation, done) }
    done.add(id)
  }
  return undefined
}
