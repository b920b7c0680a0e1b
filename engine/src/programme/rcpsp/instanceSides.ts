import { type Bound, lowerBound } from '../bound.ts'
import { quickPlan } from '../improve.ts'
import { type Genetic, geneticOf } from './genetic.ts'
import { type Instance, networkOfInstance } from './instance.ts'
import { type Model, withFirsts } from './model.ts'
import { modelOfInstance } from './modelOfInstance.ts'
import { type Neighbourhoods, neighbourhoodsOf } from './neighbourhood.ts'
import { type Prover, proverOf } from './prove.ts'
import type { News, Side } from './side.ts'

/** What both sides of an instance begin with: the quick plan, and what can be ruled out without search. */
export interface InstanceGround {
  value: number
  starts: readonly number[]
  bound: number
  evidence: Bound
}

export function groundOf(instance: Instance): InstanceGround {
  const network = networkOfInstance(instance)
  const plan = quickPlan(network)
  const evidence = lowerBound(network, plan.end, 0.25)
  const bound = evidence.kind === 'path' ? Math.ceil(evidence.value) : Math.floor(evidence.value) + 1
  return { value: plan.end, starts: Array.from(plan.dates.start), bound: Math.min(bound, plan.end), evidence }
}

/** The side that proves: it learns from every conflict, and each supposes what is left of the range. */
export function instanceProver(instance: Instance, ground: InstanceGround, shouldContinue?: () => boolean): Side {
  const model = modelOfInstance(instance, ground.value)
  const { value, starts, bound } = ground
  const options = { value, solution: withFirsts(model, starts), bound }
  const prover = proverOf(model, shouldContinue === undefined ? options : { ...options, shouldContinue })
  const news = (): News => {
    const { proof } = prover
    const known = { value: proof.value, starts: proof.solution.slice(0, instance.durations.length) }
    return { ...known, bound: proof.bound, closed: proof.proven, schedules: 0, conflicts: proof.conflicts }
  }
  const lessons = (news: News): News => ({ ...news, lessons: prover.lessons() })
  return {
    go: (effort) => {
      if (effort > 0 && !prover.proof.proven) prover.go(effort)
      return news()
    },
    tell: (told) => {
      prover.tell({ ...told, solution: withFirsts(model, told.starts) })
      return lessons(news())
    },
  }
}

interface Improver {
  search: Genetic
  model: Model
  pieces: Neighbourhoods
  /** A second proof, once schedules alone gain no more and the bound is near. */
  second: Prover | undefined
  bound: number
  closed: boolean
}

/** A conflict costs about as much as so many schedules. */
const SCHEDULES_EACH = 12
/** Schedules for each job before the exact engine takes its share. */
const SCHEDULES_FIRST = 360

/** After so many times as many, and with what is open no more than a share of the best, this side proves as well. */
const [SCHEDULES_ALONE, NEAR] = [2, 0.15]

/** The side that improves: a genetic search first, then in turns with large neighbourhoods. */
export function instanceImprover(
  instance: Instance,
  ground: InstanceGround,
  seed: number,
  shouldContinue: () => boolean = () => true,
): Side {
  const search = geneticOf(instance, ground.starts, seed)
  const model = modelOfInstance(instance, ground.value)
  const pieces = neighbourhoodsOf(model, ground.value, ground.starts, seed)
  const state: Improver = { search, model, pieces, second: undefined, bound: ground.bound, closed: false }
  const first = SCHEDULES_FIRST * instance.durations.length
  return {
    go: (effort) => {
      if (state.second !== undefined) return proves(state, state.second, effort)
      const onSchedules = search.schedules() < first ? effort : effort / 2
      schedules(state, search.schedules() + SCHEDULES_EACH * onSchedules, shouldContinue)
      if (onSchedules < effort && shouldContinue()) inPieces(state, effort - onSchedules)
      return newsOf(state)
    },
    tell: (told) => {
      state.bound = Math.max(state.bound, told.bound)
      if (told.value < pieces.value) take(state, told.value, told.starts)
      if (search.schedules() >= SCHEDULES_ALONE * first && isNear(state))
        state.second ??= secondOf(state, shouldContinue)
      state.second?.tell({ ...told, solution: withFirsts(model, told.starts) })
      return newsOf(state)
    },
  }
}

const isNear = ({ pieces, bound }: Improver): boolean => pieces.value - bound <= NEAR * pieces.value

/** Another way than the first proof: it always supposes the least that is not ruled out. */
function secondOf({ model, pieces, bound }: Improver, shouldContinue: () => boolean): Prover {
  const solution = withFirsts(model, pieces.starts)
  return proverOf(model, { value: pieces.value, solution, bound, shouldContinue, fromBelowEvery: 1 })
}

function proves(state: Improver, { go, proof, lessons }: Prover, effort: number): News {
  if (effort > 0 && !proof.proven) go(effort)
  if (proof.value < state.pieces.value) take(state, proof.value, proof.solution.slice(0, state.pieces.starts.length))
  state.bound = Math.max(state.bound, proof.bound)
  const news = newsOf(state)
  return { ...news, conflicts: news.conflicts + proof.conflicts, lessons: lessons() }
}

function schedules({ search, pieces, bound }: Improver, until: number, shouldContinue: () => boolean): void {
  while (search.schedules() < until && search.best().end > bound && shouldContinue()) search.step()
  const { end, starts } = search.best()
  if (end >= pieces.value) return
  pieces.value = end
  pieces.starts = starts
}

function inPieces(state: Improver, effort: number): void {
  const { pieces, search, bound } = state
  const before = pieces.value
  pieces.go(effort, bound)
  if (pieces.value < before) search.tell(pieces.starts)
}

function take({ search, pieces }: Improver, value: number, starts: readonly number[]): void {
  search.tell(starts)
  pieces.value = value
  pieces.starts = starts
}

const newsOf = ({ search, pieces, bound }: Improver): News => ({
  value: pieces.value,
  starts: pieces.starts,
  bound,
  closed: pieces.value <= bound,
  schedules: search.schedules(),
  conflicts: pieces.conflicts,
})
