import type { RememberedHistory } from './history.ts'
import type { Recall } from './project.ts'

const KEY = 'shieldwright.history'

/** This tab's own memory of its edits: over a reload, and no further than the tab. */
export const tabRecall: Recall = {
  read: () => {
    try {
      const text = sessionStorage.getItem(KEY)
      return text === null ? undefined : sound(JSON.parse(text))
    } catch {
      return undefined // A browser that keeps nothing: undo reaches back to the last reload.
    }
  },
  write: (history) => {
    try {
      sessionStorage.setItem(KEY, JSON.stringify(history))
    } catch {
      // As above: nothing is lost but the way back over a reload.
    }
  },
}

function sound(raw: Partial<RememberedHistory> | null): RememberedHistory | undefined {
  const lists = [raw?.done, raw?.undone]
  const areWhole = lists.every((list) => Array.isArray(list) && list.every(Number.isSafeInteger))
  return areWhole ? (raw as RememberedHistory) : undefined
}
