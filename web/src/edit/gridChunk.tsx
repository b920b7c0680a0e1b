import { useEffect, useRef, useState } from 'react'
import type { GridRow } from './grid.ts'

/** Rows drawn together; those out of sight are left out. */
export const CHUNK = 40

/** Rows in lots that are drawn together. */
export function chunksOf(rows: readonly GridRow[]): GridRow[][] {
  return Array.from({ length: Math.ceil(rows.length / CHUNK) }, (_, i) => rows.slice(i * CHUNK, (i + 1) * CHUNK))
}

interface ChunkProps {
  count: number
  span: number
  isForced: boolean
  children: () => React.ReactNode
}

/** Rows that are drawn while they are near the window; otherwise the room that they take. */
export function Chunk({ count, span, isForced, children }: ChunkProps) {
  const body = useRef<HTMLTableSectionElement>(null)
  const [isNear, setNear] = useState(false)
  const height = useRef(count * 27)
  useEffect(() => {
    const { current } = body
    if (current === null) return
    const watcher = new IntersectionObserver(
      ([entry]) => {
        if (entry === undefined) return
        if (!entry.isIntersecting && current.offsetHeight > 0) height.current = current.offsetHeight
        setNear(entry.isIntersecting)
      },
      { rootMargin: '900px 0px' },
    )
    watcher.observe(current)
    return () => watcher.disconnect()
  }, [])
  return (
    <tbody ref={body}>
      {isNear || isForced ? (
        children()
      ) : (
        <tr className="spacer">
          <td colSpan={span} style={{ height: height.current }} />
        </tr>
      )}
    </tbody>
  )
}
