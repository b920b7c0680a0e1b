import type { Activity, LinkType } from './activity.ts'
import { ALWAYS } from './calendar.ts'
import { type Network, networkOf } from './network.ts'

export type LinkText = readonly [from: string, to: string, type: LinkType, lag: number]

export interface SmallNetwork {
  durations: Readonly<Record<string, number>>
  links?: readonly LinkText[]
  needs?: Readonly<Record<string, readonly number[]>>
  capacities?: readonly number[]
}

/** An activity of no duration on a calendar without breaks, after the ones named. */
export const chain = (id: string, ...after: string[]): Activity => ({
  id,
  name: id,
  kind: 'typed',
  phase: '',
  calendar: 'always',
  work: [0, 0, 0],
  interruptible: true,
  after: after.map((to) => ({ to, type: 'FS', lag: 0 })),
  needs: {},
  from: [],
  fixedCost: 0,
})

/** A network as textbooks print it: durations, links, needs by resource in order, on a calendar without breaks. */
export function smallNetwork({ durations, links = [], needs = {}, capacities = [] }: SmallNetwork): Network {
  const resources = Object.fromEntries(capacities.map((capacity, i) => [`R${i + 1}`, { capacity }]))
  const activities = Object.entries(durations).map(([id, duration]): [string, Activity] => [
    id,
    {
      ...chain(id),
      work: [duration, duration, duration],
      after: links.filter(([, to]) => to === id).map(([from, , type, lag]) => ({ to: from, type, lag })),
      needs: Object.fromEntries((needs[id] ?? []).map((amount, i) => [`R${i + 1}`, amount])),
    },
  ])
  const result = networkOf({
    activities: Object.fromEntries(activities),
    calendars: new Map([['always', ALWAYS]]),
    resources,
  })
  if (result.network === undefined) throw new Error(`a circle: ${result.circle.join(', ')}`)
  return result.network
}
