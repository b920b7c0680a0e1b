import type { Stages } from '@shieldwright/engine'
import { orderPages } from '@shieldwright/engine/report/order/orderPages.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { HandIssue } from './boltUp.ts'

/** The order of taking apart as PDF: the same stages and issue give the same bytes; undefined where there are no steps. */
export async function orderPdf(stages: Stages, { paper, ...issue }: HandIssue): Promise<Uint8Array | undefined> {
  const pages = orderPages(stages, { ...issue, ...(paper && { paper }) })
  if (pages === undefined) return undefined
  const subject = stages.model.project.about.title
  return pdfOf(pages, { title: 'Order of taking apart', subject, date: new Date(`${issue.date}T00:00:00Z`) })
}
