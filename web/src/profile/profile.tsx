import './profile.css'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { useEffect, useRef, useState } from 'react'
import { useShown } from '../state.ts'
import {
  type Corner,
  cornersAt,
  type Drawn,
  editWords,
  faultOf,
  firstCorners,
  LEAST_CORNERS,
  placesOf,
  profileGrids,
  withAdded,
  withMoved,
  withoutCorner,
} from './corners.ts'
import { CornerTable } from './cornerTable.tsx'
import { Line } from './line.tsx'
import { SolidFigures } from './solidFigures.tsx'

interface ProfileProps {
  /** Address of the corners in the project file. */
  pointer: string
  name: string
  drawn: Drawn
  /** What is shown while a corner has no place that can be read. */
  otherwise: React.ReactNode
}

const ZOOMS = [1, 2, 4, 8]

/**
 * The line of a solid that is turned about an axis or drawn out, as corners on a dimensioned grid: pulled by the pointer,
 * moved by keys, typed with their units; what the solid comes to stands beside. It is an edit like any other.
 */
export function Profile({ pointer, name, drawn, otherwise }: ProfileProps) {
  const { document, trial, system, readOnly, act } = useShown()
  const shown = trial?.document ?? document
  const kept = cornersAt(shown, pointer)
  /** Corners while they are pulled, and which one. */
  const [pulled, setPulled] = useState<{ corners: readonly Corner[]; index: number }>()
  const [chosen, setChosen] = useState<number>()
  const [grid, setGrid] = useState(0)
  const [zoom, setZoom] = useState(0)
  const [said, setSaid] = useState<string>()
  const started = useRef<unknown>(undefined)
  const grids = profileGrids(system)
  const by = (grids[grid] ?? grids[0])?.by ?? 0.05
  const look = (value: readonly (readonly unknown[])[]): void => {
    if (JSON.stringify(value) === JSON.stringify(at(shown, pointer))) return
    act.tryOut([{ op: 'replace', path: pointer, value }], `${name}: ${editWords(at(document, pointer), value)}`)
  }
  /** Takes a line, or says why it is none and leaves what stands. */
  const put = (corners: readonly Corner[]): boolean => {
    const fault = faultOf(placesOf(corners), drawn)
    setSaid(fault === undefined ? undefined : `${fault} Left as it was.`)
    if (fault === undefined) look(corners.map((c) => c.texts))
    return fault === undefined
  }
  const now = useRef(look)
  now.current = look
  const isFree = trial?.pending !== true
  // While a corner is pulled the consequences follow as fast as they are worked out.
  useEffect(() => {
    if (pulled === undefined || !isFree || faultOf(placesOf(pulled.corners), drawn) !== undefined) return
    now.current(pulled.corners.map((c) => c.texts))
  }, [pulled, isFree, drawn])
  const root = useRef<HTMLDivElement>(null)
  /** Corner that has the focus once it is drawn: keys go on from it. */
  const next = useRef<number>(undefined)
  useEffect(() => {
    const corner = root.current?.querySelector<HTMLElement>(`[data-corner="${next.current}"]`)
    if (next.current === undefined || corner === null || corner === undefined) return
    next.current = undefined
    corner.focus()
  })
  if (kept === undefined) return otherwise
  if (kept.length < LEAST_CORNERS) return <Begin onBegin={() => look(firstCorners(system))} />
  const corners = pulled?.corners ?? kept
  const pull = (moved: readonly Corner[], index: number): void => {
    if (pulled === undefined) started.current = at(shown, pointer)
    setPulled({ corners: moved, index })
    setSaid(faultOf(placesOf(moved), drawn))
    setChosen(index)
  }
  const leave = (): void => {
    setPulled(undefined)
    setSaid(undefined)
    look(started.current as readonly (readonly unknown[])[])
  }
  const release = (): void => {
    if (pulled !== undefined && !put(pulled.corners)) look(started.current as readonly (readonly unknown[])[])
    setPulled(undefined)
  }
  /** Takes a line with another corner chosen; refused, nothing else is chosen. @returns that corner, where it was taken */
  const choose = (line: readonly Corner[], index: number): number | undefined => {
    if (!put(line)) return undefined
    setChosen(index)
    return index
  }
  const add = (after: number) => choose(withAdded(corners, after, system), after + 1)
  const remove = (index: number) => choose(withoutCorner(corners, index), Math.min(index, corners.length - 2))
  const fault = faultOf(placesOf(corners), drawn)
  return (
    <div className="profile" data-profile={pointer} ref={root}>
      <div className="profile-tools small">
        <label>
          grid{' '}
          <select value={grid} onChange={(e) => setGrid(Number(e.target.value))}>
            {grids.map(({ label }, i) => (
              <option key={label} value={i}>
                {label}
              </option>
            ))}
          </select>
        </label>
        <button
          type="button"
          disabled={zoom === 0}
          aria-label={`${name}, drawing: smaller`}
          onClick={() => setZoom(zoom - 1)}
        >
          −
        </button>
        <button
          type="button"
          disabled={zoom === ZOOMS.length - 1}
          aria-label={`${name}, drawing: larger`}
          onClick={() => setZoom(zoom + 1)}
        >
          +
        </button>
        <span className="quiet">
          Pull a corner, or the middle of an edge for a new one. Arrows move it by the grid, with Shift by ten; Insert
          adds one after it, Delete takes it away.
        </span>
      </div>
      <div className="profile-columns">
        <Line
          corners={corners}
          standing={kept}
          drawn={drawn}
          name={name}
          grid={by}
          zoom={ZOOMS[zoom] as number}
          chosen={chosen}
          isPulled={pulled !== undefined}
          readOnly={readOnly !== undefined}
          onChoose={setChosen}
          onPull={pull}
          onRelease={release}
          onLeave={leave}
          onMove={(index, to) => put(withMoved(corners, index, to, system))}
          onAdd={(after) => {
            next.current = add(after)
          }}
          onRemove={(index) => {
            next.current = remove(index)
          }}
        />
        <SolidFigures pointer={pointer} />
      </div>
      <p className="fail small" role="status">
        {said ?? fault ?? ''}
      </p>
      <CornerTable
        pointer={pointer}
        name={name}
        drawn={drawn}
        corners={kept}
        chosen={chosen}
        onChoose={setChosen}
        onAdd={add}
        onRemove={remove}
      />
    </div>
  )
}

/** Where there is no line yet. */
function Begin({ onBegin }: { onBegin: () => void }) {
  return (
    <button type="button" onClick={onBegin}>
      Begin with a rectangle
    </button>
  )
}
