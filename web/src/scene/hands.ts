import type { Eye } from './look.ts'

/** What hands do on the drawing: turn, shift, come nearer, point. */
export interface Told {
  /** The look has changed. */
  moved: () => void
  /** A hand has been taken off: what is costly may follow. */
  rested: () => void
  pointed: (x: number, y: number) => void
}

const TURN = 0.006
const STILL = 4
const WHEEL = 0.0012

/** Drag turns; with Shift, or another button, it shifts; wheel and pinch come nearer. Returns how to let go. */
export function handsOn(canvas: HTMLCanvasElement, eye: Eye, told: Told): () => void {
  const down = new Map<number, { x: number; y: number }>()
  let start = { x: 0, y: 0 }
  let gone = 0
  let shifts = false
  let wheel: ReturnType<typeof setTimeout> | undefined
  const place = (e: PointerEvent | WheelEvent): { x: number; y: number } => {
    const box = canvas.getBoundingClientRect()
    return { x: e.clientX - box.left, y: e.clientY - box.top }
  }
  const onDown = (e: PointerEvent): void => {
    canvas.parentElement?.focus({ preventScroll: true })
    canvas.setPointerCapture(e.pointerId)
    down.set(e.pointerId, place(e))
    start = place(e)
    if (down.size === 1) gone = 0
    shifts = e.shiftKey || e.button > 0
  }
  const onMove = (e: PointerEvent): void => {
    const before = down.get(e.pointerId)
    if (before === undefined) return
    const now = place(e)
    const [dx, dy] = [now.x - before.x, now.y - before.y]
    gone = Math.max(gone, Math.hypot(now.x - start.x, now.y - start.y))
    if (down.size === 1 && gone <= STILL) return
    const other = [...down].find(([id]) => id !== e.pointerId)?.[1]
    if (other !== undefined) {
      const spread = (p: { x: number; y: number }): number => Math.hypot(p.x - other.x, p.y - other.y)
      eye.nearer(spread(before) / Math.max(1, spread(now)))
      slide(dx / 2, dy / 2)
    } else if (shifts) slide(dx, dy)
    else eye.turn(-dx * TURN, dy * TURN)
    down.set(e.pointerId, now)
    told.moved()
  }
  const slide = (dx: number, dy: number): void => eye.shift(-dx * eye.metresAPixel(), dy * eye.metresAPixel())
  const onUp = (e: PointerEvent): void => {
    if (!down.delete(e.pointerId) || down.size > 0) return
    if (gone > STILL) told.rested()
    else if (e.type === 'pointerup' && e.button === 0) told.pointed(place(e).x, place(e).y)
  }
  // Until the drawing has the focus a wheel scrolls the page: who only passes over it is not held up.
  const onWheel = (e: WheelEvent): void => {
    if (!e.ctrlKey && canvas.parentElement !== document.activeElement) return
    e.preventDefault()
    eye.nearer(Math.exp(e.deltaY * WHEEL * (e.deltaMode === 1 ? 16 : 1)), place(e))
    told.moved()
    clearTimeout(wheel)
    wheel = setTimeout(told.rested, 150)
  }
  const noMenu = (e: Event): void => e.preventDefault()
  canvas.addEventListener('pointerdown', onDown)
  canvas.addEventListener('pointermove', onMove)
  canvas.addEventListener('pointerup', onUp)
  canvas.addEventListener('pointercancel', onUp)
  canvas.addEventListener('wheel', onWheel, { passive: false })
  canvas.addEventListener('contextmenu', noMenu)
  return () => {
    clearTimeout(wheel)
    canvas.removeEventListener('pointerdown', onDown)
    canvas.removeEventListener('pointermove', onMove)
    canvas.removeEventListener('pointerup', onUp)
    canvas.removeEventListener('pointercancel', onUp)
    canvas.removeEventListener('wheel', onWheel)
    canvas.removeEventListener('contextmenu', noMenu)
  }
}
