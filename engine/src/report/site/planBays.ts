import type { Bay } from '../../model/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { showQuantity } from '../../working/quantity.ts'
import { box, cross, type Mark, standFor } from '../drawing.ts'
import { frameOf } from '../outline/convex.ts'
import type { Label } from '../paper/labels.ts'
import { EDGE, FINE, HIDDEN, OUTLINE, SMALL, THIN } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { lengthText, levelText } from '../sheet/figures.ts'
import { shapeOf } from '../views/scene.ts'
import { bayDistance } from './distances.ts'
import { planOf, rectangleAbout } from './planFrame.ts'
import { paperBox } from './planMachines.ts'
import type { LaidBay, SiteSubject } from './subject.ts'

/** Bays and pads as rectangles, with what lies on each. */
export function bayMarks(subject: SiteSubject, placing: Placing): Mark[] {
  const { bays, ground } = subject.stages.model.project
  return [
    ...Object.entries(ground?.pads ?? {}).map(([id, pad]) =>
      standFor(pointerOf('ground', 'pads', id), `${id}, a prepared standing`, [
        box(paperBox(placing, rectangleAbout(planOf(pad.centre), planOf(pad.size))), { stroke: HIDDEN }),
      ]),
    ),
    ...Object.entries(bays).map(([id, bay]) =>
      standFor(pointerOf('bays', id), bayWords(id, bay, subject), [
        box(paperBox(placing, rectangleAbout(planOf(bay.centre), planOf(bay.size))), { fill: 'ground', stroke: EDGE }),
        ...middleMark(placing, bay),
      ]),
    ),
    ...subject.bays.flatMap((b) => laidMarks(b, placing)),
  ]
}

function bayWords(id: string, bay: Bay, { units }: SiteSubject): string {
  return `${bayName(id, bay)}: ${sizeText(bay, units)}, allowed ${showQuantity(bay.allowable.value, 'Pa', units)}, ${lengthText(bayDistance(bay), units)} from the shaft's centre`
}

/** The id, with the name where that says more. */
export const bayName = (id: string, { name }: Bay): string =>
  name === undefined || name.includes(id) ? id : `${id} ${name}`

export const sizeText = ({ size }: Pick<Bay, 'size'>, units: SiteSubject['units']): string =>
  planOf(size)
    .map((v) => lengthText(v, units))
    .join(' × ')

const ARM = 1.2

const middleMark = (placing: Placing, { centre }: Bay): Mark[] => cross(onPaper(placing, planOf(centre)), ARM, FINE)

function laidMarks({ laid }: LaidBay, placing: Placing): Mark[] {
  return laid.map((l) =>
    standFor(pointerOf('pieces', l.piece), `${l.name}, since ${l.step}`, [
      shapeOf(
        l.plan.map((loop) => [...loop]),
        placing,
        { fill: 'steel', stroke: l.now ? OUTLINE : THIN },
      ),
    ]),
  )
}

/** Bays with size, capacity and distance, in two corners so that what lies on them stays seen; pads; and what lies there. */
export function bayLabels(subject: SiteSubject, placing: Placing): Label[] {
  const { units, stages } = subject
  const { bays, ground } = stages.model.project
  return [
    ...Object.entries(bays).flatMap(([id, bay]): Label[] => {
      const { left, top, bottom } = paperBox(placing, rectangleAbout(planOf(bay.centre), planOf(bay.size)))
      const look = { from: 0.3, size: SMALL, backed: 'ground' } as const
      return [
        {
          ...look,
          lines: [
            `${bayName(id, bay)} ${levelText(bay.level.value as number, units)}`,
            showQuantity(bay.allowable.value, 'Pa', units),
          ],
          at: [left, top + INSIDE],
          towards: -45,
          weight: 700,
        },
        {
          ...look,
          lines: [sizeText(bay, units), `${lengthText(bayDistance(bay), units)} away`],
          at: [left, bottom - INSIDE],
          towards: 45,
        },
      ]
    }),
    ...subject.bays.flatMap((b) => laidLabels(b, placing)),
    ...Object.entries(ground?.pads ?? {}).map(([id, pad]): Label => {
      const { left, bottom } = paperBox(placing, rectangleAbout(planOf(pad.centre), planOf(pad.size)))
      return {
        lines: [id, sizeText(pad, units), showQuantity(pad.allowable.value, 'Pa', units)],
        at: [left, bottom - INSIDE],
        towards: 45,
        from: 0.6,
        size: SMALL,
        ink: 'quiet',
        backed: true,
      }
    }),
  ]
}

/** Words begin so far inside an edge, mm. */
const INSIDE = 1.6

/** Up to so many pieces on a bay are named one by one; more are counted. */
const NAMED = 2

function laidLabels({ laid, crowded, bay }: LaidBay, placing: Placing): Label[] {
  if (laid.length === 0) return []
  const middle = (loops: LaidBay['laid'][number]['plan']) => {
    const f = frameOf(loops.flat())
    return onPaper(placing, [(f.left + f.right) / 2, (f.bottom + f.top) / 2])
  }
  if (laid.length > NAMED || crowded) {
    const all = laid.flatMap((l) => l.plan)
    return [
      {
        lines: crowded ? [`${laid.length} pieces on ${bay}:`, 'no room in rows'] : [`${laid.length} pieces, in rows`],
        at: middle(all),
        towards: -90,
        from: 0,
        size: SMALL,
        ink: crowded ? 'fail' : 'ink',
        backed: 'steel',
      },
    ]
  }
  return laid.map(
    (l): Label => ({ lines: [l.name], at: middle(l.plan), towards: -90, from: 0, size: SMALL, backed: 'steel' }),
  )
}
