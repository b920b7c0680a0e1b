import { dirname, join } from 'node:path'
import type { Derivation, Stages } from '@shieldwright/engine'
import { boltingChecksOf } from '@shieldwright/engine/report/bolt-up/boltUpSheet.ts'
import { CAMPAIGN_PAPERS, type Paper as CampaignPaper } from '@shieldwright/engine/report/campaign/layout.ts'
import { recordChecks } from '@shieldwright/engine/report/dossier/recordChecks.ts'
import {
  HAND_PAPERS,
  type HandPaper,
  LIFT_PAPERS,
  type LiftPaper,
  PAPERS,
  type PaperName,
} from '@shieldwright/engine/report/paper/size.ts'
import { PROGRAMME_PAPERS, type ProgrammePaper } from '@shieldwright/engine/report/programme/programmeSheets.ts'
import { SITE_PAPERS, type SitePaper } from '@shieldwright/engine/report/site/index.ts'
import type { SimulationResult } from '@shieldwright/engine/risk/index.ts'
import { type Check, countVerdicts } from '@shieldwright/engine/working/check.ts'
import { nearestId } from '@shieldwright/engine/working/problem.ts'
import { type Command, InvalidArgumentError, Option } from 'commander'
import { contentHash } from '../../project/contentHash.ts'
import { writeWhole } from '../../project/writeWhole.ts'
import type { Chances } from '../../report/campaign.ts'
import type { Issue } from '../../report/liftSheet.ts'
import type { OnSiteScope } from '../../report/on-site/onSiteFile.ts'
import { baseProblem } from '../../report/tags.ts'
import { type Answer, type Cancelled, type Common, type Refusal, usageProblem } from '../answer.ts'
import { derivationOf, idList, onDerivation, projectCommand } from '../command.ts'
import { jsonText } from '../json.ts'
import { eachWatched } from '../progress.ts'
import { momentOption } from './import.ts'
import { runsOption, seedOption } from './risk.ts'

/** Kinds of documents, each in a folder of its own under the one that is given. */
const KINDS = [
  'lift-sheets',
  'rigging',
  'bolt-up',
  'order',
  'tags',
  'daily-report',
  'dossier',
  'stakeholders',
  'site',
  'campaign',
  'programme',
  'risk',
  'on-site',
] as const
type Kind = (typeof KINDS)[number]

/** Papers that each kind can be had on; its own where none is named. */
const PAPERS_OF: Readonly<Record<Kind, readonly PaperName[]>> = {
  'lift-sheets': LIFT_PAPERS,
  rigging: ['A4'],
  'bolt-up': HAND_PAPERS,
  order: HAND_PAPERS,
  tags: HAND_PAPERS,
  'on-site': [],
  'daily-report': HAND_PAPERS,
  dossier: HAND_PAPERS,
  stakeholders: HAND_PAPERS,
  site: SITE_PAPERS,
  campaign: CAMPAIGN_PAPERS,
  programme: PROGRAMME_PAPERS,
  risk: ['A3'],
}

interface Options extends Common {
  out: string
  only?: Kind
  lift?: readonly string[]
  paper?: PaperName
  step?: string
  at?: string
  base?: string
  day?: string
  date?: string
  revision?: string
  since?: string
  sinceName?: string
  runs: number
  seed: number
}

/** `report FILE --out DIR`: lift sheets, rigging and bolt-up sheets, the order, drawings of the site and the campaign diagram. */
export const reportCommand = (): Command =>
  projectCommand(
    'report',
    'lift, rigging and bolt-up sheets, the order, drawings of the site and the campaign diagram, to print and sign; the lists of a shift as one file for the site',
  )
    .requiredOption('--out <dir>', 'folder to write into, made if need be')
    .addOption(new Option('--only <kind>', 'one kind of document').choices(KINDS))
    .option('--lift <ids>', 'only these lifts, between commas', idList)
    .addOption(new Option('--paper <size>', 'paper of what can be had on it; the rest keeps its own').choices(PAPERS))
    .option(
      '--step <id>',
      'step of the order that the site is drawn after, otherwise the heaviest for the wall; with --only bolt-up only its sheets; with --only on-site its lists',
    )
    .option(
      '--at <moment>',
      'moment whose shift the on-site file is of; otherwise the data date, else today',
      momentOption,
    )
    .option(
      '--base <address>',
      'address of the workbench that the symbols of tags open; they hold the tag alone without it',
      baseOption,
    )
    .option('--day <date>', 'day of the daily report; otherwise the last of the diary', dateOption)
    .option('--date <date>', 'date of issue; otherwise today', dateOption)
    .option('--revision <name>', 'revision to print on the sheets')
    .option(
      '--since <file>',
      'project file of the issue before: the page for stakeholders says what moved since, and why',
    )
    .option('--since-name <name>', 'what the issue before is called')
    .option('--runs <n>', 'runs of the simulation that the sheet of the restart shows', runsOption, 5000)
    .option('--seed <n>', 'the same seed gives the same sheet', seedOption, 1)
    .action(onDerivation(reportAnswer))

async function reportAnswer(derivation: Derivation, stages: Stages, options: Options, file: string): Promise<Answer> {
  const refusal = unknownId('--lift', options.lift, Object.keys(stages.lift.lifts), 'the id of a lift')
  const stepIds = stages.strip.steps.map((s) => s.step)
  const other = unknownId('--step', options.step === undefined ? [] : [options.step], stepIds, 'the id of a step')
  if (refusal !== undefined || other !== undefined) return (refusal ?? other) as Refusal
  const { only, paper, day } = options
  const days = [...new Set(Object.values(stages.model.project.diary).map(({ on }) => on))].sort()
  if (day !== undefined && !days.includes(day))
    return usageProblem(
      '--day',
      `"${day}"`,
      days.length === 0 ? 'a day of the diary, which has no entry' : `a day of the diary, such as ${days.at(-1)}`,
    )
  if (only !== undefined && paper !== undefined && !PAPERS_OF[only].includes(paper))
    return usageProblem(
      '--paper',
      `"${paper}"`,
      PAPERS_OF[only].length === 0
        ? `none: ${only} is a file for a screen`
        : `a paper that ${only} can be had on: ${PAPERS_OF[only].join(', ')}`,
    )
  const earlier = options.since === undefined ? undefined : await derivationOf(options.since)
  if (earlier !== undefined && 'problems' in earlier) return earlier
  const { date = today(), revision, units = 'SI' } = options
  const issue = { date, contentHash: contentHash(derivation.document), revision, units }
  const written = await writtenPapers(
    await papersOf(derivation, stages, earlier?.stages, { ...options, folder: dirname(file) }, issue),
  )
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

async function papersOf(
  derivation: Derivation,
  stages: Stages,
  earlier: Stages | undefined,
  options: Options & { folder: string },
  issue: Issue,
): Promise<Paper[]> {
  const { tagsPdf } = await import('../../report/tags.ts')
  const { onSiteFile } = await import('../../report/on-site/onSiteFile.ts')
  const { liftSheetPdf } = await import('../../report/liftSheet.ts')
  const { riggingPdf, SITE_DRAWINGS, sitePdf } = await import('../../report/site.ts')
  const { campaignPdf, campaignSvg } = await import('../../report/campaign.ts')
  const { restartSimulated, riskPdf } = await import('../../report/risk.ts')
  const { programmePages, programmePdf, programmeSvg } = await import('../../report/programme.ts')
  const { issueBefore, stakeholdersPdf } = await import('../../report/stakeholders.ts')
  const { dailyPdf } = await import('../../report/daily.ts')
  const { picturesInFolder } = await import('../../report/attachedPictures.ts')
  const { dossierData, dossierPdf } = await import('../../report/dossier.ts')
  const { orderPdf } = await import('../../report/order.ts')
  const { boltUpPdf } = await import('../../report/boltUp.ts')
  const { out, step, lift = Object.keys(stages.lift.lifts) } = options
  let simulated: SimulationResult | undefined
  // one simulation for all documents that show it
  const simulation = (): SimulationResult | undefined => {
    simulated ??= restartSimulated(stages, options)
    return simulated
  }
  // photographs lie beside the project file, as its meshes do
  const attached = () => picturesInFolder([stages.model.project], options.folder)
  const paperOf = <P extends PaperName>(kind: Kind): { paper?: P } =>
    options.paper !== undefined && PAPERS_OF[kind].includes(options.paper) ? { paper: options.paper as P } : {}
  const ofLifts = (kind: Kind, pdf: typeof liftSheetPdf): Paper[] =>
    lift.map((id) => ({
      path: join(out, kind, `${id}.pdf`),
      bytes: () => pdf(stages, id, { ...issue, ...paperOf<LiftPaper>(kind) }),
    }))
  const papers: Readonly<Record<Kind, () => Paper[]>> = {
    'lift-sheets': () => ofLifts('lift-sheets', liftSheetPdf),
    rigging: () => ofLifts('rigging', riggingPdf),
    'bolt-up': () =>
      boltUpSteps(stages, options).map((id) => ({
        path: join(out, 'bolt-up', `${id}.pdf`),
        bytes: () => boltUpPdf(stages, id, { ...issue, ...paperOf<HandPaper>('bolt-up') }),
      })),
    order: () => [
      {
        path: join(out, 'order', 'order.pdf'),
        bytes: () => orderPdf(stages, { ...issue, ...paperOf<HandPaper>('order') }),
      },
    ],
    tags: () => [
      {
        path: join(out, 'tags', 'tags.pdf'),
        bytes: () => tagsPdf(stages, { ...issue, base: options.base, ...paperOf<HandPaper>('tags') }),
      },
    ],
    'on-site': () =>
      onSiteScopes(options).map(({ name, scope }) => ({
        path: join(out, 'on-site', `${name}.html`),
        bytes: async () => encoded(onSiteFile(stages, scope, issue)),
      })),
    'daily-report': () => [
      {
        path: join(out, 'daily-report', 'daily-report.pdf'),
        bytes: () => dailyPdf(stages, { ...issue, day: options.day, ...paperOf<HandPaper>('daily-report') }),
      },
    ],
    dossier: () => [
      {
        path: join(out, 'dossier', 'dossier.pdf'),
        bytes: async () =>
          dossierPdf(stages, { ...issue, ...paperOf<HandPaper>('dossier'), attached: await attached() }),
      },
      {
        path: join(out, 'dossier', 'dossier.json'),
        bytes: async () => encoded(jsonText(dossierData(stages, { ...issue, attached: await attached() }))),
      },
    ],
    stakeholders: () => [
      {
        path: join(out, 'stakeholders', 'stakeholders.pdf'),
        bytes: async () => {
          const made = simulation()
          const { sinceName: name = 'the issue before', runs, seed } = options
          const before = earlier && issueBefore(derivation, earlier, { name, date: issue.date, runs, seed })
          const asked = { ...issue, ...paperOf<HandPaper>('stakeholders'), before }
          return made && stakeholdersPdf(stages, { ...asked, simulation: made })
        },
      },
    ],
    site: () =>
      (Object.keys(SITE_DRAWINGS) as (keyof typeof SITE_DRAWINGS)[]).map((name) => ({
        path: join(out, 'site', `${name}.pdf`),
        bytes: () => sitePdf(stages, name, { ...issue, step, ...paperOf<SitePaper>('site') }),
      })),
    campaign: () =>
      (['pdf', 'svg'] as const).map((kind) => ({
        path: join(out, 'campaign', `campaign.${kind}`),
        bytes: () =>
          (kind === 'pdf' ? campaignPdf : campaignSvg)(stages, {
            ...issue,
            ...paperOf<CampaignPaper>('campaign'),
            ...chancesOf(stages, simulation()),
          }),
      })),
    programme: () => {
      const asked = { ...issue, ...paperOf<ProgrammePaper>('programme') }
      const pages = programmePages(stages, asked)?.length ?? 0
      return [
        { path: join(out, 'programme', 'programme.pdf'), bytes: () => programmePdf(stages, asked) },
        ...Array.from({ length: pages }, (_, i) => ({
          path: join(out, 'programme', `programme-${i + 1}.svg`),
          bytes: () => programmeSvg(stages, asked, i),
        })),
      ]
    },
    risk: () => [
      {
        path: join(out, 'risk', 'restart.pdf'),
        bytes: () => riskPdf(stages, { ...issue, ...options, simulation: simulation() }),
      },
    ],
  }
  return kindsOf(options).flatMap((kind) => papers[kind]())
}

/** What on-site files are of: each lift that is named, the step, else the shift. */
function onSiteScopes({ only, lift, step, at }: Options): { name: string; scope: OnSiteScope }[] {
  if (lift !== undefined) return lift.map((id) => ({ name: `lift-${id}`, scope: { lifts: [id] } }))
  if (only === 'on-site' && step !== undefined) return [{ name: `step-${step}`, scope: { step } }]
  return [{ name: 'shift', scope: { at } }]
}

const encoded = (text: string | undefined): Uint8Array | undefined =>
  text === undefined ? undefined : new TextEncoder().encode(text)

/** The restart as simulated, where it was. */
function chancesOf({ programme }: Stages, simulation: SimulationResult | undefined): { simulated?: Chances } {
  if (simulation === undefined || programme.origin === undefined) return {}
  const zero = Date.parse(programme.origin)
  const { p10, p50, p80, p90 } = simulation.restart
  return { simulated: [p10, p50, p80, p90].map((s) => zero + s * 1000) as unknown as Chances }
}

/** Steps that close joints with bolts, in the order of the return; the one that is asked for, where bolt-up alone is. */
const boltUpSteps = ({ strip }: Stages, { only, step }: Options): string[] =>
  strip.boltUp.flatMap((list) =>
    list.joints.length > 0 && (only !== 'bolt-up' || step === undefined || step === list.step) ? [list.step] : [],
  )

function boltUpChecks(stages: Stages, options: Options): Check[] {
  const steps = new Set(boltUpSteps(stages, options))
  const joints = stages.strip.boltUp.flatMap((list) => (steps.has(list.step) ? list.joints : []))
  return joints.flatMap(({ joint }) => boltingChecksOf(stages, joint))
}

/** Checks that stand on what is written; they set the exit code. */
function checksOf(stages: Stages, options: Options): Check[] {
  const kinds = kindsOf(options)
  const lifts = options.lift ?? Object.keys(stages.lift.lifts)
  return [
    ...(kinds.some((k) => k === 'lift-sheets' || k === 'rigging')
      ? lifts.flatMap((id) => stages.lift.lifts[id]?.checks ?? [])
      : []),
    ...(kinds.includes('bolt-up') ? boltUpChecks(stages, options) : []),
    ...(kinds.includes('order') ? stages.strip.checks.filter((c) => c.subject.pointer.startsWith('/steps/')) : []),
    ...(kinds.includes('dossier') ? recordChecks(stages) : []),
    ...(kinds.includes('site') ? stages.ground.checks : []),
    ...(kinds.some((k) => k === 'campaign' || k === 'programme') ? stages.programme.checks : []),
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

export const today = (): string => new Date().toISOString().slice(0, 10)

function baseOption(address: string): string {
  const fault = baseProblem(address, '--base')
  if (fault === undefined) return address
  throw new InvalidArgumentError(`expected ${fault.expected}, such as ${fault.example}.`)
}

export function dateOption(text: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text))) return text
  throw new InvalidArgumentError('expected a date, year-month-day, such as 2032-12-09.')
}
