import type { Model } from '../../model/index.ts'
import { given } from '../../working/answer.ts'
import { type Check, check, type Subject } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import type { Memory } from '../../working/memory.ts'
import { pointerOf } from '../../working/pointer.ts'
import { readingKinds, testInOrder, testWitnessed } from './kinds.ts'
import { limitChecks, noReading } from './limits.ts'
import { standing, type Test } from './readings.ts'

const CAUTIONS = [
  'The maker and the standards in force set limits and methods; a reading within its limit releases nothing by itself.',
]

/** Every test: its readings against its limit, who saw them, and whether it stood in its order. Nothing read is open. */
export function testChecks({ project: { tests }, near }: Model, memory: Memory): readonly Check[] {
  return Object.entries(tests).flatMap(([id, test]) => {
    const before = test.after.flatMap((t) => {
      const earlier = tests[t]
      return earlier === undefined ? [] : [[t, earlier] as const]
    })
    return memory.once(`programme/test/${id}`, [test, ...before.map(([, t]) => t), near], () => [
      ...readingChecks(id, test, near),
      ...(test.holdPoint || test.proves === 'lock' ? [witnessCheck(id, test, near)] : []),
      ...(before.length === 0 ? [] : [orderCheck(id, test, before, near)]),
    ])
  })
}

const subjectOf = (id: string, { test }: Test): Subject => ({ pointer: pointerOf('tests', id), id, name: test })

function readingChecks(id: string, test: Test, near: number): Check[] {
  return limitChecks({
    kind: readingKinds[test.proves],
    subject: subjectOf(id, test),
    title: `${readingKinds[test.proves].title}: ${test.passLimit ?? test.test}`,
    at: pointerOf('tests', id),
    measured: test,
    assumptions: [
      ...(test.unit === undefined ? [] : [`read in ${test.unit}`]),
      ...(test.procedure === undefined ? [] : [test.procedure]),
    ],
    cautions: CAUTIONS,
    near,
  })
}

function witnessCheck(id: string, test: Test, near: number): Check {
  const read = standing(test)
  const alone = read.filter(([, { by, witness }]) => witness !== undefined && witness.trim() === by.trim())
  const unseen = read.filter(([, { witness }]) => witness === undefined)
  return check({
    kind: testWitnessed,
    subject: subjectOf(id, test),
    demand: faultsFound(
      alone.length,
      'readings that were witnessed by the one who tested',
      read.length === 0
        ? noReading(pointerOf('tests', id))
        : Object.fromEntries(
            unseen.map(([r]) => [
              `witness of ${r}`,
              given('1', pointerOf('tests', id, 'readings', r, 'witness'), undefined),
            ]),
          ),
    ),
    capacity: NONE,
    near,
    assumptions: test.witness === undefined ? [] : [`to be witnessed by: ${test.witness}`],
    cautions: CAUTIONS,
    found: alone.map(([r, { by }]) => `${r}: ${by} tested and is named as the witness`),
  })
}

/** What a test rests on has passed, no later than the day of its first reading; before anything is read nothing is asked. */
function orderCheck(id: string, test: Test, before: readonly (readonly [string, Test])[], near: number): Check {
  const began = firstDay(test)
  const rests = began === undefined ? [] : before
  const faults = rests.flatMap(([t, earlier]) => faultOf(t, earlier, began as string) ?? [])
  const undecided = rests.filter(([t, earlier]) => readingChecks(t, earlier, near).some((c) => c.verdict === 'open'))
  return check({
    kind: testInOrder,
    subject: subjectOf(id, test),
    demand: faultsFound(
      faults.length,
      'tests that it rests on and that had not passed on the day of its first reading',
      Object.fromEntries(
        undecided.map(([t, { limit }]) => [
          t,
          given('1', pointerOf('tests', t, limit === undefined ? 'limit' : 'readings'), undefined),
        ]),
      ),
    ),
    capacity: NONE,
    near,
    assumptions: [
      began === undefined
        ? `nothing is read yet; the plan has it after ${before.map(([t]) => t).join(', ')}`
        : `first reading on ${began}`,
    ],
    found: faults,
  })
}

const firstDay = ({ readings }: Test): string | undefined =>
  Object.values(readings)
    .map(({ on }) => on)
    .sort()[0]

/** Why a test is no ground for one that began on a day. */
function faultOf(id: string, test: Test, began: string): string | undefined {
  const last = standing(test)
    .map(([, { on }]) => on)
    .sort()
    .at(-1)
  const what = `${id}, ${test.test}`
  if (last === undefined) return `${what}: nothing is read, and what rests on it began on ${began}`
  if (last > began) return `${what}: read on ${last}, after what rests on it began on ${began}`
  const failed = test.limit !== undefined && readingChecks(id, test, 1).some(({ verdict }) => verdict === 'fail')
  return failed ? `${what}: out of its limit` : undefined
}
