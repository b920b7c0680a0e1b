import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { DocumentView } from './view.ts'

/** A file of a document that the host makes. */
export interface PaperLink {
  href: string
  file: string
  /** Paper, or the form of the file. */
  words: string
}

/** What a file is, for its link: a JSON file is no paper. */
export const formOf = ({ file, words }: PaperLink): string => (file.endsWith('.pdf') ? `PDF, ${words}` : words)

const LARGE = ['A3', 'A2', 'A1'] as const

/** Where each paper of a document can be had. */
export function linksOf({ kind, of }: DocumentView, system: UnitSystem): PaperLink[] {
  const pdf = (path: string, file: string, papers: readonly string[], chosen: boolean): PaperLink[] =>
    papers.map((paper) => ({
      href: `/api/report/${path}.pdf?units=${system}${chosen ? `&paper=${paper}` : ''}`,
      file: `${file}${chosen ? `-${paper}` : ''}.pdf`,
      words: paper,
    }))
  const id = encodeURIComponent(of)
  switch (kind) {
    case 'lift-sheet':
      return pdf(`lift/${id}`, `lift-${of}`, ['A3', 'A4', 'Letter'], true)
    case 'rigging':
      return pdf(`rigging/${id}`, `rigging-${of}`, ['A4'], false)
    case 'bolt-up':
      return pdf('bolt-up/all', 'bolt-up', ['A4', 'Letter'], true)
    case 'tags':
      return pdf('tags/tags', 'tags', ['A4', 'Letter'], true).map((link) => ({
        ...link,
        href: `${link.href}&base=${encodeURIComponent(workbenchAddress())}`,
      }))
    case 'order':
      return pdf('order/order', 'order', ['A4', 'Letter'], true)
    case 'daily-report':
      return pdf('daily/last', 'daily-report', ['A4', 'Letter'], true)
    case 'dossier':
      return [
        ...pdf('dossier/dossier', 'dossier', ['A4', 'Letter'], true),
        { href: `/api/report/dossier.json?units=${system}`, file: 'dossier.json', words: 'JSON' },
      ]
    case 'stakeholders':
      return pdf('stakeholders/stakeholders', 'where-the-recovery-stands', ['A4', 'Letter'], true)
    case 'site-plan':
      return pdf('site/plan', 'site-plan', LARGE, true)
    case 'site-sections':
      return pdf('site/sections', 'site-sections', LARGE, true)
    case 'site-shaft':
      return pdf('site/shaft', 'site-shaft', LARGE, true)
    case 'site-settlement':
      return pdf('site/settlement', 'site-settlement', LARGE, true)
    case 'campaign':
      return pdf('campaign', 'campaign', LARGE, true)
    default:
      return []
  }
}

/** Where this workbench is reached: symbols of tags open its lines. */
export const workbenchAddress = (): string => `${location.origin}${location.pathname}`
