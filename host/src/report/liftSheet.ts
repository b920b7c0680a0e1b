import type { Stages } from '@shieldwright/engine'
import { liftSheetPages } from '@shieldwright/engine/report/index.ts'
import type { LiftPaper } from '@shieldwright/engine/report/paper/size.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { pdfOf } from '../paper/pdf.ts'

/** What is printed on a sheet beside what the model says. */
export interface Issue {
  /** Date of issue, year-month-day. */
  date: string
  contentHash: string
  revision?: string
  units: UnitSystem
}

/** A lift sheet is asked for on A3, A4 or Letter. */
export interface LiftIssue extends Issue {
  paper?: LiftPaper | undefined
}

/** The sheet of one lift as PDF: the same stages and issue give the same bytes; undefined when there is no such lift. */
export async function liftSheetPdf(stages: Stages, lift: string, issue: LiftIssue): Promise<Uint8Array | undefined> {
  const pages = liftSheetPages(stages, lift, issue)
  if (pages === undefined) return undefined
  const { title } = stages.model.project.about
  return pdfOf(pages, { title: `Lift sheet ${lift}`, subject: title, date: new Date(`${issue.date}T00:00:00Z`) })
}
