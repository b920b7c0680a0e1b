import { showQuantity } from '../../working/quantity.ts'
import { box, type Mark, type PaperBox, textBox, textsOf, type View } from '../drawing.ts'
import type { Frame2 } from '../outline/convex.ts'
import { type Label, labelMarks, placeLabels } from '../paper/labels.ts'
import { FINE, SMALL } from '../paper/pen.ts'
import { runningDimensions, type Stop } from '../paper/ruler.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { scaleBar } from '../paper/scaleBar.ts'
import { lengthText } from '../sheet/figures.ts'
import { HEADING } from '../views/head.ts'
import { bayLabels, bayMarks } from './planBays.ts'
import { planOf, rectangleAbout } from './planFrame.ts'
import { lineLabels, lineMarks } from './planLines.ts'
import { legsAt, machineLabels, machineMarks, paperBox } from './planMachines.ts'
import { shaftLabels, shaftPlanMarks } from './planShaft.ts'
import { siteHead } from './siteHead.ts'
import { type SiteSubject, scaleWords, underHead } from './subject.ts'

/** Room for the rulers at the left and the foot, and for the scale bar, mm. */
export const PLAN_PADS = { padWide: 17, padHigh: 24 }
const RULER = 6

/** How the plan lies in its room. */
export const planPlacing = (frame: Frame2, scale: number, { left, top }: Pick<PaperBox, 'left' | 'top'>): Placing => ({
  scale,
  of: [frame.left, frame.top],
  at: [left + PLAN_PADS.padWide, top + HEADING],
})

/** The site from above, the drive to the right: everything that stands there once a step is done. */
export function sitePlanView(subject: SiteSubject, frame: Frame2, ratio: number, room: PaperBox): View {
  const placing = planPlacing(frame, ratio, room)
  const inner = paperBox(placing, frame)
  const drawn: Mark[] = [
    ...platformMarks(subject, placing, inner),
    ...bayMarks(subject, placing),
    ...shaftPlanMarks(subject, placing, inner),
    ...lineMarks(subject, placing, inner),
    ...machineMarks(subject, placing, inner),
    box(inner, { stroke: FINE }),
  ]
  const words = { left: inner.left + 0.5, right: inner.right - 0.5, top: inner.top + 0.5, bottom: inner.bottom - 0.5 }
  const fixed = [...legBoxes(subject, placing), ...textsOf(drawn).map(textBox)]
  const onBays = placeLabels(bayLabels(subject, placing), fixed, words)
  const labels = labelMarks(
    [
      ...onBays.unplaced,
      ...machineLabels(subject, placing, inner),
      ...shaftLabels(subject, placing, inner),
      ...lineLabels(subject, placing, inner),
      ...platformLabels(subject, placing, inner),
    ],
    [...fixed, ...textsOf(onBays.marks).map(textBox), ...bayBoxes(subject, placing)],
    words,
  )
  const title = 'Plan of the site'
  return {
    kind: 'view',
    id: 'site-plan',
    title: `${title}, ${scaleWords(subject, placing)}`,
    scale: ratio,
    marks: [
      ...siteHead(subject, '1', title, underHead(subject, placing, 'drive to the right', subject.words), room),
      ...drawn,
      ...rulers(subject, placing, inner),
      scaleBar(placing, [inner.left + 2, inner.bottom + PLAN_PADS.padHigh - 1.5], 60, subject.units),
      ...onBays.marks,
      ...labels,
    ],
  }
}

const legBoxes = (subject: SiteSubject, placing: Placing): PaperBox[] =>
  legsAt(subject).map(({ at }) => {
    const [x, y] = onPaper(placing, [at[0], at[1]])
    return { left: x - 1.2, right: x + 1.2, top: y - 1.2, bottom: y + 1.2 }
  })

const bayBoxes = ({ stages }: SiteSubject, placing: Placing): PaperBox[] =>
  Object.values(stages.model.project.bays).map((b) =>
    paperBox(placing, rectangleAbout(planOf(b.centre), planOf(b.size))),
  )

function platformMarks({ stages }: SiteSubject, placing: Placing, inner: PaperBox): Mark[] {
  const { platform } = stages.model.project.ground ?? {}
  if (platform === undefined) return []
  const [a, b] = planOf(platform.y).map((y) => onPaper(placing, [0, y])[1]) as [number, number]
  const [top, bottom] = [Math.max(inner.top, Math.min(a, b)), Math.min(inner.bottom, Math.max(a, b))]
  return bottom <= top ? [] : [box({ ...inner, top, bottom }, { fill: 'pale' })]
}

function platformLabels({ stages, units }: SiteSubject, placing: Placing, inner: PaperBox): Label[] {
  const { platform } = stages.model.project.ground ?? {}
  if (platform === undefined) return []
  const [, y] = onPaper(placing, [0, Math.max(...planOf(platform.y))])
  return [
    {
      lines: [
        `working platform ${lengthText(platform.thickness.value as number, units)} thick, ${showQuantity(platform.allowable.value, 'Pa', units)}`,
      ],
      at: [inner.left + 1, Math.max(inner.top, y) + 1.4],
      towards: -45,
      from: 0,
      size: SMALL,
      ink: 'quiet',
    },
  ]
}

/** Distances from the shaft's centre: bays, rails, standings. */
function rulers({ stages, units }: SiteSubject, placing: Placing, inner: PaperBox): Mark[] {
  const { bays, systems } = stages.model.project
  const middles = [
    ...Object.entries(bays).map(([id, bay]) => ({ id, plan: planOf(bay.centre) })),
    ...Object.entries(systems).flatMap(([id, s]) =>
      s.standings.map((at, i) => ({ id: `${id} standing ${i + 1}`, plan: planOf(at) })),
    ),
  ]
  const rails = Object.entries(systems).flatMap(([id, { rails: r }]) =>
    r === undefined ? [] : planOf(r).map((x) => ({ id: `rail of ${id}`, at: x })),
  )
  const x = stopsOf([...middles.map(({ id, plan }) => ({ id, at: plan[0] })), ...rails], 'x', units)
  const y = stopsOf(
    middles.map(({ id, plan }) => ({ id, at: plan[1] })),
    'y',
    units,
  )
  return [
    ...runningDimensions({ stops: x, placing, along: 'across', at: inner.bottom + RULER, from: inner.bottom }),
    ...runningDimensions({ stops: y, placing, along: 'up', at: inner.left - RULER, from: inner.left }),
  ]
}

const SAME = 0.005

/** Places at one distance are one stop. */
function stopsOf(places: readonly { id: string; at: number }[], axis: string, units: SiteSubject['units']): Stop[] {
  const stops: { value: number; ids: string[] }[] = []
  for (const { id, at } of places) {
    const same = stops.find((s) => Math.abs(s.value - at) < SAME)
    if (same === undefined) stops.push({ value: at, ids: [id] })
    else same.ids.push(id)
  }
  return stops.map(({ value, ids }) => ({
    value,
    words: lengthText(value, units),
    name: `${axis} of ${ids.join(', ')} from the shaft's centre`,
  }))
}
