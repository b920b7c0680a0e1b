import type { GroundResult } from '../ground/index.ts'
import type { LiftOutcome, LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import type { RiskResult } from '../risk/index.ts'
import type { StripResult } from '../strip/index.ts'
import { type Check, countVerdicts, type Verdict } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { BOLTING } from './bolt-up/boltUpSheet.ts'
import { recordChecks } from './dossier/recordChecks.ts'
import { liftTitle, openFigures } from './sheet/liftSheet.ts'
import { groundChecksOf } from './sheet/sheetChecks.ts'

/** Kinds of documents that can be issued. */
export type DocumentKind =
  | 'lift-sheet'
  | 'rigging'
  | 'bolt-up'
  | 'order'
  | 'tags'
  | 'daily-report'
  | 'dossier'
  | 'stakeholders'
  | 'site-plan'
  | 'site-sections'
  | 'site-shaft'
  | 'site-settlement'
  | 'campaign'

/** A document that can be issued, and what stands in its way. */
export interface ReportDocument {
  /** Kind, then what it is of: `lift-sheet/head-out`; of what concerns the whole site the kind alone. */
  id: string
  kind: DocumentKind
  /** The lift that it is of; `site` for the whole. */
  of: string
  title: string
  /** `failing` when a check on it fails, `open` when a figure or a check is, else `ready` to be signed. */
  readiness: 'ready' | 'open' | 'failing'
  counts: Readonly<Record<Verdict, number>>
  /** Addresses of inputs missing under its figures. */
  open: readonly string[]
}

export interface ReportResult {
  checks: readonly Check[]
  documents: readonly ReportDocument[]
}

/** What can be put on paper: a sheet for each lift in the order of the work, its rigging alone, bolts to close, the dossier, the campaign, the site. */
export function report(
  model: Model,
  mass: MassResult,
  strip: StripResult,
  lift: LiftResult,
  ground: GroundResult,
  programme: ProgrammeResult,
  _risk: RiskResult,
  memory: Memory,
): ReportResult {
  const lifts = liftsInOrder(model, strip, lift)
  const sheets = lifts.map((outcome) => {
    const under = groundChecksOf(
      ground,
      strip.steps.filter((s) => s.lift === outcome.id).map((s) => s.step),
      outcome.id,
    )
    const title = liftTitle(model.project.pieces[outcome.piece]?.name ?? outcome.piece, outcome.kind)
    return memory.once(`report/${outcome.id}`, [outcome, title, ...under], () =>
      liftSheetDocument(outcome, title, under),
    )
  })
  const riggings = lifts.map((outcome) => {
    const title = liftTitle(model.project.pieces[outcome.piece]?.name ?? outcome.piece, outcome.kind)
    return memory.once(`report-rigging/${outcome.id}`, [outcome, title], () => riggingDocument(outcome, title))
  })
  const documents = [...sheets, ...riggings, ...wholeDocuments({ model, mass, strip, ground, programme }, memory)]
  return memory.once('report-all', documents, () => ({ checks: [], documents }))
}

/** What hangs a piece: legs, slings, gear, shackles, lifting points. */
const RIGGING = /^lift\.(leg|sling|component|shackle|lug|stock|hang)\./

function riggingDocument(outcome: LiftOutcome, title: string): ReportDocument {
  const counts = countVerdicts(outcome.checks.filter((c) => RIGGING.test(c.kind)))
  const open = outcome.legs.length === 0 ? [pointerOf('lifts', outcome.id, 'rigging')] : []
  return documentOf('rigging', outcome.id, `Rigging: ${title}`, { counts, open })
}

/** What stands at the surface; everything else of the ground is seen in the sections. */
const AT_SURFACE = /^ground\.(bay|tower|runway|crane|platform|line|haul|wall|neighbour)\./

interface WholeStages {
  model: Model
  mass: MassResult
  strip: StripResult
  ground: GroundResult
  programme: ProgrammeResult
}

/** Drawings of the whole site and of the whole campaign, whatever is still missing on them. */
function wholeDocuments(stages: WholeStages, memory: Memory): ReportDocument[] {
  const { model, strip, ground, programme } = stages
  const { shaft, bays, ground: soil } = model.project
  const [plan, sections] = [true, false].map((surface) =>
    ground.checks.filter((c) => AT_SURFACE.test(c.kind) === surface),
  )
  const lacking = (wanted: readonly [boolean, string][]): string[] => wanted.flatMap(([has, at]) => (has ? [] : [at]))
  const noShaft: [boolean, string] = [shaft !== undefined, '/shaft']
  const planned = Object.keys(programme.activities).length > 0
  const recorded = recordChecks(stages)
  const once = (kind: DocumentKind, title: string, checks: readonly Check[], open: readonly string[]): ReportDocument =>
    memory.once(`report-whole/${kind}`, [title, open.join(), ...checks], () =>
      documentOf(kind, 'site', title, { counts: countVerdicts(checks), open }),
    )
  return [
    ...(strip.boltUp.some(({ joints }) => joints.length > 0)
      ? [once('bolt-up', 'Bolt-up sheets', boltingChecks(strip), [])]
      : []),
    ...(strip.steps.length > 0 ? [once('order', 'Order of taking apart', stepChecks(strip), [])] : []),
    ...(strip.steps.some(({ services }) => services.length > 0) ? [once('tags', 'Tags of services', [], [])] : []),
    ...(Object.keys(model.project.diary).length > 0
      ? [once('daily-report', 'Daily report', instrumentChecks(ground), [])]
      : []),
    ...(recorded.length > 0 || Object.keys(model.project.punchList).length > 0
      ? [once('dossier', 'Commissioning dossier', recorded, [])]
      : []),
    ...(programme.restart === undefined ? [] : [once('stakeholders', 'Where the recovery stands, one page', [], [])]),
    once('campaign', 'Campaign diagram', programme.checks, lacking([[planned, '/programme']])),
    once('site-plan', 'Plan of the site', plan ?? [], lacking([noShaft, [Object.keys(bays).length > 0, '/bays']])),
    once('site-sections', 'Sections of the site', sections ?? [], lacking([noShaft, [soil !== undefined, '/ground']])),
    once(
      'site-shaft',
      'The shaft, stage by stage',
      ground.checks.filter((c) => IN_SHAFT.test(c.kind)),
      lacking([noShaft]),
    ),
    once(
      'site-settlement',
      'Settlement of the site',
      ground.checks.filter((c) => SETTLES.test(c.kind)),
      lacking([
        [Object.keys(bays).length > 0, '/bays'],
        [soil !== undefined, '/ground'],
      ]),
    ),
  ]
}

/** The wall as built, the stages of the shaft, the machine on its way in and on its jacks. */
const IN_SHAFT = /^ground\.(bore|overlap|wall\.verticality|base|wells|cradle\.(overhang|slide|sliding)|drive-in|jack)/

/** What a bay may settle and tilt. */
const SETTLES = /^ground\.bay\.(settlement|tilt)$/

const stepChecks = ({ checks }: StripResult): Check[] => checks.filter((c) => c.subject.pointer.startsWith('/steps/'))

/** A reading that is due is what a daily report can fail by. */
const instrumentChecks = ({ checks }: GroundResult): Check[] => checks.filter((c) => c.kind === 'ground.instrument.due')

const boltingChecks = ({ boltUp, checks }: StripResult): Check[] => {
  const joints = new Set(boltUp.flatMap((list) => list.joints.map((j) => j.joint)))
  return checks.filter((c) => BOLTING.test(c.kind) && joints.has(c.subject.id))
}

function documentOf(
  kind: DocumentKind,
  of: string,
  title: string,
  { counts, open }: Pick<ReportDocument, 'counts' | 'open'>,
): ReportDocument {
  const readiness = counts.fail > 0 ? 'failing' : counts.open > 0 || open.length > 0 ? 'open' : 'ready'
  return { id: of === 'site' ? kind : `${kind}/${of}`, kind, of, title, readiness, counts, open }
}

/** Lifts of the adopted order, then of the way back, then those that no step carries out. */
function liftsInOrder({ project }: Model, { steps }: StripResult, { lifts }: LiftResult): LiftOutcome[] {
  const out = steps.flatMap((s) => s.lift ?? [])
  const back = steps.flatMap((s) => project.steps[s.step]?.back ?? []).reverse()
  const ids = new Set([...out, ...back, ...Object.keys(lifts)])
  return [...ids].flatMap((id) => lifts[id] ?? [])
}

function liftSheetDocument(outcome: LiftOutcome, title: string, under: readonly Check[]): ReportDocument {
  const counts = countVerdicts([...outcome.checks, ...under])
  return documentOf('lift-sheet', outcome.id, title, { counts, open: openFigures(outcome) })
}
