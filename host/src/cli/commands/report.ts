import { join } from 'node:path'
import type { Derivation, Stages } from '@shieldwright/engine'
import { SITE_PAPERS, type SitePaper } from '@shieldwright/engine/report/site/index.ts'
import { type Check, countVerdicts } from '@shieldwright/engine/working/check.ts'
import { nearestId } from '@shieldwright/engine/working/problem.ts'
import { type Command, InvalidArgumentError, Option } from 'commander'
import { contentHash } from '../../project/contentHash.ts'
import { writeWhole } from '../../project/demo.ts'
import type { Issue } from '../../report/liftSheet.ts'
import { type Answer, type Cancelled, type Common, type Refusal, usageProblem } from '../answer.ts'
import { idList, onDerivation, projectCommand } from '../command.ts'
import { eachWatched } from '../progress.ts'
import { runsOption, seedOption } from './risk.ts'

/** Kinds of documents, each in a folder of its own under the one that is given. */
const KINDS = ['lift-sheets', 'rigging', 'site', 'campaign', 'risk'] as const
type Kind = (typeof KINDS)[number]

interface Options extends Common {
  out: string
  only?: Kind
  lift?: readonly string[]
  paper?: SitePaper
  step?: string
  date?: string
  revision?: string
  runs: number
  seed: number
}

/** `report FILE --out DIR`: lift sheets, rigging sheets, drawings of the site and the campaign diagram. */
export const reportCommand = (): Command =>
  projectCommand('report', 'lift sheets, rigging, drawings of the site and the campaign diagram, to print and sign')
    .requiredOption('--out <dir>', 'folder to write into, made if need be')
    .addOption(new Option('--only <kind>', 'one kind of document').choices(KINDS))
    .option('--lift <ids>', 'only these lifts, between commas', idList)
    .addOption(
      new Option('--paper <size>', 'paper of the drawings of the site and of the campaign diagram').choices(
        SITE_PAPERS,
      ),
    )
    .option('--step <id>', 'step of the order that the site is drawn after; otherwise the heaviest for the wall')
    .option('--date <date>', 'date of issue; otherwise today', dateOption)
    .option('--revision <name>', 'revision to print on the sheets')
    .option('--runs <n>', 'runs of the simulation that the sheet of the restart shows', runsOption, 5000)
    .option('--seed <n>', 'the same seed gives the same sheet', seedOption, 1)
    .action(onDerivation(reportAnswer))

async function reportAnswer({ document }: Derivation, stages: Stages, options: Options): Promise<Answer> {
  const refusal = unknownId('--lift', options.lift, Object.keys(stages.lift.lifts), 'the id of a lift')
  const stepIds = stages.strip.steps.map((s) => s.step)
  const other = unknownId('--step', options.step === undefined ? [] : [options.step], stepIds, 'the id of a step')
  if (refusal !== undefined || other !== undefined) return (refusal ?? other) as Refusal
  const { date = today(), revision, units = 'SI' } = options
  const issue = { date, contentHash: contentHash(document), revision, units }
  const written = await writtenPapers(await papersOf(stages, options, issue))
  if (!('files' in written)) return written
  const counts = countVerdicts(checksOf(stages, options))
  return { json: written, text: () => `${written.files.join('\n')}\n`, counts }
}

function unknownId(
  option: string,
  ids: readonly string[] | undefined,
  known: readonly string[],
  expected: string,
): Refusal | undefined {
  const unknown = ids?.find((id) => !known.includes(id))
  return unknown === undefined ? undefined : usageProblem(option, `"${unknown}"`, expected, nearestId(unknown, known))
}

/** A file to be written, and how its bytes are made. */
interface Paper {
  path: string
  bytes: () => Promise<Uint8Array | undefined>
}

/** Kinds that are asked for: with certain lifts named, only what is of a lift. */
const kindsOf = ({ only, lift }: Options): readonly Kind[] =>
  only !== undefined ? [only] : lift !== undefined ? ['lift-sheets', 'rigging'] : KINDS

async function papersOf(stages: Stages, options: Options, issue: Issue): Promise<Paper[]> {
  const { liftSheetPdf } = await import('../../report/liftSheet.ts')
  const { riggingPdf, SITE_DRAWINGS, sitePdf } = await import('../../report/site.ts')
  const { campaignPdf, campaignSvg } = await import('../../report/campaign.ts')
  const { riskPdf } = await import('../../report/risk.ts')
  const { out, paper, step, lift = Object.keys(stages.lift.lifts) } = options
  const ofLifts = (kind: Kind, pdf: typeof liftSheetPdf): Paper[] =>
    lift.map((id) => ({ path: join(out, kind, `${id}.pdf`), bytes: () => pdf(stages, id, issue) }))
  const papers: Readonly<Record<Kind, () => Paper[]>> = {
    'lift-sheets': () => ofLifts('lift-sheets', liftSheetPdf),
    rigging: () => ofLifts('rigging', riggingPdf),
    site: () =>
      (Object.keys(SITE_DRAWINGS) as (keyof typeof SITE_DRAWINGS)[]).map((name) => ({
        path: join(out, 'site', `${name}.pdf`),
        bytes: () => sitePdf(stages, name, { ...issue, paper, step }),
      })),
    campaign: () =>
      (['pdf', 'svg'] as const).map((kind) => ({
        path: join(out, 'campaign', `campaign.${kind}`),
        bytes: () => (kind === 'pdf' ? campaignPdf : campaignSvg)(stages, { ...issue, ...(paper && { paper }) }),
      })),
    risk: () => [{ path: join(out, 'risk', 'restart.pdf'), bytes: () => riskPdf(stages, { ...issue, ...options }) }],
  }
  return kindsOf(options).flatMap((kind) => papers[kind]())
}

/** Checks that stand on what is written; they set the exit code. */
function checksOf(stages: Stages, options: Options): Check[] {
  const kinds = kindsOf(options)
  const lifts = options.lift ?? Object.keys(stages.lift.lifts)
  return [
    ...(kinds.some((k) => k === 'lift-sheets' || k === 'rigging')
      ? lifts.flatMap((id) => stages.lift.lifts[id]?.checks ?? [])
      : []),
    ...(kinds.includes('site') ? stages.ground.checks : []),
    ...(kinds.includes('campaign') ? stages.programme.checks : []),
  ]
}

/** Each document is written whole or not at all; Ctrl-C ends between two of them. */
async function writtenPapers(papers: readonly Paper[]): Promise<{ files: string[] } | Cancelled> {
  const files: string[] = []
  const isDone = await eachWatched('documents', papers, async ({ path, bytes }) => {
    const pdf = await bytes()
    if (pdf === undefined) return
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
