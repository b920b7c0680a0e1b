import type { Stages } from '@shieldwright/engine'
import { type RiskTold, riskSheets } from '@shieldwright/engine/report/risk/riskSheets.ts'
import { forecastBreakthrough, type SimulationResult, simulate } from '@shieldwright/engine/risk/index.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { Issue } from './liftSheet.ts'

interface Runs {
  runs: number
  seed: number
  /** Asked while it runs; false ends it with the runs made so far. */
  shouldContinue?: (() => boolean) | undefined
}

/** An issue with the simulation that it shows: runs to be made for it, or those made already. */
interface RiskIssue extends Issue, Runs {
  simulation?: SimulationResult | undefined
}

/** The restart under uncertainty, and were the site to decide anew whenever something ends; undefined without a plan. */
export const restartSimulated = (
  { model, lift, programme }: Stages,
  { runs, seed, shouldContinue }: Runs,
): SimulationResult | undefined => simulate(programme, lift, model, { runs, seed, byList: true, shouldContinue }).result

/** The restart under uncertainty as PDF, simulated for it; undefined where there is no plan to simulate. */
export async function riskPdf(stages: Stages, issue: RiskIssue): Promise<Uint8Array | undefined> {
  const told = riskTold(stages, issue)
  if (told === undefined) return undefined
  const { title } = told
  const date = new Date(`${issue.date}T00:00:00Z`)
  return pdfOf(riskSheets(told, issue), { title: 'Restart under uncertainty', subject: title, date })
}

/** What the sheet of the restart tells; undefined where there is no plan to simulate. */
export function riskTold(stages: Stages, issue: RiskIssue): RiskTold | undefined {
  const { model, programme } = stages
  const { seed, simulation = restartSimulated(stages, issue) } = issue
  const { about } = model.project
  if (simulation === undefined || programme.origin === undefined) return undefined
  const breakthrough = forecastBreakthrough(simulation, programme, model, { seed })
  return { title: about.title, invented: about.invented === true, origin: programme.origin, simulation, breakthrough }
}
