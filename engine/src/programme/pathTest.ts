import { workAt } from './calendar.ts'
import { type Network, withWork } from './network.ts'
import { earlyDates, finishes, longestPath, targetOf } from './passes.ts'

/** How much is put into an activity to see whether the path is one. */
export const PATH_TEST_DAYS = 600

/**
 * The first activity of the longest path is lengthened, and the early dates are worked again: where the links are sound, the
 * restart moves by as much. Undefined when nothing on the path takes time.
 *
 * @returns what was added and by how much the restart moved, s in the activity's own working time
 */
export function pathTest(network: Network, day: (id: string) => number) {
  const early = earlyDates(network)
  const path = longestPath(network, early, targetOf(network, early))
  const first = network.order.find((i) => path.has(i) && (network.work[i] as number) > 0 && network.unbroken[i] === 0)
  if (first === undefined) return undefined
  const id = network.ids[first] as string
  const added = PATH_TEST_DAYS * day(id)
  const longer = network.work.map((w, i) => (i === first ? w + added : w))
  const before = finishes(network, early).restart
  const after = finishes(network, earlyDates(withWork(network, longer))).restart
  const calendar = network.calendar[first] as Network['calendar'][number]
  return { id, added, moved: workAt(calendar, after) - workAt(calendar, before), day: day(id) }
}
