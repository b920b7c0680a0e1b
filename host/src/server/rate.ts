/** Counts how often somebody does something. */
export interface Rate {
  /** Counts one more at this instant, ms; false when it is too many. */
  allows(who: string, now: number): boolean
}

/** Names that are remembered at most; the oldest are let go. */
const MOST_NAMES = 10_000

/** At most so many in a stretch of time, counted from the first. */
export function rateOf({ most, within }: { most: number; within: number }): Rate {
  const counted = new Map<string, { since: number; times: number }>()
  return {
    allows: (who, now) => {
      const last = counted.get(who)
      const count = last === undefined || now - last.since >= within ? { since: now, times: 0 } : last
      count.times++
      counted.delete(who)
      counted.set(who, count)
      const [oldest] = counted.size > MOST_NAMES ? counted.keys() : []
      if (oldest !== undefined) counted.delete(oldest)
      return count.times <= most
    },
  }
}
