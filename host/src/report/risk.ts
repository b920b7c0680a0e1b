import type { Stages } from '@shieldwright/engine'
import { type RiskTold, riskSheets } from '@shieldwright/engine/report/risk/riskSheets.ts'
import { forecastBreakthrough, simulate } from '@shieldwright/engine/risk/index.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { Issue } from './liftSheet.ts'

interface RiskIssue extends Issue {
  runs: number
  seed: number
}

/** The restart under uncertainty as PDF, simulated for it; undefined where there is no plan to simulate. */
export async function riskPdf(stages: Stages, issue: RiskIssue): Promise<Uint8Array | undefined> {
  const told = riskTold(stages, issue)
  if (told === undefined) return undefined
  const { title } = told
  const date = new Date(`${issue.date}T00:00:00Z`)
  return pdfOf(riskSheets(told, issue), { title: 'Restart under uncertainty', subject: title, date })
}

function riskTold({ model, lift, programme }: Stages, { runs, seed }: RiskIssue): RiskTold | undefined {
  const { about } = model.project
  const { result: simulation } = simulate(programme, lift, model, { runs, seed, byList: true })
  if (simulation === undefined || programme.origin === undefined) return undefined
  const breakthrough = forecastBreakthrough(simulation, programme, model, { seed })
  return { title: about.title, invented: about.invented === true, origin: programme.origin, simulation, breakthrough }
}
