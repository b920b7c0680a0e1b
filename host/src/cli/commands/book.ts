import { dirname } from 'node:path'
import { isIssueLetter } from '@shieldwright/engine/model/issueLetter.ts'
import type { Command } from 'commander'
import { InvalidArgumentError } from 'commander'
import { type JobOutcome, type JobProject, startJob } from '../../jobs/job.ts'
import type { BookRequest, BookResult } from '../../jobs/kinds.ts'
import { bookKept } from '../../jobs/view.ts'
import { readProjectFile } from '../../project/readProject.ts'
import { writeWhole } from '../../project/writeWhole.ts'
import { picturesInFolder } from '../../report/attachedPictures.ts'
import { bookToMake, putOnRecord } from '../../server/bookAsked.ts'
import type { Live } from '../../server/live.ts'
import { type Answer, printAnswer, type Refusal, usageProblem } from '../answer.ts'
import { command } from '../command.ts'
import { type Act, onStore, type StoreOptions } from '../onStore.ts'
import { watched } from '../progress.ts'
import { dateOption, today } from './report.ts'
import { runsOption, seedOption } from './risk.ts'

interface Options extends StoreOptions {
  out: string
  of?: string
  since?: string
  issue?: string
  sinceName?: string
  date?: string
  revision?: string
  record?: boolean
  note?: string
  runs: number
  seed: number
}

/** `book [FILE] --out FILE.pdf`: every sheet of the campaign in one document, with what changed since the issue before. */
export const bookCommand = (): Command =>
  command('book', 'every sheet of the campaign in one document, numbered, with what changed since an issue before')
    .argument('[file]', 'project file, JSON or YAML; without one the stored project')
    .requiredOption('--out <file>', 'the PDF to write')
    .option(
      '--since <earlier>',
      'what it is compared with: a project file; of the stored project an issue, a revision, its name or "nothing", the last issue otherwise',
    )
    .option('--issue <letter>', 'letter of this issue; of the stored project it is the next', letterOption)
    .option('--since-name <name>', 'what the issue before is called; the stored project knows it')
    .option('--date <date>', 'date of issue; otherwise today', dateOption)
    .option('--revision <name>', 'revision to print on the sheets; of the stored project it is its own')
    .option('--of <revision>', 'of the stored project: a revision, its name, or "now", which is the default')
    .option('--record', 'of the stored project: put it on record as an issue')
    .option('--note <words>', 'what the record says beside it')
    .option('--data <dir>', 'folder that keeps the stored project', 'data')
    .option('--runs <n>', 'runs of the simulation that the sheet of the restart shows', runsOption, 5000)
    .option('--seed <n>', 'the same seed gives the same book', seedOption, 1)
    .action(async (file: string | undefined, options: Options) => {
      const refusal = misplaced(options, file === undefined ? OF_FILES : OF_STORE, file)
      if (refusal !== undefined) return printAnswer(refusal, options)
      if (file === undefined) return onStore(options, (live, act) => storedBook(live, act, options))
      return printAnswer(await fileBook(file, options), options)
    })

const OF_FILES = ['issue', 'sinceName', 'revision'] as const
const OF_STORE = ['of', 'record', 'note'] as const

/** An option that says nothing of what the book is made from. */
function misplaced(
  options: Options,
  others: readonly (keyof Options)[],
  file: string | undefined,
): Refusal | undefined {
  const option = others.find((name) => options[name] !== undefined)
  if (option === undefined) return undefined
  const found = file === undefined ? 'no project file' : `the project file "${file}"`
  const words = option === 'sinceName' ? 'since-name' : option
  return usageProblem(
    `--${words}`,
    found,
    file === undefined ? 'a project file with it' : 'the stored project, no file',
  )
}

async function fileBook(file: string, options: Options): Promise<Answer> {
  const project = await readProjectFile(file)
  if ('problems' in project) return project
  const before = options.since === undefined ? undefined : await readProjectFile(options.since)
  if (before !== undefined && 'problems' in before) return before
  const { date = today(), revision, units = 'SI', issue: letter = 'A', sinceName, runs, seed } = options
  const since = sinceName === undefined ? undefined : { name: `issue ${sinceName}` }
  const request: BookRequest = { kind: 'book', letter, date, revision, since, units, runs, seed }
  // photographs lie beside the project file, as its meshes do
  const attached = await picturesInFolder([project.document, before?.document], dirname(file))
  const outcome = await made({ ...project, before, attached }, request)
  return 'result' in outcome ? written(outcome.result, options.out) : outcome
}

async function storedBook(live: Live, act: Act, options: Options): Promise<Answer> {
  const { date = today(), units = 'SI', of = 'now', runs, seed, record, note } = options
  const since = options.since === 'nothing' ? null : options.since
  const work = await bookToMake(live, { of, since, date, units, runs, seed })
  if ('problems' in work) return work
  const { project, revision, request } = work
  const outcome = await made(project, request)
  if (!('result' in outcome)) return outcome
  const { letter } = request
  const kept = bookKept(outcome.result)
  const put = record ? await putOnRecord(live, { kept, revision, request }, { ...act, note }) : undefined
  if (put !== undefined && 'problems' in put) return put
  const { json, text } = written(outcome.result, options.out)
  if (put === undefined) return { json: { ...json, letter, revision }, text: () => `issue ${letter}: ${text()}` }
  return {
    json: { ...json, letter, revision, recorded: put.revision },
    text: () => `issue ${letter}: ${text()}on record as revision ${put.revision}\n`,
  }
}

/** The making of a book with a bar; Ctrl-C ends it between two pages. */
const made = (project: JobProject, request: BookRequest): Promise<JobOutcome<BookResult>> =>
  watched('book', (show) => startJob<'book'>(project, request, show))

function written({ pdf, pages }: BookResult, out: string) {
  writeWhole(out, pdf)
  return { json: { file: out, sheets: pages }, text: () => `${out}, ${pages} sheets\n` }
}

function letterOption(text: string): string {
  if (isIssueLetter(text)) return text
  throw new InvalidArgumentError('expected one or two capital letters, such as B.')
}
