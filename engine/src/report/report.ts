import type { GroundResult } from '../ground/index.ts'
import type { LiftOutcome, LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import type { RiskResult } from '../risk/index.ts'
import type { StripResult } from '../strip/index.ts'
import { type Check, countVerdicts, type Verdict } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { liftTitle, openFigures } from './sheet/liftSheet.ts'
import { groundChecksOf } from './sheet/sheetChecks.ts'

/** Kinds of documents that can be issued. */
export type DocumentKind = 'lift-sheet'

/** A document that can be issued, and what stands in its way. */
export interface ReportDocument {
  /** Kind, then what it is of: `lift-sheet/head-out`. */
  id: string
  kind: DocumentKind
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

/** What can be put on paper, in the order of the work: a sheet for each lift out, then for each lift back. */
export function report(
  model: Model,
  _mass: MassResult,
  strip: StripResult,
  lift: LiftResult,
  ground: GroundResult,
  _programme: ProgrammeResult,
  _risk: RiskResult,
  memory: Memory,
): ReportResult {
  const documents = liftsInOrder(model, strip, lift).map((outcome) => {
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
  return memory.once('report-all', documents, () => ({ checks: [], documents }))
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
  const open = openFigures(outcome)
  const readiness = counts.fail > 0 ? 'failing' : counts.open > 0 || open.length > 0 ? 'open' : 'ready'
  return { id: `lift-sheet/${outcome.id}`, kind: 'lift-sheet', of: outcome.id, title, readiness, counts, open }
}
