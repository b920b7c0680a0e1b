import type { Activity } from '../../programme/index.ts'
import type { Reading } from './campaign.ts'

const OUTWARD: ReadonlySet<Activity['kind']> = new Set(['lift', 'turn'])
const HOMEWARD: ReadonlySet<Activity['kind']> = new Set(['lift back', 'turn back'])

/** A stop along the order, in seconds of the plan's clock: when the way to it begins, and when it is reached. */
export interface Stop {
  begins: number
  reached: number
}

/**
 * When each stop along the order is reached in the plan: as found, after each of N steps, then after each that is undone,
 * 2N + 1 in all. A step with no lift of its own, or that is not undone, is reached with the one before it; so is one that the
 * plan has earlier, since the order is one line.
 */
export function stopsOf({ strip, programme, when }: Reading, begins: number): Stop[] {
  const spans = (kinds: ReadonlySet<Activity['kind']>): ReadonlyMap<string, Stop> => {
    const found = new Map<string, Stop>()
    for (const { id, step, kind } of Object.values(programme.activities)) {
      const span = kinds.has(kind) ? when(id) : undefined
      if (step === undefined || span === undefined) continue
      const known = found.get(step)
      found.set(step, {
        begins: Math.min(span.start, known?.begins ?? span.start),
        reached: Math.max(span.finish, known?.reached ?? span.finish),
      })
    }
    return found
  }
  const [out, back] = [spans(OUTWARD), spans(HOMEWARD)]
  const steps = strip.steps.map((s) => s.step)
  const planned = [...steps.map((s) => out.get(s)), ...[...steps].reverse().map((s) => back.get(s))]
  const stops: Stop[] = [{ begins, reached: begins }]
  for (const span of planned) {
    const before = (stops.at(-1) as Stop).reached
    const reached = Math.max(before, span?.reached ?? begins)
    stops.push({ begins: Math.min(reached, Math.max(before, span?.begins ?? before)), reached })
  }
  return stops
}

/** When a place along the order is reached: at a stop when that is, on the way to the next straight from when it begins. */
export function timeAlong(stops: readonly Stop[], along: number): number {
  const at = Math.min(Math.max(along, 0), stops.length - 1)
  const [last, next] = [stops[Math.floor(at)] as Stop, stops[Math.floor(at) + 1]]
  const share = at - Math.floor(at)
  return share === 0 || next === undefined ? last.reached : next.begins + share * (next.reached - next.begins)
}

/** The place along the order at an instant: the furthest stop that is reached, and the share of the way to the next once that has begun. */
export function alongAt(stops: readonly Stop[], seconds: number): number {
  const i = stops.findLastIndex((s) => s.reached <= seconds)
  if (i < 0) return 0
  const next = stops[i + 1]
  return next === undefined || seconds <= next.begins ? i : i + (seconds - next.begins) / (next.reached - next.begins)
}
