import type { Model, PunchItem } from '../model/index.ts'
import { given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { punchListClear } from './kinds.ts'

type Tests = Model['project']['tests']

const CAUTION = 'An item is closed by the one who saw it put right; the list holds what was found, not what was missed.'

/** Every item that blocks: it is closed before what it holds. An item for later is asked nothing. */
export function punchChecks({ project: { punchList, tests }, near }: Model, memory: Memory): readonly Check[] {
  return Object.entries(punchList).flatMap(([id, item]) =>
    item.blocks === 'nothing'
      ? []
      : memory.once(`programme/punch/${id}`, [item, ...item.tests.map((t) => tests[t]), near], () => [
          punchCheck(id, item, tests, near),
        ]),
  )
}

/** A blocking item that is not closed leaves what it holds open; a test that was read before it was closed fails. */
function punchCheck(id: string, item: PunchItem, tests: Tests, near: number): Check {
  const at = pointerOf('punchList', id)
  const { closed, what, blocks } = item
  const early = item.tests.flatMap((t) => {
    const first = Object.values(tests[t]?.readings ?? {})
      .map(({ on }) => on)
      .filter((on) => on > item.found.on)
      .sort()[0]
    return first !== undefined && (closed === undefined || first < closed.on)
      ? [
          `${t} was read on ${first}, ${closed === undefined ? 'and the item is not closed' : `before it was closed on ${closed.on}`}`,
        ]
      : []
  })
  return check({
    kind: punchListClear,
    subject: { pointer: at, id, name: what },
    demand: faultsFound(
      early.length,
      'tests read while the item that holds them was not closed',
      closed === undefined ? { closed: given('1', `${at}/closed`, undefined) } : {},
    ),
    capacity: NONE,
    near,
    assumptions: [`blocks ${blocks}`, 'a reading on the day it was found is the one that found it'],
    cautions: [CAUTION],
    found: early,
  })
}
