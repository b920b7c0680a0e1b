import { useCallback, useEffect, useMemo, useRef } from 'react'
import { useShown } from '../state.ts'
import { type Clear, clearAt, type StepClearances } from './clearance.ts'
import type { Scene } from './scene.ts'
import { isUnderWay, type Moment, momentAt } from './stand.ts'

/** The least clearances as far as they are known, and a way to say which are wanted. */
export interface Clearances {
  at: (moment: Moment) => Clear | undefined
  /** Of the step under way, and while it plays also of the step after it. */
  want: (along: number, ahead: boolean) => void
}

/**
 * Samples the clearances along the way of a step in the engine's worker, once, when that step is first seen; one step at a
 * time, so that other questions are not kept waiting.
 *
 * @param onKnown more of them are known
 */
export function useClearances(scene: Scene | undefined, onKnown: () => void): Clearances {
  const { client, summary } = useShown()
  // biome-ignore lint/correctness/useExhaustiveDependencies: what hangs from the project is sampled anew when it changes
  const sampled = useMemo(() => new Map<number, StepClearances | undefined>(), [scene, summary])
  const now = useRef({ sampled, onKnown })
  now.current = { sampled, onKnown }
  const asking = useRef(false)
  const last = useRef<{ along: number; ahead: boolean }>(undefined)

  const want = useCallback(
    (along: number, ahead: boolean): void => {
      last.current = { along, ahead }
      if (scene === undefined || asking.current) return
      const step = stepsWanted(scene, along, ahead).find((k) => !now.current.sampled.has(k))
      if (step === undefined) return
      const { sampled: into } = now.current
      asking.current = true
      const done = (found: StepClearances | undefined): void => {
        asking.current = false
        into.set(step, found)
        if (into !== now.current.sampled) return
        now.current.onKnown()
        if (last.current !== undefined) want(last.current.along, last.current.ahead)
      }
      client.ask('clearances', { step }).then(done, () => done(undefined))
    },
    [scene, client],
  )
  // biome-ignore lint/correctness/useExhaustiveDependencies: after a change, what is seen is asked for again
  useEffect(() => {
    if (last.current !== undefined) want(last.current.along, last.current.ahead)
  }, [sampled, want])

  const at = useCallback((moment: Moment): Clear | undefined => {
    const own = moment.step === undefined || !isUnderWay(moment) ? undefined : now.current.sampled.get(moment.step)
    return own && clearAt(own, moment)
  }, [])
  return useMemo(() => ({ at, want }), [at, want])
}

function stepsWanted(scene: Scene, along: number, ahead: boolean): number[] {
  const moment = momentAt(scene, along)
  const under = isUnderWay(moment) ? [moment.step as number] : []
  const next = ahead ? momentAt(scene, Math.floor(along) + 1.5).step : undefined
  return next === undefined ? under : [...under, next]
}
