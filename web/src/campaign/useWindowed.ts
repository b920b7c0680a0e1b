import { type RefObject, useEffect, useState } from 'react'

const AIR = 12
const WIDE = 1100

/** Which rows of a long list are in sight, with some above and below; every row is as high as the next. */
export function useWindowed(
  box: RefObject<HTMLElement | null>,
  count: number,
): { first: number; last: number; height: number } {
  const [seen, setSeen] = useState({ first: 0, last: 40, height: 27 })
  useEffect(() => {
    const { current } = box
    if (current === null) return
    let waiting = 0
    const measure = (): void => {
      waiting = 0
      const height = innerWidth <= WIDE ? 44 : 27
      const first = Math.max(0, Math.floor(current.scrollTop / height) - AIR)
      const last = Math.ceil((current.scrollTop + current.clientHeight) / height) + AIR
      // in steps, so that most movements draw nothing anew
      const step = { first: first - (first % AIR), last: last + (AIR - (last % AIR)), height }
      setSeen((s) => (s.first === step.first && s.last === step.last && s.height === height ? s : step))
    }
    const onScroll = (): void => {
      if (waiting === 0) waiting = requestAnimationFrame(measure)
    }
    measure()
    current.addEventListener('scroll', onScroll, { passive: true })
    addEventListener('resize', onScroll)
    return () => {
      cancelAnimationFrame(waiting)
      current.removeEventListener('scroll', onScroll)
      removeEventListener('resize', onScroll)
    }
  }, [box])
  const first = Math.min(seen.first, Math.max(0, count - 1))
  return { first, last: Math.min(count, Math.max(seen.last, first + AIR)), height: seen.height }
}
