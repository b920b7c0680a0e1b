import {
  compareScenarios,
  derive,
  moveDerivation,
  type ScenarioOptions,
  type ScenarioTable,
  type Stages,
  startDerivation,
} from '@shieldwright/engine'
import {
  type Far,
  type Instance,
  type InstanceSolution,
  improvePlan,
  type PlanProposal,
  type SideOrder,
  solveInstance,
} from '@shieldwright/engine/programme/index.ts'
import type { DossierSignature } from '@shieldwright/engine/report/dossier/dossierSheet.ts'
import {
  type BreakthroughResult,
  forecastBreakthrough,
  measures,
  type SimulationResult,
  simulate,
  simulationChecks,
  type WhatIfs,
} from '@shieldwright/engine/risk/index.ts'
import type { LuckOptions } from '@shieldwright/engine/risk/luck.ts'
import { type FoundOrder, findOrder, type StripResult } from '@shieldwright/engine/strip/index.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { contentHash } from '../project/contentHash.ts'
import type { Book } from '../report/book.ts'
import type { JobOutcome, JobProject, Progress } from './job.ts'

/** An order that reaches targets, looked for. */
export interface OrderRequest {
  kind: 'order'
  targets?: readonly string[]
  effort?: number
}

/** Restart and cost under uncertainty. */
export interface SimulateRequest {
  kind: 'simulate'
  runs: number
  seed: number
  /** Also the restart were the site to decide anew whenever something ends. */
  byList?: boolean
  /** What each mitigation and each option buys as well: one simulation more for each. */
  measures?: boolean
}

/** An earlier plan, looked for. */
export interface PlanRequest {
  kind: 'plan'
  /** Schedules that may be made, and as many conflicts that may be learnt from. */
  effort: number
  seed: number
}

/** A short schedule of a benchmark instance. */
export interface InstanceRequest {
  kind: 'instance'
  instance: Instance
  /** Wall clock after which the best known is taken. */
  seconds: number
  /** Effort of each side instead of the clock: then the answer is the same on every machine. */
  effort?: number
  seed: number
}

/** The scenarios of the project beside it as it stands. */
export interface ScenariosRequest {
  kind: 'scenarios'
  /** Of the simulation of each. */
  runs: number
  seed: number
}

/** The campaign book as an issue that may go out; what changed is marked where the job has a project to compare with. */
export interface BookRequest {
  kind: 'book'
  /** Letter of the issue. */
  letter: string
  /** Date of issue, year-month-day. */
  date: string
  /** Revision to print. */
  revision?: string | undefined
  /** What it is compared with: as it is called, and its revision in the store that the job lies in. */
  since?:
    | { name: string; revision?: number | undefined; signatures?: readonly DossierSignature[] | undefined }
    | undefined
  /** Signatures of the store as they stood on the revision, and above on what it is compared with; none of a file alone. */
  signatures?: readonly DossierSignature[] | undefined
  units: UnitSystem
  /** Of the simulation that the sheet of the restart shows. */
  runs: number
  seed: number
}

export type JobRequest = OrderRequest | SimulateRequest | PlanRequest | InstanceRequest | ScenariosRequest | BookRequest

/** An order with what the file's own comes to. */
export interface OrderResult {
  found: FoundOrder
  adopted: Pick<StripResult, 'feasible' | 'failures'>
}

/** A simulation, what is held against it, and the instant its seconds count from. */
export interface SimulateResult {
  simulation: SimulationResult
  checks: readonly Check[]
  breakthrough: BreakthroughResult | undefined
  /** What each measure buys, and what each of the largest drivers costs. */
  whatIfs: Pick<WhatIfs, 'measures' | 'still'> | undefined
  origin: string | undefined
}

/** The book, and the SHA-256 of the project that it shows. */
export interface BookResult extends Book {
  content: string
}

interface Results {
  book: BookResult
  order: OrderResult
  simulate: SimulateResult
  plan: PlanProposal
  instance: InstanceSolution & { seconds: number }
  scenarios: ScenarioTable
}

/** What a kind of job gives. */
export type JobResult<K extends JobRequest['kind'] = JobRequest['kind']> = Results[K]

/** How a job is told to stop, and tells how far it has come. */
export interface Reins {
  shouldContinue: () => boolean
  progress: (progress: Progress) => void
  /** Begins the side of a solve that works in a thread of its own. */
  elsewhere: (order: SideOrder) => Far
  /** Threads that it may work in, its own among them. */
  threads: number
  /** Begins simulations in as many threads beside its own. */
  simulationsBeside: (others: number, options: LuckOptions) => NonNullable<ScenarioOptions['begin']>
}

type Jobs = {
  [K in JobRequest['kind']]: (
    project: JobProject,
    request: Extract<JobRequest, { kind: K }>,
    reins: Reins,
  ) => JobOutcome<Results[K]> | Promise<JobOutcome<Results[K]>>
}

/** Long computations by kind; each is a pure function of the project, the request and its seed, but for the clock of one. */
export const jobs: Jobs = {
  order: (project, request, reins) => onStages(project, (stages) => order(stages, request, reins)),
  simulate: (project, request, reins) => onStages(project, (stages) => simulated(stages, request, reins)),
  plan: (project, request, reins) => onStages(project, (stages) => plan(stages, request, reins)),
  instance: (_, request, reins) => instance(request, reins),
  scenarios,
  book,
}

/** Kinds whose best so far is kept when they are stopped. */
export const keptWhenStopped: ReadonlySet<JobRequest['kind']> = new Set(['plan', 'instance'])

function onStages<R>({ document, meshes }: JobProject, run: (stages: Stages) => JobOutcome<R>): JobOutcome<R> {
  const { stages, problems } = derive(document, undefined, meshes)
  return stages === undefined ? { problems } : run(stages)
}

function order({ model, mass, strip }: Stages, { targets, effort }: OrderRequest, { shouldContinue }: Reins) {
  const found = findOrder(model, mass, { targets, effort, shouldContinue }, freshMemory())
  return { result: { found, adopted: { feasible: strip.feasible, failures: strip.failures } } }
}

function simulated(stages: Stages, request: SimulateRequest, reins: Reins): JobOutcome<SimulateResult> {
  const { model, lift, programme } = stages
  const { runs, seed, byList } = request
  const onProgress = (done: number, of: number): void => reins.progress({ done, of })
  const options = { runs, seed, shouldContinue: reins.shouldContinue, onProgress }
  const { result: simulation, reason } = simulate(programme, lift, model, { ...options, byList })
  if (simulation === undefined) return noPlan(reason)
  const whatIfs = request.measures ? measures(programme, lift, model, options) : undefined
  return {
    result: {
      simulation,
      checks: simulationChecks(simulation, programme, model),
      breakthrough: forecastBreakthrough(simulation, programme, model, { seed }),
      whatIfs,
      origin: programme.origin,
    },
  }
}

function plan(
  { programme, model }: Stages,
  { effort, seed }: PlanRequest,
  { shouldContinue, progress, elsewhere }: Reins,
): JobOutcome<PlanProposal> {
  const onProgress = (done: number, of: number): void => progress({ done, of })
  const result = improvePlan(programme, {
    effort,
    seed,
    shouldContinue,
    onProgress,
    elsewhere,
    typed: model.project.programme,
  })
  return result === undefined ? noPlan('there is no plan to improve') : { result }
}

/** The branches are worked out here, the simulations of them by every thread; with one thread, one after the other. */
function scenarios(
  { document, meshes }: JobProject,
  { runs, seed }: ScenariosRequest,
  { shouldContinue, progress, threads, simulationsBeside }: Reins,
): JobOutcome<ScenarioTable> {
  const others = Math.min(threads, scenariosIn(document)) - 1
  const luck = { runs, seed, shouldContinue }
  // before the project is worked out, so that the threads are there when the first simulation is
  const begin = others > 0 ? simulationsBeside(others, luck) : undefined
  const derivation = startDerivation(document, meshes)
  if (derivation.derived.stages === undefined) return { problems: derivation.derived.problems }
  const onProgress = (done: number, of: number): void => progress({ done, of })
  return { result: compareScenarios(derivation, { ...luck, onProgress, ...(begin && { begin }) }) }
}

/** As the document has them, read or not. */
const scenariosIn = (document: unknown): number =>
  Object.keys((document as { scenarios?: object } | undefined)?.scenarios ?? {}).length

/** The earlier project is worked out from the present one, so that what they share is worked out once. */
async function book(
  { document, meshes, before, attached }: JobProject,
  { letter, date, revision, since, signatures, units, runs, seed }: BookRequest,
  { shouldContinue, progress }: Reins,
): Promise<JobOutcome<BookResult>> {
  const derivation = startDerivation(document, meshes)
  const { stages, problems } = derivation.derived
  if (stages === undefined) return { problems }
  const earlier = before && moveDerivation(derivation, before.document, before.meshes).derived
  if (earlier !== undefined && earlier.stages === undefined) return { problems: earlier.problems }
  // only here, so that other jobs do not wait for what writes PDF
  const { campaignBook } = await import('../report/book.ts')
  const content = contentHash(document)
  const made = await campaignBook({
    stages,
    before: earlier?.stages,
    issue: { date, contentHash: content, units, ...(revision && { revision }) },
    letter,
    since: since?.name,
    signatures,
    signaturesBefore: since?.signatures,
    attached,
    runs,
    seed,
    onStep: progress,
    shouldContinue,
  })
  return made === undefined ? { cancelled: true } : { result: { ...made, content } }
}

const noPlan = (found: string) => ({
  problems: [{ pointer: '/programme', found, expected: 'a programme whose plan can be worked with' }],
})

/** Conflicts to learn from: more than any wait allows, so that the clock ends the search. */
const MOST_CONFLICTS = 1_000_000_000

function instance({ instance: of, seconds, effort, seed }: InstanceRequest, { shouldContinue, elsewhere }: Reins) {
  const start = performance.now()
  const elapsed = (): number => (performance.now() - start) / 1000
  const goesOn = (): boolean => shouldContinue() && (effort !== undefined || elapsed() < seconds)
  const options = { effort: effort ?? MOST_CONFLICTS, seed, shouldContinue: goesOn, elsewhere }
  return { result: { ...solveInstance(of, options), seconds: elapsed() } }
}
