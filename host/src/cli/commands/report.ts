import { join } from 'node:path'
import type { Derivation, Stages } from '@shieldwright/engine'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { nearestId } from '@shieldwright/engine/working/problem.ts'
import { type Command, InvalidArgumentError, Option } from 'commander'
import { contentHash } from '../../project/contentHash.ts'
import { writeWhole } from '../../project/demo.ts'
import type { Issue } from '../../report/liftSheet.ts'
import { type Answer, type Cancelled, type Common, type Refusal, usageProblem } from '../answer.ts'
import { idList, onDerivation, projectCommand } from '../command.ts'
import { eachWatched } from '../progress.ts'

interface Options extends Common {
  out: string
  only?: 'lift-sheets'
  lift?: readonly string[]
  date?: string
  revision?: string
}

/** `report FILE --out DIR`: lift sheets to print and sign. */
export const reportCommand = (): Command =>
  projectCommand('report', 'lift sheets as PDF, to print and sign')
    .requiredOption('--out <dir>', 'folder to write into, made if need be')
    .addOption(new Option('--only <kind>', 'one kind of document').choices(['lift-sheets']))
    .option('--lift <ids>', 'only these lifts, between commas', idList)
    .option('--date <date>', 'date of issue; otherwise today', dateOption)
    .option('--revision <name>', 'revision to print on the sheets')
    .action(onDerivation(reportAnswer))

async function reportAnswer({ document }: Derivation, stages: Stages, options: Options): Promise<Answer> {
  const { lift, out, date = today(), revision, units = 'SI' } = options
  const known = Object.keys(stages.lift.lifts)
  const unknown = lift?.find((id) => !known.includes(id))
  if (unknown !== undefined) {
    return usageProblem('--lift', `"${unknown}"`, 'the id of a lift', nearestId(unknown, known))
  }
  const issue = { date, contentHash: contentHash(document), revision, units }
  const written = await writtenSheets(stages, lift ?? known, out, issue)
  if (!('files' in written)) return written
  const checks = (lift ?? known).flatMap((id) => stages.lift.lifts[id]?.checks ?? [])
  return { json: written, text: () => `${written.files.join('\n')}\n`, counts: countVerdicts(checks) }
}

/** Each sheet is written whole or not at all; Ctrl-C ends between two of them. */
async function writtenSheets(
  stages: Stages,
  lifts: readonly string[],
  out: string,
  issue: Issue,
): Promise<{ files: string[] } | Refusal | Cancelled> {
  const { liftSheetPdf } = await import('../../report/liftSheet.ts')
  const files: string[] = []
  const isDone = await eachWatched('lift sheets', lifts, async (id) => {
    const pdf = await liftSheetPdf(stages, id, issue)
    if (pdf === undefined) return
    const path = join(out, 'lift-sheets', `${id}.pdf`)
    writeWhole(path, pdf)
    files.push(path)
  })
  return isDone ? { files } : { cancelled: true, written: files }
}

const today = (): string => new Date().toISOString().slice(0, 10)

function dateOption(text: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text))) return text
  throw new InvalidArgumentError('expected a date, year-month-day, such as 2032-12-09.')
}
