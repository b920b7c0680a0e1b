import type { Summary } from '../engine/protocol.ts'

/** Something that work waits for on a day: a permit, a hold point, a delivery. */
export interface Coming {
  key: string
  what: string
  asks: string
  at: number
  lift: string | undefined
  /** A failing finding stops the same activity. */
  stopped: boolean
}

const DAY = 86_400_000
export const DAYS_AHEAD = 14
const MOST_LATER = 4

/** Holds, permits, tests and deliveries of the next days; and the first of those after them. */
export function comingUp(summary: Summary, document: unknown): { soon: Coming[]; later: Coming[] } {
  const { today } = summary
  if (today === undefined) return { soon: [], later: [] }
  const all = [...holds(summary), ...deliveries(summary, document)]
    .filter((c) => c.at >= today)
    .sort((a, b) => a.at - b.at)
  const end = today + DAYS_AHEAD * DAY
  const soon = all.filter((c) => c.at < end)
  return { soon, later: all.slice(soon.length, soon.length + MOST_LATER) }
}

function holds({ activities, checks }: Summary): Coming[] {
  const stopped = new Set(checks.flatMap((c) => (c.verdict === 'fail' ? (c.follows?.stops?.activity ?? []) : [])))
  return activities.flatMap((a): Coming[] =>
    a.holdPoint === undefined
      ? []
      : [
          {
            key: a.id,
            what: a.name,
            asks: a.holdPoint,
            // A permit is due before the lift begins; what is inspected has to be finished first.
            at: a.lift === undefined ? a.finish : a.start,
            lift: a.lift,
            stopped: stopped.has(a.id),
          },
        ],
  )
}

interface Deliveries {
  programme?: { deliveries?: Readonly<Record<string, { what: string; activity: string }>> }
}

function deliveries({ activities }: Summary, document: unknown): Coming[] {
  const finishes = new Map(activities.map((a) => [a.id, a.finish]))
  return Object.entries((document as Deliveries).programme?.deliveries ?? {}).flatMap(([id, { what, activity }]) => {
    const at = finishes.get(activity)
    return at === undefined ? [] : [{ key: id, what, asks: 'delivery', at, lift: undefined, stopped: false }]
  })
}
