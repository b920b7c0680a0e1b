import { type Derivation, tryChange } from './derivation.ts'
import type { Stages } from './derive.ts'
import { type Saved, savedBy, simulatedRuns } from './risk/index.ts'
import { type CheckChange, checkChanges, instantOf, type Standing, standing } from './whatif.ts'
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
  const base = from.derived.stages
  if (base === undefined) return { rows: [], broken: [], runs, seed }
  const scenarios = Object.entries(base.model.project.scenarios)
  const stands = simulatedIn(base, options)
  const rows: ScenarioRow[] = [rowOf({ id: undefined, name: 'as it stands' }, base, base, stands, stands)]
  const broken: BrokenScenario[] = []
  for (const [i, [id, { name, why, patch }]] of scenarios.entries()) {
    if (options.shouldContinue?.() === false) break
    options.onProgress?.(i, scenarios.length)
    const tried = tryChange(from, patch as Patch)
    const stages = tried.derivation?.derived.stages
    if (stages === undefined) {
      broken.push({ id, name, problems: tried.derivation?.derived.problems ?? tried.problems })
      continue
    }
    const about = { id, name, ...(why === undefined ? {} : { why }) }
    rows.push(rowOf(about, base, stages, stands, isSameChance(base, stages) ? stands : simulatedIn(stages, options)))
  }
  options.onProgress?.(scenarios.length, scenarios.length)
  return { rows, broken, runs, seed }
}

type Simulated = ReturnType<typeof simulatedRuns>

const simulatedIn = ({ programme, lift, model }: Stages, { runs, seed, shouldContinue }: ScenarioOptions): Simulated =>
  simulatedRuns(programme, lift, model, { runs, seed, ...(shouldContinue === undefined ? {} : { shouldContinue }) })

/** Nothing that luck acts on has changed: the runs would be the same ones. */
const isSameChance = (a: Stages, b: Stages): boolean =>
  a.programme === b.programme &&
  a.lift === b.lift &&
  a.model.project.risks === b.model.project.risks &&
  a.model.project.climate === b.model.project.climate &&
  a.model.project.correlations === b.model.project.correlations

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
  return { ...row, chances: chancesOf(stages, simulated, stands) }
}

function chancesOf(
  { programme: { origin } }: Stages,
  simulated: Exclude<Simulated, { reason: string }>,
  stands: Simulated,
): Chances {
  const { restart, cost } = simulated.result
  const isWhole = !('reason' in stands) && stands.runs.restart.length === simulated.runs.restart.length
  return {
    p50: instantOf(origin, restart.p50),
    p80: instantOf(origin, restart.p80),
    cost: { p50: cost.p50, p80: cost.p80 },
    ...(isWhole && simulated !== stands ? { saved: savedBy(stands.runs.restart, simulated.runs.restart) } : {}),
  }
}
