import { alongAt, timeAlong } from '@shieldwright/engine/report/campaign/stops.ts'
import { useEffect, useState } from 'react'
import { type Common, useCommon } from '../shared.ts'
import { useShown } from '../state.ts'
import { dayAndTime } from './clock.ts'
import type { TimesView } from './view.ts'

/** The instant that all views stand at, s of the plan's clock. */
export const instantOf = ({ along, instant }: Common, { stops }: Pick<TimesView, 'stops'>): number =>
  instant ?? timeAlong(stops, along)

/** All views to an instant: the pieces stand where they then are. */
export const atInstant = ({ stops }: Pick<TimesView, 'stops'>, instant: number): Pick<Common, 'along' | 'instant'> => ({
  along: alongAt(stops, instant),
  instant,
})

/** An instant as day and time. */
export const instantText = (instant: number, { zero }: Pick<TimesView, 'zero'>): string =>
  dayAndTime(zero + 1000 * instant)

/** When the places along the order are reached; undefined while that is asked for, and where there is no plan. */
export function useTimes(): TimesView | undefined {
  const { client, summary } = useShown()
  const [times, setTimes] = useState<TimesView>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: the plan follows the summary
  useEffect(() => {
    let wanted = true
    client.ask('times', {}).then((t) => wanted && setTimes(t))
    return () => {
      wanted = false
    }
  }, [client, summary])
  return times
}

/** The instant that all views stand at, in words; nothing where there is no plan. */
export function useInstantText(): string | undefined {
  const times = useTimes()
  const common = useCommon()
  return times === undefined ? undefined : instantText(instantOf(common, times), times)
}
