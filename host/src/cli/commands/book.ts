import type { Stages } from '@shieldwright/engine'
import type { Command } from 'commander'
import { InvalidArgumentError } from 'commander'
import type { JobOutcome } from '../../jobs/job.ts'
import { contentHash } from '../../project/contentHash.ts'
import { writeWhole } from '../../project/demo.ts'
import type { Book, BookAsk } from '../../report/book.ts'
import type { Answer, Common } from '../answer.ts'
import { derivationOf, onDerivation, projectCommand } from '../command.ts'
import { watched } from '../progress.ts'
import { dateOption, today } from './report.ts'
import { runsOption, seedOption } from './risk.ts'

interface Options extends Common {
  out: string
  since?: string
  issue: string
  sinceName?: string
  date?: string
  revision?: string
  runs: number
  seed: number
}

/** `book FILE --out FILE.pdf`: every sheet of the campaign in one document, with what changed since the issue before. */
export const bookCommand = (): Command =>
  projectCommand(
    'book',
    'every sheet of the campaign in one document, numbered, with what changed since an issue before',
  )
    .requiredOption('--out <file>', 'the PDF to write')
    .option('--since <file>', 'project file of the issue before: what changed is listed and marked')
    .option('--issue <letter>', 'letter of this issue', letterOption, 'A')
    .option('--since-name <name>', 'what the issue before is called')
    .option('--date <date>', 'date of issue; otherwise today', dateOption)
    .option('--revision <name>', 'revision to print on the sheets')
    .option('--runs <n>', 'runs of the simulation that the sheet of the restart shows', runsOption, 5000)
    .option('--seed <n>', 'the same seed gives the same book', seedOption, 1)
    .action(onDerivation(({ document }, stages, options: Options) => bookAnswer(document, stages, options)))

async function bookAnswer(document: unknown, stages: Stages, options: Options): Promise<Answer> {
  const earlier = options.since === undefined ? undefined : await derivationOf(options.since)
  if (earlier !== undefined && 'problems' in earlier) return earlier
  const { date = today(), revision, units = 'SI', issue: letter, runs, seed } = options
  const outcome = await bookWatched({
    stages,
    before: earlier?.stages,
    issue: { date, contentHash: contentHash(document), units, ...(revision && { revision }) },
    letter,
    since: options.sinceName === undefined ? undefined : `issue ${options.sinceName}`,
    runs,
    seed,
  })
  if ('cancelled' in outcome || 'problems' in outcome) return outcome
  const { pdf, pages } = outcome.result
  writeWhole(options.out, pdf)
  return { json: { file: options.out, sheets: pages }, text: () => `${options.out}, ${pages} sheets\n` }
}

/** The making of a book with a bar; Ctrl-C ends it between two documents. */
async function bookWatched(ask: BookAsk): Promise<JobOutcome<Book>> {
  const { campaignBook } = await import('../../report/book.ts')
  return watched('book', (show) => {
    let goesOn = true
    const made = campaignBook({ ...ask, onStep: show, shouldContinue: () => goesOn })
    return {
      outcome: made.then((book): JobOutcome<Book> => (book === undefined ? { cancelled: true } : { result: book })),
      cancel: () => {
        goesOn = false
      },
    }
  })
}

function letterOption(text: string): string {
  if (/^[A-Z]{1,2}$/.test(text)) return text
  throw new InvalidArgumentError('expected one or two capital letters, such as B.')
}
