import type { Stages } from '@shieldwright/engine'
import { dossierPages } from '@shieldwright/engine/report/dossier/dossierPages.ts'
import { type DossierSignature, dossierSheet } from '@shieldwright/engine/report/dossier/dossierSheet.ts'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { SignatureThen } from '../signing/signing.ts'
import type { AttachedPictures } from './attachedPictures.ts'
import type { HandIssue } from './boltUp.ts'

/** What a dossier is asked for with; signatures where it is made beside a store. */
export interface DossierIssue extends HandIssue {
  signatures?: readonly DossierSignature[] | undefined
  /** Photographs that the records name. */
  attached: AttachedPictures
}

/** Signatures as the dossier lists them, the first signed first. */
export const dossierSignatures = (all: readonly SignatureThen[]): DossierSignature[] =>
  all
    .map(({ id, kind, subject, role, by, at, state, statement }) => ({
      id,
      kind,
      subject,
      role,
      by,
      on: at.slice(0, 10),
      state,
      statement,
    }))
    .reverse()

/** The pages of the dossier; a project without records has one page that says so. */
export const dossierDrawings = (stages: Stages, { paper, attached, ...issue }: DossierIssue): Drawing[] =>
  dossierPages(stages, { ...issue, files: attached.files, ...(paper && { paper }) })

/** The same as PDF: the same stages and issue give the same bytes. */
export async function dossierPdf(stages: Stages, issue: DossierIssue): Promise<Uint8Array> {
  const subject = stages.model.project.about.title
  const paper = { title: 'Commissioning dossier', subject, date: new Date(`${issue.date}T00:00:00Z`) }
  return pdfOf(dossierDrawings(stages, issue), paper, issue.attached.pictures)
}

/** The same as data, with the date, revision and content that it was made from. */
export const dossierData = (stages: Stages, issue: DossierIssue) => {
  const { date, revision, contentHash, attached } = issue
  return { date, revision, contentHash, ...dossierSheet(stages, { ...issue, files: attached.files }) }
}
