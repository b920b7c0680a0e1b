import { join } from 'node:path'
import type { Stages } from '@shieldwright/engine'
import { isTableName, TABLE_NAMES, type TableName } from '@shieldwright/engine/report/tables/index.ts'
import { nearestId } from '@shieldwright/engine/working/problem.ts'
import { type Command, Option } from 'commander'
import { calendarFile, csvFile, type ExchangeIssue, workbook } from '../../exchange/files.ts'
import { writeWhole } from '../../project/writeWhole.ts'
import { type Answer, type Common, usageProblem } from '../answer.ts'
import { idList, onStages, projectCommand, wholeNumber } from '../command.ts'
import { dateOption, today } from './report.ts'

const FORMS = ['csv', 'xlsx', 'ics'] as const
type Form = (typeof FORMS)[number]

interface Options extends Common {
  out: string
  only?: readonly string[]
  as?: Form
  weeks: number
  date?: string
  sequence: number
}

/** `export FILE --out DIR`: tables as CSV and as one workbook, and the plan's dates as a calendar. */
export const exportCommand = (): Command =>
  projectCommand('export', 'programme, look-ahead, order, masses and loads as CSV and XLSX, dates as iCalendar')
    .requiredOption('--out <dir>', 'folder to write into, made if need be')
    .option('--only <tables>', `these tables, between commas, of ${TABLE_NAMES.join(', ')}`, idList)
    .addOption(new Option('--as <form>', 'one form of files').choices(FORMS))
    .option('--weeks <n>', 'weeks of the look-ahead', wholeNumber(1, 52, 3), 3)
    .option('--date <date>', 'date of issue; otherwise today', dateOption)
    .option(
      '--sequence <n>',
      'number of the issue; a later one moves what an earlier one said',
      wholeNumber(0, 1e6, 2),
      0,
    )
    .action(onStages(exportAnswer))

async function exportAnswer(stages: Stages, options: Options): Promise<Answer> {
  const { out, only = TABLE_NAMES, as, units = 'SI', weeks, sequence } = options
  const unknown = only.find((name) => !isTableName(name))
  if (unknown !== undefined)
    return usageProblem(
      '--only',
      `"${unknown}"`,
      `tables of ${TABLE_NAMES.join(', ')}`,
      nearestId(unknown, TABLE_NAMES),
    )
  const names = only as readonly TableName[]
  const issue: ExchangeIssue = { units, weeks, sequence, at: `${options.date ?? today()}T00:00:00Z` }
  const wanted = (form: Form): boolean => as === undefined || as === form
  const made: [string, string | Uint8Array][] = [
    ...(wanted('csv') ? names.map((name): [string, string] => [`${name}.csv`, csvFile(stages, name, issue)]) : []),
    ...(wanted('xlsx') ? [['tables.xlsx', await workbook(stages, issue, names)] as [string, Uint8Array]] : []),
    ...(as === 'ics' || (as === undefined && options.only === undefined)
      ? [['dates.ics', calendarFile(stages, issue)] as [string, string]]
      : []),
  ]
  const files = made.map(([name]) => join(out, name))
  made.forEach(([, content], i) => {
    writeWhole(files[i] as string, content)
  })
  return { json: { files }, text: () => `${files.join('\n')}\n` }
}
