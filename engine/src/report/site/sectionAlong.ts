import type { Shaft } from '../../model/index.ts'
import { box, type Ink, line, type Mark, type PaperBox, textBox, textsOf, type View } from '../drawing.ts'
import type { Frame2 } from '../outline/convex.ts'
import { LOOKING_LEFT } from '../outline/picture.ts'
import { dimension } from '../paper/dimension.ts'
import { labelMarks } from '../paper/labels.ts'
import { AXIS, FINE } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { scaleBar } from '../paper/scaleBar.ts'
import { lengthText } from '../sheet/figures.ts'
import { HEADING } from '../views/head.ts'
import { wallRadius } from '../views/shaft.ts'
import { crossingLabels, crossingMarks } from './crossings.ts'
import { CHAIN_WIDTH, depthChain } from './depthChain.ts'
import { LOG_WIDTH, layerLog, WATER_WIDTH, waterMarks } from './groundLog.ts'
import { planOf } from './planFrame.ts'
import { paperBox } from './planMachines.ts'
import { boreMarks, layerMarks, surfaceLine, treatedMarks } from './sectionGround.ts'
import { cradleAlong, machineCut, shaftCut, thingsSeen } from './sectionShaft.ts'
import { towerLabels, towerMarks } from './sectionTower.ts'
import { sectionWords } from './sectionWords.ts'
import { siteHead } from './siteHead.ts'
import { type SiteSubject, scaleWords, underHead } from './subject.ts'

/** Room beside and below the picture that does not shrink with the scale, mm. */
export const ALONG_PADS = { padWide: CHAIN_WIDTH + WATER_WIDTH + LOG_WIDTH, padHigh: 24 }

/** The section along the drive, looking left: ground, water, shaft, machine on its cradle, tower. */
export function alongView(subject: SiteSubject, frame: Frame2, ratio: number, room: PaperBox, letter = '1'): View {
  const { shaft, ground } = subject.stages.model.project
  const at = [room.left + CHAIN_WIDTH, room.top + HEADING] as const
  const placing: Placing = { scale: ratio, of: [frame.left, frame.top], at }
  const window = paperBox(placing, frame)
  const drawn: Mark[] = [
    ...(ground === undefined ? [] : layerMarks(ground, shaft, placing, window)),
    ...treatedMarks(subject, placing, window),
    ...boreMarks(subject, placing, window),
    ...(ground === undefined ? [] : surfaceLine(ground, shaft, placing, window)),
    ...cradleAlong(subject, placing),
    ...(shaft === undefined ? [] : shaftCut(shaft, placing, window, true)),
    ...machineCut(subject, LOOKING_LEFT, placing, window),
    ...(shaft === undefined ? [] : [...thingsSeen(shaft, 'x', placing, window), ...axisMarks(shaft, placing, window)]),
    ...towerMarks(subject, 'x', placing, window),
    ...crossingMarks(subject, 'x', placing, frame),
    ...(shaft === undefined ? [] : measures(subject, shaft, placing, frame)),
    box(window, { stroke: FINE }),
  ]
  const labels = labelMarks(
    [
      ...towerLabels(subject, 'x', placing),
      ...crossingLabels(subject, 'x', placing, frame),
      ...(shaft === undefined ? [] : sectionWords(subject, shaft, placing, window)),
    ],
    textsOf(drawn).map(textBox),
    { left: window.left + 0.5, right: window.right - 0.5, top: window.top + 0.5, bottom: window.bottom - 0.5 },
  )
  const title = 'Section along the drive'
  return {
    kind: 'view',
    id: 'site-along',
    title: `${title}, ${scaleWords(subject, placing)}`,
    scale: ratio,
    marks: [
      ...siteHead(
        subject,
        letter,
        title,
        underHead(subject, placing, 'looking left, drive to the right', subject.words),
        room,
      ),
      ...drawn,
      ...depthChain(subject, placing, window),
      ...layerLog(subject, placing, window),
      ...waterMarks(subject, placing, window),
      scaleBar(placing, [window.left + 2, window.bottom + 9], 60, subject.units),
      ...labels,
    ],
  }
}

function axisMarks(shaft: Shaft, placing: Placing, window: PaperBox): Mark[] {
  const [x] = onPaper(placing, [0, 0])
  return [
    line(
      [
        [x, window.top],
        [x, window.bottom],
      ],
      AXIS,
    ),
    ...Object.values(shaft.eyes).map(({ centre, side }) => {
      const [, y] = onPaper(placing, [0, centre.value as number])
      return line(
        side === '-x'
          ? [
              [window.left, y],
              [x, y],
            ]
          : [
              [x, y],
              [window.right, y],
            ],
        AXIS,
      )
    }),
  ]
}

const BELOW_COLLAR = 5
const OVER_COLLAR = 4

function measures({ stages, units }: SiteSubject, shaft: Shaft, placing: Placing, frame: Frame2): Mark[] {
  const clear = shaft.clearDiameter.value as number
  const outer = wallRadius(shaft)
  const collar = shaft.collar.value as number
  const toe = shaft.wall.toe.value as number
  const across = (name: string, value: number, words: string, z: number, backed: Ink): Mark =>
    dimension({ name, value, words, placing, from: [-value / 2, z], along: 'across', offset: 0, shift: -0.22, backed })
  const rails = Object.values(stages.model.project.systems).flatMap((s) =>
    s.rails === undefined ? [] : [planOf(s.rails)],
  )
  return [
    across('clear diameter of the shaft', clear, `Ø ${lengthText(clear, units)} clear`, collar - BELOW_COLLAR, 'paper'),
    ...(outer * 2 > clear && toe - 3 > frame.bottom
      ? [
          across(
            'outer diameter of the wall',
            2 * outer,
            `Ø ${lengthText(2 * outer, units)} outside`,
            toe - 2.5,
            'ground',
          ),
        ]
      : []),
    ...rails.slice(0, 1).map(([a, b]) =>
      dimension({
        name: 'distance of the rails',
        value: Math.abs(b - a),
        words: `rails ${lengthText(Math.abs(b - a), units)} apart`,
        placing,
        from: [Math.min(a, b), collar + OVER_COLLAR],
        along: 'across',
        offset: 0,
        shift: -0.22,
      }),
    ),
  ]
}
