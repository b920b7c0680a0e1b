import type { Model } from '../../model/index.ts'
import type { BoltUpStep, StripResult } from '../../strip/index.ts'
import { given } from '../../working/answer.ts'
import { type Check, type CheckKind, check } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import type { Memory } from '../../working/memory.ts'
import { pointerOf } from '../../working/pointer.ts'
import { boltChecks } from './bolts.ts'
import { asksForWeld, changeWeldCheck, weldsOf } from './changeWelds.ts'
import { boltsRecorded, weldsRecorded } from './kinds.ts'
import { openedChecks } from './opened.ts'
import { weldChecks } from './welds.ts'

/** Opened parts, welds and bolts as recorded; for each change that is welded whether its weld is; and for each step of the return whether what it welds and bolts has its record. */
export function inspectionChecks(model: Model, strip: Pick<StripResult, 'boltUp'>, memory: Memory): readonly Check[] {
  const { project, near } = model
  const zone = project.programme?.timeZone ?? 'UTC'
  const closed = new Map(strip.boltUp.flatMap(({ joints }) => joints.map((j) => [j.joint, j] as const)))
  return [
    ...Object.entries(project.inspections).flatMap(([id, inspection]) =>
      memory.once(`programme/inspection/${id}`, [inspection, near], () => openedChecks(id, inspection, near)),
    ),
    ...Object.entries(project.welds).flatMap(([id, weld]) =>
      memory.once(`programme/weld/${id}`, [weld, zone, near], () => weldChecks(id, weld, zone, near)),
    ),
    ...Object.entries(project.boltRecords).flatMap(([id, record]) => {
      const planned = closed.get(record.joint)
      const count = project.joints[record.joint]?.bolts?.count
      return memory.once(`programme/bolts/${id}`, [record, planned, count, near], () =>
        boltChecks(id, record, { planned, count }, near),
      )
    }),
    ...Object.entries(project.changes).flatMap(([id, change]) => {
      if (!asksForWeld(change)) return []
      const own = weldsOf(id, project.welds)
      const finished = project.programme?.progress[`change.${id}`]?.finish
      return memory.once(`programme/welded/${id}`, [change, finished, near, ...own.flat()], () => [
        changeWeldCheck(id, change, own, { finished, near }),
      ])
    }),
    ...strip.boltUp.flatMap((list) =>
      memory.once(
        `programme/recorded/${list.step}`,
        [list, project.joints, project.welds, project.boltRecords, near],
        () => recordedChecks(model, list),
      ),
    ),
  ]
}

/** Whether what one step of the return closes is on record: welds, and bolts. Nothing to close, no check; closed without one fails. */
function recordedChecks({ project, near }: Model, { step, joints, others }: BoltUpStep): Check[] {
  const welded = others.filter((id) => project.joints[id]?.kind === 'welded')
  const of = (records: Readonly<Record<string, { joint?: string | undefined }>>): ReadonlySet<string | undefined> =>
    new Set(Object.values(records).map(({ joint }) => joint))
  const asked: [CheckKind, string, readonly string[], ReadonlySet<string | undefined>][] = [
    [weldsRecorded, 'welds', welded, of(project.welds)],
    [boltsRecorded, 'boltRecords', joints.map(({ joint }) => joint), of(project.boltRecords)],
  ]
  return asked.flatMap(([kind, collection, due, recorded]) => {
    if (due.length === 0) return []
    const missing = due.filter((joint) => !recorded.has(joint))
    const closed = missing.flatMap((joint) => {
      const on = project.programme?.progress[`${step}.close.${joint}`]?.finish
      return on === undefined ? [] : [`${joint}: closed on ${on}, and no record names it`]
    })
    return [
      check({
        kind,
        subject: { pointer: pointerOf('steps', step), id: step, name: `return of ${step}` },
        demand: faultsFound(
          closed.length,
          'joints that are closed and have no record',
          Object.fromEntries(missing.map((joint) => [joint, given('1', pointerOf(collection, joint), undefined)])),
        ),
        capacity: NONE,
        near,
        assumptions: [`${due.length - missing.length} of ${due.length} joints recorded`],
        found: closed,
      }),
    ]
  })
}
