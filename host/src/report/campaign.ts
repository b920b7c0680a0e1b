import type { Stages } from '@shieldwright/engine'
import { campaignDiagram, type Paper, type Simulated } from '@shieldwright/engine/report/campaign/index.ts'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { svgOf } from '@shieldwright/engine/report/index.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { Issue } from './liftSheet.ts'

/** Instants of the restart in UTC milliseconds: P10, P50, P80, P90. */
export type Chances = readonly [number, number, number, number]

/** What the campaign diagram is asked for with. */
export interface CampaignIssue extends Issue {
  /** A2 where none is named. */
  paper?: Paper
  /** Restart as simulated, UTC milliseconds: P10, P50, P80, P90. */
  simulated?: Chances
}

/** The campaign on one sheet; undefined without a programme that lifts something. */
export function campaignPage(stages: Stages, issue: CampaignIssue): Drawing | undefined {
  const { units, revision, date, contentHash, paper = 'A2' } = issue
  const simulated = simulatedOf(issue, stages)
  return campaignDiagram(stages, {
    paper,
    units,
    issued: { date, contentHash },
    ...(revision === undefined ? {} : { revision }),
    ...(simulated === undefined ? {} : { simulated }),
  })
}

function simulatedOf({ simulated }: CampaignIssue, { programme }: Stages): Simulated | undefined {
  if (simulated === undefined || programme.origin === undefined) return undefined
  const zero = Date.parse(programme.origin)
  const [p10, p50, p80, p90] = simulated.map((instant) => (instant - zero) / 1000) as [number, number, number, number]
  return { p10, p50, p80, p90 }
}

/** The same sheet as PDF: the same stages and issue give the same bytes. */
export async function campaignPdf(stages: Stages, issue: CampaignIssue): Promise<Uint8Array | undefined> {
  const page = campaignPage(stages, issue)
  if (page === undefined) return undefined
  const { title } = stages.model.project.about
  return pdfOf([page], { title: 'Campaign diagram', subject: title, date: new Date(`${issue.date}T00:00:00Z`) })
}

/** The same sheet as SVG. */
export async function campaignSvg(stages: Stages, issue: CampaignIssue): Promise<Uint8Array | undefined> {
  const page = campaignPage(stages, issue)
  return page === undefined ? undefined : Buffer.from(svgOf(page))
}
