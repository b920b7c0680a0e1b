import type { Stages } from '@shieldwright/engine'
import { type BookStep, bookPages, bookParts } from '@shieldwright/engine/report/book/index.ts'
import { INVENTED } from '@shieldwright/engine/report/sheet/cautions.ts'
import { pdfOf } from '../paper/pdf.ts'
import type { Issue } from './liftSheet.ts'
import { riskTold } from './risk.ts'

/** What a book is asked for with. */
export interface BookAsk {
  stages: Stages
  /** The project as it was when the issue before was made; none for a first issue. */
  before?: Stages | undefined
  issue: Issue
  /** Letter of this issue, and what the issue before is called. */
  letter: string
  since?: string | undefined
  runs: number
  seed: number
  /** Told before each document is drawn. */
  onStep?: (step: BookStep) => void
  /** Asked between two documents; false ends it. */
  shouldContinue?: () => boolean
}

export interface Book {
  pdf: Uint8Array
  pages: number
}

/** The campaign in one document as PDF; undefined when it was ended before it was done. The same input gives the same bytes. */
export async function campaignBook(ask: BookAsk): Promise<Book | undefined> {
  const { stages, before, issue, letter, since, onStep, shouldContinue = () => true } = ask
  const { about } = stages.model.project
  // what is drawn for comparison carries the same date, revision and content, so that only what the sheets say differs
  const partsOf = (of: Stages) => bookParts(of, issue, riskTold(of, { ...issue, runs: ask.runs, seed: ask.seed }))
  const making = bookPages(partsOf(stages), before === undefined ? undefined : partsOf(before), {
    ...issue,
    project: about.title,
    notice: about.invented ? INVENTED : '',
    letter,
    ...(before === undefined ? {} : { since: since ?? 'before' }),
  })
  for (;;) {
    const step = making.next()
    if (step.done) {
      const paper = { title: `Campaign book, issue ${letter}`, subject: about.title }
      const pdf = await pdfOf(step.value, { ...paper, date: new Date(`${issue.date}T00:00:00Z`) })
      return { pdf, pages: step.value.length }
    }
    onStep?.(step.value)
    await breath()
    if (!shouldContinue()) return undefined
  }
}

/** Lets others be answered between two documents. */
const breath = (): Promise<void> => new Promise((resolve) => setImmediate(resolve))
