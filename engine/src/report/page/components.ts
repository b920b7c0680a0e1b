import type { Check } from '../../working/check.ts'
import type { HungFrom, SheetSubject } from '../sheet/subject.ts'

/** Something that carries the load, with the check that holds it tightest. */
export interface Component {
  name: string
  /** Where along the rigging it is. */
  where: 'hook' | 'above' | 'leg' | 'end' | 'piece'
  check: Check
}

/** What carries the load from the hook down to the piece, each once, with its largest use. */
export function componentsOf(subject: SheetSubject): Component[] {
  const { main, outcome, stages } = subject
  const { gear, stock } = stages.model.project
  const { rigging, hook } = main
  const worst = (kind: string, ends: (id: string) => boolean): Check | undefined =>
    outcome.checks
      .filter((c) => c.kind === kind && ends(c.id.split('/').slice(2).join('/')))
      .sort((a, b) => (b.utilisation ?? 0) - (a.utilisation ?? 0))[0]
  const at = `${main.hookId}/`
  const nodes = new Set(Object.values(rigging?.nodes ?? {}).map((n) => n.gear))
  const item = (id: string): string => shortName(stock[id] ?? { kind: '' }, id)
  const gearName = (id: string): string => shortName(gear[id] ?? { kind: '' }, id)
  const legItems = [...new Set((rigging?.legs ?? []).map((l) => l.item))]
  const ofComponent = (id: string): Check | undefined => worst('lift.component.use', (end) => end === `${at}${id}`)
  const pointIds = (rigging?.legs ?? []).map((l) => l.to)
  const found: readonly (readonly [string, Component['where'], Check | undefined])[] = [
    [hook.name, 'hook', worst('lift.hook.use', (end) => end === main.hookId)],
    ...[...nodes].map((id) => [gearName(id), 'above', ofComponent(id)] as const),
    [
      legItems.length === 1 ? item(legItems[0] as string) : legItems.join(', '),
      'leg',
      worst('lift.leg.tension', (end) => end.startsWith(at)),
    ],
    ...othersOf(rigging).map((id) => [item(id), 'end', ofComponent(id)] as const),
    ...(rigging?.gear ?? [])
      .filter((id) => !nodes.has(id))
      .map((id) => [gearName(id), 'piece', ofComponent(id)] as const),
    [
      'lifting points',
      'piece',
      worst('lift.component.use', (end) => pointIds.some((point) => end === `${at}${point}`)) ??
        worst('lift.lug.strength', (end) => end.startsWith(at)),
    ],
  ]
  return found.flatMap(([name, where, check]) => (check === undefined ? [] : [{ name, where, check }]))
}

const othersOf = (rigging: HungFrom['rigging']): string[] =>
  (rigging?.others ?? []).filter((other) => other.onLegs).map((other) => other.item)

const LONGEST = 17

/** The trade's word and its id where both find room, else the last word of the kind and the id, else the id. */
function shortName({ name = '', kind }: { name?: string; kind: string }, id: string): string {
  const words = [(name === '' ? kind : name).split(',')[0] as string, kind.split(' ').at(-1) as string]
  return words.map((word) => `${word} ${id}`).find((both) => both.length <= LONGEST) ?? id
}
