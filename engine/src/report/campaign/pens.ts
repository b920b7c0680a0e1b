import type { Ink, Line, PaperPoint, Shape, Stroke } from '../drawing.ts'

export const stroke = (width: number, ink: Ink = 'ink', dash?: readonly number[]): Stroke =>
  dash === undefined ? { width, ink } : { width, ink, dash }

/** Many lines of one pen as one mark: a page of hatch stays light. */
export const together = (lines: readonly Line[]): Shape[] => {
  const [first] = lines
  if (first === undefined) return []
  return [{ kind: 'shape', loops: lines.map((l) => l.points), stroke: first.stroke }]
}

export const upright = (x: number, top: number, bottom: number, pen: Stroke): Line => ({
  kind: 'line',
  points: [
    [x, top],
    [x, bottom],
  ],
  stroke: pen,
})

export const level = (y: number, left: number, right: number, pen: Stroke): Line => ({
  kind: 'line',
  points: [
    [left, y],
    [right, y],
  ],
  stroke: pen,
})

/** A tear across a line at a place: the sign that something is left out or stretched otherwise. */
export const tear = (x: number, y: number, k: number, pen: Stroke): Line => ({
  kind: 'line',
  points: [
    [x - 0.8 * k, y - 2 * k],
    [x + 0.8 * k, y - 0.7 * k],
    [x - 0.8 * k, y + 0.7 * k],
    [x + 0.8 * k, y + 2 * k],
  ] satisfies PaperPoint[],
  stroke: pen,
})
