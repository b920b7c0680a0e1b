import { sameContent } from '@shieldwright/engine/working/memory.ts'
import type { Summary } from './protocol.ts'

/** Of a list: where each item stood before, or the item where it is another; absent items are gone. */
type ListDelta = readonly (number | Item)[]
type Item = Readonly<Record<string, unknown>>

/** What of a summary is another than before: most of it is not, and need not cross from the worker. */
export interface SummaryDelta {
  values: Readonly<Record<string, unknown>>
  lists: Readonly<Record<string, ListDelta>>
}

const isList = (value: unknown): value is readonly Item[] => Array.isArray(value)

/** What `applyDelta` needs to make `after` out of `before`. */
export function deltaBetween(before: Summary, after: Summary): SummaryDelta {
  const values: Record<string, unknown> = {}
  const lists: Record<string, ListDelta> = {}
  for (const [key, now] of Object.entries(after)) {
    const was = before[key as keyof Summary]
    if (!isList(was) || !isList(now)) {
      if (!sameContent(was, now)) values[key] = now
      continue
    }
    const delta = listDelta(was, now)
    if (delta !== undefined) lists[key] = delta
  }
  return { values, lists }
}

function listDelta(was: readonly Item[], now: readonly Item[]): ListDelta | undefined {
  const places = new Map(was.map((item, i) => [nameOf(item) ?? i, i]))
  const delta = now.map((item, i) => {
    const place = places.get(nameOf(item) ?? i)
    return place !== undefined && sameContent(was[place], item) ? place : item
  })
  return delta.length === was.length && delta.every((item, i) => item === i) ? undefined : delta
}

/** Most items of a summary have an id, or are steps and named by that; others go by their place. */
const nameOf = (item: Item): unknown => item.id ?? item.step

/** The later summary. What did not change keeps its identity, so that whatever shows it need not be drawn again. */
export function applyDelta(before: Summary, { values, lists }: SummaryDelta): Summary {
  const changed = Object.entries(lists).map(([key, delta]) => {
    const was = before[key as keyof Summary] as unknown as readonly Item[]
    return [key, delta.map((item) => (typeof item === 'number' ? was[item] : item))]
  })
  return { ...before, ...values, ...Object.fromEntries(changed) }
}
