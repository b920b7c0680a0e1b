import type { Programme } from '../model/index.ts'
import type { Patch } from '../working/patch.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activities, Activity } from './activity.ts'
import { inWay, isWayOf } from './adjust.ts'
import { byRisingStart, isBetter, justified, type Plan, planOf } from './improve.ts'
import { type Network, networkOf } from './network.ts'
import type { ProgrammeResult } from './programme.ts'
import { serialPlan } from './serial.ts'
import { setUpsOf } from './setUps.ts'

/** One activity done in another way, and by how much the restart comes earlier with it, s. */
export interface WayTaken {
  activity: string
  way: string
  gain: number
}

/** Ways proposed by a search, with the network and the plan that they give. */
export interface WaysFound {
  taken: readonly WayTaken[]
  network: Network
  plan: Plan
  tried: number
}

export interface WaysOptions {
  /** Plans that may be made. */
  effort: number
  shouldContinue?: (() => boolean) | undefined
}

/**
 * Looks for activities that bring the restart forward when they are done in another of the programme's ways: of those that
 * drive the plan, again and again the one that gains the most, until none gains a minute. What has begun is left as it is.
 */
export function findWays(
  programme: Programme,
  result: ProgrammeResult,
  { effort, shouldContinue }: WaysOptions,
): WaysFound {
  const solved = result.solved as NonNullable<ProgrammeResult['solved']>
  let activities: Activities = result.progress?.toGo ?? result.activities
  let best: Omit<WaysFound, 'taken' | 'tried'> = { network: solved.network, plan: solved.planned.plan }
  const taken: WayTaken[] = []
  let tried = 0
  for (;;) {
    let round: { activity: Activity; way: string; network: Network; plan: Plan } | undefined
    for (const { activity, way } of candidates(programme, result, activities, best, taken)) {
      if (tried >= effort || shouldContinue?.() === false) break
      tried++
      const changed = inWay(activity, programme.ways[way] as Programme['ways'][string])
      const made = planWith(programme, result, { ...activities, [activity.id]: changed }, best)
      if (made !== undefined && isBetter(made.plan, (round ?? best).plan)) round = { activity: changed, way, ...made }
    }
    const gain = round === undefined ? 0 : best.plan.restart - round.plan.restart
    if (round === undefined || gain < MINUTE) return { taken, ...best, tried }
    taken.push({ activity: round.activity.id, way: round.way, gain })
    activities = { ...activities, [round.activity.id]: round.activity }
    best = { network: round.network, plan: round.plan }
  }
}

const MINUTE = 60

/** Ways of the activities that the restart of a plan hangs on: nothing that ends after it can bring it forward. */
function candidates(
  programme: Programme,
  { progress }: ProgrammeResult,
  activities: Activities,
  { network, plan }: Pick<WaysFound, 'network' | 'plan'>,
  taken: readonly WayTaken[],
): { activity: Activity; way: string }[] {
  return network.ids.flatMap((id, i) => {
    const activity = activities[id]
    const isFixed =
      progress?.actual[id] !== undefined ||
      programme.adjustments[id]?.way !== undefined ||
      taken.some((t) => t.activity === id)
    if (activity === undefined || isFixed || (plan.dates.finish[i] as number) > plan.restart + 1) return []
    return Object.keys(programme.ways)
      .filter((way) => isWayOf(programme.ways[way] as Programme['ways'][string], activity))
      .map((way) => ({ activity, way }))
  })
}

/** The plan in the order of the one before, improved forward and backward. */
function planWith(
  programme: Programme,
  { solved }: ProgrammeResult,
  activities: Activities,
  before: Pick<WaysFound, 'plan'>,
): Pick<WaysFound, 'network' | 'plan'> | undefined {
  const { resources, restart } = programme
  const calendars = (solved as NonNullable<ProgrammeResult['solved']>).calendars
  const setUps = setUpsOf(programme, activities)
  const { network } = networkOf({ activities, calendars, resources, restart, setUps })
  if (network === undefined) return undefined
  const list = byRisingStart(network, before.plan.dates)
  const { plan } = justified(network, planOf(network, serialPlan(network, list)), 1)
  return { network, plan }
}

/** Puts the ways into the adjustments of their activities. */
export const waysPatch = ({ adjustments }: Programme, taken: readonly WayTaken[]): Patch =>
  taken.map(({ activity, way }) =>
    adjustments[activity] === undefined
      ? {
          op: 'add' as const,
          path: pointerOf('programme', 'adjustments', activity),
          value: { reason: 'proposed by a search: it brings the restart forward', way },
        }
      : { op: 'add' as const, path: pointerOf('programme', 'adjustments', activity, 'way'), value: way },
  )
