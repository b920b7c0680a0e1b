import type { StockItem } from '../model/index.ts'
import { type Answer, found, given, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import { countsOf } from './hook.ts'
import { certificate, riggingFamily, stockCount } from './kinds.ts'
import type { Hooked, Pick } from './pick.ts'

/** On hand, in date, and rated under the rules of the project. */
export function stockChecks(pick: Pick, hooked: Hooked): Check[] {
  const { rigging, riggingAt, key: id } = hooked
  if (rigging === undefined) {
    const arrangement = given('1', riggingAt, undefined)
    return [
      check({ kind: stockCount, subject: pick.subject, of: id, demand: arrangement, capacity: arrangement, near: 1 }),
    ]
  }
  const counts = countsOf(rigging)
  const onHand = [...counts].map(([item, count]) => {
    const demand = counted(pick, hooked, item, count)
    const quantity = pick.stock[item]?.quantity
    return check({
      kind: stockCount,
      subject: pick.subject,
      of: `${id}/${item}`,
      title: `${stockCount.title}: ${pick.stock[item]?.name ?? item} ${item}`,
      demand,
      capacity: given('1', pointerOf('stock', item, 'quantity'), quantity),
      near: 1,
      found: [
        `${nameOf(pick, item)}: ${demand.value} hang at once, ${quantity} are on hand; have ${(demand.value ?? 0) - (quantity ?? 0)} more brought, or another arrangement`,
      ],
    })
  })
  const carrying = carryingOn(pick, hooked)
  return carrying.length === 0
    ? onHand
    : [...onHand, certificateCheck(pick, id, carrying), familyCheck(pick, id, carrying)]
}

const carryingOn = ({ stock }: Pick, { rigging }: Hooked): string[] =>
  rigging === undefined ? [] : [...countsOf(rigging).keys()].filter((item) => stock[item]?.kind !== 'tag line')

/** Items of stock that carry a lift, on either hook, each once. */
export function carryingItems(pick: Pick): readonly string[] {
  const hooks = pick.tail === undefined ? [pick.main] : [pick.main, pick.tail]
  return [...new Set(hooks.flatMap((hooked) => carryingOn(pick, hooked)))]
}

/** What a lift takes of an item: both hooks hang at once, and what hangs on one is not there for the other. */
function counted({ main, tail }: Pick, hooked: Hooked, item: string, count: number): Answer<'1'> {
  const other = hooked.key === main.key ? tail : main
  const beside = other?.rigging === undefined ? 0 : (countsOf(other.rigging).get(item) ?? 0)
  const own = stated('1', count, 'counted in the arrangement')
  if (other === undefined || beside === 0) return own
  return sumOf('on both hooks at once', '1', [
    { label: `hook ${hooked.id}`, answer: own },
    { label: `hook ${other.id}`, answer: stated('1', beside, 'counted in its arrangement') },
  ])
}

/** One fault an item; open where what it is judged by is missing. */
interface Judged {
  item: string
  pointer: string
  fault?: string
  isMissing: boolean
}

function faultCheck(
  pick: Pick,
  kind: typeof certificate,
  hook: string,
  judged: readonly Judged[],
  by: Record<string, Answer>,
  assumptions: readonly string[] = [],
): Check {
  const isOpen = judged.some((j) => j.isMissing) || Object.values(by).some((a) => a.value === undefined)
  const faults = judged.flatMap((j) => (j.fault === undefined ? [] : [j.fault]))
  const leaves = judged.map((j): [string, Answer] => [j.item, given('1', j.pointer, j.isMissing ? undefined : 1)])
  return check({
    kind,
    subject: pick.subject,
    of: hook,
    demand: found({
      unit: '1',
      // what is known to be wrong is wrong whatever else is missing
      value: faults.length > 0 ? faults.length : isOpen ? undefined : 0,
      method: 'items that do not hold, counted',
      inputs: faults.length > 0 ? {} : { ...by, ...Object.fromEntries(leaves) },
      residuals: [],
    }),
    capacity: stated('1', 0, 'none allowed'),
    near: 1,
    found: faults,
    assumptions,
    cautions: RIGGING_CAUTIONS,
  })
}

/**
 * What a paper of a lift is held against: the day that the lift states. A lift that states none is held against the plan, by the
 * programme, which knows its days; without a programme the day is missing.
 */
export function dayOf({ lift, at, isPlanned }: Pick): { day: string | undefined; missing: Record<string, Answer> } {
  const leaf = { 'day of the lift': given('1', `${at}/on`, lift.on === undefined ? undefined : 1) }
  return { day: lift.on, missing: lift.on === undefined && isPlanned ? {} : leaf }
}

/** Said where the lift leaves the days of its papers to the programme. */
export const dayWords = ({ lift, isPlanned }: Pick): readonly string[] =>
  lift.on === undefined && isPlanned
    ? [
        'The lift states no day of its own: the programme holds the days of each paper against those on which the plan has it.',
      ]
    : []

function certificateCheck(pick: Pick, hook: string, items: readonly string[]): Check {
  const { day, missing } = dayOf(pick)
  const judged = items.map((item): Judged => {
    const until = pick.stock[item]?.certificateUntil
    const isOver = until !== undefined && day !== undefined && until < day
    return {
      item,
      pointer: pointerOf('stock', item, 'certificateUntil'),
      isMissing: until === undefined,
      ...(isOver
        ? {
            fault: `${nameOf(pick, item)}: certificate ran out on ${until}, the lift is on ${day}; examine it before, or take another`,
          }
        : {}),
    }
  })
  return faultCheck(pick, certificate, hook, judged, missing, dayWords(pick))
}

function familyCheck(pick: Pick, hook: string, items: readonly string[]): Check {
  const chosen = pick.settings.riggingRules
  const judged = items.map((item): Judged => {
    const own = pick.stock[item]?.rules
    const isOther = own !== undefined && chosen !== undefined && own !== chosen
    return {
      item,
      pointer: pointerOf('stock', item, 'rules'),
      isMissing: own === undefined,
      ...(isOther
        ? {
            fault: `${nameOf(pick, item)} is rated by ${own} rules, the project goes by ${chosen} ones; it is not converted: take an item with a ${chosen} rating`,
          }
        : {}),
    }
  })
  const by = { 'rules of the project': given('1', '/settings/riggingRules', chosen === undefined ? undefined : 1) }
  return faultCheck(pick, riggingFamily, hook, judged, by)
}

const nameOf = ({ stock }: Pick, id: string): string => {
  const item: StockItem | undefined = stock[id]
  return `${item?.name ?? item?.kind ?? 'item'} ${id}`
}
