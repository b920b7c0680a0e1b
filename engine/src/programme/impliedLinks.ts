import type { Activity } from './activity.ts'
import type { Offender } from './health.ts'

/**
 * Finish-to-start links without lag that a chain of others implies: harmless, but each hides which one was meant. The first
 * successors of a predecessor are followed; a link to one of their own successors says nothing new.
 */
export function impliedLinks(activities: readonly Activity[]): Offender[] {
  const place = new Map(activities.map(({ id }, i) => [id, i]))
  const direct = activities.map(({ after }) =>
    after.flatMap(({ to, type, lag }) => {
      const p = place.get(to)
      return p === undefined || type !== 'FS' || lag < 0 ? [] : [{ p, plain: lag === 0 }]
    }),
  )
  const leading = ancestorsThrough(direct.map((links) => links.map(({ p }) => p)))
  return activities.flatMap(({ id }, i) =>
    (direct[i] as { p: number; plain: boolean }[])
      .filter(({ p, plain }) => plain && direct[i]?.some((other) => other.p !== p && leading(other.p, p)))
      .map(({ p }) => ({ activity: id, text: `${activities[p]?.id} to ${id}` })),
  )
}

/** Whether an activity has another among all that leads to it, by sets of bits; circles end where they close. */
function ancestorsThrough(direct: readonly (readonly number[])[]): (of: number, other: number) => boolean {
  const words = (direct.length + 31) >> 5
  const bits = new Uint32Array(direct.length * words)
  const done = new Uint8Array(direct.length)
  const visit = (root: number): void => {
    const open = [root]
    while (open.length > 0) {
      const i = open[open.length - 1] as number
      const next = done[i] === 0 ? (direct[i] as readonly number[]).filter((p) => done[p] === 0) : []
      if (done[i] === 0) done[i] = 1
      if (next.length > 0) {
        open.push(...next)
        continue
      }
      open.pop()
      if (done[i] === 2) continue
      done[i] = 2
      for (const p of direct[i] as readonly number[]) {
        for (let w = 0; w < words; w++) {
          bits[i * words + w] = (bits[i * words + w] as number) | (bits[p * words + w] as number)
        }
        const at = i * words + (p >> 5)
        bits[at] = (bits[at] as number) | (1 << (p & 31))
      }
    }
  }
  for (let i = 0; i < direct.length; i++) visit(i)
  return (of, other) => (((bits[of * words + (other >> 5)] as number) >>> (other & 31)) & 1) === 1
}
