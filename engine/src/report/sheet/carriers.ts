import { groundKinds } from '../../ground/index.ts'
import { liftKinds } from '../../lift/index.ts'
import type { Check, CheckKind } from '../../working/check.ts'
import type { Source } from '../../working/formula.ts'
import type { UnitSystem } from '../../working/quantity.ts'
import { workingOf } from '../../working/show.ts'
import type { SheetCheck } from './sheetChecks.ts'

/** Components of one kind that carry the load, each against what it may bear, by one clause. */
export interface CarrierGroup {
  title: string
  clause: string
  rows: readonly { of: string; check: SheetCheck }[]
}

/** From the machine down to the piece, then what the ground bears: beginnings of the kinds of check, in this order. */
const IN_ORDER: readonly string[] = [
  'lift.crane.chart-range',
  'lift.units.use',
  'lift.units.lost',
  'lift.units.strand',
  'lift.winch.pull',
  'lift.leg.tension',
  'lift.component.use',
  'lift.beam.',
  'lift.lug.strength',
  'lift.lug.foot',
  'lift.lug.weld',
  'lift.lug.parent',
  'lift.bolts.',
  'lift.crane.base',
  'lift.tower.leg',
  'ground.tower.leg',
  'ground.crane.',
  'ground.platform.',
  'ground.bay.',
]

const KINDS: ReadonlyMap<string, CheckKind> = new Map([...liftKinds, ...groundKinds].map((kind) => [kind.id, kind]))

/** What carries the load, by kind and clause; a kind that this lift has no check of is left out. */
export function carriersOf(
  checks: readonly Check[],
  printed: readonly SheetCheck[],
  units: UnitSystem,
): CarrierGroup[] {
  const shown = new Map(printed.map((c) => [c.id, c]))
  const groups = new Map<string, { title: string; clause: string; rows: { of: string; check: SheetCheck }[] }>()
  for (const beginning of IN_ORDER)
    for (const own of checks.filter((c) => c.kind.startsWith(beginning))) {
      const [row, clause] = [shown.get(own.id), clauseOf(own, units)]
      if (row === undefined) continue
      const title = KINDS.get(own.kind)?.title ?? own.title
      const group = groups.get(`${own.kind} ${clause}`) ?? { title, clause, rows: [] }
      groups.set(`${own.kind} ${clause}`, group)
      group.rows.push({ of: ofText(own, title), check: row })
    }
  return [...groups.values()]
}

/** What the check is of: what its own title adds to that of its kind, and by which hook or support. */
function ofText({ id, title }: Check, kind: string): string {
  const added = title.startsWith(`${kind}: `) ? title.slice(kind.length + 2) : ''
  const [place = ''] = id.split('/').slice(2)
  return added === '' ? id.split('/').slice(2).join(' ') || title : `${added}${place === '' ? '' : `, ${place}`}`
}

/** The published clause of the formula at work, where it has one; otherwise where its kind comes from. */
function clauseOf({ demand, capacity, kind }: Check, units: UnitSystem): string {
  const sources = [capacity, demand].flatMap((answer) => workingOf(answer, units).source ?? [])
  const own = sources.find(({ basis }) => basis === 'read' || basis === 'memory') ?? KINDS.get(kind)?.source
  return own === undefined ? '' : sourceText(own)
}

const sourceText = ({ basis, text }: Source): string => `${basis === 'memory' ? 'from memory' : basis}: ${text}`
