import { boltUpPages } from '../bolt-up/boltUpPages.ts'
import { type CampaignStages, campaignDiagram } from '../campaign/index.ts'
import { dossierPages } from '../dossier/dossierPages.ts'
import type { DossierOptions } from '../dossier/dossierSheet.ts'
import type { Drawing } from '../drawing.ts'
import { orderPages } from '../order/orderPages.ts'
import { programmeSheets } from '../programme/programmeSheets.ts'
import type { DocumentKind, ReportResult } from '../report.ts'
import { riggingSheets } from '../rigging/riggingSheet.ts'
import { type RiskTold, riskSheets } from '../risk/riskSheets.ts'
import { liftTitle } from '../sheet/liftSheet.ts'
import { liftSheetPages } from '../sheet/pages.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { sitePlan, siteSections, siteSettlement, siteShaft } from '../site/index.ts'

/** What the book is made from. */
export type BookStages = CampaignStages & SheetStages & { report: ReportResult }

/** A document of the book: its sheets are drawn when they are asked for. */
export interface BookPart {
  id: string
  title: string
  draw: () => readonly Drawing[]
}

/**
 * Every document of the campaign in the order in which it is read: the whole first, then each lift in the order of the work with
 * its rigging, then the bolts to close, then what is on record until the machine runs again.
 *
 * @param options with the signatures of the store and the photographs beside the project, where the dossier is to hold them
 * @param told the restart as simulated, where it was
 */
export function bookParts(stages: BookStages, options: DossierOptions, told?: RiskTold): BookPart[] {
  const { date, contentHash, revision, units } = options
  const issued = date === undefined || contentHash === undefined ? {} : { issued: { date, contentHash } }
  const seconds = told?.simulation.restart
  const parts: BookPart[] = [
    {
      id: 'campaign',
      title: 'Campaign diagram',
      draw: () => {
        const asked = { ...(units && { units }), ...(revision && { revision }), ...(seconds && { simulated: seconds }) }
        const drawn = campaignDiagram(stages, { paper: 'A2', ...asked, ...issued })
        return drawn === undefined ? [] : [drawn]
      },
    },
    { id: 'programme', title: 'Programme', draw: () => programmeSheets(stages, options) ?? [] },
    {
      id: 'restart',
      title: 'Restart under uncertainty',
      draw: () => (told === undefined ? [] : riskSheets(told, options)),
    },
    { id: 'site-plan', title: 'Plan of the site', draw: () => sitePlan(stages, options) },
    { id: 'site-sections', title: 'Sections of the site', draw: () => siteSections(stages, options) },
    { id: 'site-shaft', title: 'The shaft, stage by stage', draw: () => siteShaft(stages, options) },
    { id: 'site-settlement', title: 'Settlement of the site', draw: () => siteSettlement(stages, options) },
    { id: 'order', title: 'Order of taking apart', draw: () => orderPages(stages, options) ?? [] },
    ...liftIds(stages).flatMap((lift): BookPart[] => [
      { id: `lift/${lift}`, title: titleOf(lift, stages), draw: () => liftSheetPages(stages, lift, options) ?? [] },
      {
        id: `rigging/${lift}`,
        title: `Rigging: ${titleOf(lift, stages)}`,
        draw: () => riggingSheets(stages, lift, options) ?? [],
      },
    ]),
    { id: 'bolt-up', title: 'Bolt-up sheets', draw: () => boltUpPages(stages, undefined, options) ?? [] },
    {
      id: 'dossier',
      title: 'Commissioning dossier',
      draw: () => (isIssued('dossier', stages) ? dossierPages(stages, options) : []),
    },
  ]
  return parts.filter(({ id }) => id !== 'restart' || told !== undefined)
}

/** Whether the report stage has such a document to issue. */
const isIssued = (kind: DocumentKind, { report }: BookStages): boolean =>
  report.documents.some((document) => document.kind === kind)

/** Lifts in the order of the work, as the report stage lists their sheets. */
const liftIds = ({ report }: BookStages): string[] =>
  report.documents.flatMap(({ kind, of }) => (kind === 'lift-sheet' ? [of] : []))

function titleOf(lift: string, { model, lift: { lifts } }: BookStages): string {
  const outcome = lifts[lift]
  const piece = outcome === undefined ? lift : (model.project.pieces[outcome.piece]?.name ?? outcome.piece)
  return outcome === undefined ? lift : liftTitle(piece, outcome.kind)
}
