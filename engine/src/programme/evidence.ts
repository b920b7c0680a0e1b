import type { Bound } from './bound.ts'
import { type Calendar, subtractWork, unbrokenUntil } from './calendar.ts'
import { earliestStart, FF, FS, finishOf, inOnePiece, lagged, type Network, SS } from './network.ts'

/**
 * What is wrong with the evidence of a bound; nothing when it rules out what it says. Counted from the network alone, with none of
 * the code that found the bound: dates go round and round the links until they stand still, working time is measured stretch
 * by stretch, and every activity named must need the resource and lie whole in the span were the restart as early.
 */
export function evidenceFaults(network: Network, bound: Bound): string[] {
  const early = earliest(network)
  if (bound.kind === 'path') return pathFaults(network, early, bound.value)
  const { resource, from, to, needed, there, work } = bound
  const r = network.resources.indexOf(resource ?? '')
  if (r < 0 || from === undefined || to === undefined || needed === undefined || there === undefined)
    return ['it names no resource with a span, what is needed in it and what is there']
  const all = (work ?? []).map(({ activity, needed: of }) => ({ i: network.index.get(activity) ?? -1, of, activity }))
  const counted = counts(network, r, early, latest(network, bound.value), { from, to }, all)
  const sum = all.reduce((n, { of }) => n + of, 0)
  const working = workingIn(
    all.flatMap(({ i }) => network.calendar[i] ?? []),
    from,
    to,
  )
  const most = (network.capacity[r] as number) * working
  return [
    ...counted,
    ...(sum < needed - INSTANT ? [`the activities named need ${sum} s, not ${needed} s`] : []),
    ...(there < most - INSTANT ? [`there are ${most} s of ${resource}, not ${there} s`] : []),
    ...(needed > there ? [] : [`${needed} s needed are not more than ${there} s that are there`]),
  ]
}

const INSTANT = 1e-3

interface Moment {
  start: number
  finish: number
}

function pathFaults(network: Network, early: readonly Moment[], value: number): string[] {
  const ends = early.map(({ finish }) => finish)
  const least = network.restart < 0 ? Math.max(0, ...ends) : (ends[network.restart] as number)
  return value > least + INSTANT ? [`the longest path ends at ${least} s, not at ${value} s`] : []
}

interface Named {
  i: number
  of: number
  activity: string
}

function counts(
  network: Network,
  r: number,
  early: readonly Moment[],
  late: readonly Moment[],
  { from, to }: { from: number; to: number },
  all: readonly Named[],
): string[] {
  return all.flatMap(({ i, of, activity }, at) => {
    if (i < 0) return [`there is no activity ${activity}`]
    const need = Math.min(amountOf(network, i, r), network.capacity[r] as number)
    return [
      ...(all.findIndex((other) => other.i === i) < at ? [`${activity} is counted twice`] : []),
      ...(of > need * (network.work[i] as number) + INSTANT ? [`${activity} does not need ${of} s`] : []),
      ...((early[i] as Moment).start < from - INSTANT ? [`${activity} can start before ${from} s`] : []),
      ...((late[i] as Moment).finish > to + INSTANT ? [`${activity} can finish after ${to} s`] : []),
    ]
  })
}

function amountOf({ needs }: Network, i: number, r: number): number {
  let sum = 0
  for (let k = needs.first[i] as number; k < (needs.first[i + 1] as number); k++)
    if (needs.resource[k] === r) sum += needs.amount[k] as number
  return sum
}

/** Working time in a span: stretches of all calendars, those that overlap once. */
function workingIn(calendars: readonly Calendar[], from: number, to: number): number {
  if (calendars.some((c) => c.always)) return Math.max(0, to - from)
  const stretches = [...new Set(calendars)].flatMap((c) =>
    Array.from(c.from, (start, k): [number, number] => [Math.max(from, start), Math.min(to, c.to[k] as number)]),
  )
  let [sum, reached] = [0, from]
  for (const [start, end] of stretches.sort((a, b) => a[0] - b[0])) {
    if (end <= Math.max(start, reached)) continue
    sum += end - Math.max(start, reached)
    reached = end
  }
  return sum
}

function earliest(network: Network): Moment[] {
  const dates = network.ids.map((): Moment => ({ start: 0, finish: 0 }))
  return settled(network, dates, (i) => {
    let [start, finish] = [network.notBefore[i] as number, Number.NEGATIVE_INFINITY]
    eachLink(network.before, i, (p, kind, lag, calendar) => {
      const of = dates[p] as Moment
      const due = lagged(kind === FS || kind === FF ? of.finish : of.start, lag, calendar)
      if (kind === FS || kind === SS) start = Math.max(start, due)
      else finish = Math.max(finish, due)
    })
    const at = earliestStart(network, i, start, finish)
    return { start: at, finish: finishOf(network, i, at) }
  })
}

function latest(network: Network, restart: number): Moment[] {
  const open = Number.MAX_SAFE_INTEGER
  const dates = network.ids.map((): Moment => ({ start: open, finish: open }))
  return settled(network, dates, (i) => {
    let [start, finish] = [open, i === network.restart || network.restart < 0 ? restart : open]
    finish = Math.min(finish, network.finishBy[i] as number)
    eachLink(network.after, i, (s, kind, lag, calendar) => {
      const of = dates[s] as Moment
      const due = lagged(kind === FS || kind === SS ? of.start : of.finish, -lag, calendar)
      if (kind === FS || kind === FF) finish = Math.min(finish, due)
      else start = Math.min(start, due)
    })
    const [calendar, work] = [network.calendar[i] as Calendar, network.work[i] as number]
    const before = inOnePiece(network, i) ? unbrokenUntil(calendar, finish, work) : subtractWork(calendar, finish, work)
    return { start: Math.min(start, before), finish: start < before ? finishOf(network, i, start) : finish }
  })
}

/** Every date anew from the others, until none moves; there are no circles, so that it ends. */
function settled(network: Network, dates: Moment[], anew: (i: number) => Moment): Moment[] {
  for (let moved = true; moved; ) {
    moved = false
    for (let i = 0; i < network.ids.length; i++) {
      const [before, after] = [dates[i] as Moment, anew(i)]
      if (before.start === after.start && before.finish === after.finish) continue
      dates[i] = after
      moved = true
    }
  }
  return dates
}

function eachLink(
  { first, other, type, lag, calendar }: Network['before'],
  i: number,
  visit: (other: number, kind: number, lag: number, calendar: Calendar | undefined) => void,
): void {
  for (let k = first[i] as number; k < (first[i + 1] as number); k++)
    visit(other[k] as number, type[k] as number, lag[k] as number, calendar[k])
}
