import type { PaperBox, PaperPoint } from '../drawing.ts'
import type { Frame2, Point2 } from '../outline/convex.ts'

/** How a view of the world lies on paper: upright, without distortion. */
export interface Placing {
  /** Metres of the world on a metre of paper, a whole ratio. */
  scale: number
  /** This point of the view lies there on paper. */
  of: Point2
  at: PaperPoint
}

/** Ratios that a scale rule carries. */
const RATIOS = [
  2, 5, 10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 600, 750, 1000, 1250, 1500, 2000, 2500, 5000,
]

/** The largest picture of a frame that fits a box: whole ratio, centred across, standing on the box's foot or centred. */
export function placed(frame: Frame2, room: PaperBox, stand: 'foot' | 'middle' = 'middle'): Placing {
  const wide = (frame.right - frame.left) / ((room.right - room.left) / 1000)
  const high = (frame.top - frame.bottom) / ((room.bottom - room.top) / 1000)
  const least = Math.max(wide, high)
  const scale = RATIOS.find((ratio) => ratio >= least * (1 - 1e-9)) ?? Math.ceil(least / 1000) * 1000
  const at: PaperPoint = [(room.left + room.right) / 2, stand === 'foot' ? room.bottom : (room.top + room.bottom) / 2]
  const of: Point2 = [(frame.left + frame.right) / 2, stand === 'foot' ? frame.bottom : (frame.bottom + frame.top) / 2]
  return { scale, of, at }
}

/** Where a point of the view lies on paper. */
export const onPaper = ({ scale, of, at }: Placing, [u, v]: Point2): PaperPoint => [
  at[0] + ((u - of[0]) * 1000) / scale,
  at[1] - ((v - of[1]) * 1000) / scale,
]

export const loopOnPaper = (placing: Placing, loop: readonly Point2[]): PaperPoint[] =>
  loop.map((point) => onPaper(placing, point))

/** Millimetres on paper of a length of the world, m. */
export const lengthOnPaper = ({ scale }: Placing, length: number): number => (length * 1000) / scale

export const scaleText = ({ scale }: Placing): string => `1 : ${scale}`
