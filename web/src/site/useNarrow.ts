import { useSyncExternalStore } from 'react'

const NARROW = '(max-width: 1200px)'

/** Whether the window has room for one column alone. */
export const useNarrow = (): boolean => useSyncExternalStore(follow, () => matchMedia(NARROW).matches)

function follow(told: () => void): () => void {
  const query = matchMedia(NARROW)
  query.addEventListener('change', told)
  return () => query.removeEventListener('change', told)
}
