/** Use of one resource over time as an ordered list of events: from times[i] on, level[i] is in use. */
export interface Profile {
  times: number[]
  level: number[]
}

export const emptyProfile = (): Profile => ({ times: [Number.NEGATIVE_INFINITY], level: [0] })

/** Last event at or before a time. */
function eventAt({ times }: Profile, time: number): number {
  let low = 0
  let high = times.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((times[middle] as number) <= time) low = middle
    else high = middle - 1
  }
  return low
}

/** Adds an amount from a time to another. */
export function occupy(profile: Profile, from: number, to: number, amount: number): void {
  if (to <= from) return
  const first = split(profile, from)
  const last = split(profile, to)
  for (let i = first; i < last; i++) profile.level[i] = (profile.level[i] as number) + amount
}

function split(profile: Profile, time: number): number {
  const i = eventAt(profile, time)
  if (profile.times[i] === time) return i
  profile.times.splice(i + 1, 0, time)
  profile.level.splice(i + 1, 0, profile.level[i] as number)
  return i + 1
}

/** When the last stretch between two times ends in which more than `room` is in use; undefined when there is none. */
export function crowdedUntil(profile: Profile, from: number, to: number, room: number): number | undefined {
  if (to <= from) return undefined
  const { times, level } = profile
  let found: number | undefined
  for (let i = eventAt(profile, from); i < times.length && (times[i] as number) < to; i++) {
    if ((level[i] as number) > room) found = times[i + 1] ?? Number.POSITIVE_INFINITY
  }
  return found
}

/** When the first such stretch begins. */
export function crowdedFrom(profile: Profile, from: number, to: number, room: number): number | undefined {
  if (to <= from) return undefined
  const { times, level } = profile
  for (let i = eventAt(profile, from); i < times.length && (times[i] as number) < to; i++) {
    if ((level[i] as number) > room) return Math.max(from, times[i] as number)
  }
  return undefined
}

/** Greatest use over all time. */
export const peak = ({ level }: Profile): number => level.reduce((most, l) => Math.max(most, l), 0)
