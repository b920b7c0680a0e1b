/** Parts with their mass, and the joints between them with what it costs to open and close each. */
export interface GroupingProblem {
  mass: Readonly<Record<string, number>>
  joints: readonly (readonly [a: string, b: string, cost: number])[]
  /** No piece may weigh more. */
  capacity: number
  costPerLift: number
  /** Partial groupings that may be looked into. */
  effort: number
  shouldContinue?: () => boolean
}

/** Parts as lifted pieces at least cost. */
export interface Grouping {
  /** Undefined where a part alone is too heavy. */
  groups: readonly (readonly string[])[] | undefined
  cost: number
  bound: number
  proven: boolean
  looked: number
  /** Parts that are too heavy alone. */
  tooHeavy: readonly string[]
}

/**
 * Pieces that hang together by joints and are no heavier than the capacity, at the least cost of joints opened and of lifts:
 * branch and bound over which piece each part joins. Order and ways out are left aside; what comes of it is for `findOrder`.
 *
 * The bound pays for joints cut so far, and for as many lifts more as the mass that is left needs beyond the room in the
 * pieces begun. The general problem is NP-hard; effort is bounded and the result says what is proven.
 */
export function cheapestGrouping(problem: GroupingProblem): Grouping {
  const { mass, capacity, costPerLift, effort, shouldContinue = () => true } = problem
  const tooHeavy = Object.keys(mass).filter((id) => (mass[id] as number) > capacity)
  if (tooHeavy.length > 0)
    return {
      groups: undefined,
      cost: Number.POSITIVE_INFINITY,
      bound: Number.POSITIVE_INFINITY,
      proven: true,
      looked: 0,
      tooHeavy,
    }
  const ids = spreading(problem)
  const left = ids.map((_, i) => ids.slice(i).reduce((sum, id) => sum + (mass[id] as number), 0))
  const root = costPerLift * Math.ceil(((left[0] ?? 0) - SLACK) / capacity)
  const stack: Partial[] = [{ groups: [], weights: [], cut: 0 }]
  let best: { groups: readonly (readonly string[])[]; cost: number } | undefined
  let looked = 0
  for (let state = stack.pop(); state !== undefined; state = stack.pop()) {
    if (best !== undefined && boundOf(state, left, problem) >= best.cost - SLACK) continue
    const next = ids[count(state)]
    if (next === undefined) {
      const cost = state.cut + costPerLift * state.groups.length
      if ((best === undefined || cost < best.cost) && state.groups.every((g) => hangsTogether(g, problem)))
        best = { groups: state.groups, cost }
      continue
    }
    if (best !== undefined && (looked >= effort || !shouldContinue()))
      return { ...best, bound: root, proven: false, looked, tooHeavy }
    looked++
    stack.push(...placings(state, next, problem))
  }
  const { groups, cost } = best ?? { groups: [], cost: 0 }
  return { groups, cost, bound: cost, proven: true, looked, tooHeavy }
}

const SLACK = 1e-9

interface Partial {
  groups: readonly (readonly string[])[]
  weights: readonly number[]
  /** Cost of joints between parts of different pieces. */
  cut: number
}

const count = ({ groups }: Partial): number => groups.reduce((sum, g) => sum + g.length, 0)

/** Parts from neighbour to neighbour, so that pieces grow together and dear joints are met early. */
function spreading({ mass, joints }: GroupingProblem): string[] {
  const ids = Object.keys(mass)
  const order: string[] = []
  const tied = (id: string): number =>
    joints.reduce(
      (sum, [a, b, c]) => sum + ((a === id && order.includes(b)) || (b === id && order.includes(a)) ? 1 + c : 0),
      0,
    )
  while (order.length < ids.length) {
    const rest = ids.filter((id) => !order.includes(id))
    order.push(rest.reduce((best, id) => (tied(id) > tied(best) ? id : best)))
  }
  return order
}

function boundOf(
  { groups, weights, cut }: Partial,
  left: readonly number[],
  { capacity, costPerLift }: GroupingProblem,
): number {
  const room = weights.reduce((sum, w) => sum + capacity - w, 0)
  const rest = left[groups.reduce((sum, g) => sum + g.length, 0)] ?? 0
  return cut + costPerLift * (groups.length + Math.max(0, Math.ceil((rest - room - SLACK) / capacity)))
}

/** The part in each piece that has room for it, and as a piece of its own; the likeliest last, to be looked into first. */
function placings(
  { groups, weights, cut }: Partial,
  id: string,
  { mass, joints, capacity }: GroupingProblem,
): Partial[] {
  const own = mass[id] as number
  const ties = joints.filter(([a, b]) => a === id || b === id)
  const other = ([a, b]: GroupingProblem['joints'][number]): string => (a === id ? b : a)
  const cutIn = (group: readonly string[]): number =>
    ties.reduce((sum, tie) => {
      const placed = groups.some((g) => g.includes(other(tie)))
      return sum + (placed && !group.includes(other(tie)) ? tie[2] : 0)
    }, 0)
  const alone: Partial = { groups: [...groups, [id]], weights: [...weights, own], cut: cut + cutIn([]) }
  const joined = groups.flatMap((group, k): Partial[] =>
    (weights[k] as number) + own > capacity + SLACK
      ? []
      : [
          {
            groups: groups.map((g, i) => (i === k ? [...g, id] : g)),
            weights: weights.map((w, i) => (i === k ? w + own : w)),
            cut: cut + cutIn(group),
          },
        ],
  )
  return [alone, ...joined.sort((a, b) => b.cut - a.cut)]
}

function hangsTogether(group: readonly string[], { joints }: GroupingProblem): boolean {
  const reached = new Set(group.slice(0, 1))
  for (let before = 0; before < reached.size; ) {
    before = reached.size
    for (const [a, b] of joints) {
      if (reached.has(a) && group.includes(b)) reached.add(b)
      if (reached.has(b) && group.includes(a)) reached.add(a)
    }
  }
  return reached.size === group.length
}
