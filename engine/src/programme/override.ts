import type { Programme } from '../model/index.ts'
import { pointerOf, readPointer } from '../working/pointer.ts'
import type { Activity, Link } from './activity.ts'

/**
 * Typed activities in the place of derived ones. Whoever waited for a derived one waits for the typed one, which waits for
 * what the derived one waited for, and names where it came from.
 */
export function overridden(programme: Programme, all: readonly Activity[]): readonly Activity[] {
  const standIns = new Map<string, string>()
  const idle = new Map<string, string[]>()
  for (const [id, { overrides }] of Object.entries(programme.activities)) {
    if (overrides === undefined || overrides.length === 0) continue
    const named = new Set(overrides)
    const covered = all.filter((activity) => activity.kind !== 'typed' && covers(named, activity))
    for (const activity of covered) standIns.set(activity.id, id)
    const left = overrides.filter((name) => !covered.some((activity) => answersTo(name, activity)))
    if (left.length > 0)
      idle.set(
        id,
        left.map((name) => `stands in for ${name}, which covers nothing now`),
      )
  }
  if (standIns.size === 0 && idle.size === 0) return all
  const gone = all.filter(({ id }) => standIns.has(id))
  return all
    .filter(({ id }) => !standIns.has(id))
    .map((activity) => {
      const own = gone.filter(({ id }) => standIns.get(id) === activity.id)
      const after = redirected([...activity.after, ...own.flatMap((a) => a.after)], standIns, activity.id)
      const from = [...new Set([...activity.from, ...own.flatMap((a) => a.from)])]
      const left = idle.get(activity.id)
      if (left !== undefined) return { ...activity, after, from, idle: left }
      return own.length === 0 && after === activity.after ? activity : { ...activity, after, from }
    })
}

/** Whether a name is one by which an activity is covered. */
const answersTo = (name: string, { id, step, lift, from }: Activity): boolean =>
  name === id ||
  (step !== undefined && name === pointerOf('steps', step)) ||
  (lift !== undefined && name === pointerOf('lifts', lift)) ||
  from.includes(name)

/** A derived activity is covered by its id, by its step or lift, or when all that it is done on is named. */
function covers(named: ReadonlySet<string>, { id, step, lift, from, kind }: Activity): boolean {
  if (named.has(id)) return true
  if (step !== undefined && named.has(pointerOf('steps', step))) return true
  if (lift !== undefined && named.has(pointerOf('lifts', lift))) return true
  const section = (pointer: string): string => readPointer(pointer)?.[0] ?? ''
  const isolation = kind === 'isolate' || kind === 'energise'
  const done = from.filter((p) => (isolation ? section(p) === 'isolations' : DONE_ON.has(section(p))))
  return done.length > 0 && done.every((p) => named.has(p))
}

const DONE_ON = new Set(['joints', 'services', 'changes', 'tests'])

function redirected(links: readonly Link[], standIns: ReadonlyMap<string, string>, self: string): readonly Link[] {
  const seen = new Set<string>()
  return links
    .map((link) => ({ ...link, to: standIns.get(link.to) ?? link.to }))
    .filter(({ to, type, lag }) => {
      const key = `${to} ${type} ${lag}`
      if (to === self || seen.has(key)) return false
      seen.add(key)
      return true
    })
}
