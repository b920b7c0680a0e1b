import { convexHull } from '../../numeric/polygon.ts'
import type { Pose } from '../../numeric/vector.ts'
import { line, type Mark, type PaperBox, type PaperPoint, type Shape, textBox, textsOf, type View } from '../drawing.ts'
import { type Frame2, frameOf } from '../outline/convex.ts'
import { grown } from '../outline/distance.ts'
import { LOOKING_DOWN, type Look, seen } from '../outline/picture.ts'
import { arrow, cogMark, dimension } from '../paper/dimension.ts'
import { type Label, labelMarks, placeLabels } from '../paper/labels.ts'
import { ASKED, CHAIN, EDGE, THIN } from '../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import { lengthText, lengthUnit } from '../sheet/figures.ts'
import { type LiftSheet, listedNames } from '../sheet/liftSheet.ts'
import { inset, underHead, viewHead } from './head.ts'
import { boomMarks, leastGapBoxes, leastGapLabels, leastGapMarks, leastGapsIn } from './leastGaps.ts'
import { gapBoxes, gapLabel, gapLine, gapsOf, type PlanGap, thingBoxes } from './planGapMarks.ts'
import { bayFrame, bayLabel, bayReached, feetOf, footLabels, inShaft, siteMarks } from './planSite.ts'
import { clearPose } from './poses.ts'
import { cogAt, framesTogether, ghostOf, outlineAt, type Scene, shapeOf } from './scene.ts'
import { wallRadius } from './shaft.ts'
import { standingMarks } from './standingMarks.ts'
import { zoneFrames, zoneLabels, zoneMarks } from './zoneMarks.ts'

const LOOK: Look = LOOKING_DOWN

/** View B: the shaft and the bay from above, the swept way, and the gap to everything that stays. */
export function planView(scene: Scene, sheet: LiftSheet, room: PaperBox): View {
  const inner = underHead(room)
  const placing = placed(frameOfPlan(scene), inset(inner, 1), 'middle')
  const gaps = gapsOf(scene)
  // what is fixed in the shaft has its gaps all round already
  const least = leastGapsIn(scene, sheet, LOOK, placing, inner).filter(
    ({ kind }) => kind !== 'fixed' || gaps.length === 0,
  )
  const drawn: Mark[] = [
    ...siteMarks(scene, placing, inner),
    ...standingMarks(least, scene, LOOK, placing, inner),
    ...zoneMarks(scene, placing, inner),
    ...wayMarks(scene, placing),
    ...pieceMarks(scene, placing),
    ...travelMarks(scene, sheet, placing, inner),
    ...gaps.flatMap((gap) => gapLine(gap, placing)),
    ...boomMarks(least, LOOK, placing, inner),
    ...leastGapMarks(least, LOOK, placing),
  ]
  const taken = [...textsOf(drawn).map(textBox), ...gapBoxes(gaps, placing), ...leastGapBoxes(least, LOOK, placing)]
  const labelRoom = inset(inner, 0.5)
  // a least gap may lie under the piece: its words may stand there, no others
  const first = placeLabels(leastGapLabels(least, sheet, LOOK, placing), taken, labelRoom)
  const others = labelMarks(
    [
      ...first.unplaced,
      ...labelsOf(scene, sheet, gaps, placing),
      ...footLabels(scene, sheet, placing, inner),
      ...zoneLabels(scene, sheet, placing),
    ],
    [...taken, ...textsOf(first.marks).map(textBox), ...thingBoxes(scene, placing), ...pieceBox(scene, placing)],
    labelRoom,
    listedNames(sheet),
  )
  return {
    kind: 'view',
    id: 'plan',
    title: `B. Plan: way, swept outline and closed zone, ${scaleText(placing)}`,
    scale: placing.scale,
    marks: [
      ...viewHead(
        'B',
        'Plan: way, swept outline and closed zone',
        `${scaleText(placing)} · drive to the right · ${lengthUnit(sheet.units)}`,
        room,
      ),
      ...drawn,
      ...first.marks,
      ...others,
    ],
  }
}

function frameOfPlan(scene: Scene): Frame2 {
  const { shaft } = scene.subject.stages.model.project
  const bay = bayReached(scene)
  const outlines = [scene.start, scene.end].map((pose) => frameOf(outlineAt(scene, pose, LOOK).flat()))
  const outer = shaft === undefined || !inShaft(scene) ? undefined : wallRadius(shaft) + 0.6
  const frames = [
    ...outlines,
    ...(outer === undefined ? [] : [{ left: -outer, right: outer, bottom: -outer, top: outer }]),
    ...(bay === undefined ? [] : [bayFrame(bay)]),
    ...zoneFrames(scene),
    ...feetOf(scene).map(({ at: [x, y] }) => ({ left: x - 1, right: x + 1, bottom: y - 1, top: y + 1 })),
  ]
  return framesTogether(frames)
}

/** Shorter moves aside are not drawn as a way, m. */
const LEAST_WAY = 1

/** Swept outline of each straight move aside, and the gap asked for about it. */
function wayMarks(scene: Scene, placing: Placing): Mark[] {
  const asked = scene.subject.stages.model.project.settings.clearanceInShaft?.value
  return scene.poses.flatMap((to, i): Mark[] => {
    const from = scene.poses[i - 1]
    if (from === undefined) return []
    const aside = Math.hypot(to.shift[0] - from.shift[0], to.shift[1] - from.shift[1])
    if (aside < LEAST_WAY) return []
    const ends = [from, to].flatMap((pose) => outlineAt(scene, pose, LOOK).flat())
    const hull = convexHull(ends)
    const swept: Shape = { kind: 'shape', loops: [loopOnPaper(placing, hull)], stroke: CHAIN }
    if (asked === undefined) return [swept]
    return [swept, { kind: 'shape', loops: [loopOnPaper(placing, grown(hull, asked))], stroke: ASKED }]
  })
}

function pieceMarks(scene: Scene, placing: Placing): Mark[] {
  const at = (pose: Scene['start']) => outlineAt(scene, pose, LOOK)
  const shown = inShaft(scene) ? clearPose(scene) : scene.start
  return [
    ...[scene.start, scene.end].filter((pose) => away(pose, shown)).map((pose) => ghostOf(at(pose), placing, EDGE)),
    shapeOf(at(shown), placing, { fill: 'steel', stroke: EDGE }),
    ...cogMark(onPaper(placing, seen(LOOK, cogAt(scene, shown))), 1.2),
  ]
}

/** The box of the piece on paper, so that words keep off it. */
function pieceBox(scene: Scene, placing: Placing): PaperBox[] {
  const shown = inShaft(scene) ? clearPose(scene) : scene.start
  const { left, right, bottom, top } = frameOf(outlineAt(scene, shown, LOOK).flat())
  const [[x1, y1], [x2, y2]] = [onPaper(placing, [left, top]), onPaper(placing, [right, bottom])]
  return [{ left: x1, right: x2, top: y1, bottom: y2 }]
}

/** Whether two poses differ in plan, or in how the piece lies. */
const away = (a: Pose, b: Pose): boolean =>
  Math.hypot(a.shift[0] - b.shift[0], a.shift[1] - b.shift[1]) > LEAST_WAY ||
  Math.abs((a.turn[2][2] as number) - (b.turn[2][2] as number)) > 0.01

function travelMarks(scene: Scene, sheet: LiftSheet, placing: Placing, room: PaperBox): Mark[] {
  const [first, last] = [scene.subject.outcome.places[0], scene.subject.outcome.places.at(-1)]
  if (first === undefined || last === undefined) return []
  const [a, b] = [first, last].map(({ at }) => onPaper(placing, seen(LOOK, at))) as [PaperPoint, PaperPoint]
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  if (length < 6) return []
  const way: PaperPoint = [(a[0] - b[0]) / length, (a[1] - b[1]) / length]
  const [u, v] = seen(LOOK, first.at)
  const rise = last.at[1] - first.at[1]
  return [
    line([a, b], THIN),
    arrow(b, way, { width: 0.25, ink: 'ink' }),
    ...(Math.abs(rise) < 1
      ? []
      : [
          dimension({
            name: 'travel along the runway',
            value: Math.abs(rise),
            words: `travel ${lengthText(Math.abs(rise), sheet.units)}`,
            placing,
            from: [u, Math.min(first.at[1], last.at[1])],
            along: 'up',
            offset: -(room.right - onPaper(placing, [u, v])[0] - 8),
          }),
        ]),
  ]
}

function labelsOf(scene: Scene, sheet: LiftSheet, gaps: readonly PlanGap[], placing: Placing): Label[] {
  const bay = bayReached(scene)
  return [
    ...gaps.map((gap): Label => gapLabel(gap, sheet, placing)),
    ...(bay === undefined ? [] : [bayLabel(scene, bay, sheet, placing)]),
  ]
}
