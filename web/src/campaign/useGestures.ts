import { type RefObject, useEffect, useRef } from 'react'

interface Gestures {
  /** Day at a place across the diagram, px. */
  dayAt: (x: number) => number
  zoom: (about: number, factor: number) => void
  pan: (days: number) => void
  isZoomed: boolean
}

const STEP = 0.0016
const DRAG = 5

/**
 * Wheel with Ctrl (or a pinch on a pad), and the plain wheel while the diagram has the focus, zoom time about the pointer; two
 * fingers do the same; a drag moves a window of time. The page scrolls as ever where none of that is meant.
 */
export function useGestures(box: RefObject<HTMLElement | null>, gestures: Gestures): void {
  const now = useRef(gestures)
  now.current = gestures
  useEffect(() => {
    const { current } = box
    if (current === null) return
    const across = (event: { clientX: number }): number => event.clientX - current.getBoundingClientRect().left
    const onWheel = (event: WheelEvent): void => {
      const isMeant = event.ctrlKey || current.contains(document.activeElement)
      if (!isMeant || (Math.abs(event.deltaX) > Math.abs(event.deltaY) && !now.current.isZoomed)) return
      event.preventDefault()
      if (Math.abs(event.deltaX) > Math.abs(event.deltaY) || event.shiftKey) {
        const days = now.current.dayAt(across(event) + event.deltaX + (event.shiftKey ? event.deltaY : 0))
        now.current.pan(days - now.current.dayAt(across(event)))
      } else now.current.zoom(now.current.dayAt(across(event)), Math.exp(event.deltaY * STEP))
    }
    const down = new Map<number, number>()
    let begun: { x: number; apart: number } | undefined
    const places = (): number[] => [...down.values()]
    const start = (): void => {
      const [a, b] = places()
      begun = a === undefined ? undefined : { x: a, apart: b === undefined ? 0 : Math.abs(a - b) }
    }
    const onDown = (event: PointerEvent): void => {
      down.set(event.pointerId, across(event))
      start()
    }
    const onMove = (event: PointerEvent): void => {
      if (!down.has(event.pointerId) || begun === undefined) return
      down.set(event.pointerId, across(event))
      const [a, b] = places() as [number, number | undefined]
      if (b !== undefined && begun.apart > 20 && Math.abs(Math.abs(a - b) - begun.apart) > DRAG) {
        now.current.zoom(now.current.dayAt((a + b) / 2), begun.apart / Math.max(20, Math.abs(a - b)))
        start()
      } else if (b === undefined && now.current.isZoomed && Math.abs(a - begun.x) > DRAG) {
        now.current.pan(now.current.dayAt(begun.x) - now.current.dayAt(a))
        start()
      }
    }
    const onUp = (event: PointerEvent): void => {
      down.delete(event.pointerId)
      start()
    }
    current.addEventListener('wheel', onWheel, { passive: false })
    current.addEventListener('pointerdown', onDown)
    addEventListener('pointermove', onMove)
    addEventListener('pointerup', onUp)
    addEventListener('pointercancel', onUp)
    return () => {
      current.removeEventListener('wheel', onWheel)
      current.removeEventListener('pointerdown', onDown)
      removeEventListener('pointermove', onMove)
      removeEventListener('pointerup', onUp)
      removeEventListener('pointercancel', onUp)
    }
  }, [box])
}
