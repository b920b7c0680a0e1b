import { type Drawing, drawing, type Mark, type PaperBox, textBox, textsOf } from '../drawing.ts'
import { LOOKING_DOWN, seen } from '../outline/picture.ts'
import { cogMark } from '../paper/dimension.ts'
import { type Label, labelMarks } from '../paper/labels.ts'
import { EDGE } from '../paper/pen.ts'
import { onPaper, type Placing, placed } from '../paper/scale.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { gapLabel, gapLine, gapsOf, type PlanGap, thingBoxes } from '../views/planGapMarks.ts'
import { inShaft, siteMarks } from '../views/planSite.ts'
import { clearPose } from '../views/poses.ts'
import { cogAt, outlineAt, type Scene, shapeOf } from '../views/scene.ts'
import { wallRadius } from '../views/shaft.ts'

const PAPER = { width: 96, height: 62 }
/** Smallest text that reads on the page. */
const SIZE = 2.55

/** The piece in the shaft from above, with the gap to everything that stays; undefined where the lift is not in the shaft. */
export function nearestPlan(scene: Scene, sheet: LiftSheet): Drawing | undefined {
  const { shaft } = scene.subject.stages.model.project
  if (shaft === undefined || !inShaft(scene)) return undefined
  const outer = wallRadius(shaft) + 0.4
  const room: PaperBox = { left: 0.5, right: PAPER.width - 0.5, top: 0.5, bottom: PAPER.height - 0.5 }
  const placing = placed({ left: -outer, right: outer, bottom: -outer, top: outer }, room, 'middle')
  const gaps = gapsOf(scene)
  const drawn: Mark[] = [
    ...siteMarks(scene, placing, room),
    ...pieceMarks(scene, placing),
    ...gaps.flatMap((gap) => gapLine(gap, placing)),
  ]
  const labels = labelMarks(
    gaps.map((gap) => labelOf(gap, sheet, placing)),
    [...textsOf(drawn).map(textBox), ...thingBoxes(scene, placing)],
    room,
  )
  return drawing(`Nearest in plan: ${sheet.title}`, PAPER.width, PAPER.height, [...drawn, ...labels])
}

/** The nearest stands out; the others are quiet. */
function labelOf(gap: PlanGap, sheet: LiftSheet, placing: Placing): Label {
  const isTightest = gap.check.verdict === 'fail' || gap.id === sheet.clearance?.to
  return { ...gapLabel(gap, sheet, placing), size: SIZE, weight: isTightest ? 700 : 400 }
}

function pieceMarks(scene: Scene, placing: Placing): Mark[] {
  const pose = clearPose(scene)
  return [
    shapeOf(outlineAt(scene, pose, LOOKING_DOWN), placing, { fill: 'steel', stroke: EDGE }),
    ...cogMark(onPaper(placing, seen(LOOKING_DOWN, cogAt(scene, pose))), 1.2),
  ]
}
