import { type Derivation, type Stages, tryChange } from '@shieldwright/engine'
import { keepBaseline, type Slippage } from '@shieldwright/engine/programme/index.ts'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { stakeholdersPage } from '@shieldwright/engine/report/stakeholders/stakeholdersPage.ts'
import type { IssueBefore } from '@shieldwright/engine/report/stakeholders/stakeholdersSheet.ts'
import { type SimulationResult, simulate } from '@shieldwright/engine/risk/index.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { HandIssue } from './boltUp.ts'

/** The page with the simulation that it shows. */
interface StakeholdersIssue extends HandIssue {
  simulation: SimulationResult
  before?: IssueBefore | undefined
}

interface Runs {
  runs: number
  seed: number
}

/** The restart under uncertainty for this page; undefined without a plan. */
export const restartAsked = ({ model, lift, programme }: Stages, runs: Runs): SimulationResult | undefined =>
  simulate(programme, lift, model, runs).result

/** The page; undefined without a plan. */
export const stakeholdersDrawings = (stages: Stages, { paper, ...issue }: StakeholdersIssue): Drawing[] | undefined =>
  stakeholdersPage(stages, { ...issue, ...(paper && { paper }) })

/** The same as PDF: the same stages and issue give the same bytes. */
export async function stakeholdersPdf(stages: Stages, issue: StakeholdersIssue): Promise<Uint8Array | undefined> {
  const pages = stakeholdersDrawings(stages, issue)
  if (pages === undefined) return undefined
  const subject = stages.model.project.about.title
  return pdfOf(pages, { title: 'Where the recovery stands', subject, date: new Date(`${issue.date}T00:00:00Z`) })
}

/**
 * What the page says of the issue before: its restart simulated with the same numbers, and what moved the plan since.
 *
 * @param before the project as it was then
 * @returns undefined where it had no plan
 */
export function issueBefore(
  now: Derivation,
  before: Stages,
  { name, date, ...runs }: Runs & { name: string; date: string },
): IssueBefore | undefined {
  const simulation = restartAsked(before, runs)
  const { origin } = before.programme
  if (simulation === undefined || origin === undefined) return undefined
  return { name, origin, simulation, slippage: slippageSince(now, before, { name, made: date }) }
}

const KEPT = 'issue-before'

/** The plan of today held against the plan of then: that plan is kept as a baseline of a copy, which is thrown away. */
function slippageSince(now: Derivation, before: Stages, about: { name: string; made: string }): Slippage | undefined {
  const kept = keepBaseline(before.programme, { id: KEPT, ...about })?.[0]
  if (kept === undefined || kept.op !== 'add') return undefined
  const path = kept.path.split('/').slice(0, -1).join('/')
  const { derivation } = tryChange(now, [
    // in the copy it is the only one, whatever the project keeps
    { op: 'add', path, value: { [KEPT]: kept.value } },
    { op: 'add', path: '/programme/baseline', value: KEPT },
  ])
  return derivation?.derived.stages?.programme.slippage
}
