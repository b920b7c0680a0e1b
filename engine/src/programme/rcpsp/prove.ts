import { type Arcs, type Desk, deskOf, type Lesson, learn } from './analysis.ts'
import { addClause, type Clause, type Clauses, clausesOf, forget, watched } from './clauses.ts'
import { type Conflict, type Cumulative, crossing, cumulativeOf, timeTable } from './cumulative.ts'
import type { Instance } from './instance.ts'
import {
  ARC,
  backTo,
  beginLevel,
  CLAUSE,
  DECISION,
  isFalse,
  isTrue,
  ROOT,
  raise,
  type Trail,
  trailOf,
} from './trail.ts'
import { fade, meet, put, type Turns, takeMost, turnsOf } from './turns.ts'

/** What a proof search came to. */
export interface Proof {
  makespan: number
  starts: readonly number[]
  /** No schedule is shorter. */
  bound: number
  proven: boolean
  conflicts: number
}

export interface ProofOptions {
  /** Conflicts that may be learnt from. */
  effort: number
  /** A schedule to beat, and a bound that is known. */
  starts: readonly number[]
  makespan: number
  bound: number
  shouldContinue?: () => boolean
}

interface Solver {
  trail: Trail
  arcs: Arcs
  arcsFrom: readonly (readonly number[])[]
  clauses: Clauses
  cumulatives: readonly Cumulative[]
  /** Resources of each job, and those whose time table is to be looked at again. */
  resourcesOf: readonly (readonly number[])[]
  stale: Uint8Array
  desk: Desk
  turns: Turns
  /** Literals taken out of the heap since the root, to be put back. */
  taken: number[]
  next: number
  sink: number
}

const ASK_EVERY = 100
const RESTART_UNIT = 128
const FIRST_FORGET = 3000

/**
 * Shortens a schedule until no shorter one is left, learning from every conflict (lazy clause generation): bounds of the
 * starts, lags between them, a time table for each resource, first unique implication points, restarts.
 *
 * Source: A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, Constraints 16 (2011) 250-282 (from memory).
 */
export function prove(instance: Instance, options: ProofOptions): Proof {
  const solver = solverOf(instance, options.makespan)
  const best: Proof = { ...options, starts: options.starts, proven: options.makespan <= options.bound, conflicts: 0 }
  if (best.proven || solver === undefined) return { ...best, proven: true, bound: best.makespan }
  let [rounds, until, nextForget] = [0, 0, FIRST_FORGET]
  for (;;) {
    const conflict = propagate(solver)
    if (conflict !== undefined) {
      best.conflicts++
      const lesson = learn(solver.trail, solver.arcs, solver.clauses, solver.desk, conflict, (view, value) =>
        meet(solver.turns, view, value),
      )
      if (lesson === undefined) return { ...best, bound: best.makespan, proven: true }
      take(solver, lesson)
      fade(solver.turns)
      continue
    }
    const { trail, sink } = solver
    if (trail.levels.length === 0) best.bound = Math.max(best.bound, trail.bound[2 * sink] as number)
    if (best.conflicts >= options.effort) return best
    if (best.conflicts % ASK_EVERY === 0 && options.shouldContinue?.() === false) return best
    if (best.conflicts >= until) {
      until = best.conflicts + RESTART_UNIT * luby(++rounds)
      restart(solver)
      if (best.conflicts >= nextForget) {
        forget(solver.clauses, trail)
        nextForget += FIRST_FORGET + 200 * rounds
      }
    }
    if (decide(solver, best.starts, rounds)) continue
    best.starts = instance.durations.map((_, i) => trail.bound[2 * i] as number)
    best.makespan = trail.bound[2 * sink] as number
    restart(solver)
    if (best.makespan <= best.bound || !raise(trail, 2 * sink + 1, 1 - best.makespan, ROOT, -1)) {
      return { ...best, bound: best.makespan, proven: true }
    }
  }
}

/** Starts between their heads and their tails for a makespan below the best; undefined when there is no room at all. */
function solverOf({ durations, successors, needs, capacities }: Instance, makespan: number): Solver | undefined {
  const n = durations.length
  const sink = n - 1
  const heads = headsOf(durations, successors)
  const tails = tailsOf(durations, successors)
  const most = durations.map((_, i) => makespan - 1 - (tails[i] as number))
  if (heads.some((h, i) => h > (most[i] as number))) return undefined
  const arcs: { from: number[]; to: number[]; weight: number[] } = { from: [], to: [], weight: [] }
  successors.forEach((next, i) => {
    for (const j of next) {
      arcs.from.push(2 * i, 2 * j + 1)
      arcs.to.push(2 * j, 2 * i + 1)
      arcs.weight.push(durations[i] as number, durations[i] as number)
    }
  })
  const arcsFrom = Array.from({ length: 2 * n }, (): number[] => [])
  arcs.from.forEach((view, e) => {
    ;(arcsFrom[view] as number[]).push(e)
  })
  return {
    trail: trailOf(heads, most),
    arcs: { from: Int32Array.from(arcs.from), to: Int32Array.from(arcs.to), weight: Int32Array.from(arcs.weight) },
    arcsFrom,
    clauses: clausesOf(2 * n),
    cumulatives: capacities.map((capacity, k) =>
      cumulativeOf(
        capacity,
        durations.flatMap((duration, job) => {
          const need = needs[job]?.[k] as number
          return need > 0 && duration > 0 ? [{ job, duration, need }] : []
        }),
      ),
    ),
    resourcesOf: durations.map((duration, job) =>
      capacities.flatMap((_, k) => (duration > 0 && (needs[job]?.[k] as number) > 0 ? [k] : [])),
    ),
    stale: new Uint8Array(capacities.length).fill(1),
    desk: deskOf(2 * n),
    turns: turnsOf(),
    taken: [],
    next: 0,
    sink,
  }
}

/** Longest way from the start to each job; jobs may stand in any order. */
function headsOf(durations: readonly number[], successors: readonly (readonly number[])[]): number[] {
  const heads = durations.map(() => 0)
  for (const i of inOrder(successors)) {
    for (const j of successors[i] as readonly number[])
      heads[j] = Math.max(heads[j] as number, (heads[i] as number) + (durations[i] as number))
  }
  return heads
}

/** Longest way from each job's start to the end. */
function tailsOf(durations: readonly number[], successors: readonly (readonly number[])[]): number[] {
  const tails = durations.map(() => 0)
  for (const i of inOrder(successors).reverse()) {
    for (const j of successors[i] as readonly number[])
      tails[i] = Math.max(tails[i] as number, (durations[i] as number) + (tails[j] as number))
  }
  return tails
}

function inOrder(successors: readonly (readonly number[])[]): number[] {
  const waiting = successors.map(() => 0)
  for (const j of successors.flat()) waiting[j] = (waiting[j] as number) + 1
  const order = waiting.flatMap((count, i) => (count === 0 ? [i] : []))
  for (let at = 0; at < order.length; at++) {
    for (const j of successors[order[at] as number] as readonly number[]) {
      waiting[j] = (waiting[j] as number) - 1
      if (waiting[j] === 0) order.push(j)
    }
  }
  return order
}

/** Follows every bound that rose through lags and clauses, then the time tables, until nothing moves. */
function propagate(solver: Solver): Conflict {
  const { trail, arcs, arcsFrom, clauses, cumulatives, resourcesOf, stale } = solver
  for (;;) {
    while (solver.next < trail.length) {
      const view = trail.view[solver.next++] as number
      for (const k of resourcesOf[view >> 1] as readonly number[]) stale[k] = 1
      for (const e of arcsFrom[view] as readonly number[]) {
        const to = arcs.to[e] as number
        const value = (trail.bound[view] as number) + (arcs.weight[e] as number)
        if (value > (trail.bound[to] as number) && !raise(trail, to, value, ARC, e)) return crossing(trail, to)
      }
      const broken = watched(clauses, trail, view)
      if (broken >= 0) return negated(clauses.all[broken] as Clause)
    }
    const k = stale.indexOf(1)
    if (k < 0) return undefined
    stale[k] = 0
    const conflict = timeTable(trail, cumulatives[k] as Cumulative)
    if (conflict !== undefined) return conflict
  }
}

function negated({ literals }: Clause): number[] {
  const conflict: number[] = []
  for (let i = 0; i < literals.length; i += 2)
    conflict.push((literals[i] as number) ^ 1, 1 - (literals[i + 1] as number))
  return conflict
}

/** Goes back to where the lesson forces something, and lets it. */
function take(solver: Solver, { literals, backLevel, spread }: Lesson): void {
  goBack(solver, backLevel)
  const id = addClause(solver.clauses, literals, spread)
  const unit = literals.length === 2
  raise(solver.trail, literals[0] as number, literals[1] as number, unit ? ROOT : CLAUSE, unit ? -1 : id)
}

function goBack(solver: Solver, level: number): void {
  backTo(solver.trail, level)
  solver.next = solver.trail.length
  solver.stale.fill(1)
  for (const id of solver.taken) put(solver.turns, id)
  solver.taken.length = 0
}

const restart = (solver: Solver): void => goBack(solver, 0)

/**
 * Decides one literal: on even rounds the earliest job starts as early as it can; on odd ones the literal met most in
 * conflicts goes the way the best schedule has it.
 *
 * @returns false when every start is fixed
 */
function decide(solver: Solver, best: readonly number[], rounds: number): boolean {
  const { trail, turns } = solver
  if (rounds > 1) {
    for (let id = takeMost(turns); id >= 0; id = takeMost(turns)) {
      solver.taken.push(id)
      const [job, time] = [turns.job[id] as number, turns.time[id] as number]
      if (isTrue(trail, 2 * job, time) || isFalse(trail, 2 * job, time)) continue
      beginLevel(trail)
      if ((best[job] as number) >= time) raise(trail, 2 * job, time, DECISION, -1)
      else raise(trail, 2 * job + 1, 1 - time, DECISION, -1)
      return true
    }
  }
  const job = earliestOpen(trail)
  if (job < 0) return false
  beginLevel(trail)
  raise(trail, 2 * job + 1, -(trail.bound[2 * job] as number), DECISION, -1)
  return true
}

function earliestOpen({ bound }: Trail): number {
  let [found, least] = [-1, Number.POSITIVE_INFINITY]
  for (let job = 0; 2 * job < bound.length; job++) {
    const start = bound[2 * job] as number
    if (start < least && start < -(bound[2 * job + 1] as number)) [found, least] = [job, start]
  }
  return found
}

/** 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 … (M. Luby, A. Sinclair, D. Zuckerman, 1993; from memory). */
function luby(i: number): number {
  let k = 1
  while ((1 << k) - 1 < i) k++
  return (1 << k) - 1 === i ? 1 << (k - 1) : luby(i - (1 << (k - 1)) + 1)
}
