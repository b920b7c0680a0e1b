import type { Change, Weld } from '../../model/index.ts'
import { given } from '../../working/answer.ts'
import { type Check, check } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { pointerOf } from '../../working/pointer.ts'
import { weldOfChange } from './kinds.ts'
import { standingTests } from './welds.ts'

const CAUTION =
  'What is welded to a part carries load as the weld does: a welding engineer accepts it before the part is lifted or run.'

/** Whether a change is welded on as the project says, and is to be done: only then it asks for the record of a weld. */
export const asksForWeld = ({ joining, status }: Change): boolean =>
  joining === 'welded' && (status === 'approved' || status === 'done')

/** Welds on record that name a change. */
export const weldsOf = (change: string, welds: Readonly<Record<string, Weld>>): [id: string, weld: Weld][] =>
  Object.entries(welds).filter(([, weld]) => weld.change === change)

/**
 * Whether what a change welds on is on record, examined and accepted. Open while something of it is missing, naming what to
 * record; done without a record it fails.
 *
 * @param own welds on record that name the change
 * @param finished day or moment on which the progress of the plan has it done
 */
export function changeWeldCheck(
  id: string,
  { what, status }: Change,
  own: readonly (readonly [id: string, weld: Weld])[],
  { finished, near }: { finished: string | undefined; near: number },
): Check {
  const isDone = status === 'done' || finished !== undefined
  const faults = [
    ...(own.length === 0 && isDone
      ? [`done${finished === undefined ? '' : ` on ${finished}`}, and no weld on record names it`]
      : []),
    ...own.flatMap(([w, weld]) =>
      standingTests(weld).flatMap(([, { method, result }]) =>
        result === 'rejected' ? [`${w}: ${method} rejected`] : [],
      ),
    ),
  ]
  const missing = own.length === 0 ? [pointerOf('welds', id)] : own.flatMap(([w, weld]) => toExamine(w, weld))
  return check({
    kind: weldOfChange,
    subject: { pointer: pointerOf('changes', id), id, name: what },
    demand: faultsFound(
      faults.length,
      'reasons not to accept what it welds on',
      Object.fromEntries(missing.map((at) => [at, given('1', at, undefined)])),
    ),
    capacity: NONE,
    near,
    assumptions: [
      own.length === 0
        ? `to record: a weld that names ${id} as its change, with procedure, welders, heat, wait and examinations`
        : `on record: ${own.map(([w]) => w).join(', ')}`,
    ],
    cautions: [CAUTION],
    found: faults,
  })
}

/** What still has to be read of a weld for it to be accepted or not: any examination, or the result of one. */
function toExamine(id: string, weld: Weld): string[] {
  const tests = standingTests(weld)
  if (tests.length === 0) return [pointerOf('welds', id, 'tests')]
  return tests.flatMap(([t, { result }]) =>
    result === undefined ? [pointerOf('welds', id, 'tests', t, 'result')] : [],
  )
}
