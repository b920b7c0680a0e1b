import { type Bound, lowerBound } from '../bound.ts'
import { quickPlan } from '../improve.ts'
import { type Genetic, geneticOf } from './genetic.ts'
import { type Instance, networkOfInstance } from './instance.ts'
import { type Model, withFirsts } from './model.ts'
import { modelOfInstance } from './modelOfInstance.ts'
import { type Neighbourhoods, neighbourhoodsOf } from './neighbourhood.ts'
import { type Proof, type Prover, proverOf } from './prove.ts'
import { type SharesSource, sharesSourceOf } from './shares.ts'
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

/** A proof is near while what is open is no more than a share of the best: with twice the jobs half the share (measured with 30 and 60). */
const NEAR_TIMES_JOBS = 4.8
const isNear = (value: number, bound: number, jobs: number): boolean =>
  (value - bound) * jobs <= NEAR_TIMES_JOBS * value

/** A near proof is done sooner when what is decided goes to earlier starts; while it is far, the best schedule leads to better ones. */
const nearWith =
  (jobs: number) =>
  ({ value, bound }: Proof): boolean =>
    isNear(value, bound, jobs)

interface ProvingSide {
  prover: Prover
  model: Model
  /** Made when the proof turns out to be far. */
  improver: Side | undefined
  makeImprover: () => Side
  jobs: number
  turn: number
}

/** Conflicts before a proof that is not near counts as far. */
const CONFLICTS_FIRST = 6000

/**
 * The side that proves: it learns from every conflict, and each supposes what is left of the range. While the proof is far it
 * improves as well, every other time, on other luck than the side that does nothing else.
 */
export function instanceProver(
  instance: Instance,
  ground: InstanceGround,
  seed: number,
  shouldContinue?: () => boolean,
): Side {
  const jobs = instance.durations.length
  const model = modelOfInstance(instance, ground.value)
  const { value, starts, bound } = ground
  const options = {
    value,
    solution: withFirsts(model, starts),
    bound,
    isNear: nearWith(jobs),
    shares: sharesSourceOf(instance, value),
  }
  const prover = proverOf(model, shouldContinue === undefined ? options : { ...options, shouldContinue })
  const makeImprover = (): Side => instanceImprover(instance, ground, seed + 1, shouldContinue)
  const state: ProvingSide = { prover, model, improver: undefined, makeImprover, jobs, turn: 0 }
  const news = (): News => {
    const { proof } = prover
    const known = { value: proof.value, starts: proof.solution.slice(0, jobs) }
    return { ...known, bound: proof.bound, closed: proof.proven, schedules: 0, conflicts: proof.conflicts }
  }
  const lessons = (news: News): News => ({ ...news, lessons: prover.lessons() })
  return {
    go: (effort) => {
      if (effort === 0 || prover.proof.proven) return news()
      if (isFar(state) && state.turn++ % 2 === 0) improves(state, news(), effort)
      else prover.go(effort)
      return news()
    },
    tell: (told) => {
      prover.tell({ ...told, solution: withFirsts(model, told.starts) })
      return lessons(news())
    },
  }
}

const isFar = ({ prover: { proof }, jobs }: ProvingSide): boolean =>
  proof.conflicts >= CONFLICTS_FIRST && !isNear(proof.value, proof.bound, jobs)

function improves(state: ProvingSide, known: News, effort: number): void {
  state.improver ??= state.makeImprover()
  state.improver.tell(known)
  const { value, starts } = state.improver.go(effort)
  const { prover, model } = state
  if (value < prover.proof.value) prover.tell({ value, solution: withFirsts(model, starts), bound: prover.proof.bound })
}

interface Improver {
  search: Genetic
  model: Model
  pieces: Neighbourhoods
  shares: SharesSource
  /** A second proof, once schedules alone gain no more and the bound is near. */
  second: Prover | undefined
  bound: number
  /** Schedules made when the best was last bettered. */
  gainedAt: number
}

/** A conflict costs about as much as so many schedules. */
const SCHEDULES_EACH = 18
/** Schedules for each job before the exact engine takes its share. */
const SCHEDULES_FIRST = 360

/** After so many times as many without a gain, where the proof is near, this side proves as well. */
const WITHOUT_GAIN = 3

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
  const shares = sharesSourceOf(instance, ground.value)
  const state: Improver = { search, model, pieces, shares, second: undefined, bound: ground.bound, gainedAt: 0 }
  const first = SCHEDULES_FIRST * instance.durations.length
  return {
    go: (effort) => {
      if (state.second !== undefined) return proves(state, state.second, effort)
      const before = pieces.value
      const onSchedules = search.schedules() < first ? effort : effort / 2
      schedules(state, search.schedules() + SCHEDULES_EACH * onSchedules, shouldContinue)
      if (onSchedules < effort && shouldContinue()) inPieces(state, effort - onSchedules)
      if (pieces.value < before) state.gainedAt = search.schedules()
      return newsOf(state)
    },
    tell: (told) => {
      state.bound = Math.max(state.bound, told.bound)
      if (told.value < pieces.value) take(state, told.value, told.starts)
      if (
        search.schedules() - state.gainedAt >= WITHOUT_GAIN * first &&
        isNear(pieces.value, state.bound, instance.durations.length)
      )
        state.second ??= secondOf(state, shouldContinue)
      state.second?.tell({ ...told, solution: withFirsts(model, told.starts) })
      return newsOf(state)
    },
  }
}

/** Another way than the first proof: it always supposes the least that is not ruled out. */
function secondOf({ model, pieces, shares, bound }: Improver, shouldContinue: () => boolean): Prover {
  const solution = withFirsts(model, pieces.starts)
  const near = nearWith(pieces.starts.length)
  const known = { value: pieces.value, solution, bound }
  return proverOf(model, { ...known, shouldContinue, fromBelowEvery: 1, isNear: near, shares })
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
  pieces.go(effort, bound, search)
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
