import { useEffect, useLayoutEffect, useRef } from 'react'

/** Room left between what hangs from the line and the row that is being edited, px. */
const ROOM = 8

/**
 * Keeps the row that is being edited where it was while something comes to hang above it or goes, as far as it stays in
 * sight under what hangs there.
 */
export function useStaysPut(): void {
  const was = useRef<{ row: Element; top: number }>(undefined)
  useEffect(() => {
    const note = (event: Event): void => {
      const row = (event.target as Element | null)?.closest?.('main tr, main .pair, main dd')
      if (row !== null && row !== undefined) was.current = { row, top: row.getBoundingClientRect().top }
    }
    const again = (): void => {
      if (was.current !== undefined) was.current.top = was.current.row.getBoundingClientRect().top
    }
    addEventListener('focusin', note)
    addEventListener('scroll', again, { passive: true })
    return () => {
      removeEventListener('focusin', note)
      removeEventListener('scroll', again)
    }
  }, [])
  useLayoutEffect(() => {
    const standing = document.querySelector('.standing')
    if (standing === null) return
    const hold = (): void => {
      const { current } = was
      if (current === undefined || !current.row.isConnected) return
      const moved = current.row.getBoundingClientRect().top - current.top
      if (Math.abs(moved) > 1) scrollBy({ top: moved, behavior: 'instant' })
      const { top } = current.row.getBoundingClientRect()
      const under = standing.getBoundingClientRect().bottom
      if (top < under + ROOM) scrollBy({ top: top - under - ROOM, behavior: 'instant' })
      current.top = current.row.getBoundingClientRect().top
    }
    const watcher = new ResizeObserver(hold)
    watcher.observe(standing)
    return () => watcher.disconnect()
  }, [])
}
