import { learn } from './analysis.ts'
import { forget } from './clauses.ts'
import { type Engine, engineOf, given, goBack, propagate, take } from './engine.ts'
import { literalsOf, type Model, type Shares } from './model.ts'
import { beforeRound, CONFLICTS_FIRST, type Looking, lookingIn, lookNow } from './newShares.ts'
import type { SharesSource } from './shares.ts'
import { beginLevel, DECISION, isFalse, isTrue, ROOT, raise } from './trail.ts'
import { fade, takeMost, trim } from './turns.ts'

/** What a proof search has come to. */
export interface Proof {
  /** Value of the objective in the best solution known, and all variables there; none: Infinity, and empty. */
  value: number
  solution: readonly number[]
  /** No solution has less. */
  bound: number
  /** Nothing is left to look for: the best is proven least, or there is no solution at all. */
  proven: boolean
  conflicts: number
  /** Most clauses that were kept at once. */
  kept: number
}

/** What was learnt, in the order in which it was: a later replay can check each line from those before it. */
export type Line = { learnt: readonly number[] } | { solution: readonly number[] } | { shares: Shares }

export interface ProofOptions {
  /** A solution to beat, by variable, and its value. */
  value?: number
  solution?: readonly number[]
  bound?: number
  shouldContinue?: () => boolean
  note?: (line: Line) => void
  /** Clauses that may be kept: memory is bounded. */
  mostKept?: number
  /** Of the rounds between restarts, one in so many tries the lowest value not ruled out. */
  fromBelowEvery?: number
  /**
   * Asked at each restart: whether the proof is near. Then what is decided goes down, to earlier starts, and not the way the best
   * solution has it, and shares are looked for; while it stays far they are left aside, for the best to come sooner.
   */
  isNear?: (proof: Proof) => boolean
  /** Where shares of the jobs come from, once a proof is not soon done. */
  shares?: SharesSource
  /** Conflicts before that. */
  sharesAfter?: number
}

/** A proof search that can be gone on with. */
export interface Prover {
  proof: Proof
  /** Learns from so many conflicts more, unless it ends before. */
  go: (conflicts: number) => Proof
  /** Takes over a better solution or bound found elsewhere. */
  tell: (news: Told) => void
  /** Lessons of few levels learnt since they were last asked for, at most so many. */
  lessons: () => readonly (readonly number[])[]
}

interface Told {
  value: number
  solution: readonly number[]
  bound: number
  /** Lessons of another proof on the same model, learnt with nothing better than this value known. */
  lessons?: readonly (readonly number[])[] | undefined
}

const ASK_EVERY = 100
const RESTART_UNIT = 30
const FIRST_FORGET = 4000
const MORE_BEFORE_FORGET = 150
const MOST_KEPT = 20_000
const FROM_BELOW_EVERY = 4

/** Lessons that span no more levels are worth telling; so many between two marks. */
const SHARED_SPREAD = 3
const MOST_SHARED = 400

interface State {
  engine: Engine | undefined
  proof: Proof
  options: ProofOptions
  rounds: number
  until: number
  nextForget: number
  fromBelow: boolean
  near: boolean
  shared: number[][]
  looking: Looking | undefined
}

/**
 * Improves a solution until none is better, learning from every conflict (lazy clause generation): bounds of variables,
 * propagators that explain themselves, first unique implication points, restarts, what was learnt reduced by spread. Some
 * rounds suppose the lowest value not ruled out: when that fails, the bound rises.
 *
 * Source: A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, Constraints 16 (2011) 250-282 (from memory).
 */
export function proverOf(model: Model, options: ProofOptions = {}): Prover {
  const { value = Number.POSITIVE_INFINITY, solution = [], bound = Number.NEGATIVE_INFINITY } = options
  const most = model.most.slice()
  most[model.objective] = Math.min(most[model.objective] as number, value - 1)
  const engine = engineOf({ ...model, most })
  const proof: Proof = { value, solution, bound, proven: false, conflicts: 0, kept: 0 }
  const state: State = {
    engine,
    proof,
    options,
    rounds: 0,
    until: 0,
    nextForget: Math.min(FIRST_FORGET, options.mostKept ?? MOST_KEPT),
    fromBelow: false,
    near: false,
    shared: [],
    looking: lookingFor(options),
  }
  if (engine === undefined || value <= bound) finish(proof)
  return {
    proof,
    go: (conflicts) => go(state, conflicts),
    tell: (news) => tell(state, news),
    lessons: () => state.shared.splice(0),
  }
}

function lookingFor({ shares: source, sharesAfter: after = CONFLICTS_FIRST, note }: ProofOptions): Looking | undefined {
  return source && lookingIn({ source, after, note: (shares) => note?.({ shares }) })
}

function finish(proof: Proof): Proof {
  proof.proven = true
  proof.bound = proof.value
  return proof
}

function go(state: State, conflicts: number): Proof {
  const { proof, options } = state
  const engine = state.engine as Engine
  const stop = proof.conflicts + conflicts
  while (!proof.proven) {
    const conflict = propagate(engine)
    if (conflict >= 0) {
      if (!learnFrom(state, engine, conflict)) return finish(proof)
      continue
    }
    if (engine.trail.levels.length === 0) raiseBound(state, engine)
    if (proof.conflicts >= stop) return proof
    if (proof.conflicts % ASK_EVERY === 0 && options.shouldContinue?.() === false) return proof
    if (proof.conflicts >= state.until || engine.clauses.learnt >= (options.mostKept ?? MOST_KEPT)) {
      restart(state, engine)
      continue
    }
    if (state.looking?.level === engine.trail.levels.length) {
      lookNow(state.looking, engine)
      continue
    }
    if (decide(state, engine)) continue
    if (!better(state, engine)) return finish(proof)
  }
  return proof
}

function learnFrom(state: State, engine: Engine, conflict: number): boolean {
  state.proof.conflicts++
  const lesson = learn(engine, conflict)
  if (lesson === undefined) return false
  state.options.note?.({ learnt: Array.from(lesson.literals) })
  if (lesson.spread <= SHARED_SPREAD && state.shared.length < MOST_SHARED)
    state.shared.push(Array.from(lesson.literals))
  fade(engine.turns)
  const room = take(engine, lesson)
  state.proof.kept = Math.max(state.proof.kept, engine.clauses.learnt)
  return room
}

/** At the root, the objective's least is a bound. */
function raiseBound({ proof }: State, { trail, model }: Engine): void {
  proof.bound = Math.max(proof.bound, trail.bound[2 * model.objective] as number)
}

function restart(state: State, engine: Engine): void {
  goBack(engine, 0)
  state.rounds++
  state.near = state.options.isNear?.(state.proof) ?? false
  state.until = state.proof.conflicts + RESTART_UNIT * luby(state.rounds)
  state.fromBelow = state.rounds % (state.options.fromBelowEvery ?? FROM_BELOW_EVERY) === 0
  if (state.looking !== undefined) beforeRound(state.looking, engine, state)
  const most = state.options.mostKept ?? MOST_KEPT
  if (engine.clauses.learnt < state.nextForget) return
  forget(engine.clauses, engine.trail, most / 4)
  trim(engine.turns)
  state.nextForget = Math.min(most, state.nextForget + MORE_BEFORE_FORGET)
}

/** Everything is fixed: a solution, and better than the last. @returns false when none can be better still */
function better({ proof, options }: State, engine: Engine): boolean {
  const { trail, model } = engine
  proof.solution = model.least.map((_, v) => trail.bound[2 * v] as number)
  proof.value = trail.bound[2 * model.objective] as number
  options.note?.({ solution: proof.solution })
  goBack(engine, 0)
  return proof.value > proof.bound && raise(trail, 2 * model.objective + 1, 1 - proof.value, ROOT, -1)
}

function tell({ engine, proof }: State, news: Told): void {
  if (proof.proven || engine === undefined) return
  goBack(engine, 0)
  const { trail, model } = engine
  const view = 2 * model.objective
  let room = true
  if (news.bound > proof.bound) {
    proof.bound = news.bound
    if (news.bound > (trail.bound[view] as number)) room = raise(trail, view, news.bound, ROOT, -1)
  }
  if (news.value < proof.value) {
    proof.value = news.value
    // without a solution the last one still says which way to look
    if (news.solution.length > 0) proof.solution = news.solution
    if (1 - news.value > (trail.bound[view + 1] as number))
      room = raise(trail, view + 1, 1 - news.value, ROOT, -1) && room
  }
  for (const lesson of news.lessons ?? []) room = room && given(engine, literalsOf(lesson), SHARED_SPREAD)
  if (!room || proof.value <= proof.bound) finish(proof)
}

/**
 * Decides one literal: at first the variable that can be least becomes so; after the first restart the literal met most in
 * conflicts goes the way the best solution has it, or down.
 *
 * @returns false when everything is fixed
 */
function decide(state: State, engine: Engine): boolean {
  const { trail, turns, model } = engine
  const { proof, fromBelow, near, rounds } = state
  const goal = 2 * model.objective + 1
  if (fromBelow && trail.levels.length === 0 && -(trail.bound[goal] as number) > (trail.bound[goal - 1] as number))
    return decided(engine, goal, -(trail.bound[goal - 1] as number))
  if (rounds > 1) {
    for (let id = takeMost(turns); id >= 0; id = takeMost(turns)) {
      engine.taken.push(id)
      const [v, time] = [turns.variable[id] as number, turns.time[id] as number]
      if (isTrue(trail, 2 * v, time) || isFalse(trail, 2 * v, time)) continue
      const isLater = !near && (proof.solution[v] ?? 0) >= time
      return isLater ? decided(engine, 2 * v, time) : decided(engine, 2 * v + 1, 1 - time)
    }
  }
  return decideNext(engine)
}

function decided(engine: Engine, view: number, value: number): true {
  beginLevel(engine.trail)
  raise(engine.trail, view, value, DECISION, -1)
  return true
}

function decideNext(engine: Engine): boolean {
  const { bound } = engine.trail
  for (const choice of engine.model.choices)
    if (bound[2 * choice] === 0 && bound[2 * choice + 1] === -1) return decided(engine, 2 * choice, 1)
  let [found, least] = [-1, Number.POSITIVE_INFINITY]
  for (const v of engine.model.starts) {
    const start = bound[2 * v] as number
    if (start < least && start < -(bound[2 * v + 1] as number)) {
      found = v
      least = start
    }
  }
  if (found >= 0) return decided(engine, 2 * found + 1, -least)
  for (let v = 0; v < engine.model.least.length; v++)
    if ((bound[2 * v] as number) < -(bound[2 * v + 1] as number))
      return decided(engine, 2 * v + 1, -(bound[2 * v] as number))
  return false
}

/** 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 … (M. Luby, A. Sinclair, D. Zuckerman, 1993; from memory). */
function luby(i: number): number {
  let k = 1
  while ((1 << k) - 1 < i) k++
  return (1 << k) - 1 === i ? 1 << (k - 1) : luby(i - (1 << (k - 1)) + 1)
}
