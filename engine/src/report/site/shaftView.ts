import { box, type Mark, type PaperBox, textBox, textsOf, type View } from '../drawing.ts'
import { labelMarks } from '../paper/labels.ts'
import { FINE } from '../paper/pen.ts'
import { runningDimensions, type Stop } from '../paper/ruler.ts'
import type { Placing } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import { HEADING, viewHead } from '../views/head.ts'
import { wallRadius } from '../views/shaft.ts'
import { RATIOS } from './layout.ts'
import { planOf } from './planFrame.ts'
import { paperBox } from './planMachines.ts'
import { shaftLabels, shaftPlanMarks } from './planShaft.ts'
import { type SiteSubject, scaleWords, underHead } from './subject.ts'

const AROUND = 0.8
const RULER = 5
const PADS = { left: 15, foot: 15 }

/** The shaft alone from above at a larger scale than the plan, with what is fixed in it; undefined where the room gives none. */
export function shaftView(
  subject: SiteSubject,
  room: PaperBox,
  planRatio: number,
): { view: View; bottom: number } | undefined {
  const { shaft } = subject.stages.model.project
  if (shaft === undefined) return undefined
  const half = wallRadius(shaft) + AROUND
  const [wide, high] = [room.right - room.left - PADS.left - 1, room.bottom - room.top - HEADING - PADS.foot]
  const ratio = RATIOS.find((r) => (2 * half * 1000) / r <= Math.min(wide, high))
  if (ratio === undefined || ratio >= planRatio) return undefined
  const frame = { left: -half, right: half, bottom: -half, top: half }
  const placing: Placing = { scale: ratio, of: [-half, half], at: [room.left + PADS.left, room.top + HEADING] }
  const inner = paperBox(placing, frame)
  const drawn: Mark[] = [...shaftPlanMarks(subject, placing, inner), box(inner, { stroke: FINE })]
  const labels = labelMarks(shaftLabels(subject, placing, inner), textsOf(drawn).map(textBox), inner)
  const title = 'The shaft from above'
  return {
    bottom: inner.bottom + PADS.foot,
    view: {
      kind: 'view',
      id: 'site-shaft',
      title: `${title}, ${scaleWords(subject, placing)}`,
      scale: ratio,
      marks: [
        ...viewHead('2', title, underHead(subject, placing), room),
        ...drawn,
        ...rulers(subject, placing, inner),
        ...labels,
      ],
    },
  }
}

/** Edges of what is fixed in the shaft, from its centre. */
function rulers({ stages, units }: SiteSubject, placing: Placing, inner: PaperBox): Mark[] {
  const things = Object.values(stages.model.project.shaft?.obstructions ?? {})
  const stops = (axis: 'x' | 'y'): Stop[] =>
    [...new Set(things.flatMap((o) => planOf(o[axis])))].map((value) => ({
      value,
      words: lengthText(value, units),
      name: `${axis} of ${things
        .filter((o) => planOf(o[axis]).includes(value))
        .map((o) => o.what)
        .join(', ')}`,
    }))
  return [
    ...runningDimensions({ stops: stops('x'), placing, along: 'across', at: inner.bottom + RULER, from: inner.bottom }),
    ...runningDimensions({ stops: stops('y'), placing, along: 'up', at: inner.left - RULER, from: inner.left }),
  ]
}
