import type { Inspection, Weld } from '../../model/index.ts'
import { standingTests } from '../../programme/index.ts'
import { type AttachedFiles, attachmentsOf, type DossierAttachment } from './attached.ts'
import { type DossierMeasure, measuresOf } from './readings.ts'
import { type CheckLookup, idsOf } from './recordChecks.ts'

/** A part that was opened, or is to be. */
export interface DossierPart {
  id: string
  what: string
  kind: Inspection['kind']
  parts: readonly string[]
  opened: Inspection['opened']
  measures: readonly DossierMeasure[]
  decided: Inspection['decided']
  attachments: readonly DossierAttachment[]
  note: string | undefined
  /** Checks of the decision; those of the measures stand with them. */
  checks: readonly string[]
}

/** An examination of a weld. */
export interface DossierExamination {
  id: string
  method: string
  level: string | undefined
  /** Shares of the length. */
  asked: number | undefined
  done: number | undefined
  on: string | undefined
  by: string | undefined
  qualification: string | undefined
  result: string | undefined
  indications: string | undefined
  /** False where a later one by the same method stands for it. */
  stands: boolean
  checks: readonly string[]
}

/** A weld that was laid, or is to be. */
export interface DossierWeld {
  id: string
  what: string
  joint: string | undefined
  parts: readonly string[]
  change: string | undefined
  state: Weld['state']
  procedure: Weld['procedure']
  welders: readonly { mark: string; qualification: string | undefined; until: string | undefined }[]
  /** Degrees Celsius. */
  preheat: { atLeast: number | undefined; lowest: number | undefined } | undefined
  interpass: { atMost: number | undefined; highest: number | undefined } | undefined
  finished: string | undefined
  /** s */
  wait: number | undefined
  examinations: readonly DossierExamination[]
  measures: readonly DossierMeasure[]
  attachments: readonly DossierAttachment[]
  note: string | undefined
  checks: {
    qualified: readonly string[]
    heat: readonly string[]
    wait: readonly string[]
    accepted: readonly string[]
  }
}

/** An opened part with what was measured; what was read up to its rework or replacement is of what was there before. */
export function partOf(
  id: string,
  inspection: Inspection,
  lookup: CheckLookup,
  files: AttachedFiles | undefined,
): DossierPart {
  const { what, kind, parts, opened, measures, decided, note } = inspection
  const isRenewed = decided !== undefined && decided.as !== 'reused'
  return {
    id,
    what,
    kind,
    parts,
    opened,
    measures: measuresOf(lookup, ['inspections', id], measures, (on) => isRenewed && on <= decided.on),
    decided,
    attachments: attachmentsOf(inspection, files),
    note,
    checks: idsOf(lookup.of('inspections', id, '.decided')),
  }
}

export function weldOf(id: string, weld: Weld, lookup: CheckLookup, files: AttachedFiles | undefined): DossierWeld {
  const { what, joint, parts, change, state, procedure, welders, preheat, interpass, finished, wait, note } = weld
  const of = (kind: string): string[] => idsOf(lookup.of('welds', id, kind))
  return {
    id,
    what,
    joint,
    parts,
    change,
    state,
    procedure,
    welders: Object.values(welders).map(({ mark, qualification, until }) => ({ mark, qualification, until })),
    preheat: preheat && { atLeast: preheat.atLeast.value, lowest: preheat.lowest?.value },
    interpass: interpass && { atMost: interpass.atMost.value, highest: interpass.highest?.value },
    finished,
    wait: wait?.value,
    examinations: examinationsOf(id, weld, lookup),
    measures: measuresOf(lookup, ['welds', id], weld.measures),
    attachments: attachmentsOf(weld, files),
    note,
    checks: {
      qualified: of('.qualified'),
      heat: of('.preheat'),
      wait: of('.wait'),
      accepted: Object.keys(weld.tests).length === 0 ? of('.accepted') : [],
    },
  }
}

function examinationsOf(id: string, weld: Weld, lookup: CheckLookup): DossierExamination[] {
  const standing = new Set(standingTests(weld).map(([t]) => t))
  const accepted = lookup.of('welds', id, '.accepted')
  return Object.entries(weld.tests).map(([t, test]) => ({
    id: t,
    method: test.method,
    level: test.level,
    asked: test.asked.value,
    done: test.done?.value,
    on: test.on,
    by: test.by,
    qualification: test.qualification,
    result: test.result,
    indications: test.indications,
    stands: standing.has(t),
    checks: idsOf(accepted.filter((c) => c.id === `${c.kind}/${id}/${t}`)),
  }))
}
