import type { Model } from '../../model/index.ts'
import type { PaperPoint } from '../drawing.ts'
import type { Frame2, Point2 } from '../outline/convex.ts'
import { clippedLine } from '../paper/clip.ts'
import { framesTogether } from '../views/scene.ts'
import { wallRadius } from '../views/shaft.ts'

const AROUND = 2.5
/** Lines within this of what stands on the site are taken into the drawing, m. */
const NEAR = 10

type Values = readonly { value: number | undefined }[]
export const planOf = (at: Values): Point2 => [at[0]?.value ?? 0, at[1]?.value ?? 0]

/** A rectangle in plan about its middle. */
export function rectangleAbout([x, y]: Point2, [a, b]: Point2): Frame2 {
  return { left: x - a / 2, right: x + a / 2, bottom: y - b / 2, top: y + b / 2 }
}

const pointFrame = ([x, y]: Point2, around = 0): Frame2 => rectangleAbout([x, y], [2 * around, 2 * around])

/** Everything that the plan must hold: shaft, bays, pads, standings, rails, trailers, treated ground, and lines that pass near. */
export function planFrame({ project }: Model): Frame2 | undefined {
  const { shaft, bays, ground, systems, transports } = project
  const frames: Frame2[] = [
    ...(shaft === undefined ? [] : [pointFrame([0, 0], wallRadius(shaft))]),
    ...Object.values(bays).map((b) => rectangleAbout(planOf(b.centre), planOf(b.size))),
    ...Object.values(ground?.pads ?? {}).map((p) => rectangleAbout(planOf(p.centre), planOf(p.size))),
    ...Object.values(systems).flatMap((s) => [
      ...s.standings.map((at) => pointFrame(planOf(at), 4)),
      ...(s.rails === undefined ? [] : [railFrame(s.rails, s.runway)]),
    ]),
    ...Object.values(transports).flatMap((t) =>
      t.at === undefined ? [] : [rectangleAbout(planOf(t.at), planOf(t.platform))],
    ),
    ...(shaft === undefined ? [] : Object.values(ground?.treatments ?? {})).map((t): Frame2 => {
      const [a, b] = planOf(t.along)
      return { left: Math.min(a, b), right: Math.max(a, b), bottom: 0, top: 0 }
    }),
  ]
  if (frames.length === 0) return undefined
  const whole = grownBy(framesTogether(frames), AROUND)
  return Object.values(project.utilities).reduce((frame, { line = [] }) => withLine(frame, line.map(planOf)), whole)
}

function railFrame(rails: Values, runway: Values | undefined): Frame2 {
  const [a, b] = planOf(rails)
  const [c, d] = runway === undefined ? [0, 0] : planOf(runway)
  return { left: Math.min(a, b), right: Math.max(a, b), bottom: Math.min(c, d), top: Math.max(c, d) }
}

const grownBy = ({ left, right, bottom, top }: Frame2, by: number): Frame2 => ({
  left: left - by,
  right: right + by,
  bottom: bottom - by,
  top: top + by,
})

/** The frame moved out, side by side, to a line that passes near it. */
function withLine(frame: Frame2, points: readonly Point2[]): Frame2 {
  const wide = grownBy(frame, NEAR)
  const room = { left: wide.left, right: wide.right, top: wide.bottom, bottom: wide.top }
  return points.slice(1).reduce<Frame2>((grown, to, i) => {
    const [run] = clippedLine([points[i] as PaperPoint, to], room)
    if (run === undefined) return grown
    const [xs, ys] = [run.map(([x]) => x), run.map(([, y]) => y)]
    return {
      left: Math.max(...xs) < grown.left ? Math.max(...xs) - 1 : grown.left,
      right: Math.min(...xs) > grown.right ? Math.min(...xs) + 1 : grown.right,
      bottom: Math.max(...ys) < grown.bottom ? Math.max(...ys) - 1 : grown.bottom,
      top: Math.min(...ys) > grown.top ? Math.min(...ys) + 1 : grown.top,
    }
  }, frame)
}
