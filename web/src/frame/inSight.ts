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
