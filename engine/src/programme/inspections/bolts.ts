import type { BoltRecord } from '../../model/index.ts'
import type { BoltUpJoint } from '../../strip/index.ts'
import { type Answer, found, given, knownOr } from '../../working/answer.ts'
import { type Check, check, type Subject } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { pointerOf } from '../../working/pointer.ts'
import { boltsSampled, boltsTightened } from './kinds.ts'

const CAUTION = 'The maker’s bolting instruction governs; a tool out of calibration says nothing of the preload.'

/**
 * Checks of one record of tightening.
 *
 * @param planned the joint as the return closes it; undefined where it does not
 * @param count bolts that the joint has
 */
export function boltChecks(
  id: string,
  record: BoltRecord,
  { planned, count }: { planned: BoltUpJoint | undefined; count: number | undefined },
  near: number,
): Check[] {
  const subject: Subject = { pointer: pointerOf('boltRecords', id), id, name: `bolts of ${record.joint}` }
  return [
    tightenedCheck(subject, record, count, near),
    ...(Object.keys(record.samples).length === 0 ? [] : sampleChecks(subject, record, planned, near)),
  ]
}

function tightenedCheck(subject: Subject, record: BoltRecord, count: number | undefined, near: number): Check {
  const { by, on, checkedBy, bolts, tool, rechecked } = record
  const faults = [
    ...(count !== undefined && bolts < count ? [`${bolts} of ${count} bolts are tightened`] : []),
    ...(checkedBy !== undefined && checkedBy.trim() === by.trim() ? [`${by} tightened and looked at it alone`] : []),
    ...(tool?.calibratedUntil !== undefined && tool.calibratedUntil < on
      ? [`${tool.what}: calibrated until ${tool.calibratedUntil}, used on ${on}`]
      : []),
    ...(rechecked !== undefined && rechecked.on < on
      ? [`looked at again on ${rechecked.on}, before it was tightened`]
      : []),
  ]
  const missing = [
    ...(['lot', 'lubricant', 'checkedBy', 'rechecked'] as const).filter((f) => record[f] === undefined),
    ...(tool === undefined ? ['tool'] : tool.calibratedUntil === undefined ? ['tool/calibratedUntil'] : []),
  ]
  return check({
    kind: boltsTightened,
    subject,
    demand: faultsFound(
      faults.length,
      'reasons not to accept it',
      Object.fromEntries(missing.map((field) => [field, given('1', `${subject.pointer}/${field}`, undefined)])),
    ),
    capacity: NONE,
    near,
    assumptions: [`${bolts} bolts by ${by} on ${on}`],
    cautions: [CAUTION],
    found: faults,
  })
}

function sampleChecks(
  subject: Subject,
  { joint, samples }: BoltRecord,
  planned: BoltUpJoint | undefined,
  near: number,
) {
  const read = Object.fromEntries(Object.values(samples).map(({ bolt, preload }) => [`bolt ${bolt}`, preload]))
  const values = Object.values(read).flatMap(({ value }) => value ?? [])
  const of = (value: number, which: string): Answer<'N'> =>
    found({ unit: 'N', value, method: `the ${which} of the bolts measured`, inputs: read, residuals: [] })
  const at = (field: string): string => pointerOf('joints', joint, 'bolts', field)
  const common = {
    kind: boltsSampled,
    subject,
    near: 1,
    assumptions: [`${values.length} bolts measured`],
    cautions: [CAUTION],
  }
  return [
    check({
      ...common,
      of: 'least',
      title: 'The least preload measured is what the joint needs',
      demand: knownOr(planned?.bolts.least, 'N', at('least')),
      capacity: of(Math.min(...values), 'least'),
      found: ['less than the joint needs: tighten again and measure more of them'],
    }),
    check({
      ...common,
      of: 'most',
      title: 'The largest preload measured stays below 0.9 of yield',
      demand: of(Math.max(...values), 'largest'),
      capacity: planned?.bolting.allowed ?? given('N', at('grade'), undefined),
      near,
      found: ['above 0.9 of yield: the bolt is taken out and replaced'],
    }),
  ]
}
