import type { BoltRecord } from '../../model/index.ts'
import { asksForWeld, weldsOf } from '../../programme/index.ts'
import { leavesOf } from '../../working/answer.ts'
import { pointerOf } from '../../working/pointer.ts'
import { type AttachedFiles, attachmentsOf, type DossierAttachment } from './attached.ts'
import type { DossierStages } from './dossierSheet.ts'
import { type CheckLookup, idsOf } from './recordChecks.ts'

/** Bolts of a joint as they were tightened. */
export interface DossierBolts {
  id: string
  joint: string
  by: string
  on: string
  checkedBy: string | undefined
  bolts: number
  /** Bolts that the joint has. */
  count: number | undefined
  lot: string | undefined
  lubricant: string | undefined
  tool: BoltRecord['tool']
  /** Preload as measured, N. */
  samples: readonly { bolt: number; preload: number | undefined }[]
  rechecked: BoltRecord['rechecked']
  attachments: readonly DossierAttachment[]
  note: string | undefined
  checks: { tightened: readonly string[]; sampled: readonly string[] }
}

/** Joints that one step of the return closes, by bolts or by welding, and those of them that no record names. */
export interface DossierClosing {
  step: string
  piece: string
  as: 'bolted' | 'welded'
  joints: readonly string[]
  open: readonly string[]
  checks: readonly string[]
}

/** A change that is welded on, and the welds on record that name it. */
export interface DossierWeldedChange {
  id: string
  what: string
  parts: readonly string[]
  welds: readonly string[]
  checks: readonly string[]
}

/** A piece as it was weighed. */
export interface DossierWeighing {
  id: string
  piece: string
  lift: string | undefined
  on: string | undefined
  /** Net of rigging, kg, and its standard accuracy as a share. */
  measured: number | undefined
  accuracy: number | undefined
  includes: string | undefined
  /** False where a later weighing of the piece is the one that is held against its mass. */
  stands: boolean
  /** What was expected to hang there, kg. */
  expected: number | undefined
  attachments: readonly DossierAttachment[]
  checks: readonly string[]
}

export function boltsOf(
  id: string,
  record: BoltRecord,
  { model, lookup, files }: { model: DossierStages['model']; lookup: CheckLookup; files: AttachedFiles | undefined },
): DossierBolts {
  const { joint, by, on, checkedBy, bolts, lot, lubricant, tool, samples, rechecked, note } = record
  return {
    id,
    joint,
    by,
    on,
    checkedBy,
    bolts,
    count: model.project.joints[joint]?.bolts?.count,
    lot,
    lubricant,
    tool,
    samples: Object.values(samples).map(({ bolt, preload }) => ({ bolt, preload: preload.value })),
    rechecked,
    attachments: attachmentsOf(record, files),
    note,
    checks: {
      tightened: idsOf(lookup.of('boltRecords', id, '.tightened')),
      sampled: idsOf(lookup.of('boltRecords', id, '.sampled')),
    },
  }
}

/** What the return closes, step by step in its order, bolted and welded. */
export function closingsOf({ model, strip }: DossierStages, lookup: CheckLookup): DossierClosing[] {
  const { joints: all, boltRecords, welds, pieces } = model.project
  const bolted = new Set(Object.values(boltRecords).map(({ joint }) => joint))
  const welded = new Set(Object.values(welds).map(({ joint }) => joint))
  return strip.boltUp.flatMap(({ step, piece, joints, others }) => {
    const common = { step, piece: pieces[piece]?.name ?? piece }
    const byBolts = joints.map(({ joint }) => joint)
    const byWelds = others.filter((id) => all[id]?.kind === 'welded')
    const closing = (as: 'bolted' | 'welded', due: string[], known: ReadonlySet<string | undefined>, kind: string) =>
      due.length === 0
        ? []
        : [
            {
              ...common,
              as,
              joints: due,
              open: due.filter((joint) => !known.has(joint)),
              checks: idsOf(lookup.of('steps', step, kind)),
            },
          ]
    return [
      ...closing('bolted', byBolts, bolted, 'bolting.recorded'),
      ...closing('welded', byWelds, welded, 'weld.recorded'),
    ]
  })
}

/** Changes that are welded on, each with the welds on record that name it. */
export function weldedChangesOf({ model }: DossierStages, lookup: CheckLookup): DossierWeldedChange[] {
  const { changes, welds } = model.project
  return Object.entries(changes).flatMap(([id, change]) =>
    asksForWeld(change)
      ? [
          {
            id,
            what: change.what,
            parts: change.parts,
            welds: weldsOf(id, welds).map(([w]) => w),
            checks: idsOf(lookup.of('changes', id, '.of-change')),
          },
        ]
      : [],
  )
}

/** Weighings on record, with what was expected to hang there as the stage of masses has it. */
export function weighingsOf(
  { model, mass }: DossierStages,
  lookup: CheckLookup,
  files: AttachedFiles | undefined,
): DossierWeighing[] {
  const { weighings, pieces } = model.project
  return Object.entries(weighings).map(([id, weighing]) => {
    const { piece, measured, accuracy, date, lift, includes } = weighing
    const at = pointerOf('weighings', id, 'measured')
    const held = mass.pieces[piece]?.comparisons.find((c) => leavesOf(c.measured).some(({ pointer }) => pointer === at))
    return {
      id,
      piece: pieces[piece]?.name ?? piece,
      lift,
      on: date,
      measured: measured.value,
      accuracy: accuracy.value,
      includes,
      stands: held !== undefined,
      expected: held?.expected.value,
      attachments: attachmentsOf(weighing, files),
      checks: held === undefined ? [] : idsOf(lookup.of('pieces', piece).filter((c) => c.id.endsWith(`/${held.of}`))),
    }
  })
}
