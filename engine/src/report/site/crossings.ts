import type { Utility } from '../../model/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { line, type Mark, standFor } from '../drawing.ts'
import type { Frame2, Point2 } from '../outline/convex.ts'
import type { Label } from '../paper/labels.ts'
import { EDGE, SMALL, THIN } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { lengthText, levelText } from '../sheet/figures.ts'
import { planOf } from './planFrame.ts'
import type { SiteSubject } from './subject.ts'

/** Where a line crosses a section: across the view and up, m. */
interface Crossing {
  id: string
  utility: Utility
  u: number
  z: number
}

/** Lines that cross the plane of a section: along the drive (`x`, y = 0) or across it (`y`, x = 0; left is positive on site, left on paper). */
export function crossingsOf({ stages }: SiteSubject, across: 'x' | 'y'): Crossing[] {
  const { utilities, ground } = stages.model.project
  const surface = ground?.surface.value ?? 0
  return Object.entries(utilities).flatMap(([id, utility]) => {
    const z = utility.axis?.value ?? surface + (utility.height?.value ?? 0)
    return placesOn((utility.line ?? []).map(planOf), across).map((u) => ({ id, utility, u, z }))
  })
}

function placesOn(points: readonly Point2[], across: 'x' | 'y'): number[] {
  const [off, along] = across === 'x' ? ([1, 0] as const) : ([0, 1] as const)
  return points.slice(1).flatMap((b, i) => {
    const a = points[i] as Point2
    if (a[off] > 0 === b[off] > 0) return []
    const t = a[off] / (a[off] - b[off])
    const place = a[along] + t * (b[along] - a[along])
    return [across === 'x' ? place : -place]
  })
}

const RADIUS = 1

const isSeen = ({ u, z }: Crossing, { left, right, bottom, top }: Frame2): boolean =>
  u > left && u < right && z > bottom && z < top

/** A ring where a line crosses below or above the ground, a stroke where it lies on it: the model has its place, not its size. */
export function crossingMarks(subject: SiteSubject, across: 'x' | 'y', placing: Placing, frame: Frame2): Mark[] {
  return crossingsOf(subject, across)
    .filter((c) => isSeen(c, frame))
    .map(({ id, utility, u, z }) => {
      const [x, y] = onPaper(placing, [u, z])
      const onGround = utility.axis === undefined && utility.height === undefined
      return standFor(pointerOf('utilities', id), `${id}, ${utility.what}`, [
        onGround
          ? line(
              [
                [x - 2, y],
                [x + 2, y],
              ],
              { ...EDGE, width: 1 },
            )
          : { kind: 'circle', centre: [x, y], radius: RADIUS, fill: 'paper', stroke: THIN },
      ])
    })
}

/** What crosses, at which level, and how far from the shaft's centre. */
export function crossingLabels(subject: SiteSubject, across: 'x' | 'y', placing: Placing, frame: Frame2): Label[] {
  const { units } = subject
  return crossingsOf(subject, across)
    .filter((c) => isSeen(c, frame))
    .map(({ id, utility, u, z }) => ({
      lines: [
        `${id} ${utility.what.split(',')[0]}`,
        `${utility.axis === undefined ? '' : `axis ${levelText(z, units)}, `}${lengthText(Math.abs(u), units)} away`,
      ],
      at: onPaper(placing, [u, z]),
      towards: 90,
      from: RADIUS + 0.5,
      size: SMALL,
      backed: true,
    }))
}
