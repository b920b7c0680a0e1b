import type { StockItem } from '../model/index.ts'
import { type Answer, given, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { countsOf, gearOf } from './hook.ts'
import { dayOf, dayWords, type Judged, judgedCheck } from './judged.ts'
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
    : [...onHand, certificateCheck(pick, hooked, carrying), familyCheck(pick, id, carrying)]
}

const carryingOn = ({ stock }: Pick, { rigging }: Hooked): string[] =>
  rigging === undefined ? [] : [...countsOf(rigging).keys()].filter((item) => stock[item]?.kind !== 'tag line')

/** Items of stock that carry a lift, on either hook, each once. */
export function carryingItems(pick: Pick): readonly string[] {
  const hooks = pick.tail === undefined ? [pick.main] : [pick.main, pick.tail]
  return [...new Set(hooks.flatMap((hooked) => carryingOn(pick, hooked)))]
}

/** How many a lift takes of each item of stock: both hooks hang at once. */
export function takenItems({ main, tail }: Pick): Readonly<Record<string, number>> {
  const counts = [main, tail].flatMap((hooked) => (hooked?.rigging === undefined ? [] : [...countsOf(hooked.rigging)]))
  const taken: Record<string, number> = {}
  for (const [item, count] of counts) taken[item] = (taken[item] ?? 0) + count
  return taken
}

/** Spreaders, frames, crosses and cradles of a lift, on either hook, each once. */
export function carryingGear({ main, tail }: Pick): readonly string[] {
  const hooks = tail === undefined ? [main] : [main, tail]
  return [...new Set(hooks.flatMap(({ rigging }) => (rigging === undefined ? [] : gearOf(rigging))))]
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

function certificateCheck(pick: Pick, { key, rigging }: Hooked, items: readonly string[]): Check {
  const { day, missing } = dayOf(pick)
  const isOver = (until: string | undefined): boolean => until !== undefined && day !== undefined && until < day
  const late = (name: string, until: string | undefined): { fault?: string } =>
    isOver(until)
      ? { fault: `${name}: certificate ran out on ${until}, the lift is on ${day}; examine it before, or take another` }
      : {}
  const ofStock = items.map((item): Judged => {
    const until = pick.stock[item]?.certificateUntil
    const pointer = pointerOf('stock', item, 'certificateUntil')
    return { item, pointer, isMissing: until === undefined, ...late(nameOf(pick, item), until) }
  })
  const ofGear = (rigging === undefined ? [] : gearOf(rigging)).map((id): Judged => {
    const { name = id, certificateUntil: until, proof } = pick.gear[id] ?? {}
    const pointer = pointerOf('gear', id, 'certificateUntil')
    const isUnproved = proof !== undefined && day !== undefined && proof.on > day
    const fault = isUnproved
      ? { fault: `${name}: proof-tested on ${proof.on}, the lift is on ${day}; test it before its first use` }
      : late(name, until)
    return { item: id, pointer, isMissing: until === undefined, ...fault }
  })
  return judgedCheck(pick, certificate, key, [...ofStock, ...ofGear], missing, dayWords(pick))
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
  return judgedCheck(pick, riggingFamily, hook, judged, by)
}

const nameOf = ({ stock }: Pick, id: string): string => {
  const item: StockItem | undefined = stock[id]
  return `${item?.name ?? item?.kind ?? 'item'} ${id}`
}
