import { type Drawing, drawing, line, type Mark, text } from '../drawing.ts'
import { borderMarks, roomOf } from '../paper/border.ts'
import { pour } from '../paper/flow.ts'
import { issuedWords } from '../paper/issued.ts'
import { SMALL } from '../paper/pen.ts'
import { headingRow, proseRows, type Row, spaceRow, type TableRow, tableRows } from '../paper/rows.ts'
import { upright } from '../paper/size.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import { type Band, type PartChange, partChange } from './changes.ts'
import type { BookPart } from './parts.ts'

/** What a book is issued as. */
export interface BookIssue extends SheetOptions {
  project: string
  notice: string
  /** Letter of this issue, such as B. */
  letter: string
  /** What it is compared with, as it is called, such as "issue A" or "revision 3". */
  since?: string
}

/** A document of the book, drawn, with what changed of it. */
interface Bound {
  part: Pick<BookPart, 'id' | 'title'>
  pages: readonly Drawing[]
  change: PartChange
  /** Number of its first sheet. */
  first: number
}

/** One step of the making: what is being drawn, how much is done, of how much. */
export interface BookStep {
  done: number
  of: number
  title: string
}

/**
 * The campaign in one document: contents, what changed since the issue before, and every sheet, numbered through, with the
 * letter of the issue beside what changed. Made document by document, so that whoever asks can show how far it is and end it.
 *
 * @param before the documents of the issue before, drawn with the same date, revision and content; none for a first issue
 * @returns the pages; what is yielded before is the progress
 */
export function* bookPages(
  parts: readonly BookPart[],
  before: readonly BookPart[] | undefined,
  issue: BookIssue,
): Generator<BookStep, Drawing[]> {
  const earlier = new Map(before?.map((part) => [part.id, part]))
  const gone = (before ?? []).filter(({ id }) => !parts.some((part) => part.id === id))
  const all = [...parts, ...gone]
  const bound: Bound[] = []
  let first = 1
  for (const [done, part] of all.entries()) {
    yield { done, of: all.length, title: part.title }
    const pages = gone.includes(part) ? [] : part.draw()
    const was = before === undefined ? undefined : (earlier.get(part.id)?.draw() ?? [])
    const change =
      before === undefined ? { state: 'as before' as const, now: [], was: [], bands: [] } : partChange(pages, was)
    if (pages.length > 0 || change.state === 'gone') bound.push({ part, pages, change, first })
    first += pages.length
  }
  const sheets = first - 1
  return [
    ...frontPages(bound, sheets, issue),
    ...bound.flatMap(({ part, pages, change, first: number }) =>
      pages.map((page, i) => ({
        ...stamped(page, `${number + i} of ${sheets}`, issue.letter, change, change.bands[i] ?? []),
        ...(i === 0 && { chapter: part.title }),
      })),
    ),
  ]
}

const EDGE = 6.6
/** Of the number in the margin, mm. */
const STAMP = 2.4

/** A sheet with its number in the book at the top, and a bar with the letter of the issue in the margin beside each change. */
function stamped(
  page: Drawing,
  number: string,
  letter: string,
  { state }: PartChange,
  bands: readonly Band[],
): Drawing {
  const isNew = state === 'new'
  const words = `${isNew ? 'new · ' : ''}issue ${letter} · sheet ${number}`
  const marks: Mark[] = [
    text([page.width - 11, 7.2], words, { size: STAMP, anchor: 'end', ink: 'quiet' }),
    ...bands.flatMap(({ top, bottom }): Mark[] => [
      line(
        [
          [EDGE, top - 0.4],
          [EDGE, bottom + 0.4],
        ],
        { width: 0.6, ink: 'now' },
      ),
      text([EDGE - 1.4, (top + bottom) / 2 + STAMP * 0.35], letter, {
        size: STAMP,
        weight: 700,
        anchor: 'end',
        ink: 'now',
      }),
    ]),
  ]
  return { ...page, title: `${page.title}; sheet ${number} of the book`, marks: [...page.marks, ...marks] }
}

/** Contents, and what changed. */
function frontPages(bound: readonly Bound[], sheets: number, issue: BookIssue): Drawing[] {
  const size = upright('A4')
  const room = roomOf(size)
  const pages = pour(frontRows(bound, sheets, issue, room.right - room.left), [room])
  const { words, under } = issuedWords(issue)
  return pages.map((marks, i) => ({
    ...(i === 0 && { chapter: 'Contents' }),
    ...drawing(`Campaign book, contents ${i + 1} of ${pages.length}`, size.width, size.height, [
      ...borderMarks(size, [
        { name: 'Campaign book', words: `issue ${issue.letter}`, under: issue.project, share: 34 },
        { name: 'Since', words: issue.since ?? 'first issue', under: `${sheets} sheets`, share: 24 },
        { name: 'Revision', words, under, share: 26 },
        { name: 'Contents', words: `${i + 1} of ${pages.length} · A4`, under: issue.notice, share: 20 },
      ]),
      ...marks,
    ]),
  }))
}

const CONTENTS = [
  { title: 'Sheets', share: 16 },
  { title: 'Document', share: 92 },
  { title: 'Since the issue before', share: 34 },
]

function frontRows(bound: readonly Bound[], sheets: number, issue: BookIssue, width: number): Row[] {
  const changed = bound.filter(({ change }) => change.state !== 'as before')
  const isFirst = issue.since === undefined
  return [
    headingRow('Contents', width, `${sheets} sheets`),
    ...tableRows(
      CONTENTS,
      bound.map(({ part, pages, change, first }): TableRow => {
        const isOther = !isFirst && change.state !== 'as before'
        return {
          cells: [
            rangeText(first, pages.length),
            part.title,
            {
              words: isFirst ? 'first issue' : isOther ? `${issue.letter}: ${change.state}` : 'as before',
              weight: isOther ? 700 : 400,
            },
          ],
        }
      }),
      width,
    ),
    spaceRow(4),
    ...(isFirst ? [] : changeRows(changed, issue, width)),
    ...proseRows(
      'A sheet is valid in its latest issue only. Lifts, ground and isolation: local codes, the manufacturer’s instructions and licensed engineers govern.',
      width,
      { size: SMALL, weight: 700, keep: true },
    ),
  ]
}

function changeRows(changed: readonly Bound[], issue: BookIssue, width: number): Row[] {
  const head = headingRow(`What changed since ${issue.since}`, width, `marked ${issue.letter} in the margin`)
  if (changed.length === 0) return [head, ...proseRows('Nothing: every sheet says what it said.', width), spaceRow(4)]
  return [
    head,
    ...changed.flatMap(({ part, pages, change, first }) => [
      ...proseRows(`${rangeText(first, pages.length)}  ${part.title}: ${change.state}`, width, {
        weight: 700,
        keep: true,
        keepOn: change.now.length + change.was.length > 0,
      }),
      ...(change.was.length > 0 ? proseRows(`was: ${listed(change.was)}`, width, { size: SMALL, ink: 'quiet' }) : []),
      ...(change.now.length > 0 ? proseRows(`now: ${listed(change.now)}`, width, { size: SMALL }) : []),
      spaceRow(1.2),
    ]),
    spaceRow(4),
  ]
}

const rangeText = (first: number, count: number): string =>
  count === 0 ? '–' : count === 1 ? `${first}` : `${first} to ${first + count - 1}`

/** So many words are told of one document; the sheets mark all. */
const TOLD = 8

const listed = (words: readonly string[]): string =>
  words.slice(0, TOLD).join('; ') + (words.length > TOLD ? `; and ${words.length - TOLD} more` : '')
