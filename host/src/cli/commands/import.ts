import { existsSync, readFileSync, statSync } from 'node:fs'
import type { Derivation, Stages } from '@shieldwright/engine'
import { isMoment } from '@shieldwright/engine/model/index.ts'
import { SHEET_KINDS, type SheetKind } from '@shieldwright/engine/model/intake/index.ts'
import { applyPatch, type Operation } from '@shieldwright/engine/working/patch.ts'
import { foundText, problemText } from '@shieldwright/engine/working/problem.ts'
import { type Command, InvalidArgumentError, Option } from 'commander'
import { LARGEST_TABLE } from '../../exchange/readTable.ts'
import { type Taken, takeIn } from '../../exchange/takeIn.ts'
import { writeWhole } from '../../project/writeWhole.ts'
import { type Answer, type Common, type Refusal, usageProblem } from '../answer.ts'
import { onDerivation, projectCommand } from '../command.ts'
import { jsonText } from '../json.ts'
import { whatIfText } from './whatif.ts'

interface Options extends Common {
  from: string
  of: SheetKind
  sheet?: string
  dataDate?: string
  out?: string
}

/** `import FILE --from TABLE --of progress`: what a table would change, and every row that is refused. */
export const importCommand = (): Command =>
  projectCommand(
    'import',
    'progress, deliveries, as-built, weighings, piles or readings of instruments from CSV or XLSX, as a patch to look at first',
  )
    .requiredOption('--from <table>', 'table to read, CSV or XLSX')
    .addOption(new Option('--of <kind>', 'what its rows are').choices(SHEET_KINDS).default('progress'))
    .option('--sheet <name>', 'sheet of a workbook; the first otherwise')
    .option('--data-date <date>', 'the date up to which progress is known', momentOption)
    .option('--out <file>', 'writes the changed project there as JSON, where no row is refused')
    .action(onDerivation(importAnswer))

export function momentOption(text: string): string {
  if (isMoment(text)) return text
  throw new InvalidArgumentError('expected a date, or local time on it, such as 2032-03-05 or 2032-03-05T18:00.')
}

async function importAnswer(derivation: Derivation, stages: Stages, options: Options): Promise<Answer> {
  const { from, of, sheet, dataDate, out, units = 'SI' } = options
  const bytes = bytesOf(from)
  if ('problems' in bytes) return bytes
  const taken = await takeIn(derivation, stages, { bytes: bytes.bytes, name: from, of, sheet, dataDate })
  if ('problems' in taken) return taken
  const refused = taken.refused.length > 0
  const written = out === undefined || refused ? undefined : writtenTo(out, derivation.document, taken.patch)
  if (written !== undefined && typeof written !== 'string') return written
  const { follows, ...rest } = taken
  return {
    json: { ...rest, ...follows, written: written ?? null },
    text: () =>
      [
        rest.refused.map((problem) => `refused  ${problemText(problem)}\n`).join(''),
        rest.patch.map(operationText).join(''),
        `${rest.taken} rows change something, ${rest.same} say what stands already, ${rest.refused.length} faults\n`,
        follows === undefined ? '' : whatIfText(follows, units),
        writtenText(taken, out, written),
      ].join(''),
    refused,
  }
}

const TABLE = { largest: LARGEST_TABLE, expected: 'a table, CSV or XLSX', example: 'progress.csv' }

/** The bytes of a file, or what keeps it from being read. */
export function bytesOf(
  path: string,
  { largest, expected, example }: typeof TABLE = TABLE,
): { bytes: Uint8Array } | Refusal {
  try {
    const stat = existsSync(path) ? statSync(path) : undefined
    if (stat === undefined) return usageProblem(path, 'nothing to read', expected, example)
    if (!stat.isFile()) return usageProblem(path, 'something that is no file', expected, example)
    if (stat.size > largest) return usageProblem(path, `a file of ${stat.size} bytes`, `at most ${largest} bytes`)
    return { bytes: readFileSync(path) }
  } catch (error) {
    return usageProblem(path, `a file that cannot be read: ${(error as Error).message}`, expected, example)
  }
}

/** Writes the whole project, or nothing. */
function writtenTo(path: string, document: unknown, patch: readonly Operation[]): string | Refusal {
  const patched = applyPatch(document, patch)
  if (!('document' in patched)) return patched
  writeWhole(path, jsonText(patched.document))
  return path
}

const operationText = (operation: Operation): string =>
  `${operation.op} ${operation.path}${'value' in operation ? ` ${valueText(operation.value)}` : ''}\n`

const valueText = (value: unknown): string =>
  typeof value === 'object' && value !== null ? JSON.stringify(value) : foundText(value)

function writtenText({ refused }: Taken, out: string | undefined, written: string | undefined): string {
  if (written !== undefined) return `written: ${written}\n`
  if (out !== undefined && refused.length > 0) return 'nothing was written: mend the rows that are refused first\n'
  return ''
}
