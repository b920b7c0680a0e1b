import { type Derivation, tryChange } from './derivation.ts'
import type { Stages } from './derive.ts'
import { chanceInputs, type Saved, savedBy } from './risk/index.ts'
import { type Luck, type LuckOptions, type Simulated, simulateLuck } from './risk/luck.ts'
import { type CheckChange, checkChanges, instantOf, type Standing, standing } from './whatif.ts'
import { type Memory, sameItems } from './working/memory.ts'
import type { Patch } from './working/patch.ts'
import type { Problem } from './working/problem.ts'

/** Restart and cost of one branch, from runs that draw the same luck as those of every other. */
export interface Chances {
  p50: string | null
  p80: string | null
  /** In the currency of the project. */
  cost: { p50: number; p80: number }
  /** Against the project as it stands, run by run, s; positive where the restart comes sooner. None for the project itself. */
  saved?: Saved
}

/** A branch of the project beside the others. */
export interface ScenarioRow {
  /** Undefined for the project as it stands. */
  id: string | undefined
  name: string
  why?: string
  standing: Standing
  /** Checks whose verdict differs from the project as it stands, and how many only move their figures. */
  moved: readonly CheckChange[]
  figures: number
  chances?: Chances
  /** Why there are no chances. */
  reason?: string
}

/** A branch that makes no project, with what stands in its way. */
export interface BrokenScenario {
  id: string
  name: string
  problems: readonly Problem[]
}

export interface ScenarioTable {
  rows: readonly ScenarioRow[]
  broken: readonly BrokenScenario[]
  runs: number
  seed: number
  work: ScenarioWork
}

/** What it took: everything else of the branches is the project's own, worked out once. */
export interface ScenarioWork {
  /** Results worked again for the branches, and results of the project. */
  again: number
  whole: number
  /** Plans made anew for the branches. */
  plans: number
  /** Simulations made, that of the project among them; a branch that nothing of luck is different in shares one. */
  simulations: number
}

/** A simulation that was begun; the same whoever makes it. */
export interface BegunSimulation {
  isEnded(): boolean
  /** Waits for it, or makes it here. */
  end(): Simulated
}

export interface ScenarioOptions extends LuckOptions {
  /** Branches worked through, and how many there are. */
  onProgress?: (done: number, of: number) => void
  /** Begins a simulation while the next branch is worked out, such as in another thread; without it each is made at once. */
  begin?: (luck: Luck) => BegunSimulation
}

/**
 * The project as it stands and each of its scenarios side by side: verdicts, planned restart, chances of restart and cost. What a
 * scenario does not touch is not worked again, and all draw their luck from the same streams, so that differences have small errors.
 *
 * @returns the table; a scenario whose patch makes no project stands apart, with its problems
 */
export function compareScenarios(from: Derivation, options: ScenarioOptions): ScenarioTable {
  const { runs, seed } = options
  const work: ScenarioWork = { again: 0, whole: total(from.memory), plans: 0, simulations: 0 }
  const base = from.derived.stages
  if (base === undefined) return { rows: [], broken: [], runs, seed, work }
  const scenarios = Object.entries(base.model.project.scenarios)
  const begin = beginner(options, work)
  options.onProgress?.(0, scenarios.length)
  const branches: Branch[] = [branchOf({ id: undefined, name: 'as it stands' }, base, base, begin(base))]
  const broken: BrokenScenario[] = []
  const tell = (): void => options.onProgress?.(broken.length + endedOf(branches.slice(1)), scenarios.length)
  for (const [id, { name, why, patch }] of scenarios) {
    if (options.shouldContinue?.() === false) break
    tell()
    const { derivation, problems } = tryChange(from, patch as Patch)
    const stages = derivation?.derived.stages
    if (derivation === undefined || stages === undefined) {
      broken.push({ id, name, problems: derivation?.derived.problems ?? problems })
      continue
    }
    work.again += total(derivation.memory)
    if (stages.programme.solved?.planned !== base.programme.solved?.planned) work.plans++
    const about = { id, name, ...(why === undefined ? {} : { why }) }
    branches.push(branchOf(about, base, stages, begin(stages)))
  }
  // from the last on: what others have not come to yet is made here meanwhile
  for (const { simulation } of branches.toReversed()) {
    simulation.end()
    tell()
  }
  const stands = branches[0]?.simulation.end()
  return { rows: branches.map((branch) => rowOf(branch, stands)), broken, runs, seed, work }
}

/** A branch with its verdicts, whose chances may still be on their way. */
interface Branch {
  row: Omit<ScenarioRow, 'chances' | 'reason'>
  origin: Stages['programme']['origin']
  simulation: BegunSimulation
}

const endedOf = (branches: readonly Branch[]): number =>
  branches.filter(({ simulation }) => simulation.isEnded()).length

const total = ({ computed }: Memory): number => Object.values(computed).reduce((sum, n) => sum + n, 0)

/** Begins the simulation of a branch, once for all whose runs would be the same. */
function beginner(options: ScenarioOptions, work: ScenarioWork): (of: Stages) => BegunSimulation {
  const begun: { inputs: readonly unknown[]; simulation: BegunSimulation }[] = []
  const begin = options.begin ?? ((luck) => madeAtOnce(luck, options))
  return ({ programme, lift, model }) => {
    const inputs = chanceInputs(programme, lift, model)
    const known = begun.find((other) => sameItems(other.inputs, inputs))
    if (known !== undefined) return known.simulation
    const simulation = begin({ programme, lift, model })
    work.simulations++
    begun.push({ inputs, simulation })
    return simulation
  }
}

function madeAtOnce(luck: Luck, options: LuckOptions): BegunSimulation {
  const { runs, seed, shouldContinue } = options
  const made = simulateLuck(luck, { runs, seed, ...(shouldContinue && { shouldContinue }) })
  return { isEnded: () => true, end: () => made }
}

function branchOf(
  about: Pick<ScenarioRow, 'id' | 'name' | 'why'>,
  base: Stages,
  stages: Stages,
  simulation: BegunSimulation,
): Branch {
  const changes = checkChanges(base.checks, stages.checks)
  const moved = changes.filter((c) => c.moved)
  const row = { ...about, standing: standing(stages), moved, figures: changes.length - moved.length }
  return { row, origin: stages.programme.origin, simulation }
}

function rowOf({ row, origin, simulation }: Branch, stands: Simulated | undefined): ScenarioRow {
  const simulated = simulation.end()
  if ('reason' in simulated) return { ...row, reason: simulated.reason }
  return { ...row, chances: chancesOf(origin, simulated, row.id === undefined ? undefined : stands) }
}

function chancesOf(
  origin: Branch['origin'],
  simulated: Exclude<Simulated, { reason: string }>,
  stands: Simulated | undefined,
): Chances {
  const { restart, cost } = simulated.result
  const before = stands === undefined || 'reason' in stands ? undefined : stands.runs.restart
  const after = simulated.runs.restart
  const isWhole = before !== undefined && before.length === after.length
  return {
    p50: instantOf(origin, restart.p50),
    p80: instantOf(origin, restart.p80),
    cost: { p50: cost.p50, p80: cost.p80 },
    ...(isWhole ? { saved: savedBy(before, after) } : {}),
  }
}
