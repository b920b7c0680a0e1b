import { lastLetter, letterAfter } from '@shieldwright/engine/model/issueLetter.ts'
import type { IssuedBook } from '@shieldwright/engine/model/schema/project.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { JobProject } from '../jobs/job.ts'
import type { BookRequest } from '../jobs/kinds.ts'
import type { BookKept } from '../jobs/view.ts'
import { contentHash } from '../project/contentHash.ts'
import { picturesInStore } from '../report/attachedPictures.ts'
import { dossierSignatures } from '../report/dossier.ts'
import { signing } from '../signing/signing.ts'
import { keepAttachment } from '../store/attachments.ts'
import { revisionMeant } from '../store/baselines.ts'
import { lettersEver } from '../store/issuedLetters.ts'
import type { Live } from './live.ts'

/** What a book is asked for with, beside the revisions: the date that stands on its sheets. */
interface Asked extends Pick<BookRequest, 'date' | 'units' | 'runs' | 'seed'> {
  /** The revision that it shows: a number, a name or "now". */
  of: string
  /** What it is compared with: a letter of an issue, or a revision. The last issue where it is left out, nothing where it is null. */
  since?: string | null | undefined
}

/** A book to be made: the project at the two revisions, and the job. */
export interface BookToMake {
  project: JobProject
  revision: number
  request: BookRequest
}

type Issued = Readonly<Record<string, IssuedBook>>

/** Campaign books that went out, by letter, as the latest revision has them. */
const issuedIn = (document: unknown): Issued => (document as { issuedBooks?: Issued }).issuedBooks ?? {}

/** The letter of the next issue: after every one that is on record, or ever was. Undefined after the last of all. */
async function nextLetter(live: Live, issued: Issued): Promise<string | undefined> {
  return letterAfter(lastLetter([...Object.keys(issued), ...(await lettersEver(live.store.database))]))
}

/** The book as a job on the revisions that are meant, under the next letter; or what is not there. */
export async function bookToMake(live: Live, asked: Asked): Promise<BookToMake | { problems: readonly Problem[] }> {
  const issued = issuedIn((await live.kept()).document)
  const letter = await nextLetter(live, issued)
  if (letter === undefined) return refused('/issuedBooks', 'issue ZZ', 'an issue before ZZ, the last letter')
  const revision = await revisionMeant(live.store, asked.of)
  const project = revision && (await live.projectAt(revision))
  if (!revision || !project) return refused('/of', asked.of, 'a revision, its name, or "now"')
  const last = lastLetter(Object.keys(issued))
  const earlier = await earlierMeant(live, issued, asked.since === undefined ? last : asked.since)
  if (earlier !== undefined && 'problems' in earlier) return earlier
  const { date, units, runs, seed } = asked
  const signedAt = async (at: number) => dossierSignatures(await signing(live).at(at))
  const request: BookRequest = {
    kind: 'book',
    letter,
    date,
    revision: String(revision),
    units,
    runs,
    seed,
    signatures: await signedAt(revision),
    ...(earlier && {
      since: { name: earlier.name, revision: earlier.revision, signatures: await signedAt(earlier.revision) },
    }),
  }
  const documents = [project.document, earlier?.project.document]
  const attached = await picturesInStore(documents, live.store.database)
  return { project: { ...project, attached, ...(earlier && { before: earlier.project }) }, revision, request }
}

interface Earlier {
  name: string
  revision: number
  project: JobProject
}

/** What a book is compared with; a letter means the issue even where a revision is called the same. */
async function earlierMeant(
  live: Live,
  issued: Issued,
  since: string | null | undefined,
): Promise<Earlier | undefined | { problems: readonly Problem[] }> {
  if (since === undefined || since === null) return undefined
  const issue = Object.hasOwn(issued, since) ? issued[since] : undefined
  if (issue !== undefined) return issueMeant(live, since, issue)
  const revision = await revisionMeant(live.store, since)
  const project = revision && (await live.projectAt(revision))
  if (!revision || !project) return refused('/since', since, 'an issue, a revision, its name, or "now"')
  const isNamed = since !== 'now' && !/^\d+$/.test(since)
  return { name: isNamed ? `${since}, revision ${revision}` : `revision ${revision}`, revision, project }
}

/** An issue is compared with only where this log holds what went out: a project that came from elsewhere has another log. */
async function issueMeant(
  live: Live,
  letter: string,
  { revision, content }: IssuedBook,
): Promise<Earlier | { problems: readonly Problem[] }> {
  const written = await live.store.at(revision)
  const project = await live.projectAt(revision)
  // One of an older schema version goes out as this program reads it.
  const isHeld = [written, project?.document].some((document) => contentHash(document) === content)
  if (project === undefined || !isHeld)
    return refused(
      '/since',
      `issue ${letter}, made of a revision ${revision} that this log does not hold as it went out`,
      'a revision to compare with, or null for nothing',
    )
  return { name: `issue ${letter}`, revision, project }
}

const refused = (pointer: string, found: string, expected: string): { problems: Problem[] } => ({
  problems: [{ pointer, found: found.slice(0, 120), expected }],
})

/** A book that was made, and what of: what goes on record. */
export interface BookMade {
  kept: BookKept
  revision: number
  request: BookRequest
}

/** An issue on record: the revision that says so, its letter, and the SHA-256 of its file. */
export interface OnRecord {
  revision: number
  letter: string
  file: string
}

/** How the file of an issue is called. */
export const bookFileName = (letter: string): string => `campaign-book-${letter}.pdf`

/**
 * Puts a book on record as an issue: its file among the attachments, and by an edit of the project what went out, under its
 * letter. Overtaken where another issue went out since it was asked for.
 */
export async function putOnRecord(
  live: Live,
  { kept, revision: shown, request: { letter, date, since } }: BookMade,
  { by, at, note = '' }: { by: string; at: string; note?: string | undefined },
): Promise<OnRecord | { problems: readonly Problem[]; isOvertaken: boolean }> {
  const { revision, document } = await live.kept()
  if ((await nextLetter(live, issuedIn(document))) !== letter) return overtaken(letter)
  const file = { name: bookFileName(letter), type: 'application/pdf', by, at }
  await keepAttachment(live.store.database, file, Buffer.from(kept.pdf, 'base64'))
  const entry: IssuedBook = {
    on: date,
    by,
    revision: shown,
    content: kept.content,
    ...(since && { since: since.name }),
    sheets: kept.sheets,
    file: kept.file,
    ...(note !== '' && { note }),
  }
  const isFirst = (document as { issuedBooks?: unknown }).issuedBooks === undefined
  const patch: Patch = isFirst
    ? [{ op: 'add', path: '/issuedBooks', value: { [letter]: entry } }]
    : [{ op: 'add', path: `/issuedBooks/${letter}`, value: entry }]
  const changed = await live.change({ revision, patch, why: `campaign book issued as ${letter}`, by, at })
  if (changed.problems === undefined) return { revision: changed.revision, letter, file: kept.file }
  return changed.behind === undefined ? { problems: changed.problems, isOvertaken: false } : overtaken(letter)
}

const overtaken = (letter: string) => ({
  ...refused(
    `/issuedBooks/${letter}`,
    'another issue that went out meanwhile',
    'the book made again, under the next letter',
  ),
  isOvertaken: true,
})
