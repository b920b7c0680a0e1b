import { useEffect, useRef, useState } from 'react'
import { useShown } from '../state.ts'
import type { CampaignAsk, CampaignView } from './view.ts'

/**
 * The diagram as it is asked for: drawn again when the project or the wish changes. While one is being drawn only the last
 * wish waits; the last picture stays until the next is there.
 */
export function useCampaign(ask: CampaignAsk): { view: CampaignView | undefined; isAsked: boolean } {
  const { client, summary } = useShown()
  const [answer, setAnswer] = useState<{ view: CampaignView | undefined }>()
  const wish = useRef<string>(undefined)
  const busy = useRef(false)
  const here = useRef(true)
  const key = JSON.stringify(ask)
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new summary asks again for the same wish
  useEffect(() => {
    here.current = true
    wish.current = key
    const draw = async (): Promise<void> => {
      if (busy.current) return
      busy.current = true
      while (wish.current !== undefined && here.current) {
        const wanted = wish.current
        wish.current = undefined
        const view = await client.ask('campaign', JSON.parse(wanted) as CampaignAsk).catch(() => undefined)
        if (here.current) setAnswer({ view })
      }
      busy.current = false
    }
    draw()
  }, [client, summary, key])
  useEffect(
    () => () => {
      here.current = false
    },
    [],
  )
  return { view: answer?.view, isAsked: answer !== undefined }
}
