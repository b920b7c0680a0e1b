import { useEffect } from 'react'
import { STAGES } from '../engine/preview.ts'
import { routeTo, useShown } from '../state.ts'

/** Keys that work anywhere but in a field: `/` find, `g` then 1…9 a stage, `[` `]` previous and next lift, Ctrl+Enter keep, Esc discard, Ctrl+Z undo. */
export function useKeys(onFind: () => void): void {
  const { act, summary, route, trial } = useShown()
  useEffect(() => {
    let waitsForStage = false
    const onKey = (event: KeyboardEvent) => {
      const typing = event.target instanceof HTMLInputElement && event.target.type !== 'checkbox'
      if (event.key === 'Escape' && trial !== undefined) return act.discard()
      if (event.key === 'Enter' && event.ctrlKey && trial !== undefined) return act.keep()
      if (typing) return
      if (event.key.toLowerCase() === 'z' && event.ctrlKey) return act.undo()
      if (event.ctrlKey || event.metaKey || event.altKey) return
      if (event.key === '/') {
        event.preventDefault()
        return onFind()
      }
      if (waitsForStage) {
        const stage = STAGES[Number(event.key) - 1]
        waitsForStage = false
        if (stage !== undefined) location.hash = routeTo(stage)
        return
      }
      if (event.key === 'g') waitsForStage = true
      if (event.key === '[' || event.key === ']') step(event.key === ']' ? 1 : -1)
    }
    const step = (by: number): void => {
      const index = Math.max(
        0,
        summary.lifts.findIndex((l) => l.id === route.item),
      )
      const next = summary.lifts[index + by]
      if (route.stage === 'lift' && next !== undefined) location.hash = routeTo('lift', next.id)
    }
    addEventListener('keydown', onKey)
    return () => removeEventListener('keydown', onKey)
  }, [act, summary, route, trial, onFind])
}
