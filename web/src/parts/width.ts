import { type RefObject, useEffect, useRef, useState } from 'react'

/** Width of an element, px, kept up to date: what is drawn to it keeps its size of type. */
export function useWidth<E extends Element>(atFirst: number): [RefObject<E | null>, number] {
  const element = useRef<E>(null)
  const [width, setWidth] = useState(atFirst)
  useEffect(() => {
    const { current } = element
    if (current === null) return
    const watcher = new ResizeObserver(([entry]) => entry && setWidth(Math.round(entry.contentRect.width)))
    watcher.observe(current)
    return () => watcher.disconnect()
  }, [])
  return [element, width]
}
