import type { Stages } from '@shieldwright/engine'
import { boltUpPages } from '@shieldwright/engine/report/bolt-up/boltUpPages.ts'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import type { HandPaper } from '@shieldwright/engine/report/paper/size.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { Issue } from './liftSheet.ts'

/** What bolt-up sheets are asked for with. */
export interface HandIssue extends Issue {
  /** A4 where none is named. */
  paper?: HandPaper | undefined
}

/** The name under which the sheets of every step are asked for as one document. */
export const EVERY_STEP = 'all'

/** Bolt-up sheets of a step, or of all; undefined where no such step closes a joint with bolts. */
export const boltUpDrawings = (stages: Stages, step: string, { paper, ...issue }: HandIssue): Drawing[] | undefined =>
  boltUpPages(stages, step === EVERY_STEP ? undefined : step, { ...issue, ...(paper && { paper }) })

/** The same as PDF: the same stages and issue give the same bytes. */
export async function boltUpPdf(stages: Stages, step: string, issue: HandIssue): Promise<Uint8Array | undefined> {
  const pages = boltUpDrawings(stages, step, issue)
  if (pages === undefined) return undefined
  const title = step === EVERY_STEP ? 'Bolt-up sheets' : `Bolt-up sheets of ${step}`
  return pdfOf(pages, { title, subject: stages.model.project.about.title, date: new Date(`${issue.date}T00:00:00Z`) })
}
