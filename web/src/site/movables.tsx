import { onPaper, type Placing } from '@shieldwright/engine/report/paper/scale.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { useEffect, useRef, useState } from 'react'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import {
  gridText,
  type Movable,
  movablesOf,
  type Place,
  shownCoordinate,
  snapped,
  stepped,
  typedPlace,
} from './moves.ts'
import type { PictureView } from './view.ts'

interface GridChoiceProps {
  /** m; undefined when nothing is moved. */
  grid: number | undefined
  grids: readonly number[]
  onGrid: (grid: number | undefined) => void
}

/** Whether bays and standings are moved on the plan, and the grid that they snap to. */
export function GridChoice({ grid, grids, onGrid }: GridChoiceProps) {
  const { system } = useShown()
  return (
    <>
      <button
        type="button"
        aria-pressed={grid !== undefined}
        onClick={() => onGrid(grid === undefined ? grids[0] : undefined)}
      >
        Move on the plan
      </button>
      {grid !== undefined && (
        <label>
          by{' '}
          <select value={grids.indexOf(grid)} onChange={(e) => onGrid(grids[Number(e.target.value)])}>
            {grids.map((g, i) => (
              <option key={g} value={i}>
                {gridText(g, system)}
              </option>
            ))}
          </select>
        </label>
      )}
    </>
  )
}

interface MovablesProps {
  view: PictureView
  placing: Placing
  /** m */
  grid: number
}

/** What is being moved, and where it is now. */
interface Moving {
  pointer: string
  to: Place
}

/** Bays and standings as handles over the plan. Where one is put is an edit that is looked at, and kept like any other. */
export function Movables({ view, placing, grid }: MovablesProps) {
  const { document, trial, system, act } = useShown()
  const { selected, set } = useSelected()
  const [moving, setMoving] = useState<Moving>()
  const shown = trial?.document ?? document
  const things = movablesOf(shown)
  const put = ({ pointer, to }: Moving): void => {
    const thing = things.find((t) => t.pointer === pointer)
    if (thing === undefined || isSame(thing.at, to)) return
    const value = typedPlace(shown, pointer, to, system)
    const before = at(document, pointer) as unknown[]
    act.tryOut([{ op: 'replace', path: pointer, value }], `${thing.name}: ${before.join(', ')} → ${value.join(', ')}`)
  }
  const now = useRef(put)
  now.current = put
  const isFree = trial?.pending !== true
  // While it is moved the verdicts follow as fast as they are worked out.
  useEffect(() => {
    if (moving !== undefined && isFree) now.current(moving)
  }, [moving, isFree])
  /** Back to where the kept project has it: the edit is gone, others that are looked at stay. */
  const leave = (pointer: string): void => {
    setMoving(undefined)
    const value = at(document, pointer)
    if (value !== at(shown, pointer)) act.tryOut([{ op: 'replace', path: pointer, value }], 'put back')
  }
  return (
    <div className="movables">
      {things.map((thing) => (
        <Handle
          key={thing.pointer}
          thing={moving?.pointer === thing.pointer ? { ...thing, at: moving.to } : thing}
          kept={movablesOf(document).find((t) => t.pointer === thing.pointer)?.at}
          isTaken={moving?.pointer === thing.pointer}
          isSelected={selected === thing.of}
          view={view}
          placing={placing}
          grid={grid}
          onTake={() => set({ selected: thing.of })}
          onMove={(to) => setMoving({ pointer: thing.pointer, to })}
          onPut={(to) => {
            put({ pointer: thing.pointer, to })
            setMoving(undefined)
          }}
          onLeave={() => leave(thing.pointer)}
        />
      ))}
    </div>
  )
}

const isSame = (a: Place, b: Place): boolean => Math.abs(a[0] - b[0]) < 1e-6 && Math.abs(a[1] - b[1]) < 1e-6

interface HandleProps {
  thing: Movable
  kept: Place | undefined
  isTaken: boolean
  isSelected: boolean
  view: PictureView
  placing: Placing
  grid: number
  onTake: () => void
  onMove: (to: Place) => void
  onPut: (to: Place) => void
  onLeave: () => void
}

const ARROWS: Readonly<Record<string, Place>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}
/** Lines of the grid that an arrow goes with Shift. */
const FAR = 10
/** A standing has no size of its own, m. */
const STANDING: Place = [4, 4]

function Handle({
  thing,
  kept,
  isTaken,
  isSelected,
  view,
  placing,
  grid,
  onTake,
  onMove,
  onPut,
  onLeave,
}: HandleProps) {
  const { system } = useShown()
  const taken = useRef<{ x: number; y: number; at: Place; metres: number }>(undefined)
  const [width, height] = thing.size ?? STANDING
  const [left, top] = onPaper(placing, [thing.at[0] - width / 2, thing.at[1] + height / 2])
  const mm = (length: number): number => (length * 1000) / placing.scale
  const share = (value: number, whole: number): string => `${(100 * value) / whole}%`
  const place = thing.at.map((v) => shownCoordinate(v, system)).join(', ')
  const isMoved = kept !== undefined && !isSame(kept, thing.at)
  const reached = (event: React.PointerEvent): Place | undefined => {
    const { current } = taken
    if (current === undefined) return undefined
    const [dx, dy] = [(event.clientX - current.x) * current.metres, -(event.clientY - current.y) * current.metres]
    return snapped(current.at, [current.at[0] + dx, current.at[1] + dy], grid)
  }
  const onPointerDown = (event: React.PointerEvent<HTMLButtonElement>): void => {
    if (event.button !== 0) return
    event.currentTarget.setPointerCapture(event.pointerId)
    const drawn = event.currentTarget.parentElement?.getBoundingClientRect().width ?? 1
    taken.current = {
      x: event.clientX,
      y: event.clientY,
      at: thing.at,
      metres: ((view.width / drawn) * placing.scale) / 1000,
    }
    onTake()
  }
  const onPointerMove = (event: React.PointerEvent): void => {
    const to = reached(event)
    if (to !== undefined && !isSame(to, thing.at)) onMove(to)
  }
  const onPointerUp = (event: React.PointerEvent): void => {
    const to = reached(event)
    taken.current = undefined
    if (to !== undefined) onPut(to)
  }
  const leave = (): void => {
    taken.current = undefined
    onLeave()
  }
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const way = ARROWS[event.key]
    if (way !== undefined) {
      const lines = event.shiftKey ? FAR : 1
      onTake()
      onPut(stepped(thing.at, [way[0] * lines, way[1] * lines], grid))
    } else if (event.key === 'Escape' && (isMoved || taken.current !== undefined)) leave()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <button
      type="button"
      className={isTaken || isMoved ? 'movable moved' : isSelected ? 'movable selected' : 'movable'}
      data-moves={thing.pointer}
      aria-label={`Move ${thing.name}, at ${place}. Arrows move it by ${gridText(grid, system)}, with Shift by ten times that, Escape leaves it where it was.`}
      style={{
        left: share(left, view.width),
        top: share(top, view.height),
        width: share(mm(width), view.width),
        height: share(mm(height), view.height),
      }}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={leave}
      onClick={(event) => event.stopPropagation()}
      onKeyDown={onKeyDown}
    >
      {(isTaken || isMoved) && (
        <span className="coordinates small" aria-live="polite">
          {place}
        </span>
      )}
    </button>
  )
}
