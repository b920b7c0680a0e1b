import { type Stream, stream } from '../numeric/random.ts'
import { byRisingStart, isBetter, justified, type Plan, planOf, priorities, quickPlan } from './improve.ts'
import type { Network } from './network.ts'
import { type List, listBy, serialPlan } from './serial.ts'

export interface SearchOptions {
  /** Schedules to be generated; forward and backward passes count one each. */
  effort: number
  seed: number
  /** No plan is earlier than this: the search ends when it gets there. */
  bound?: number
  shouldContinue?: () => boolean
  onProgress?: (done: number, of: number, best: number) => void
}

export interface SearchResult {
  plan: Plan
  /** Activities in the order in which the serial scheme gives this plan. */
  list: List
  schedules: number
  /** Why it ended. */
  ended: 'bound reached' | 'effort spent' | 'stopped'
}

/** A plan, and the list from which the serial scheme makes it. */
export interface Member {
  list: List
  plan: Plan
}

const POPULATION = 30
/** Children without an earlier best after which all but the best make room for new ones. */
const PATIENCE = 8 * POPULATION

/** A genetic search that can be gone on with, child by child. */
export interface Search {
  best: () => Member
  schedules: () => number
  /** Makes one child, with its passes forward and backward. */
  step: () => void
  /** Takes in a plan found elsewhere, by the starts of its activities. */
  tell: (starts: ArrayLike<number>) => void
}

/**
 * A better plan by an activity-list genetic search with forward-backward improvement of every child. Two parents, a stretch of
 * one in the other's order, now and then two neighbours swapped; the child takes the place of the worst. Same network, effort
 * and seed: same plan.
 *
 * Source: S. Hartmann, Naval Research Logistics 45 (1998) 733-750; V. Valls, F. Ballestin, S. Quintanilla, EJOR 165 (2005)
 * 375-386 (from memory).
 */
export function searchPlan(network: Network, options: SearchOptions): SearchResult {
  const { effort, seed, bound = Number.NEGATIVE_INFINITY, shouldContinue, onProgress } = options
  const search = searchOf(network, seed)
  let ended: SearchResult['ended'] = 'effort spent'
  while (search.schedules() < effort) {
    if (search.best().plan.restart <= bound + 1e-6) {
      ended = 'bound reached'
      break
    }
    if (shouldContinue?.() === false) {
      ended = 'stopped'
      break
    }
    search.step()
    onProgress?.(Math.min(search.schedules(), effort), effort, search.best().plan.restart)
  }
  return { ...search.best(), schedules: search.schedules(), ended }
}

interface State {
  network: Network
  random: Stream
  rules: readonly Float64Array[]
  best: Member
  members: Member[]
  schedules: number
  /** Children since the last that was the earliest. */
  idle: number
}

/** A search that begins with the quick plan. */
export function searchOf(network: Network, seed: number): Search {
  const first = quickPlan(network)
  const best: Member = { list: byRisingStart(network, first.dates), plan: first }
  const rules = priorities(network)
  const state: State = { network, random: stream(seed, 'search'), rules, best, members: [best], schedules: 0, idle: 0 }
  return {
    best: () => state.best,
    schedules: () => state.schedules,
    step: () => step(state),
    tell: (starts) => tell(state, starts),
  }
}

function step(state: State): void {
  const { network, members, random, rules } = state
  const list = members.length < POPULATION ? sampled(network, rules, random) : child(network, members, random)
  born(state, planOf(network, serialPlan(network, list)))
  if (state.idle < PATIENCE) return
  state.members = [state.best]
  state.idle = 0
}

function tell(state: State, starts: ArrayLike<number>): void {
  const { network } = state
  born(state, planOf(network, serialPlan(network, listBy(network, Float64Array.from(starts)))))
}

/** A plan, improved forward and backward, takes its place among the others. */
function born(state: State, plan: Plan): void {
  const { network, members } = state
  const better = justified(network, plan, 2)
  state.schedules += 1 + better.schedules
  const member = { list: byRisingStart(network, better.plan.dates), plan: better.plan }
  if (members.length < POPULATION) members.push(member)
  else replaceWorst(members, member)
  state.idle++
  if (!isBetter(member.plan, state.best.plan)) return
  state.best = member
  state.idle = 0
}

const sameDates = (a: Plan, b: Plan): boolean =>
  a.end === b.end && a.dates.start.every((s, i) => s === b.dates.start[i])

/** A list by a rule with its values shaken: regret-like sampling around latest finish or latest start. */
function sampled(network: Network, rules: readonly Float64Array[], random: Stream): List {
  const rule = rules[random.below(rules.length)] as Float64Array
  const width = rule.reduce((m, v) => Math.max(m, v), 0) * (0.2 + 0.8 * random.uniform())
  return listBy(
    network,
    rule.map((v) => v + width * (random.uniform() - 0.5)),
  )
}

/** Two-point crossover that keeps predecessors first: the stretch between the points in the order of the other parent. */
function child(network: Network, members: readonly Member[], random: Stream): List {
  const [mother, father] = [chosen(members, random), chosen(members, random)]
  const n = network.ids.length
  const [a, b] = [random.below(n + 1), random.below(n + 1)].sort((x, y) => x - y) as [number, number]
  const list = new Int32Array(n)
  const taken = new Uint8Array(n)
  let at = 0
  const put = (i: number): void => {
    if (taken[i] === 1) return
    taken[i] = 1
    list[at++] = i
  }
  for (let k = 0; k < a; k++) put(mother.list[k] as number)
  for (let k = 0; k < n && at < b; k++) put(father.list[k] as number)
  for (let k = 0; k < n; k++) put(mother.list[k] as number)
  return swapped(network, list, random)
}

/** The better of two drawn at random. */
function chosen(members: readonly Member[], random: Stream): Member {
  const [a, b] = [members[random.below(members.length)], members[random.below(members.length)]] as [Member, Member]
  return isBetter(b.plan, a.plan) ? b : a
}

/** Neighbours in the list that do not follow each other are swapped, on average twice in a list. */
function swapped(network: Network, list: List, random: Stream): List {
  const chance = 2 / list.length
  for (let k = 0; k + 1 < list.length; k++) {
    if (random.uniform() >= chance) continue
    const [i, j] = [list[k] as number, list[k + 1] as number]
    if (follows(network, i, j)) continue
    list[k] = j
    list[k + 1] = i
  }
  return list
}

function follows({ before }: Network, i: number, j: number): boolean {
  for (let k = before.first[j] as number; k < (before.first[j + 1] as number); k++)
    if (before.other[k] === i) return true
  return false
}

function replaceWorst(members: Member[], member: Member): void {
  if (members.some((m) => sameDates(m.plan, member.plan))) return
  const worst = members.reduce((w, m, k) => (isBetter((members[w] as Member).plan, m.plan) ? k : w), 0)
  const there = members[worst] as Member
  if (isBetter(member.plan, there.plan) || member.plan.restart <= there.plan.restart) members[worst] = member
}
