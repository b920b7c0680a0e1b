import { useEffect, useState } from 'react'
import { useShown } from '../state.ts'
import type { LiftPageView } from './pageView.ts'

/** All that the page of a lift shows; the last one stays until the next is there. */
export function useLiftPage(lift: string): LiftPageView | undefined {
  const { client, summary, system } = useShown()
  const [page, setPage] = useState<LiftPageView>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the project changes
  useEffect(() => {
    let here = true
    client.ask('liftPage', { lift, system }).then((answer) => here && setPage(answer))
    return () => {
      here = false
    }
  }, [client, lift, system, summary])
  return page
}
