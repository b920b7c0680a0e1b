import { type Clause, type Operation, reachable } from './precedence.ts'

/** Operations that wait for one another, or for what nothing does, so that a target cannot be reached. */
export interface Deadlock {
  /** The operations, the ones that would meet the target first. */
  ids: readonly string[]
  /** What keeps each: one clause that holds it, or one of each of its ways; an empty clause is met by nothing at all. */
  held: readonly { id: string; unmet: readonly Clause[] }[]
  /** No smaller set keeps the target from being reached; false when the search for one was cut short. */
  smallest: boolean
}

const EFFORT = 5_000
const MOST_CHOICES = 200

/**
 * The smallest set of operations that keeps a target from being reached: each is held by clauses whose every member is in the
 * set as well, so none can be the first. Undefined when the target can be reached.
 *
 * Found by uniform-cost search over sets; effort is bounded, since this too contains hitting set.
 */
export function deadlockOf(operations: readonly Operation[], target: Clause, effort = EFFORT): Deadlock | undefined {
  const stuck = new Set(reachable(operations).stuck.map(({ id }) => id))
  const known = new Map(operations.map((o) => [o.id, o]))
  const wanted = target.filter((id) => known.has(id))
  if (wanted.some((id) => !stuck.has(id))) return undefined
  const choices = memoised((id) => choicesOf(known.get(id) as Operation, stuck, known))
  return smallestSet(wanted, choices, effort)
}

interface State {
  ids: readonly string[]
  /** Of these the first so many are explained. */
  explained: number
  held: Deadlock['held']
}

function smallestSet(wanted: readonly string[], choices: (id: string) => readonly Choice[], effort: number): Deadlock {
  const queue: State[][] = []
  const put = (state: State): void => {
    queue[state.ids.length] ??= []
    queue[state.ids.length]?.push(state)
  }
  const seen = new Set<string>()
  put({ ids: wanted, explained: 0, held: [] })
  for (let looked = 0; ; looked++) {
    const state = queue.find((level) => level !== undefined && level.length > 0)?.pop() as State
    const next = state.ids[state.explained]
    if (next === undefined) return { ids: state.ids, held: state.held, smallest: looked < effort }
    const open = looked < effort ? choices(next) : choices(next).slice(0, 1)
    for (const unmet of open) {
      const ids = [...new Set([...state.ids, ...unmet.flat()])]
      const key = `${state.explained}/${[...ids].sort().join()}/${ids.slice(0, state.explained + 1).join()}`
      if (looked < effort && seen.has(key)) continue
      seen.add(key)
      put({ ids, explained: state.explained + 1, held: [...state.held, { id: next, unmet }] })
    }
  }
}

/** Clauses that together hold an operation. */
type Choice = readonly Clause[]

/** Ways to explain why an operation is held, those that name the fewest others first. */
function choicesOf(
  { needs, ways }: Operation,
  stuck: ReadonlySet<string>,
  known: ReadonlyMap<string, Operation>,
): readonly Choice[] {
  const isHeld = (clause: Clause): boolean => clause.every((id) => stuck.has(id) || !known.has(id))
  const own = needs.filter(isHeld).map((clause): Choice => [clause.filter((id) => known.has(id))])
  const perWay = (ways ?? []).map((clauses) => clauses.filter(isHeld).map((c) => c.filter((id) => known.has(id))))
  const each = ways !== undefined && perWay.every((list) => list.length > 0) ? product(perWay) : []
  const size = (choice: Choice): number => new Set(choice.flat()).size
  return [...own, ...each].sort((a, b) => size(a) - size(b))
}

/** One of each list, the shortest clauses first, at most so many. */
function product(lists: readonly (readonly Clause[])[]): Choice[] {
  return lists.reduce<Choice[]>(
    (made, list) =>
      made
        .flatMap((choice) => [...list].sort((a, b) => a.length - b.length).map((clause): Choice => [...choice, clause]))
        .slice(0, MOST_CHOICES),
    [[]],
  )
}

function memoised<T>(compute: (id: string) => T): (id: string) => T {
  const kept = new Map<string, T>()
  return (id) => {
    const last = kept.get(id)
    if (last !== undefined) return last
    const value = compute(id)
    kept.set(id, value)
    return value
  }
}
