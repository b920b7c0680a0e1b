import { type Stream, stream } from '../../numeric/random.ts'
import { type Item, lagBetween, type Model, withFirsts } from './model.ts'
import { proverOf } from './prove.ts'

/** A solution being improved piece by piece. */
export interface Neighbourhoods {
  value: number
  starts: readonly number[]
  /** Conflicts learnt from. */
  conflicts: number
  /** Share of the starts that is freed; it grows where nothing is left to find, and shrinks where that is not settled. */
  share: number
  /** @param among schedules in hand, each about which to look for a shorter one; the best alone when not given */
  go: (effort: number, bound: number, among?: Among) => void
}

/** Schedules in hand: one of them is looked about each time, and what is shorter than it comes back, though it need not be the best. */
export interface Among {
  another: () => readonly number[]
  tell: (starts: readonly number[]) => void
}

/** Conflicts on one neighbourhood. */
const PATIENCE = 300
/** Building the model of one costs about as much as so many conflicts. */
const SET_UP = 20
const [LEAST_SHARE, FIRST_SHARE, MOST_SHARE] = [0.1, 0.3, 0.9]

/**
 * Large-neighbourhood search on the exact engine: some starts are freed, mostly those about one time; what is not keeps its
 * order on every resource; the engine looks for less. Same model, effort and seed: same solution.
 *
 * Source: P. Laborie, D. Godard, MISTA 2007 (from memory): order of the rest kept as links, size of the window learnt.
 */
export function neighbourhoodsOf(model: Model, value: number, starts: readonly number[], seed: number): Neighbourhoods {
  const random = stream(seed, 'neighbourhood')
  const state: Neighbourhoods = {
    value,
    starts,
    conflicts: 0,
    share: FIRST_SHARE,
    go: (effort, bound, among = { another: () => state.starts, tell: () => undefined }) => {
      const stop = state.conflicts + effort
      while (state.conflicts < stop && state.value > bound) explore(model, state, random, bound, among)
    },
  }
  return state
}

function explore(model: Model, state: Neighbourhoods, random: Stream, bound: number, among: Among): void {
  const at = among.another()
  const value = Math.max(state.value, at[model.objective] as number)
  const solution = withFirsts(model, at)
  const part = shorterThan(model, value)
  keepOrder(part, solution, freed(model, state.share, at, random))
  const { proof, go } = proverOf(part, { value, solution, bound })
  if (!proof.proven) go(PATIENCE)
  state.conflicts += proof.conflicts + SET_UP
  const starts = proof.solution.slice(0, state.starts.length)
  if (proof.value < value && value > state.value) among.tell(starts)
  if (proof.value < state.value) {
    state.value = proof.value
    state.starts = starts
  } else if (proof.proven) state.share = Math.min(MOST_SHARE, state.share * 1.03)
  else state.share = Math.max(LEAST_SHARE, state.share * 0.96)
}

/** A schedule in hand may be longer than the plan from which the model has its horizon. */
function shorterThan(model: Model, value: number): Model {
  const most = [...model.most]
  for (const v of [...model.starts, model.objective]) most[v] = value - 1
  return { ...model, arcs: [...model.arcs], most }
}

/** Starts next to each other in time, and now and then some from anywhere. */
function freed({ starts }: Model, share: number, at: readonly number[], random: Stream): Set<number> {
  const many = Math.max(2, Math.round(share * starts.length))
  const byTime = [...starts].sort((a, b) => (at[a] as number) - (at[b] as number) || a - b)
  const first = random.below(starts.length + many) - many + 1
  const free = new Set(byTime.slice(Math.max(0, first), Math.max(1, first + many)))
  const strays = random.uniform() < 0.5 ? 0 : Math.round(many / 5)
  for (let k = 0; k < strays; k++) free.add(starts[random.below(starts.length)] as number)
  return free
}

/** What is not free keeps its order on every resource: each waits for those that ended before it, save what follows anyway. */
function keepOrder(model: Model, solution: readonly number[], free: ReadonlySet<number>): void {
  const linked = new Set<string>()
  const from = (i: Item): number => solution[i.start] as number
  const to = (i: Item): number => (solution[i.end] as number) + i.offset
  for (const { items } of model.resources) {
    const kept = items.filter((i) => !free.has(i.start)).sort((a, b) => from(a) - from(b))
    for (const a of kept) {
      let before = Number.POSITIVE_INFINITY
      for (const b of kept) {
        if (b === a || from(b) < to(a)) continue
        if (from(b) >= before) break
        before = Math.min(before, to(b))
        const link = `${a.end} ${b.start}`
        if (linked.has(link)) continue
        linked.add(link)
        lagBetween(model, a.end, b.start, a.offset)
      }
    }
  }
}
