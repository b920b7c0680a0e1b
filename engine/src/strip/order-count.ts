import { type Operation, openWay } from './precedence.ts'

/** How many orders precedence leaves. */
export interface OrderCount {
  /** Orders of all the operations; undefined where counting was cut short. */
  orders: bigint | undefined
  /** Sets that some order passes through, the empty one included; so far, where it was cut short. */
  sets: number
}

/**
 * Orders in which all of the operations can be done, counted over the sets that they pass through: no order is written out.
 *
 * @param most sets that may be looked into; general counting is #P-complete, so it has to end somewhere
 */
export function orderCount(operations: readonly Operation[], most: number): OrderCount {
  let level = new Map<string, { done: ReadonlySet<string>; orders: bigint }>([['', { done: new Set(), orders: 1n }]])
  let sets = 1
  for (let size = 0; size < operations.length; size++) {
    const next: typeof level = new Map()
    for (const { done, orders } of level.values())
      for (const operation of operations) {
        if (done.has(operation.id) || openWay(operation, done) === undefined) continue
        const more = new Set([...done, operation.id])
        const key = operations.map(({ id }) => (more.has(id) ? '1' : '0')).join('')
        next.set(key, { done: more, orders: orders + (next.get(key)?.orders ?? 0n) })
        if (sets + next.size > most) return { orders: undefined, sets: sets + next.size }
      }
    sets += next.size
    level = next
  }
  return { orders: [...level.values()].reduce((sum, { orders }) => sum + orders, 0n), sets }
}

/** Ways to take something apart by parting it in two again and again, both halves hanging together: its and/or graph. */
export interface Splits {
  /** Sets of parts that come up; the nodes. */
  subassemblies: number
  /** Ways to part one of them in two; the arcs. */
  splits: number
  /** Ways to take it all apart, the order among independent halves left aside. */
  trees: bigint
  /** The same with the order of every split. */
  orders: bigint
  /** Orders that always take a single part off; the last two part once. */
  oneAtATime: bigint
}

/** From so many parts on their splits are not counted: work grows with three to the power of that. */
export const MOST_SPLIT = 12

/**
 * The and/or graph of parts tied in pairs; after Homem de Mello and Sanderson 1990 (from memory).
 *
 * @param ties pairs of places in the list of parts
 * @param isAllowed of a split, by places on either side
 * @returns undefined from `MOST_SPLIT` parts on
 */
export function splitsOf(
  parts: number,
  ties: readonly (readonly [number, number])[],
  isAllowed: (one: readonly number[], other: readonly number[]) => boolean = () => true,
): Splits | undefined {
  if (parts < 1 || parts > MOST_SPLIT) return undefined
  const near = Array.from({ length: parts }, (_, i) =>
    ties.reduce((mask, [a, b]) => mask | (a === i ? 1 << b : b === i ? 1 << a : 0), 0),
  )
  const known = new Map<number, Counted>()
  const whole = countedOf((1 << parts) - 1, near, isAllowed, known)
  const reached = [...known.values()]
  return {
    subassemblies: reached.length,
    splits: reached.reduce((sum, { splits }) => sum + splits, 0),
    trees: whole.trees,
    orders: whole.orders,
    oneAtATime: whole.oneAtATime,
  }
}

type Counted = Omit<Splits, 'subassemblies'>

function countedOf(
  set: number,
  near: readonly number[],
  isAllowed: (one: readonly number[], other: readonly number[]) => boolean,
  known: Map<number, Counted>,
): Counted {
  const before = known.get(set)
  if (before !== undefined) return before
  const own: Counted = isSingle(set)
    ? { splits: 0, trees: 1n, orders: 1n, oneAtATime: 1n }
    : { splits: 0, trees: 0n, orders: 0n, oneAtATime: 0n }
  known.set(set, own)
  for (const [a, b] of halvesOf(set)) {
    if (!hangsTogether(a, near) || !hangsTogether(b, near) || !isAllowed(placesOf(a), placesOf(b))) continue
    const [one, other] = [countedOf(a, near, isAllowed, known), countedOf(b, near, isAllowed, known)]
    const [m, n] = [placesOf(a).length - 1, placesOf(b).length - 1]
    own.splits += 1
    own.trees += one.trees * other.trees
    own.orders += one.orders * other.orders * interleavings(m, n)
    if (m === 0 || n === 0) own.oneAtATime += one.oneAtATime * other.oneAtATime
  }
  return own
}

const isSingle = (set: number): boolean => (set & (set - 1)) === 0

/** Each way to part a set in two, once: the half with the lowest place first. */
function* halvesOf(set: number): Generator<readonly [number, number]> {
  const lowest = set & -set
  const rest = set & ~lowest
  for (let other = rest; other > 0; other = (other - 1) & rest) yield [set & ~other, other]
}

function hangsTogether(set: number, near: readonly number[]): boolean {
  let reached = set & -set
  for (let before = 0; before !== reached; ) {
    before = reached
    for (const place of placesOf(reached)) reached |= (near[place] as number) & set
  }
  return reached === set
}

const placesOf = (set: number): number[] =>
  Array.from({ length: 32 - Math.clz32(set) }, (_, i) => i).filter((i) => set & (1 << i))

/** Ways to shuffle two runs of so many into one another. */
function interleavings(m: number, n: number): bigint {
  let ways = 1n
  for (let i = 1; i <= n; i++) ways = (ways * BigInt(m + i)) / BigInt(i)
  return ways
}
