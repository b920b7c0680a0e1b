import { type Stream, stream } from '../../numeric/random.ts'
import { earliestOn, type Grid, gridOf, latestOn, sortBy } from './grid.ts'
import { type Instance, networkOfInstance } from './instance.ts'

/** A schedule, and the list from which the serial scheme makes it. */
interface Member {
  list: Int32Array
  starts: Int32Array
  end: number
}

/** A genetic search on an instance that can be gone on with, child by child. */
export interface Genetic {
  best: () => { end: number; starts: readonly number[] }
  schedules: () => number
  /** Starts of one of the shorter schedules in hand. */
  another: () => readonly number[]
  /** Makes one child, with its passes backward and forward. */
  step: () => void
  /** Takes in a schedule found elsewhere. */
  tell: (starts: readonly number[]) => void
}

interface State {
  grid: Grid
  /** Members it keeps. */
  population: number
  random: Stream
  members: Member[]
  best: Member
  schedules: number
  /** Children since the last that was the shortest of all. */
  idle: number
}

/** Members kept: with 30 jobs few get on fastest, with 60 many get further (measured); two more for each job between. */
const [LEAST_MEMBERS, MOST_MEMBERS, FEW_JOBS] = [40, 100, 32]
const membersFor = (jobs: number): number => Math.min(MOST_MEMBERS, LEAST_MEMBERS + 2 * Math.max(0, jobs - FEW_JOBS))
/** After so many children for each member without a gain it begins anew. */
const PATIENCE = 20
/** Of the first lists half lie about the best, their starts shifted by up to so much of the whole; the others lie anywhere. */
const [ABOUT, ANYWHERE] = [0.3, 2]

/**
 * Activity-list genetic search with forward-backward improvement of every child, on whole time steps: the stretch that a child
 * takes from one parent is the busier of two. Same instance, seed and number of steps: same schedule.
 *
 * Source: S. Hartmann, Naval Research Logistics 45 (1998) 733-750; V. Valls, F. Ballestin, S. Quintanilla, EJOR 165 (2005)
 * 375-386 and 185 (2008) 495-508 (from memory).
 */
export function geneticOf(instance: Instance, starts: readonly number[], seed: number): Genetic {
  const grid = gridOf(instance)
  const { order } = networkOfInstance(instance)
  const best = memberOf(order, starts, Math.max(...starts))
  const population = membersFor(order.length)
  const random = stream(seed, 'genetic')
  const state: State = { grid, population, random, members: [best], best, schedules: 0, idle: 0 }
  return {
    best: () => ({ end: state.best.end, starts: Array.from(state.best.starts) }),
    schedules: () => state.schedules,
    another: () => Array.from(chosen(state.members, state.random).starts),
    step: () => step(state),
    tell: (told) => born(state, memberOf(order, told, 0).list),
  }
}

/** The order of the network keeps predecessors first where starts are equal. */
function memberOf(order: Int32Array, starts: readonly number[], end: number): Member {
  const member = { list: order.slice(), starts: Int32Array.from(starts), end }
  sortBy(member.list, member.starts)
  return member
}

function step(state: State): void {
  const { members, random, best } = state
  if (members.length >= state.population) born(state, child(state))
  else born(state, shaken(state, best.starts, random.uniform() < 0.5 ? ABOUT : ANYWHERE))
  if (state.idle < PATIENCE * state.population) return
  state.members = [state.best]
  state.idle = 0
}

/** A schedule by a list, passed backward and forward while that shortens it, takes its place among the others. */
function born(state: State, list: Int32Array): void {
  const { grid } = state
  const starts = new Int32Array(list.length)
  let end = earliestOn(grid, list, starts)
  state.schedules++
  for (let before = Number.POSITIVE_INFINITY; end < before; state.schedules += 2) {
    before = end
    end = justify(grid, list, starts, end)
  }
  const member = { list, starts, end }
  state.idle++
  if (end < state.best.end) {
    state.best = member
    state.idle = 0
  }
  if (state.members.length < state.population) state.members.push(member)
  else replaceWorst(state, member)
}

/** As late as it goes, by falling finish, then as early as it goes; the list follows. Never longer. @returns the end */
function justify(grid: Grid, list: Int32Array, starts: Int32Array, end: number): number {
  const { durations } = grid
  const rank = new Int32Array(list.length)
  sortBy(list, starts)
  list.reverse()
  for (let job = 0; job < rank.length; job++) rank[job] = -(starts[job] as number) - (durations[job] as number)
  sortBy(list, rank)
  latestOn(grid, list, end, starts)
  list.reverse()
  sortBy(list, starts)
  const made = earliestOn(grid, list, starts)
  sortBy(list, starts)
  return made
}

/** Jobs by their starts, each shifted at random by up to a share of the whole; predecessors first. */
function shaken({ grid, random, best }: State, starts: Int32Array, share: number): Int32Array {
  const value = Int32Array.from(starts, (s) => s + Math.round(share * best.end * random.uniform()))
  for (const job of best.list)
    for (const p of grid.before[job] as Int32Array)
      value[job] = Math.max(value[job] as number, (value[p] as number) + 1)
  const list = best.list.slice()
  sortBy(list, value)
  return list
}

/** A stretch of one parent, between what comes before and after it in the other: precedence keeps. Then neighbours are swapped. */
function child({ grid, members, random }: State): Int32Array {
  const [mother, father] = [chosen(members, random), chosen(members, random)]
  const [a, b] = stretch(grid, mother, random)
  const n = mother.list.length
  const kept = new Uint8Array(n)
  const list = new Int32Array(n)
  for (let k = a; k < b; k++) kept[mother.list[k] as number] = 1
  const ahead = aheadOf(mother.list, a)
  let at = 0
  for (let k = 0; k < n; k++) {
    const job = father.list[k] as number
    if (kept[job] === 0 && ahead[job] === 1) list[at++] = job
  }
  for (let k = a; k < b; k++) list[at++] = mother.list[k] as number
  for (let k = 0; k < n; k++) {
    const job = father.list[k] as number
    if (kept[job] === 0 && ahead[job] === 0) list[at++] = job
  }
  swapSome(grid, list, random)
  return list
}

function aheadOf(list: Int32Array, until: number): Uint8Array {
  const ahead = new Uint8Array(list.length)
  for (let k = 0; k < until; k++) ahead[list[k] as number] = 1
  return ahead
}

/** Two stretches are drawn, and the one whose jobs do more work for the time that they span is taken. */
function stretch(grid: Grid, member: Member, random: Stream): [number, number] {
  const n = member.list.length + 1
  const draw = (): [number, number] => [random.below(n), random.below(n)].sort((x, y) => x - y) as [number, number]
  const [one, other] = [draw(), draw()]
  return density(grid, member, one) >= density(grid, member, other) ? one : other
}

function density({ durations, needs, capacities }: Grid, { list, starts }: Member, [a, b]: [number, number]): number {
  const many = capacities.length
  let [work, from, to] = [0, Number.POSITIVE_INFINITY, 0]
  for (let at = a; at < b; at++) {
    const job = list[at] as number
    from = Math.min(from, starts[job] as number)
    to = Math.max(to, (starts[job] as number) + (durations[job] as number))
    for (let k = 0; k < many; k++)
      work += ((durations[job] as number) * (needs[job * many + k] as number)) / (capacities[k] as number)
  }
  return to > from ? work / (to - from) : 0
}

/** The better of two drawn at random. */
function chosen(members: readonly Member[], random: Stream): Member {
  const [a, b] = [members[random.below(members.length)], members[random.below(members.length)]] as [Member, Member]
  return b.end < a.end ? b : a
}

/** Neighbours in the list that do not follow each other are swapped, on average twice in a list. */
function swapSome({ before }: Grid, list: Int32Array, random: Stream): void {
  const chance = 2 / list.length
  for (let k = 0; k + 1 < list.length; k++) {
    if (random.uniform() >= chance) continue
    const [i, j] = [list[k] as number, list[k + 1] as number]
    if ((before[j] as Int32Array).includes(i)) continue
    list[k] = j
    list[k + 1] = i
  }
}

/** The longest makes room for one that is no longer and not among them yet. */
function replaceWorst({ members }: State, member: Member): void {
  let worst = 0
  for (let k = 0; k < members.length; k++) {
    const other = members[k] as Member
    if (other.end === member.end && other.starts.every((s, i) => s === member.starts[i])) return
    if (other.end >= (members[worst] as Member).end) worst = k
  }
  if (member.end <= (members[worst] as Member).end) members[worst] = member
}
