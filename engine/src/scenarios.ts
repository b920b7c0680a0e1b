import { type Derivation, tryChange } from './derivation.ts'
import type { Stages } from './derive.ts'
import { chanceInputs, type Saved, savedBy, simulatedRuns } from './risk/index.ts'
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

export interface ScenarioOptions {
  runs: number
  seed: number
  shouldContinue?: () => boolean
  /** Branches worked through, and how many there are. */
  onProgress?: (done: number, of: number) => void
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
  const simulated = simulator(options, work)
  const stands = simulated(base)
  const rows: ScenarioRow[] = [rowOf({ id: undefined, name: 'as it stands' }, base, base, stands, stands)]
  const broken: BrokenScenario[] = []
  for (const [i, [id, { name, why, patch }]] of scenarios.entries()) {
    if (options.shouldContinue?.() === false) break
    options.onProgress?.(i, scenarios.length)
    const { derivation, problems } = tryChange(from, patch as Patch)
    const stages = derivation?.derived.stages
    if (derivation === undefined || stages === undefined) {
      broken.push({ id, name, problems: derivation?.derived.problems ?? problems })
      continue
    }
    work.again += total(derivation.memory)
    if (stages.programme.solved?.planned !== base.programme.solved?.planned) work.plans++
    const about = { id, name, ...(why === undefined ? {} : { why }) }
    rows.push(rowOf(about, base, stages, stands, simulated(stages)))
  }
  options.onProgress?.(scenarios.length, scenarios.length)
  return { rows, broken, runs, seed, work }
}

const total = ({ computed }: Memory): number => Object.values(computed).reduce((sum, n) => sum + n, 0)

type Simulated = ReturnType<typeof simulatedRuns>

/** Simulates a branch, once for all whose runs would be the same. */
function simulator({ runs, seed, shouldContinue }: ScenarioOptions, work: ScenarioWork): (of: Stages) => Simulated {
  const made: { inputs: readonly unknown[]; simulated: Simulated }[] = []
  return ({ programme, lift, model }) => {
    const inputs = chanceInputs(programme, lift, model)
    const known = made.find((other) => sameItems(other.inputs, inputs))
    if (known !== undefined) return known.simulated
    const options = { runs, seed, ...(shouldContinue === undefined ? {} : { shouldContinue }) }
    const simulated = simulatedRuns(programme, lift, model, options)
    work.simulations++
    made.push({ inputs, simulated })
    return simulated
  }
}

function rowOf(
  about: Pick<ScenarioRow, 'id' | 'name' | 'why'>,
  base: Stages,
  stages: Stages,
  stands: Simulated,
  simulated: Simulated,
): ScenarioRow {
  const changes = checkChanges(base.checks, stages.checks)
  const moved = changes.filter((c) => c.moved)
  const row = { ...about, standing: standing(stages), moved, figures: changes.length - moved.length }
  if ('reason' in simulated) return { ...row, reason: simulated.reason }
  return { ...row, chances: chancesOf(stages, simulated, about.id === undefined ? undefined : stands) }
}

function chancesOf(
  { programme: { origin } }: Stages,
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
