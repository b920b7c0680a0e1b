import type { Shaft } from '../../model/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { box, line, type Mark, type PaperBox, standFor, textBox, textsOf, type View } from '../drawing.ts'
import { type Frame2, frameOf } from '../outline/convex.ts'
import { LOOKING_FORWARD } from '../outline/picture.ts'
import { type Label, labelMarks } from '../paper/labels.ts'
import { AXIS, EDGE, FINE, HIDDEN, SMALL } from '../paper/pen.ts'
import { runningDimensions, type Stop } from '../paper/ruler.ts'
import { lengthOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { scaleBar } from '../paper/scaleBar.ts'
import { lengthText, levelText } from '../sheet/figures.ts'
import { HEADING } from '../views/head.ts'
import { rectangle } from '../views/shaft.ts'
import { crossingLabels, crossingMarks } from './crossings.ts'
import { LOG_WIDTH, layerLog, WATER_WIDTH, waterMarks } from './groundLog.ts'
import { bayName } from './planBays.ts'
import { planOf } from './planFrame.ts'
import { paperBox } from './planMachines.ts'
import { THINGS_NAMED } from './planShaft.ts'
import { isCut } from './sectionFrame.ts'
import { layerMarks, surfaceLine } from './sectionGround.ts'
import {
  cradleAcross,
  machineCut,
  type PieceSeen,
  pieceMarks,
  piecesSeen,
  shaftCut,
  thingsSeen,
} from './sectionShaft.ts'
import { towerLabels, towerMarks } from './sectionTower.ts'
import { siteHead } from './siteHead.ts'
import { type SiteSubject, scaleWords, underHead } from './subject.ts'

/** Room beside and below the picture that does not shrink with the scale, mm. */
export const ACROSS_PADS = { padWide: 2, padHigh: 24 }
/** The same with the levels of water and layers beside it. */
export const ACROSS_ALONE_PADS = { padWide: 2 + WATER_WIDTH + LOG_WIDTH, padHigh: 24 }
const RULER = 6

/** The section across the drive through the shaft's centre, looking forward: the bays lie to the left. */
export function acrossView(subject: SiteSubject, frame: Frame2, ratio: number, room: PaperBox, alone: boolean): View {
  const { shaft, ground, bays } = subject.stages.model.project
  const placing: Placing = { scale: ratio, of: [frame.left, frame.top], at: [room.left + 0.5, room.top + HEADING] }
  const window = paperBox(placing, frame)
  const cut = new Set(Object.keys(bays).filter((id) => isCut(bays[id] as (typeof bays)[string])))
  const pieces = piecesSeen(subject, cut, LOOKING_FORWARD)
  const drawn: Mark[] = [
    ...(ground === undefined ? [] : layerMarks(ground, shaft, placing, window)),
    ...(ground === undefined ? [] : surfaceLine(ground, shaft, placing, window)),
    ...(shaft === undefined ? [] : eyeAhead(shaft, placing)),
    ...cradleAcross(subject, placing),
    ...(shaft === undefined ? [] : shaftCut(shaft, placing, window, false)),
    ...machineCut(subject, LOOKING_FORWARD, placing, window),
    ...(shaft === undefined ? [] : [...thingsSeen(shaft, 'y', placing, window), centreLine(placing, window)]),
    ...bayMarks(subject, cut, placing),
    ...pieceMarks(pieces, placing),
    ...towerMarks(subject, 'y', placing, window),
    ...crossingMarks(subject, 'y', placing, frame),
    box(window, { stroke: FINE }),
  ]
  const labels = labelMarks(
    [
      ...towerLabels(subject, 'y', placing),
      ...crossingLabels(subject, 'y', placing, frame),
      ...bayWords(subject, cut, placing),
      ...pieceWords(pieces, placing),
      ...(shaft === undefined ? [] : thingWords(shaft, placing)),
    ],
    textsOf(drawn).map(textBox),
    { left: window.left + 0.5, right: window.right - 0.5, top: window.top + 0.5, bottom: window.bottom - 0.5 },
  )
  const title = 'Section across the drive'
  return {
    kind: 'view',
    id: 'site-across',
    title: `${title}, ${scaleWords(subject, placing)}`,
    scale: ratio,
    marks: [
      ...siteHead(
        subject,
        alone ? '2' : '1',
        title,
        underHead(subject, placing, "through the shaft's centre, looking forward"),
        room,
      ),
      ...drawn,
      ...runningDimensions({
        stops: stopsOf(subject, cut),
        placing,
        along: 'across',
        at: window.bottom + RULER,
        from: window.bottom,
      }),
      ...(alone
        ? [
            ...layerLog(subject, placing, window),
            ...waterMarks(subject, placing, window),
            scaleBar(placing, [window.right + 4, window.bottom + 9], 60, subject.units),
          ]
        : []),
      ...labels,
    ],
  }
}

/** The eye in the far wall, seen through the shaft. */
const eyeAhead = (shaft: Shaft, placing: Placing): Mark[] =>
  Object.entries(shaft.eyes)
    .filter(([, eye]) => eye.side === '+x')
    .map(([id, { centre, diameter }]) =>
      standFor(pointerOf('shaft', 'eyes', id), 'the eye ahead', [
        {
          kind: 'circle',
          centre: onPaper(placing, [0, centre.value as number]),
          radius: lengthOnPaper(placing, (diameter.value as number) / 2),
          stroke: HIDDEN,
        },
      ]),
    )

function centreLine(placing: Placing, window: PaperBox): Mark {
  const [x] = onPaper(placing, [0, 0])
  return line(
    [
      [x, window.top],
      [x, window.bottom],
    ],
    AXIS,
  )
}

const THINNEST = 0.5

/** Tops of the bays that the plane cuts; how thick they are is not in the model. */
function bayMarks({ stages }: SiteSubject, cut: ReadonlySet<string>, placing: Placing): Mark[] {
  const { bays, ground } = stages.model.project
  return Object.entries(bays)
    .filter(([id]) => cut.has(id))
    .map(([id, bay]) => {
      const [, y] = planOf(bay.centre)
      const [, size] = planOf(bay.size)
      const top = bay.level.value as number
      const slab = rectangle(placing, -y - size / 2, -y + size / 2, ground?.surface.value ?? 0, top)
      return standFor(pointerOf('bays', id), `${bayName(id, bay)}, its top`, [
        box({ ...slab, bottom: Math.max(slab.bottom, slab.top + THINNEST) }, { fill: 'concrete', stroke: EDGE }),
      ])
    })
}

function bayWords({ stages, units }: SiteSubject, cut: ReadonlySet<string>, placing: Placing): Label[] {
  return Object.entries(stages.model.project.bays)
    .filter(([id]) => cut.has(id))
    .map(([id, bay]) => ({
      lines: [`${bayName(id, bay)} ${levelText(bay.level.value as number, units)}`],
      at: onPaper(placing, [-planOf(bay.centre)[1], bay.level.value as number]),
      towards: -90,
      from: 1,
      size: SMALL,
      weight: 700 as const,
      backed: 'ground' as const,
    }))
}

/** Above each piece, or once above several on one bay. */
function pieceWords(pieces: readonly PieceSeen[], placing: Placing): Label[] {
  return [...new Set(pieces.map((p) => p.bay))].map((bay) => {
    const own = pieces.filter((p) => p.bay === bay)
    const { left, right, top } = frameOf(own.flatMap((p) => p.loops.flat()))
    return {
      lines: [own.length === 1 ? (own[0]?.laid.name ?? '') : `${own.length} pieces`],
      at: onPaper(placing, [(left + right) / 2, top]),
      towards: 90,
      from: 0.6,
      size: SMALL,
      backed: true,
    }
  })
}

const thingWords = (shaft: Shaft, placing: Placing): Label[] =>
  (placing.scale > THINGS_NAMED ? [] : Object.values(shaft.obstructions)).map((o): Label => {
    const [a, b] = planOf(o.y)
    const high = Math.max(...planOf(o.z))
    return {
      lines: [o.what.split(',')[0] as string],
      at: onPaper(placing, [-(a + b) / 2, high - 8]),
      or: [onPaper(placing, [-(a + b) / 2, high - 12])],
      towards: 0,
      from: 0.8,
      size: SMALL,
      ink: 'quiet',
      backed: true,
    }
  })

/** Distances to the left and right of the shaft's centre: bays that are cut, and the legs. */
function stopsOf({ stages, units }: SiteSubject, cut: ReadonlySet<string>): Stop[] {
  const { bays, shaft } = stages.model.project
  const inner = shaft === undefined ? [] : [(shaft.clearDiameter.value as number) / 2]
  return [
    ...Object.entries(bays)
      .filter(([id]) => cut.has(id))
      .map(([id, bay]): Stop => {
        const [, y] = planOf(bay.centre)
        return { value: -y, words: `${id} ${lengthText(y, units)}`, name: `middle of ${id} left of the shaft's centre` }
      }),
    ...inner.flatMap((r): Stop[] =>
      [-r, r].map((value) => ({ value, words: lengthText(Math.abs(value), units), name: 'clear bore' })),
    ),
  ]
}
