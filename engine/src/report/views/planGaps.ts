import type { Shaft } from '../../model/index.ts'
import { type Answer, found } from '../../working/answer.ts'
import type { Point2 } from '../outline/convex.ts'
import { distanceBetween } from '../outline/distance.ts'

/** Distance in plan from the piece, on its way up the shaft, to one thing that stays. */
export interface PlanGap {
  id: string
  what: string
  gap: Answer<'m'>
  /** On the piece, and on what is near. */
  from: Point2
  to: Point2
}

type Obstruction = Shaft['obstructions'][string]

const CIRCLE_SIDES = 72

/** Plan outline of a fixed thing. */
export function planOutline({ x, y, round }: Pick<Obstruction, 'x' | 'y' | 'round'>): Point2[] {
  const [x1, x2] = x.map((v) => v.value as number) as [number, number]
  const [y1, y2] = y.map((v) => v.value as number) as [number, number]
  if (!round)
    return [
      [x1, y1],
      [x2, y1],
      [x2, y2],
      [x1, y2],
    ]
  const [cx, cy, r] = [(x1 + x2) / 2, (y1 + y2) / 2, Math.max(x2 - x1, y2 - y1) / 2]
  return Array.from({ length: CIRCLE_SIDES }, (_, k): Point2 => {
    const angle = (2 * Math.PI * k) / CIRCLE_SIDES
    return [cx + r * Math.cos(angle), cy + r * Math.sin(angle)]
  })
}

const METHOD = 'distance in plan between the outline of the piece, where it goes up, and the thing as it is given'

/** Gaps in plan to the bore and to every fixed thing, nearest first. */
export function planGaps(shaft: Shaft, outline: readonly (readonly Point2[])[], gone: ReadonlySet<string>): PlanGap[] {
  const things = Object.entries(shaft.obstructions)
    .filter(([, o]) => o.removedBefore === undefined || !gone.has(o.removedBefore))
    .map(([id, o]): PlanGap => {
      const { gap, from, to } = distanceBetween(outline, [planOutline(o)])
      return {
        id,
        what: o.what,
        gap: gapAnswer(gap, { 'x from': o.x[0], 'x to': o.x[1], 'y from': o.y[0], 'y to': o.y[1] }),
        from,
        to,
      }
    })
  return [boreGap(shaft, outline), ...things].sort((a, b) => (a.gap.value ?? 0) - (b.gap.value ?? 0))
}

const gapAnswer = (value: number, inputs: Readonly<Record<string, Answer>>): Answer<'m'> =>
  found({ unit: 'm', value, method: METHOD, inputs, residuals: [] })

function boreGap({ clearDiameter }: Shaft, outline: readonly (readonly Point2[])[]): PlanGap {
  const radius = (clearDiameter.value as number) / 2
  const out = outline
    .flat()
    .reduce((far, p) => (Math.hypot(p[0], p[1]) > Math.hypot(far[0], far[1]) ? p : far), [0, 0] as Point2)
  const away = Math.hypot(...out)
  const to: Point2 = away === 0 ? [radius, 0] : [(out[0] * radius) / away, (out[1] * radius) / away]
  return {
    id: 'bore',
    what: 'bore',
    gap: gapAnswer(Math.max(0, radius - away), { 'clear diameter': clearDiameter }),
    from: out,
    to,
  }
}
