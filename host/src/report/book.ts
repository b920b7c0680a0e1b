import type { Stages } from '@shieldwright/engine'
import { type BookStep, bookPages, bookParts } from '@shieldwright/engine/report/book/index.ts'
import type { DossierSignature } from '@shieldwright/engine/report/dossier/dossierSheet.ts'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { INVENTED } from '@shieldwright/engine/report/sheet/cautions.ts'
import { pdfOf } from '../paper/pdf.ts'
import { type AttachedPictures, NO_PICTURES } from './attachedPictures.ts'
import type { Issue } from './liftSheet.ts'
import { riskTold } from './risk.ts'

/** What a book is asked for with. */
export interface BookAsk {
  stages: Stages
  /** The project as it was when the issue before was made; none for a first issue. */
  before?: Stages | undefined
  issue: Issue
  /** Letter of this issue, and what the issue before is called, such as "issue A". */
  letter: string
  since?: string | undefined
  /** Signatures of the store as they stood on each of the two; none where the book is made from files alone. */
  signatures?: readonly DossierSignature[] | undefined
  signaturesBefore?: readonly DossierSignature[] | undefined
  /** Photographs that the records of either name. */
  attached?: AttachedPictures | undefined
  runs: number
  seed: number
  /** Told before each document is drawn, and before each page is written. */
  onStep?: (step: BookStep) => void
  /** Asked between two documents and two pages, and while the restart is simulated; false ends it. */
  shouldContinue?: () => boolean
}

export interface Book {
  pdf: Uint8Array
  pages: number
}

/** The campaign in one document as PDF; undefined when it was ended before it was done. The same input gives the same bytes. */
export async function campaignBook(ask: BookAsk): Promise<Book | undefined> {
  const { stages, before, issue, letter, since, attached = NO_PICTURES, shouldContinue = () => true } = ask
  const { about } = stages.model.project
  // what is drawn for comparison carries the same date, revision and content, so that only what the sheets say differs
  const partsOf = (of: Stages, signatures: BookAsk['signatures']) =>
    bookParts(
      of,
      { ...issue, signatures, files: attached.files },
      riskTold(of, { ...issue, runs: ask.runs, seed: ask.seed, shouldContinue }),
    )
  const earlier = before && partsOf(before, ask.signaturesBefore)
  const making = bookPages(partsOf(stages, ask.signatures), earlier, {
    ...issue,
    project: about.title,
    notice: about.invented ? INVENTED : '',
    letter,
    ...(before === undefined ? {} : { since: since ?? 'the issue before' }),
  })
  const drawn = await drawnPages(making, ask)
  if (drawn === undefined) return undefined
  const { pages, documents } = drawn
  const paper = { title: `Campaign book, issue ${letter}`, subject: about.title }
  const handed = handedOver(pages, documents, ask)
  const pdf = await pdfOf(handed, { ...paper, date: new Date(`${issue.date}T00:00:00Z`) }, attached.pictures)
  return shouldContinue() ? { pdf, pages: pages.length } : undefined
}

type Making = ReturnType<typeof bookPages>
type Watched = Pick<BookAsk, 'onStep' | 'shouldContinue'>

/** To write a book takes about half as long as to draw it: steps for each document drawn. */
const WRITING = 0.5
const stepsOf = (documents: number): number => documents + Math.ceil(documents * WRITING)

/** Every page, and how many documents they are of; undefined when it was ended. */
async function drawnPages(
  making: Making,
  { onStep, shouldContinue = () => true }: Watched,
): Promise<{ pages: Drawing[]; documents: number } | undefined> {
  let documents = 0
  for (;;) {
    const step = making.next()
    if (step.done) return { pages: step.value, documents }
    documents = step.value.of
    onStep?.({ ...step.value, of: stepsOf(documents) })
    await breath()
    if (!shouldContinue()) return undefined
  }
}

/** The pages one by one to whoever writes them; no more once it is to end. */
async function* handedOver(
  pages: readonly Drawing[],
  documents: number,
  { onStep, shouldContinue = () => true }: Watched,
): AsyncGenerator<Drawing> {
  const of = stepsOf(documents)
  for (const [i, page] of pages.entries()) {
    onStep?.({ done: documents + Math.floor(((of - documents) * i) / pages.length), of, title: page.title })
    await breath()
    if (!shouldContinue()) return
    yield page
  }
}

/** Lets others be answered between two documents, or two pages. */
const breath = (): Promise<void> => new Promise((resolve) => setImmediate(resolve))
