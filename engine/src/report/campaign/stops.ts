import type { Activity } from '../../programme/index.ts'
import type { Reading } from './campaign.ts'

const OUTWARD: ReadonlySet<Activity['kind']> = new Set(['lift', 'turn'])
const HOMEWARD: ReadonlySet<Activity['kind']> = new Set(['lift back', 'turn back'])

/**
 * When each stop along the order is reached in the plan, seconds of its own clock: as found, after each of N steps, then after
 * each that is undone, 2N + 1 in all. A step with no lift of its own, or that is not undone, is reached with the one before it;
 * so is one that the plan has earlier, since the order is one line.
 */
export function stopsOf({ strip, programme, when }: Reading, begins: number): number[] {
  const ends = (kinds: ReadonlySet<Activity['kind']>): ReadonlyMap<string, number> => {
    const found = new Map<string, number>()
    for (const { id, step, kind } of Object.values(programme.activities)) {
      const finish = kinds.has(kind) ? when(id)?.finish : undefined
      if (step !== undefined && finish !== undefined) found.set(step, Math.max(finish, found.get(step) ?? finish))
    }
    return found
  }
  const [out, back] = [ends(OUTWARD), ends(HOMEWARD)]
  const steps = strip.steps.map((s) => s.step)
  const reached = [...steps.map((s) => out.get(s)), ...[...steps].reverse().map((s) => back.get(s))]
  const stops = [begins]
  for (const at of reached) stops.push(Math.max(stops.at(-1) as number, at ?? begins))
  return stops
}

/** When a place along the order is reached: between two stops straight. */
export function timeAlong(stops: readonly number[], along: number): number {
  const last = stops.length - 1
  const at = Math.min(Math.max(along, 0), last)
  const i = Math.min(Math.floor(at), last - 1)
  const [from, to] = [stops[Math.max(i, 0)] as number, stops[i + 1] ?? (stops[0] as number)]
  return from + (at - Math.max(i, 0)) * (to - from)
}

/** The place along the order at an instant: the furthest stop that is reached, and the share of the way to the next. */
export function alongAt(stops: readonly number[], seconds: number): number {
  const [first] = stops
  if (first === undefined || seconds <= first) return 0
  const i = stops.findLastIndex((s) => s <= seconds)
  const [from, to] = [stops[i] as number, stops[i + 1]]
  return to === undefined ? i : i + (seconds - from) / (to - from)
}
