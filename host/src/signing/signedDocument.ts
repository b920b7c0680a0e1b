import type { Signed, SignedKind, Stages } from '@shieldwright/engine'
import { contentHash } from '../project/contentHash.ts'
import { type Issue, liftSheetPdf } from '../report/liftSheet.ts'

/** What a document is signed with: the revision and project that it was printed from, and the day. */
export interface SignedIssue {
  revision: number
  document: unknown
  /** Year-month-day. */
  date: string
}

type Print = (stages: Stages, subject: string, issue: Issue) => Promise<Uint8Array | undefined>

/** How the document of a kind is printed; a kind without one is signed as it stands in the record. */
const prints: Readonly<Partial<Record<SignedKind, Print>>> = { 'lift-sheet': liftSheetPdf }

/** The document that is signed, byte for byte as it is kept; undefined where the kind has none. */
export async function signedDocument(
  stages: Stages,
  { kind, subject }: Signed,
  { revision, document, date }: SignedIssue,
): Promise<Uint8Array | undefined> {
  const issue = { date, contentHash: contentHash(document), revision: String(revision), units: 'SI' as const }
  return prints[kind]?.(stages, subject, issue)
}
