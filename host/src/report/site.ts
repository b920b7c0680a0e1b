import type { Stages } from '@shieldwright/engine'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { riggingSheets } from '@shieldwright/engine/report/rigging/riggingSheet.ts'
import {
  type SitePaper,
  sitePlan,
  siteSections,
  siteSettlement,
  siteShaft,
} from '@shieldwright/engine/report/site/index.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { Issue } from './liftSheet.ts'

/** What a drawing of the site is asked for with. */
export interface SiteIssue extends Issue {
  paper?: SitePaper
  /** Step of the order that is shown; the governing one where none is named. */
  step?: string
}

/** Drawings of the whole site, by the name of their document. */
export const SITE_DRAWINGS = {
  plan: { title: 'Plan of the site', draw: sitePlan },
  sections: { title: 'Sections of the site', draw: siteSections },
  shaft: { title: 'The shaft, stage by stage', draw: siteShaft },
  settlement: { title: 'Settlement of the site', draw: siteSettlement },
} as const

export type SiteDrawing = keyof typeof SITE_DRAWINGS

export const isSiteDrawing = (name: string): name is SiteDrawing => Object.hasOwn(SITE_DRAWINGS, name)

/** A drawing of the site as PDF: the same stages and issue give the same bytes. */
export function sitePdf(stages: Stages, name: SiteDrawing, issue: SiteIssue): Promise<Uint8Array> {
  const { title, draw } = SITE_DRAWINGS[name]
  return printed(stages, draw(stages, issue), title, issue)
}

/** The rigging of one lift as PDF; undefined when there is no such lift. */
export async function riggingPdf(stages: Stages, lift: string, issue: Issue): Promise<Uint8Array | undefined> {
  const pages = riggingSheets(stages, lift, issue)
  return pages === undefined ? undefined : printed(stages, pages, `Rigging of ${lift}`, issue)
}

function printed(stages: Stages, pages: readonly Drawing[], title: string, { date }: Issue): Promise<Uint8Array> {
  return pdfOf(pages, {
    title,
    subject: stages.model.project.about.title,
    date: new Date(`${date}T00:00:00Z`),
  })
}
