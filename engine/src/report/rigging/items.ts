import type { Check } from '../../working/check.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { OPEN, useText } from '../sheet/figures.ts'
import type { HungFrom, SheetSubject } from '../sheet/subject.ts'

/** One kind of thing between hook and piece: how many, what it is rated for, and how much of that the worst one uses. */
export interface RiggingItem {
  id: string
  name: string
  count: number
  rated: string
  mass: string
  /** Largest use over rating that the lift stage found; a dash where nothing is asked of it. */
  use: string
  fails: boolean
}

/** Everything that hangs from one hook, from the hook down, counted. */
export function riggingItems(subject: SheetSubject, from: HungFrom, units: UnitSystem): RiggingItem[] {
  const { rigging } = from
  if (rigging === undefined) return []
  const { gear, stock } = subject.stages.model.project
  const counts = new Map<string, number>()
  const count = (id: string, n: number): void => void counts.set(id, (counts.get(id) ?? 0) + n)
  for (const leg of rigging.legs) {
    count(leg.item, leg.parts)
    if (leg.link !== undefined) count(leg.link, 1)
  }
  for (const other of rigging.others) count(other.item, other.count)
  const carried = rigging.gear.map((id): RiggingItem => {
    const g = gear[id]
    return itemOf(subject, from, units, {
      id,
      name: g?.name ?? id,
      count: 1,
      rated: g?.rated?.value,
      mass: g?.mass.value,
    })
  })
  const stocked = [...counts].map(([id, n]): RiggingItem => {
    const s = stock[id]
    return itemOf(subject, from, units, {
      id,
      name: s?.name ?? s?.kind ?? id,
      count: n,
      rated: s?.rated?.value,
      mass: s?.mass.value,
    })
  })
  return [...carried, ...stocked]
}

interface Known {
  id: string
  name: string
  count: number
  rated: number | undefined
  mass: number | undefined
}

function itemOf(subject: SheetSubject, from: HungFrom, units: UnitSystem, known: Known): RiggingItem {
  const { id, name, count, rated, mass } = known
  const own = subject.outcome.checks.filter((c) => asks(c, from.hookId, id) || holdsLeg(c, from, id))
  const worst = own.reduce<Check | undefined>(
    (most, c) => ((c.utilisation ?? Number.POSITIVE_INFINITY) > (most?.utilisation ?? -1) ? c : most),
    undefined,
  )
  return {
    id,
    name,
    count,
    rated: rated === undefined ? (worst === undefined ? '–' : OPEN) : showQuantity(rated, 'kg', units),
    mass: mass === undefined ? OPEN : showQuantity(mass, 'kg', units),
    use: worst === undefined ? '–' : useText(worst.utilisation),
    fails: own.some((c) => c.verdict === 'fail'),
  }
}

const asks = ({ id, kind }: Check, hook: string, item: string): boolean =>
  kind === 'lift.component.use' && id.endsWith(`/${hook}/${item}`)

/** The tension of a leg that this sling is: legs are counted in the order of the arrangement. */
const holdsLeg = ({ id, kind }: Check, { hookId, rigging }: HungFrom, item: string): boolean =>
  kind === 'lift.leg.tension' &&
  (rigging?.legs ?? []).some((leg, i) => leg.item === item && id.endsWith(`/${hookId}/leg ${i + 1}`))
