import type { PunchItem } from '../../model/index.ts'
import type { ProgrammeResult } from '../../programme/index.ts'
import { type Check, countVerdicts } from '../../working/check.ts'
import type { UnitSystem } from '../../working/quantity.ts'
import { DEFERRAL, INVENTED } from '../sheet/cautions.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import { type SheetCheck, sheetChecks, summaryOf } from '../sheet/sheetChecks.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { type AttachedFiles, attachmentsOf, type DossierAttachment } from './attached.ts'
import { type DossierPart, type DossierWeld, partOf, weldOf } from './opened.ts'
import { checkLookup, idsOf, recordChecks } from './recordChecks.ts'
import { type DossierJoining, type DossierService, servicesOf } from './services.ts'
import { type DossierTest, testsOf } from './tested.ts'
import {
  boltsOf,
  closingsOf,
  type DossierBolts,
  type DossierClosing,
  type DossierWeighing,
  type DossierWeldedChange,
  weighingsOf,
  weldedChangesOf,
} from './tightened.ts'

export interface DossierStages extends SheetStages {
  programme: ProgrammeResult
}

/** A signature as the store keeps it; the project file has none. */
export interface DossierSignature {
  id: string
  kind: string
  subject: string
  role: string
  by: string
  /** Day, ISO 8601. */
  on: string
  state: 'stands' | 'overtaken' | 'withdrawn'
  statement: string
}

export interface DossierOptions extends SheetOptions {
  /** Signatures of the store; undefined where the dossier is made from the file alone. */
  signatures?: readonly DossierSignature[] | undefined
  /** Files beside the project; undefined where nobody looked for them. */
  files?: AttachedFiles | undefined
}

/** A punch item with its check. */
export interface DossierPunch extends Omit<PunchItem, 'attachments'> {
  id: string
  attachments: readonly DossierAttachment[]
  checks: readonly string[]
}

/** One kind of record in one line: how many there are or are due, and how many of them are still open. */
export interface DossierLine {
  name: string
  due: number
  open: number
  /** What is counted as open, in words. */
  means: string
}

/** Everything that the dossier says, as plain data: numbers in SI, or in the unit that stands beside them; every figure with the ids of its checks. */
export interface DossierSheet {
  project: string
  units: UnitSystem
  /** Nothing at all is on record or asked for. */
  isEmpty: boolean
  lines: readonly DossierLine[]
  parts: readonly DossierPart[]
  welds: readonly DossierWeld[]
  bolts: readonly DossierBolts[]
  closings: readonly DossierClosing[]
  weldedChanges: readonly DossierWeldedChange[]
  weighings: readonly DossierWeighing[]
  joinings: readonly DossierJoining[]
  services: readonly DossierService[]
  /** In the order in which they may be made. */
  tests: readonly DossierTest[]
  /** Open items first, those that block before the rest. */
  punch: readonly DossierPunch[]
  signatures: readonly DossierSignature[] | undefined
  summary: string
  fails: boolean
  checks: readonly DossierCheck[]
  deferral: string
  notice: string
}

/** A check as it is printed, with its two sides as numbers. */
export interface DossierCheck extends SheetCheck {
  unit: Check['unit']
  demandSi: number | undefined
  capacitySi: number | undefined
}

/** What is on record of the machine until it runs again, in one document. */
export function dossierSheet(stages: DossierStages, options: DossierOptions = {}): DossierSheet {
  const { about, inspections, welds, boltRecords, settings } = stages.model.project
  const units = options.units ?? settings.units
  const { files } = options
  const checks = recordChecks(stages)
  const lookup = checkLookup(checks)
  const told = {
    parts: Object.entries(inspections).map(([id, inspection]) => partOf(id, inspection, lookup, files)),
    welds: Object.entries(welds).map(([id, weld]) => weldOf(id, weld, lookup, files)),
    bolts: Object.entries(boltRecords).map(([id, record]) =>
      boltsOf(id, record, { model: stages.model, lookup, files }),
    ),
    closings: closingsOf(stages, lookup),
    weldedChanges: weldedChangesOf(stages, lookup),
    weighings: weighingsOf(stages, lookup, files),
    ...servicesOf(stages, lookup, files),
    tests: testsOf(stages, lookup, options.signatures ?? []),
    punch: punchOf(stages, checks, files),
    signatures: options.signatures,
  }
  const lines = linesOf(told, checks)
  return {
    project: about.title,
    units,
    isEmpty: lines.every(({ due }) => due === 0),
    lines,
    ...told,
    summary: summaryOf(checks),
    fails: countVerdicts(checks).fail > 0,
    checks: printedChecks(checks, units),
    deferral: DEFERRAL,
    notice: about.invented ? INVENTED : '',
  }
}

function printedChecks(checks: readonly Check[], units: UnitSystem): DossierCheck[] {
  const byId = new Map(checks.map((c) => [c.id, c]))
  return sheetChecks(checks, units).map((printed) => {
    const { unit, demand, capacity } = byId.get(printed.id) as Check
    return { ...printed, unit, demandSi: demand.value, capacitySi: capacity.value }
  })
}

const BLOCKING = ['energising', 'restart', 'nothing']

/** Open items first, of these what blocks most, then what is due first. */
function punchOf({ model }: DossierStages, checks: readonly Check[], files: AttachedFiles | undefined): DossierPunch[] {
  const rank = ({ closed, blocks, due = '9999' }: DossierPunch): string =>
    `${closed === undefined ? 0 : 1} ${BLOCKING.indexOf(blocks)} ${closed?.on ?? due}`
  return Object.entries(model.project.punchList)
    .map(([id, item]) => ({
      ...item,
      id,
      attachments: attachmentsOf(item, files),
      checks: idsOf(checks.filter((c) => c.id === `programme.punch.closed/${id}`)),
    }))
    .sort((a, b) => (rank(a) < rank(b) ? -1 : 1))
}

type Told = Pick<
  DossierSheet,
  | 'parts'
  | 'welds'
  | 'bolts'
  | 'closings'
  | 'weldedChanges'
  | 'weighings'
  | 'joinings'
  | 'tests'
  | 'punch'
  | 'signatures'
>

function linesOf(told: Told, checks: readonly Check[]): DossierLine[] {
  const settled = new Set(checks.flatMap(({ id, verdict }) => (verdict === 'pass' || verdict === 'near' ? [id] : [])))
  const isSettled = (ids: readonly string[]): boolean => ids.length > 0 && ids.every((id) => settled.has(id))
  const line = <T>(name: string, all: readonly T[], isOpen: (one: T) => boolean, means: string): DossierLine => ({
    name,
    due: all.length,
    open: all.filter(isOpen).length,
    means,
  })
  const closing = (as: 'bolted' | 'welded', name: string): DossierLine => {
    const own = told.closings.filter((c) => c.as === as)
    const count = (of: (c: DossierClosing) => readonly string[]): number => own.reduce((n, c) => n + of(c).length, 0)
    return { name, due: count((c) => c.joints), open: count((c) => c.open), means: 'no record names the joint' }
  }
  const joined = told.joinings
  return [
    line(
      'Opened parts',
      told.parts,
      (p) => !isSettled([...p.checks, ...p.measures.flatMap((m) => m.checks)]),
      'not decided on, or a measure is open or outside its limit',
    ),
    line(
      'Welds',
      told.welds,
      (w) =>
        !isSettled([
          ...Object.values(w.checks).flat(),
          ...w.examinations.filter(({ stands }) => stands).flatMap((e) => e.checks),
          ...w.measures.flatMap((m) => m.checks),
        ]),
      'a check is open or fails',
    ),
    closing('welded', 'Welded joints of the return'),
    line(
      'Changes that are welded',
      told.weldedChanges,
      (c) => !isSettled(c.checks),
      'no weld names it, or one is not examined and accepted',
    ),
    line('Bolt-up records', told.bolts, (b) => !isSettled(Object.values(b.checks).flat()), 'a check is open or fails'),
    closing('bolted', 'Bolted joints of the return'),
    line('Weighings', told.weighings, (w) => w.stands && !isSettled(w.checks), 'a check is open or fails'),
    {
      name: 'Services joined again',
      due: joined.reduce((n, j) => n + j.services, 0),
      open: joined.reduce((n, j) => n + j.open.length, 0),
      means: 'not joined, tags not read, or not looked at by another',
    },
    line('Tests', told.tests, (t) => t.state !== 'passed', 'not passed'),
    line('Punch list', told.punch, ({ closed }) => closed === undefined, 'not closed'),
    line('Signatures', told.signatures ?? [], ({ state }) => state !== 'stands', 'overtaken or withdrawn'),
  ]
}
