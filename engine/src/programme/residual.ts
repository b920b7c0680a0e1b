import { workAt } from './calendar.ts'
import { FF, FS, inOnePiece, lagged, type Network, SS } from './network.ts'
import type { Dates } from './passes.ts'

/** A date of a plan that its own rules do not allow. */
export interface Violation {
  activity: string
  what: string
  /** By how much, s. */
  by: number
}

/** Seconds below which an instant counts as kept. */
const TOLERANCE = 0.5

/** Links, calendars and not-before dates that a plan breaks. Counted from the dates alone, without the scheme that made them. */
export function violations(network: Network, dates: Dates): Violation[] {
  return network.ids.flatMap((id, i) =>
    [
      ...brokenLinks(network, dates, i),
      ...brokenCalendar(network, dates, i),
      ...tooEarly(network, dates, i),
      ...brokenSetUps(network, dates, i),
    ]
      .filter(({ by }) => !(by <= TOLERANCE))
      .map((v) => ({ activity: id, ...v })),
  )
}

type Found = Omit<Violation, 'activity'>

function brokenLinks(network: Network, { start, finish }: Dates, i: number): Found[] {
  const { first, other, type, lag, calendar } = network.before
  const own = network.calendar[i] as Network['calendar'][number]
  const found: Found[] = []
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const p = other[k] as number
    const kind = type[k] as number
    const from = (kind === FS || kind === FF ? finish[p] : start[p]) as number
    const due = lagged(from, lag[k] as number, calendar[k])
    const got = (kind === FS || kind === SS ? start[i] : finish[i]) as number
    // the end of a shift and the start of the next are one instant: what counts is working time missed
    const by = (network.work[i] as number) > 0 ? workAt(own, due) - workAt(own, got) : due - got
    found.push({ what: `its link to ${network.ids[p]}`, by })
  }
  return found
}

function brokenCalendar(network: Network, { start, finish }: Dates, i: number): Found[] {
  const calendar = network.calendar[i] as Network['calendar'][number]
  const [s, f, work] = [start[i] as number, finish[i] as number, network.work[i] as number]
  if (!Number.isFinite(f)) return [{ what: 'its calendar never has the time', by: Number.POSITIVE_INFINITY }]
  const worked = work > 0 ? workAt(calendar, f) - workAt(calendar, s) : f - s
  const breaks = network.unbroken[i] === 1 ? f - s - work : 0
  return [
    { what: 'its duration in working time', by: Math.abs(worked - work) },
    {
      what: inOnePiece(network, i)
        ? 'to be in one piece'
        : `to be in one piece: no shift is as long as ${(work / 3600).toFixed(1)} h`,
      by: breaks,
    },
  ]
}

const tooEarly = (network: Network, { start }: Dates, i: number): Found[] => [
  { what: 'its date not to start before', by: (network.notBefore[i] as number) - (start[i] as number) },
]

/** Everybody of another kind that began no later on a resource that is set up between kinds. */
function brokenSetUps(network: Network, { start, finish }: Dates, i: number): Found[] {
  return network.setUps.flatMap((setUp, r) => {
    if (setUp === undefined || !holds(network, i, r) || (finish[i] as number) <= (start[i] as number)) return []
    return network.ids.flatMap((id, p): Found[] => {
      const [from, to] = [setUp.kind[p] as number, setUp.kind[i] as number]
      const isFirst = p !== i && holds(network, p, r) && (start[p] as number) < (start[i] as number)
      if (!isFirst || from < 0 || to < 0) return []
      const due = (finish[p] as number) + ((setUp.time[from] as readonly number[])[to] as number)
      return [{ what: `the set-up of ${network.resources[r]} after ${id}`, by: due - (start[i] as number) }]
    })
  })
}

function holds({ needs: { first, resource } }: Network, i: number, r: number): boolean {
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) if (resource[k] === r) return true
  return false
}

/** Greatest use of each resource, by a sweep over starts and finishes. */
export function peakUse(network: Network, dates: Dates): number[] {
  return network.resources.map((_, r) => {
    const events = holders(network, dates, r).flatMap(({ from, to, amount }) => [
      { at: from, change: amount },
      { at: to, change: -amount },
    ])
    events.sort((a, b) => a.at - b.at || a.change - b.change)
    let [level, most] = [0, 0]
    for (const { change } of events) {
      level += change
      most = Math.max(most, level)
    }
    return most
  })
}

/** The same the slow way: at each start, everybody who holds some then, added up. */
export function peakUseRecounted(network: Network, dates: Dates): number[] {
  return network.resources.map((_, r) => {
    const all = holders(network, dates, r)
    return all.reduce((most, { from }) => {
      const level = all.reduce((sum, h) => sum + (h.from <= from && from < h.to ? h.amount : 0), 0)
      return Math.max(most, level)
    }, 0)
  })
}

/** The day of the greatest use, for words: who holds it then. */
export function holdersAtPeak(network: Network, dates: Dates, r: number): string[] {
  const all = holders(network, dates, r)
  let best: typeof all = []
  let most = 0
  for (const { from } of all) {
    const there = all.filter((h) => h.from <= from && from < h.to)
    const level = there.reduce((sum, h) => sum + h.amount, 0)
    if (level > most) [best, most] = [there, level]
  }
  return best.map(({ i }) => network.ids[i] as string)
}

function holders(network: Network, { start, finish }: Dates, r: number) {
  const { first, resource, amount } = network.needs
  const found: { i: number; from: number; to: number; amount: number }[] = []
  for (let i = 0; i < network.ids.length; i++) {
    for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
      if (resource[k] === r && (finish[i] as number) > (start[i] as number))
        found.push({ i, from: start[i] as number, to: finish[i] as number, amount: amount[k] as number })
    }
  }
  return found
}
