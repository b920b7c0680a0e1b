import type { Stages } from '@shieldwright/engine'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { svgOf } from '@shieldwright/engine/report/index.ts'
import { type ProgrammePaper, programmeSheets } from '@shieldwright/engine/report/programme/programmeSheets.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { Issue } from './liftSheet.ts'

/** What the sheets of the programme are asked for with; A3 where no paper is named. */
export interface ProgrammeIssue extends Issue {
  paper?: ProgrammePaper | undefined
}

/** The programme over time; undefined without a plan. */
export const programmePages = (stages: Stages, { paper, ...issue }: ProgrammeIssue): Drawing[] | undefined =>
  programmeSheets(stages, { ...issue, ...(paper && { paper }) })

/** The same sheets as PDF: the same stages and issue give the same bytes. */
export async function programmePdf(stages: Stages, issue: ProgrammeIssue): Promise<Uint8Array | undefined> {
  const pages = programmePages(stages, issue)
  if (pages === undefined) return undefined
  const subject = stages.model.project.about.title
  return pdfOf(pages, { title: 'Programme', subject, date: new Date(`${issue.date}T00:00:00Z`) })
}

/** One of the sheets as SVG. */
export async function programmeSvg(
  stages: Stages,
  issue: ProgrammeIssue,
  page: number,
): Promise<Uint8Array | undefined> {
  const drawn = programmePages(stages, issue)?.[page]
  return drawn === undefined ? undefined : Buffer.from(svgOf(drawn))
}
