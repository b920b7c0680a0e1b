import type { Stages } from '@shieldwright/engine'
import { type DailyPageOptions, dailyPages } from '@shieldwright/engine/report/daily/dailyPages.ts'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { HandIssue } from './boltUp.ts'

/** What a daily report is asked for with: the last day of the diary where none is named. */
export interface DailyIssue extends HandIssue, Pick<DailyPageOptions, 'day'> {}

/** The daily report; undefined where the diary has no such day. */
export const dailyDrawings = (stages: Stages, { paper, ...issue }: DailyIssue): Drawing[] | undefined =>
  dailyPages(stages, { ...issue, ...(paper && { paper }) })

/** The same as PDF: the same stages and issue give the same bytes. */
export async function dailyPdf(stages: Stages, issue: DailyIssue): Promise<Uint8Array | undefined> {
  const pages = dailyDrawings(stages, issue)
  if (pages === undefined) return undefined
  const subject = stages.model.project.about.title
  return pdfOf(pages, { title: 'Daily report', subject, date: new Date(`${issue.date}T00:00:00Z`) })
}
