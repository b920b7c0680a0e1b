import { instantAt, placeIn } from '@shieldwright/engine/report/campaign/timeAxis.ts'
import { useEffect, useRef, useState } from 'react'
import { useCommon } from '../shared.ts'
import { routeTo } from '../state.ts'
import { type At, Card } from './card.tsx'
import { atInstant, instantOf, instantText } from './instant.ts'
import { type Move, moveOf, nextLift, type Place } from './keys.ts'
import { Picture, useEmphasis, useHolds } from './picture.tsx'
import { eventPlace, liftOf, piecePlace, pieceSelected, wordsOf } from './place.ts'
import { useGestures } from './useGestures.ts'
import type { CampaignView } from './view.ts'
import { moved, shiftOn, showing, type Window, zoomed } from './zoom.ts'

const DAY = 86_400
/** A pointer that went further while it was down has moved the window, and points at nothing, px. */
const STILL = 5

interface FieldProps {
  view: CampaignView
  width: number
  /** Wider than its place, and looked at a part at a time. */
  isThrough: boolean
  window: Window
  setWindow: (window: Window) => void
  tools: (onMove: (move: Move) => void) => React.ReactNode
}

/** The drawing with pointer and keys: what is looked at, what is selected, and which time is shown. */
export function Field({ view, width, isThrough, window, setWindow, tools }: FieldProps) {
  const common = useCommon()
  const { selected, along, instant, set } = common
  const field = useRef<HTMLDivElement>(null)
  const through = useRef<HTMLDivElement>(null)
  const pressed = useRef<number>(undefined)
  const [place, setPlace] = useState<Place>({ event: undefined, pointer: undefined })
  const [hover, setHover] = useState<{ pointer: string; words: string; at: At }>()
  const chosen = pieceSelected(view, selected) ?? selected
  const looked = hover?.pointer ?? place.pointer
  useHolds(field, view.svg)
  useEmphasis(field, view.svg, looked, chosen)
  useFocus(field, view, place)

  const px = width / view.width
  // where one looks through a window, the next lift is in it at first
  const first = view.events[nextLift(view)]?.at ?? view.shown.from * DAY
  useLooksAt(through, isThrough, placeIn(view.stretches, first) * px)
  const dayAt = (x: number): number => instantAt(view.stretches, x / px) / DAY
  const zoom = (about: number, factor: number): void => setWindow(zoomed(window, view.whole, about, factor))
  const pan = (days: number): void => setWindow(moved(window, view.whole, days))
  useGestures(field, { dayAt, zoom, pan, isZoomed: window !== undefined })

  const select = (pointer: string): void => {
    if (pointer === chosen) {
      const lift = liftOf(view, pointer, place.event)
      if (lift !== undefined) location.hash = routeTo('lift', lift)
      return
    }
    set({ selected: pointer })
  }
  const perform = (move: Move): void => {
    const event = place.event === undefined ? undefined : view.events[place.event]
    const middle = event === undefined ? (view.shown.from + view.shown.to) / 2 : event.at / DAY
    if (move.kind === 'zoom') zoom(middle, move.factor)
    else if (move.kind === 'pan') pan(move.share * (view.shown.to - view.shown.from))
    else if (move.kind === 'shift')
      setWindow(shiftOn(((event ?? view.events[nextLift(view)])?.at ?? middle * DAY) / DAY, view.hours))
    else if (move.kind === 'select') place.pointer !== undefined && select(place.pointer)
    else if (move.kind === 'time') {
      const to = instantMoved(view, now, move.by)
      setWindow(showing(window, view.whole, to / DAY))
      set(atInstant(view, to))
    } else if (move.kind === 'leave') setPlace({ event: undefined, pointer: undefined })
    else {
      const next = move.kind === 'event' ? eventPlace(view, move.index) : piecePlace(view, move.pointer, place.event)
      setPlace(next)
      const to = next.event === undefined ? undefined : view.events[next.event]
      if (to === undefined) return
      setWindow(showing(window, view.whole, to.at / DAY))
      if (to.kind === 'lift') set(atInstant(view, to.at))
    }
  }
  const onKey = (event: React.KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return
    const move = moveOf(event.shiftKey && event.key.startsWith('Arrow') ? `Shift+${event.key}` : event.key, view, place)
    if (move === undefined) return
    event.preventDefault()
    event.stopPropagation()
    perform(move)
  }
  const onPoint = (event: React.PointerEvent): void => {
    const group = (event.target as Element).closest<SVGGElement>('g.about')
    const { about } = group?.dataset ?? {}
    const frame = field.current?.getBoundingClientRect()
    if (about === undefined || frame === undefined || event.buttons !== 0) {
      setHover(undefined)
      return
    }
    const words = group?.getAttribute('aria-label') ?? ''
    setHover({ pointer: about, words, at: { x: event.clientX - frame.left, y: event.clientY - frame.top } })
  }
  const onClick = (event: React.MouseEvent): void => {
    if (pressed.current !== undefined && Math.abs(pressed.current - event.clientX) > STILL) return
    const group = (event.target as Element).closest<SVGGElement>('g.about[role="button"]')
    const about = group?.dataset.about
    if (about !== undefined) select(about)
    else if (!(event.target as Element).closest('g.about')) placeTime(event)
  }
  /** The place in time that all views share follows a click beside the marks, within the ruler's reach. */
  const placeTime = (event: React.MouseEvent): void => {
    const frame = field.current?.getBoundingClientRect()
    const [first, last] = [view.stretches[0], view.stretches.at(-1)]
    if (frame === undefined || first === undefined || last === undefined) return
    const [x, y] = [(event.clientX - frame.left) / px, (event.clientY - frame.top) / px]
    if (x < first.left || x > last.right || y > view.foot) return
    set(atInstant(view, instantAt(view.stretches, x)))
  }
  const now = instantOf(common, view)
  const isStanding = along > 0 || instant !== undefined
  const isNowShown = isStanding && now >= view.shown.from * DAY && now <= view.shown.to * DAY
  const heard =
    hover?.words ?? (place.event === undefined ? wordsOf(view, place.pointer) : view.events[place.event]?.words)
  const piece = view.pieces.find((p) => p.pointer === hover?.pointer)
  return (
    <>
      <p className="sentence">{view.next}</p>
      {tools(perform)}
      <div ref={through} className={isThrough ? 'through' : undefined}>
        <div
          ref={field}
          className={window === undefined ? 'field' : 'field zoomed'}
          role="application"
          aria-label={`${view.title}. Left and right go by event, up and down by piece, T to today, N to the next lift, S to its shift, plus and minus zoom, Enter selects, Shift with left and right moves the instant of all views.`}
          // biome-ignore lint/a11y/noNoninteractiveTabindex: the diagram takes the keys that its name tells
          tabIndex={0}
          onKeyDown={onKey}
          onPointerMove={onPoint}
          onPointerLeave={() => setHover(undefined)}
          onPointerDown={(event) => {
            pressed.current = event.clientX
          }}
          onClick={onClick}
          style={isThrough ? { position: 'relative', width } : { position: 'relative' }}
        >
          <Picture svg={view.svg} />
          {isNowShown && (
            <div
              className="now"
              aria-hidden="true"
              style={{ left: placeIn(view.stretches, now) * px, height: view.foot * px }}
            />
          )}
          {hover !== undefined && <Card at={hover.at} width={width} piece={piece} words={hover.words} />}
        </div>
      </div>
      <p className="heard small" aria-live="polite">
        {heard ?? (
          <span className="quiet">
            Rest on a track for its numbers · <kbd>←</kbd> <kbd>→</kbd> by event, <kbd>↑</kbd> <kbd>↓</kbd> by piece,{' '}
            <kbd>T</kbd> today, <kbd>N</kbd> next lift, <kbd>S</kbd> its shift, <kbd>+</kbd> <kbd>−</kbd> zoom,{' '}
            <kbd>↵</kbd> select, again: its lift · wheel with <kbd>Ctrl</kbd>, or on the diagram in focus, zooms time ·
            a click beside the marks, <kbd>Shift</kbd> with <kbd>←</kbd> <kbd>→</kbd>: the instant of all views
          </span>
        )}
      </p>
      {isStanding && (
        <p className="instant small" aria-live="polite">
          All views stand at {instantText(now, view)}
        </p>
      )}
      {view.tally !== '' && <p className="small quiet">{view.tally}</p>}
      {view.dropped.length > 0 && (
        <details className="small">
          <summary className="quiet">{view.dropped.length} labels found no room here</summary>
          <p className="quiet">{view.dropped.join('; ')}</p>
        </details>
      )}
    </>
  )
}

/** Brings a place across the drawing to a third of the window that it is looked at through, once. */
function useLooksAt(through: React.RefObject<HTMLElement | null>, isThrough: boolean, at: number): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: only where the window begins, and not at every new picture
  useEffect(() => {
    const { current } = through
    if (current !== null && isThrough) current.scrollLeft = at - current.clientWidth / 3
  }, [isThrough])
}

/** Windows shorter than this are gone through by hours, others by days. */
const BY_HOURS = 5

/** An instant moved by a day, or by an hour where few days are shown, within the plan. */
function instantMoved({ shown, whole }: CampaignView, now: number, by: 1 | -1): number {
  const step = shown.to - shown.from < BY_HOURS ? 3600 : DAY
  return Math.min(whole.to * DAY, Math.max(whole.from * DAY, now + by * step))
}

/** The mark that one stands at by keys has the focus, as far as the picture shows it. */
function useFocus(field: React.RefObject<HTMLElement | null>, view: CampaignView, { pointer }: Place): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new picture has new marks
  useEffect(() => {
    const { current } = field
    if (current === null || pointer === undefined || !current.contains(document.activeElement)) return
    const group = [...current.querySelectorAll<SVGGElement>('g.about[role="button"]')].find(
      (g) => g.dataset.about === pointer,
    )
    ;(group ?? current).focus({ preventScroll: true })
  }, [pointer, view.svg])
}
