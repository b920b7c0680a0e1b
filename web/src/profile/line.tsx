import { type Point2, polygonIntegrals } from '@shieldwright/engine/numeric/polygon.ts'
import { showNumber, showQuantity } from '@shieldwright/engine/working/quantity.ts'
import { useRef } from 'react'
import { useWidth } from '../parts/width.ts'
import { stepped } from '../site/moves.ts'
import { useShown } from '../state.ts'
import {
  type Corner,
  type Drawn,
  edgeLength,
  edgesAtFault,
  faultOf,
  placesOf,
  pulledTo,
  withAdded,
  withMoved,
} from './corners.ts'
import { labelUnit, linesOf, type Sheet, sheetOf, toPage } from './sheet.ts'

interface LineProps {
  corners: readonly Corner[]
  /** As they stand: the sheet fits these, so that it does not move under a corner that is pulled. */
  standing: readonly Corner[]
  drawn: Drawn
  name: string
  /** m */
  grid: number
  zoom: number
  chosen: number | undefined
  isPulled: boolean
  readOnly: boolean
  onChoose: (index: number) => void
  onPull: (corners: readonly Corner[], index: number) => void
  onRelease: () => void
  onLeave: () => void
  onMove: (index: number, to: Point2) => void
  onAdd: (after: number) => void
  onRemove: (index: number) => void
}

/** How near a corner's coordinate has to come to another's to be level with it, px. */
const REACH = 6
/** A middle of an edge that is shorter has no handle, px. */
const LEAST_EDGE = 40
/** Grid lines that an arrow goes with Shift. */
const FAR = 10

const ARROWS: Readonly<Record<string, Point2>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}

interface Taken {
  index: number
  /** Corners when it was taken, and where the pointer was, px of the sheet. */
  corners: readonly Corner[]
  x: number
  y: number
}

/** The line on its grid, with a handle at every corner and in the middle of every edge. */
export function Line(props: LineProps) {
  const { corners, standing, drawn, name, grid, zoom, chosen, isPulled, readOnly } = props
  const { system } = useShown()
  const [place, width] = useWidth<HTMLDivElement>(0)
  const taken = useRef<Taken>(undefined)
  const held = useRef<Sheet>(undefined)
  if (!isPulled || held.current === undefined)
    held.current = sheetOf(placesOf(standing), drawn, Math.max(width, 1) * zoom, system)
  const sheet = held.current
  const take = (event: React.PointerEvent, index: number, from: readonly Corner[]): void => {
    if (event.button !== 0 || readOnly) return
    event.currentTarget.closest<HTMLElement>('.profile-sheet')?.setPointerCapture(event.pointerId)
    taken.current = { index, corners: from, x: event.clientX, y: event.clientY }
    props.onChoose(index)
  }
  const onPointerMove = (event: React.PointerEvent): void => {
    const { current } = taken
    if (current === undefined) return
    const was = (current.corners[current.index] as Corner).at
    const to: Point2 = [
      was[0] + (event.clientX - current.x) / sheet.scale,
      was[1] - (event.clientY - current.y) / sheet.scale,
    ]
    const others = placesOf(current.corners).filter((_, i) => i !== current.index)
    const at = pulledTo(was, inHalf(to, drawn), others, { by: grid, reach: REACH / sheet.scale })
    props.onPull(withMoved(current.corners, current.index, at, system), current.index)
  }
  const end = (then: () => void): void => {
    if (taken.current === undefined) return
    taken.current = undefined
    if (isPulled) then()
  }
  const onKeyDown = (event: React.KeyboardEvent, index: number): void => {
    const way = ARROWS[event.key]
    const lines = event.shiftKey ? FAR : 1
    if (event.key === 'Escape' && taken.current !== undefined) end(props.onLeave)
    else if (readOnly) return
    else if (way !== undefined) {
      const to = stepped((corners[index] as Corner).at, [way[0] * lines, way[1] * lines], grid)
      props.onMove(index, inHalf([to[0], to[1]], drawn))
    } else if (event.key === 'Insert' || event.key === '+') props.onAdd(index)
    else if (event.key === 'Delete' || event.key === 'Backspace') props.onRemove(index)
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  const pages = corners.map((c) => toPage(sheet, c.at))
  return (
    <div ref={place} className="profile-window">
      {width > 0 && (
        <div
          className="profile-sheet"
          style={{ width: sheet.width, height: sheet.height }}
          onPointerMove={onPointerMove}
          onPointerUp={() => end(props.onRelease)}
          onPointerCancel={() => end(props.onLeave)}
        >
          <Picture sheet={sheet} corners={corners} drawn={drawn} chosen={chosen} />
          {!readOnly &&
            pages.map((from, i) => {
              const to = pages[(i + 1) % pages.length] as Point2
              if (isPulled || Math.hypot(to[0] - from[0], to[1] - from[1]) < LEAST_EDGE) return null
              return (
                <button
                  // biome-ignore lint/suspicious/noArrayIndexKey: an edge is known by its place in the line
                  key={i}
                  type="button"
                  className="middle"
                  tabIndex={-1}
                  data-edge={i}
                  aria-label={`${name}: a new corner between ${i + 1} and ${((i + 1) % pages.length) + 1}`}
                  style={{ left: (from[0] + to[0]) / 2, top: (from[1] + to[1]) / 2 }}
                  onPointerDown={(event) => take(event, i + 1, withAdded(corners, i, system))}
                  onDoubleClick={() => props.onAdd(i)}
                />
              )
            })}
          {pages.map(([left, top], i) => (
            <button
              // biome-ignore lint/suspicious/noArrayIndexKey: a corner is known by its place in the line
              key={i}
              type="button"
              className={i === chosen ? 'corner chosen' : 'corner'}
              data-corner={i}
              aria-label={`${name}, corner ${i + 1}, at ${placeText(corners[i] as Corner, system)}`}
              style={{ left, top }}
              onPointerDown={(event) => take(event, i, corners)}
              onFocus={() => props.onChoose(i)}
              onKeyDown={(event) => onKeyDown(event, i)}
            >
              <span className="mark" />
              {i === chosen && <span className="coordinates small">{placeText(corners[i] as Corner, system)}</span>}
            </button>
          ))}
        </div>
      )}
    </div>
  )
}

const placeText = ({ at }: Corner, system: 'SI' | 'US'): string =>
  at.map((v) => showQuantity(v, 'm', system)).join(', ')

/** What turns about an axis stays on its own side of it. */
const inHalf = (to: Point2, drawn: Drawn): Point2 => (drawn === 'revolution' ? [to[0], Math.max(0, to[1])] : to)

interface PictureProps {
  sheet: Sheet
  corners: readonly Corner[]
  drawn: Drawn
  chosen: number | undefined
}

/** Grid with its figures, the line, its overall sizes, the edges at the chosen corner, and where the area's centre lies. */
function Picture({ sheet, corners, drawn, chosen }: PictureProps) {
  const { system } = useShown()
  const line = placesOf(corners)
  const pages = line.map((p) => toPage(sheet, p))
  const isSound = faultOf(line, drawn) === undefined
  const centre = isSound ? toPage(sheet, polygonIntegrals(line).centroid) : undefined
  const wrong = edgesAtFault(line)
  return (
    <svg width={sheet.width} height={sheet.height} aria-hidden="true">
      {drawn === 'revolution' && <Axis sheet={sheet} />}
      <GridLines sheet={sheet} />
      <polygon className={isSound ? 'area' : 'area wrong'} points={pages.map((p) => p.join()).join(' ')} />
      {wrong.map((i) => {
        const [from, to] = [pages[i] as Point2, pages[(i + 1) % pages.length] as Point2]
        return <line key={i} className="wrong" x1={from[0]} y1={from[1]} x2={to[0]} y2={to[1]} />
      })}
      {centre !== undefined && (
        <path
          className="centre"
          d={`M${centre[0] - 7},${centre[1]}h14M${centre[0]},${centre[1] - 7}v14M${centre[0] - 4},${centre[1]}a4,4 0 1 0 8,0a4,4 0 1 0 -8,0`}
        />
      )}
      <Overall sheet={sheet} corners={corners} />
      {chosen !== undefined &&
        corners[chosen] !== undefined &&
        [(chosen + corners.length - 1) % corners.length, chosen].map((i) => {
          const [from, to] = [pages[i] as Point2, pages[(i + 1) % pages.length] as Point2]
          if (Math.hypot(to[0] - from[0], to[1] - from[1]) < LEAST_EDGE) return null
          return (
            <text key={i} className="size" x={(from[0] + to[0]) / 2} y={(from[1] + to[1]) / 2 - 8} textAnchor="middle">
              {showQuantity(edgeLength(corners, i), 'm', system)}
            </text>
          )
        })}
    </svg>
  )
}

/** px from the edge of the sheet */
const LABEL = { left: 48, below: 8 }

function GridLines({ sheet }: { sheet: Sheet }) {
  const { system } = useShown()
  const { width, height, lines, labels } = sheet
  const { label, per, decimals } = labelUnit(sheet, system)
  const [xs, ys] = [linesOf(sheet, 0, lines), linesOf(sheet, 1, lines)]
  const x = (v: number): number => toPage(sheet, [v, 0])[0]
  const y = (v: number): number => toPage(sheet, [0, v])[1]
  const text = (v: number): string => `${showNumber(v / per, decimals)} ${label}`
  return (
    <>
      <path
        className="grid"
        d={xs.map((v) => `M${x(v)},0V${height}`).join('') + ys.map((v) => `M0,${y(v)}H${width}`).join('')}
      />
      <path
        className="grid main"
        d={
          linesOf(sheet, 0, labels)
            .map((v) => `M${x(v)},0V${height}`)
            .join('') +
          linesOf(sheet, 1, labels)
            .map((v) => `M0,${y(v)}H${width}`)
            .join('')
        }
      />
      {linesOf(sheet, 0, labels)
        .filter((v) => x(v) > LABEL.left + 20 && x(v) < width - 20)
        .map((v) => (
          <text key={v} className="label" x={x(v)} y={height - LABEL.below} textAnchor="middle">
            {text(v)}
          </text>
        ))}
      {linesOf(sheet, 1, labels)
        .filter((v) => y(v) > 12 && y(v) < height - 24)
        .map((v) => (
          <text key={v} className="label" x={LABEL.left} y={y(v) + 4} textAnchor="end">
            {text(v)}
          </text>
        ))}
    </>
  )
}

/** The axis that a profile is turned about, where it lies on the sheet. */
function Axis({ sheet }: { sheet: Sheet }) {
  const [, y] = toPage(sheet, [0, 0])
  if (y > sheet.height) return null
  return (
    <>
      <path className="axis" d={`M0,${y}H${sheet.width}`} />
      <text className="label" x={sheet.width - 6} y={y - 5} textAnchor="end">
        axis
      </text>
    </>
  )
}

/** How long and how high the whole is, above it and at its right. */
function Overall({ sheet, corners }: { sheet: Sheet; corners: readonly Corner[] }) {
  const { system } = useShown()
  if (corners.length === 0) return null
  const span = (k: 0 | 1): readonly [number, number] => {
    const all = corners.map((c) => c.at[k])
    return [Math.min(...all), Math.max(...all)]
  }
  const [[a, b], [c, d]] = [span(0), span(1)]
  const [left, top] = toPage(sheet, [a, d])
  const [right, bottom] = toPage(sheet, [b, c])
  const [above, beside] = [top - 22, right + 22]
  return (
    <>
      <path
        className="dimension"
        d={`M${left},${above - 4}v12M${right},${above - 4}v12M${left},${above}H${right}M${beside - 8},${top}h12M${beside - 8},${bottom}h12M${beside},${top}V${bottom}`}
      />
      <text className="size" x={(left + right) / 2} y={above - 4} textAnchor="middle">
        {showQuantity(b - a, 'm', system)}
      </text>
      <text
        className="size"
        x={beside + 4}
        y={(top + bottom) / 2}
        textAnchor="middle"
        transform={`rotate(-90 ${beside + 4} ${(top + bottom) / 2})`}
        dy={12}
      >
        {showQuantity(d - c, 'm', system)}
      </text>
    </>
  )
}
