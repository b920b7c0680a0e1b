import { useEffect, useState } from 'react'
import { useShown } from '../state.ts'
import type { OrderView } from './orderView.ts'

/** The order as it stands, or as it would be with the edits that are looked at; the last one stays until the next is there. */
export function useOrder(): OrderView | undefined {
  const { client, summary, trial } = useShown()
  const [order, setOrder] = useState<OrderView>()
  const patch = trial === undefined || trial.pending ? undefined : trial.patch
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the project or what is tried changes
  useEffect(() => {
    if (trial?.pending === true) return
    let here = true
    client.ask('order', { patch }).then((answer) => {
      if (here && answer.problems.length === 0) setOrder(answer)
    })
    return () => {
      here = false
    }
  }, [client, summary, patch, trial?.pending])
  return order
}
