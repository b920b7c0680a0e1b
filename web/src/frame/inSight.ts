/** Brings an element into sight and keeps it there until the reader goes on: what is still worked out above it does not push it away. */
export function keepInSight(element: HTMLElement, block: ScrollLogicalPosition): () => void {
  const see = (): void => element.scrollIntoView({ block })
  const grows = new ResizeObserver(see)
  grows.observe(element.closest('main') ?? element)
  const leave = new AbortController()
  const goOn = (): void => {
    leave.abort()
    grows.disconnect()
  }
  for (const sign of ['wheel', 'touchmove', 'pointerdown', 'keydown'])
    addEventListener(sign, goOn, { signal: leave.signal, passive: true })
  see()
  return goOn
}

/** Frames in which an element that is asked for may still be drawn. */
const MOST_FRAMES = 120

/**
 * Does something with an element as soon as it is on the page, which may be some frames from now.
 *
 * @returns ends the waiting, or what was begun
 */
export function whenDrawn(find: () => HTMLElement | null, begin: (element: HTMLElement) => () => void): () => void {
  let end: (() => void) | undefined
  let frame = 0
  const look = (left: number): void => {
    const element = find()
    if (element !== null) end = begin(element)
    else if (left > 0) frame = requestAnimationFrame(() => look(left - 1))
  }
  frame = requestAnimationFrame(() => look(MOST_FRAMES))
  return () => {
    cancelAnimationFrame(frame)
    end?.()
  }
}
