import { useEffect, useRef, useState } from 'react'

/** What may be wider, or higher, than its place: it scrolls by itself, and takes the focus only while it does. */
export function Scroll({ name, children }: { name: string; children: React.ReactNode }) {
  const box = useRef<HTMLDivElement>(null)
  const [over, setOver] = useState(false)
  useEffect(() => {
    const { current } = box
    if (current === null) return
    const measure = (): void =>
      setOver(current.scrollWidth > current.clientWidth + 1 || current.scrollHeight > current.clientHeight + 1)
    const watcher = new ResizeObserver(measure)
    watcher.observe(current)
    if (current.firstElementChild !== null) watcher.observe(current.firstElementChild)
    return () => watcher.disconnect()
  }, [])
  const reached = over ? { tabIndex: 0, role: 'region', 'aria-label': name } : {}
  return (
    <div ref={box} className="scroll" {...reached}>
      {children}
    </div>
  )
}
