import {
  box,
  type Drawing,
  drawing,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  text,
  textBox,
} from '../drawing.ts'
import { LOOKING_DOWN, seen } from '../outline/picture.ts'
import { cogMark } from '../paper/dimension.ts'
import { EDGE, FINE } from '../paper/pen.ts'
import { onPaper, type Placing, placed } from '../paper/scale.ts'
import { spread } from '../paper/spread.ts'
import { lengthText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { gapLine, gapsOf, type PlanGap } from '../views/planGapMarks.ts'
import { inShaft, siteMarks } from '../views/planSite.ts'
import { clearPose } from '../views/poses.ts'
import { cogAt, outlineAt, type Scene, shapeOf } from '../views/scene.ts'
import { wallRadius } from '../views/shaft.ts'

const PAPER = { width: 96, height: 62 }
/** The column of words beside the shaft, mm. */
const WORDS = 33
/** Smallest text that reads on the page, its lines, and the height of one thing's words. */
const SIZE = 2.55
const LINE = 3
const PITCH = 7.6

/** The piece in the shaft from above, with the gap to everything that stays; undefined where the lift is not in the shaft. */
export function nearestPlan(scene: Scene, sheet: LiftSheet): Drawing | undefined {
  const { shaft } = scene.subject.stages.model.project
  if (shaft === undefined || !inShaft(scene)) return undefined
  const outer = wallRadius(shaft) + 0.4
  const room: PaperBox = { left: 0.5, right: PAPER.width - WORDS, top: 0.5, bottom: PAPER.height - 0.5 }
  const placing = placed({ left: -outer, right: outer, bottom: -outer, top: outer }, room, 'middle')
  const gaps = gapsOf(scene)
  return drawing(`Nearest in plan: ${sheet.title}`, PAPER.width, PAPER.height, [
    ...siteMarks(scene, placing, room),
    ...pieceMarks(scene, placing),
    ...gaps.flatMap((gap) => gapLine(gap, placing)),
    ...wordsMarks(gaps, sheet, placing),
  ])
}

function pieceMarks(scene: Scene, placing: Placing): Mark[] {
  const pose = clearPose(scene)
  return [
    shapeOf(outlineAt(scene, pose, LOOKING_DOWN), placing, { fill: 'steel', stroke: EDGE }),
    ...cogMark(onPaper(placing, seen(LOOKING_DOWN, cogAt(scene, pose))), 1.2),
  ]
}

/** What is near, how near, and what is asked, in a column beside the shaft; a line leads to the gap. */
function wordsMarks(gaps: readonly PlanGap[], sheet: LiftSheet, placing: Placing): Mark[] {
  const own = gaps
    .map((gap) => ({
      gap,
      at: onPaper(placing, [(gap.from[0] + gap.to[0]) / 2, (gap.from[1] + gap.to[1]) / 2]),
    }))
    .sort((a, b) => a.at[1] - b.at[1])
  const wanted = own.map(({ at }) => at[1])
  const places = withinPaper(spread(wanted, PITCH))
  return own.flatMap(({ gap, at }, i) => gapWords(gap, at, places[i] as number, sheet))
}

/** A column that runs over the foot is pushed up, and never over the head. */
function withinPaper(places: readonly number[]): number[] {
  const over = Math.max(0, (places.at(-1) ?? 0) + PITCH - 2 - PAPER.height)
  const under = Math.max(0, LINE - ((places[0] ?? LINE) - over))
  return places.map((y) => y - over + under)
}

function gapWords({ gap, check, id, what }: PlanGap, at: PaperPoint, y: number, sheet: LiftSheet): Mark[] {
  const fails = check.verdict === 'fail'
  const isTightest = fails || id === sheet.clearance?.to
  const style = { size: SIZE, ink: fails ? 'fail' : 'ink', weight: isTightest ? 700 : 400 } as const
  const asked = check.demand.value
  const x = PAPER.width - WORDS + 1.5
  const texts = [
    text([x, y], what.split(/,| of /)[0] as string, style),
    text(
      [x, y + LINE],
      `${lengthText(gap, sheet.units)}${asked === undefined ? '' : `, asked ${lengthText(asked, sheet.units)}`}`,
      style,
    ),
  ]
  return [
    line([[x - 0.6, y + LINE * 0.3], at], { ...FINE, ink: isTightest ? style.ink : 'edge' }),
    ...texts.map((t) => box(textBox(t), { fill: 'paper' })),
    ...texts,
  ]
}
