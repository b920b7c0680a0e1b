import { useEffect, useState } from 'react'
import { useCommon } from '../shared.ts'
import { useShown } from '../state.ts'
import type { GroundView } from './view.ts'

/** The ground at the place along the order that all views share; at its start the step that is heaviest for the wall. */
export function useGround(): GroundView | undefined {
  const { client, summary } = useShown()
  const { along } = useCommon()
  const [view, setView] = useState<GroundView>()
  const step = along <= 0 ? undefined : summary.steps[Math.ceil(along) - 1]?.step
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the project changes
  useEffect(() => {
    let here = true
    client.ask('ground', { step }).then((answer) => here && setView(answer))
    return () => {
      here = false
    }
  }, [client, step, summary])
  return view
}
