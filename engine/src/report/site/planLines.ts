import type { Utility } from '../../model/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { line, type Mark, type PaperBox, type PaperPoint, type Stroke, standFor } from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { clippedLine } from '../paper/clip.ts'
import type { Label } from '../paper/labels.ts'
import { ASKED, CHAIN, HIDDEN, SMALL } from '../paper/pen.ts'
import { lengthOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { lengthText, levelText } from '../sheet/figures.ts'
import { distanceFromCentre } from './distances.ts'
import { planOf } from './planFrame.ts'
import type { SiteSubject } from './subject.ts'

/** Where a service lies: under the ground, over it, or on it. */
export type Place = 'buried' | 'overhead' | 'surface'

export const placeOf = ({ axis, height }: Utility): Place =>
  axis !== undefined ? 'buried' : height !== undefined ? 'overhead' : 'surface'

const STROKES: Readonly<Record<Place, Stroke>> = {
  buried: HIDDEN,
  overhead: CHAIN,
  surface: { width: 1, ink: 'hair' },
}

/** Roads, buried services and overhead lines that cross the plan, with the room that must be kept beside them. */
export function lineMarks({ stages }: SiteSubject, placing: Placing, room: PaperBox): Mark[] {
  return Object.entries(stages.model.project.utilities).flatMap(([id, utility]) => {
    const runs = runsOf(utility, placing, room)
    if (runs.length === 0) return []
    return [
      standFor(pointerOf('utilities', id), `${id}, ${utility.what}`, [
        ...keptClear(utility, placing, room),
        ...runs.map((run) => line(run, STROKES[placeOf(utility)])),
      ]),
    ]
  })
}

function runsOf({ line: points = [] }: Utility, placing: Placing, room: PaperBox): PaperPoint[][] {
  return clippedLine(
    points.map((p) => onPaper(placing, planOf(p))),
    room,
  )
}

/** The clearance that must be kept, to both sides of each straight part. */
function keptClear({ line: points = [], clearance }: Utility, placing: Placing, room: PaperBox): Mark[] {
  const by = clearance?.value
  if (by === undefined) return []
  const plan = points.map(planOf)
  return plan.slice(1).flatMap((b, i) => {
    const a = plan[i] as Point2
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    const [nx, ny] = [(-(b[1] - a[1]) / length) * by, ((b[0] - a[0]) / length) * by]
    return [1, -1].flatMap((s) =>
      clippedLine(
        [a, b].map(([x, y]) => onPaper(placing, [x + s * nx, y + s * ny])),
        room,
      ).map((run) => line(run, ASKED)),
    )
  })
}

/** What each line is, how far from the shaft's centre, and at what level. */
export function lineLabels({ stages, units }: SiteSubject, placing: Placing, room: PaperBox): Label[] {
  return Object.entries(stages.model.project.utilities).flatMap(([id, utility]) => {
    const runs = runsOf(utility, placing, room)
    const longest = runs
      .flatMap((run) => run.slice(1).map((b, i) => [run[i] as PaperPoint, b] as const))
      .sort((p, q) => lengthOf(q) - lengthOf(p))[0]
    if (longest === undefined) return []
    const [[x1, y1], [x2, y2]] = longest
    const along = (t: number): PaperPoint => [x1 + (x2 - x1) * t, y1 + (y2 - y1) * t]
    const upright = Math.abs(y2 - y1) > Math.abs(x2 - x1)
    return [
      {
        lines: [`${id} ${utility.what}`, lineFacts(utility, units)],
        at: along(0.7),
        or: [0.5, 0.3, 0.85, 0.15].map(along),
        towards: upright ? 180 : 90,
        from: 1,
        size: SMALL,
        ink: 'quiet',
        backed: true,
      },
    ]
  })
}

const lengthOf = ([a, b]: readonly [PaperPoint, PaperPoint]): number => Math.hypot(b[0] - a[0], b[1] - a[1])

/** Level or height, what must be kept, and the distance from the shaft's centre. */
export function lineFacts(utility: Utility, units: SiteSubject['units']): string {
  const { axis, height, clearance } = utility
  const away = distanceFromCentre(utility)
  return [
    ...(axis?.value === undefined ? [] : [`axis ${levelText(axis.value, units)}`]),
    ...(height?.value === undefined ? [] : [`${lengthText(height.value, units)} up`]),
    ...(clearance?.value === undefined ? [] : [`keep ${lengthText(clearance.value, units)}`]),
    ...(away === undefined ? [] : [`${lengthText(away, units)} from the shaft's centre`]),
  ].join(', ')
}

/** Services that the drawing does not reach. */
export function beyond({ stages }: SiteSubject, placing: Placing, room: PaperBox): string[] {
  return Object.entries(stages.model.project.utilities).flatMap(([id, utility]) => {
    const [x, y] = utility.at === undefined ? [Number.NaN, Number.NaN] : onPaper(placing, planOf(utility.at))
    const inside = x > room.left && x < room.right && y > room.top && y < room.bottom
    return inside || runsOf(utility, placing, room).length > 0 ? [] : [id]
  })
}

export const circleOnPaper = (placing: Placing, [x, y]: Point2, radius: number): PaperPoint[] => {
  const [cx, cy] = onPaper(placing, [x, y])
  const r = lengthOnPaper(placing, radius)
  return Array.from({ length: 181 }, (_, k): PaperPoint => {
    const angle = (2 * Math.PI * k) / 180
    return [cx + r * Math.cos(angle), cy - r * Math.sin(angle)]
  })
}
