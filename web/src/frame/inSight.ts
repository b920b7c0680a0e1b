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

/** How long an element is waited for that is still to be worked out or drawn, ms. */
const PATIENCE = 15_000

/**
 * Does something with an element as soon as it is on the page, which may be some time from now.
 *
 * @returns ends the waiting, or what was begun
 */
export function whenDrawn(
  find: () => HTMLElement | null | undefined,
  begin: (element: HTMLElement) => () => void,
): () => void {
  const last = performance.now() + PATIENCE
  let end: (() => void) | undefined
  let frame = 0
  const look = (): void => {
    const element = find()
    if (element) end = begin(element)
    else if (performance.now() < last) frame = requestAnimationFrame(look)
  }
  frame = requestAnimationFrame(look)
  return () => {
    cancelAnimationFrame(frame)
    end?.()
  }
}
