import './working.css'
import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import type { NumberAt, TrailStep, WorkingView } from '../engine/protocol.ts'
import { useShown } from '../state.ts'
import { WorkingBody } from './workingBody.tsx'

interface WorkingPanelProps {
  of: NumberAt
  onClose: () => void
}

/**
 * The working of a number: what ran, with its numbers, its limits and what it rests on. The chain can be walked down to the
 * file and back: arrows along the inputs, Enter or → down, Backspace or ← up, Esc back to the number.
 */
export function WorkingPanel({ of, onClose }: WorkingPanelProps) {
  const [path, setPath] = useState<readonly string[]>([])
  const { view, of: shown } = useWorking(of, path)
  const panel = useRef<HTMLElement>(null)
  const arriving = useRef<string>(undefined)
  const go = (to: readonly string[]): void => {
    arriving.current = to.length < path.length ? path[to.length] : undefined
    setPath(to)
  }
  // The focus follows the walk, and stays put when figures change. Before the next key: a row that is gone takes its focus along.
  useLayoutEffect(() => {
    if (shown !== undefined) focusRow(panel.current, arriving.current)
  }, [shown])
  if (view === undefined) return null
  return (
    <section
      ref={panel}
      className="working"
      aria-label={`Working: ${view.working.title}`}
      tabIndex={-1}
      onKeyDown={(event) => onKey(event, { panel: panel.current, path, go, onClose })}
    >
      <div className="titled">
        <h3>Working: {view.working.title}</h3>
        <span className="small quiet">
          {view.working.by}{' '}
          <button type="button" className="link" onClick={onClose}>
            close <kbd>Esc</kbd>
          </button>
        </span>
      </div>
      <Trail trail={view.trail} onGo={(depth) => go(path.slice(0, depth))} />
      <WorkingBody view={view} path={path} onGo={go} />
    </section>
  )
}

/** The working at a place, and which place it is of: the last one stays until the next is there. */
function useWorking(of: NumberAt, path: readonly string[]): { view?: WorkingView; of?: string } {
  const { client, system, summary } = useShown()
  const [held, setHeld] = useState<{ view?: WorkingView; of?: string }>({})
  const key = JSON.stringify([of, path])
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the number, the place or the project changes
  useEffect(() => {
    let here = true
    client.ask('working', { of, path, system }).then((view) => {
      if (here && view !== undefined) setHeld({ view, of: key })
    })
    return () => {
      here = false
    }
  }, [client, key, system, summary])
  return held
}

/** The way down: each number above what is shown, to go back to. */
function Trail({ trail, onGo }: { trail: readonly TrailStep[]; onGo: (depth: number) => void }) {
  if (trail.length < 2) return null
  return (
    <ol className="trail small">
      {trail.map(({ label, value }, depth) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the depth is what a step of the trail is
        <li key={depth}>
          {depth < trail.length - 1 ? (
            <button type="button" className="link" onClick={() => onGo(depth)}>
              {label}
            </button>
          ) : (
            <span aria-current="true">{label}</span>
          )}{' '}
          <span className="quiet">{value}</span>
        </li>
      ))}
    </ol>
  )
}

const rowsOf = (panel: HTMLElement | null): HTMLElement[] => [
  ...(panel?.querySelectorAll<HTMLElement>('[data-down]') ?? []),
]

/** The row one came up from, else the first, else what can be typed into, else the panel itself. */
function focusRow(panel: HTMLElement | null, key: string | undefined): void {
  const rows = rowsOf(panel)
  const row = rows.find((r) => r.dataset.down === key) ?? rows[0]
  const field = panel?.querySelector<HTMLElement>('.leaf button, .leaf input')
  ;(row ?? field ?? panel)?.focus({ preventScroll: rows.length > 0 && key === undefined })
}

interface Walk {
  panel: HTMLElement | null
  path: readonly string[]
  go: (path: readonly string[]) => void
  onClose: () => void
}

function onKey(event: React.KeyboardEvent, { panel, path, go, onClose }: Walk): void {
  const target = event.target as HTMLElement
  if (target instanceof HTMLInputElement || target instanceof HTMLSelectElement) return
  if (event.ctrlKey || event.metaKey || event.altKey) return
  const rows = rowsOf(panel)
  const at = rows.indexOf(target)
  const does = new Map<string, () => void>([
    ['Escape', onClose],
    ['w', onClose],
    ['ArrowDown', () => rows[Math.min(rows.length - 1, at + 1)]?.focus()],
    ['ArrowUp', () => rows[Math.max(0, at - 1)]?.focus()],
    ['ArrowRight', () => at >= 0 && target.click()],
    ['ArrowLeft', () => path.length > 0 && go(path.slice(0, -1))],
    ['Backspace', () => path.length > 0 && go(path.slice(0, -1))],
  ]).get(event.key)
  if (does === undefined) return
  event.preventDefault()
  event.stopPropagation()
  does()
}
