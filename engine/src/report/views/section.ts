import type { Mark, PaperBox, PaperPoint, Shape, View } from '../drawing.ts'
import { box, line, textBox, textsOf } from '../drawing.ts'
import type { Frame2, Point2 } from '../outline/convex.ts'
import { LOOKING_LEFT, type Look, section, seen, silhouette } from '../outline/picture.ts'
import { clippedLoop } from '../paper/clip.ts'
import { cogMark, dimension, levelMark } from '../paper/dimension.ts'
import { hatch } from '../paper/hatch.ts'
import { type Label, labelMarks } from '../paper/labels.ts'
import { ATTENTION, AXIS, CHAIN, EDGE, FINE, SMALL, THIN } from '../paper/pen.ts'
import { onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import { lengthText, lengthUnit, levelText } from '../sheet/figures.ts'
import { type LiftSheet, listedNames } from '../sheet/liftSheet.ts'
import { inset, underHead, viewHead } from './head.ts'
import { boomMarks, leastGapBoxes, leastGapLabels, leastGapMarks, leastGapsIn } from './leastGaps.ts'
import { clearPose } from './poses.ts'
import { CHORD_ERROR, cogAt, frameOfLoops, ghostOf, hookAt, outlineAt, pointsAt, type Scene, shapeOf } from './scene.ts'
import { groundMarks, obstructionMarks, shaftMarks, wallRadius } from './shaft.ts'
import { standingMarks } from './standingMarks.ts'

const LOOK: Look = LOOKING_LEFT
const AROUND = 3.2
const FOOT = 1.5
const OVER_HOOK = 3

/** View A: the shaft cut along the drive, the piece at its tightest level, and where it starts and is clear. */
export function sectionView(scene: Scene, sheet: LiftSheet, room: PaperBox): View {
  const { shaft, ground } = scene.subject.stages.model.project
  const title = 'Section along the drive, looking left'
  if (shaft === undefined) return emptyView('A', title, 'the project has no shaft', room)
  const inner = underHead(room)
  const placing = placed(frameOf(scene), inset(inner, 0.5), 'middle')
  const window = { ...inner, left: inner.left, right: inner.right }
  const base: Mark[] = [
    ...(ground === undefined ? [] : groundMarks(ground, shaft, placing, window)),
    ...cradleMarks(scene, placing),
    ...shaftMarks(shaft, placing, window),
  ]
  const obstructions = obstructionMarks(shaft, placing, window)
  base.push(...obstructions.marks, ...restMarks(scene, placing, window))
  const piece = pieceMarks(scene, placing)
  const measures = measureMarks(scene, sheet, placing)
  const gaps = leastGapsIn(scene, sheet, LOOK, placing, window)
  const drawn = [
    ...base,
    ...standingMarks(gaps, scene, LOOK, placing, window),
    ...machineMarks(scene, placing, window),
    ...piece.marks,
    ...measures,
    ...boomMarks(gaps, LOOK, placing, window),
    ...leastGapMarks(gaps, LOOK, placing),
  ]
  const labels = labelMarks(
    [
      ...piece.labels,
      ...leastGapLabels(gaps, sheet, LOOK, placing),
      ...obstructions.labels.map(
        ({ words, at }): Label => ({ lines: [words], at, towards: 90, size: SMALL, ink: 'quiet', backed: true }),
      ),
    ],
    [...textsOf(drawn).map(textBox), ...leastGapBoxes(gaps, LOOK, placing)],
    window,
    listedNames(sheet),
  )
  return {
    kind: 'view',
    id: 'section',
    title: `A. ${title}, ${scaleText(placing)}`,
    scale: placing.scale,
    marks: [...viewHead('A', title, headText(scene, placing, sheet), room), ...drawn, ...labels],
  }
}

export const emptyView = (letter: string, title: string, why: string, room: PaperBox): View => ({
  kind: 'view',
  id: letter,
  title: `${letter}. ${title}`,
  marks: viewHead(letter, title, why, room),
})

function headText(scene: Scene, placing: Placing, sheet: LiftSheet): string {
  const up = scene.tightest.shift[2] - (scene.poses[0]?.shift[2] ?? 0)
  const where =
    scene.gap === undefined || Math.abs(up) < 0.01
      ? 'piece where it starts'
      : `piece at its tightest, ${lengthText(Math.abs(up), sheet.units)} ${up < 0 ? 'down' : 'up'}`
  return `${scaleText(placing)} · ${where} · ${lengthUnit(sheet.units)}`
}

function frameOf(scene: Scene): Frame2 {
  const { shaft } = scene.subject.stages.model.project
  const outer = (shaft === undefined ? 0 : wallRadius(shaft)) + AROUND
  const slab = shaft === undefined ? 0 : (shaft.slabTop.value as number) - (shaft.slabThickness.value as number)
  const top = Math.max(highestHook(scene) + OVER_HOOK, ...topsOf(scene))
  return { left: -outer, right: outer, bottom: slab - FOOT, top }
}

const topsOf = (scene: Scene): number[] => scene.poses.map((pose) => (hookAt(scene, pose)?.[2] ?? 0) + OVER_HOOK)

const highestHook = ({ subject }: Scene): number => subject.main.hook.highest?.value ?? 0

function cradleMarks({ subject }: Scene, placing: Placing): Mark[] {
  const { cradle, shaft } = subject.stages.model.project
  if (cradle?.thickness?.value === undefined || shaft === undefined) return []
  const slab = shaft.slabTop.value as number
  const [left, top] = onPaper(placing, [cradle.along[0].value as number, slab + cradle.thickness.value])
  const [right, bottom] = onPaper(placing, [cradle.along[1].value as number, slab])
  return [box({ left, top, right, bottom }, { fill: 'concrete', stroke: THIN })]
}

/** What is left of the machine: its outline, and cut through the middle of the piece. */
function restMarks(scene: Scene, placing: Placing, window: PaperBox): Mark[] {
  if (scene.rest.length === 0) return []
  const through = cogAt(scene, scene.tightest)
  const clipped = (loops: readonly Point2[][], look: Pick<Shape, 'fill' | 'stroke'>): Shape => {
    const shape = shapeOf(loops, placing, look)
    return { ...shape, loops: shape.loops.map((loop) => clippedLoop(loop, window)).filter((loop) => loop.length > 2) }
  }
  const behind = clipped(silhouette(scene.rest, LOOK, CHORD_ERROR), { fill: 'pale' })
  const cut = clipped(section(scene.rest, { look: LOOK, through }, CHORD_ERROR), { fill: 'paper', stroke: EDGE })
  return [behind, cut, ...hatch(cut.loops, 1.1, Math.PI / 4, FINE)]
}

function pieceMarks(scene: Scene, placing: Placing): { marks: Mark[]; labels: Label[] } {
  const at = (pose: Scene['start']) => outlineAt(scene, pose, LOOK)
  const ghosts = [scene.start, clearPose(scene)].map((pose) => ghostOf(at(pose), placing, CHAIN))
  const now = shapeOf(at(scene.tightest), placing, { fill: 'steel', stroke: EDGE })
  const cog = onPaper(placing, seen(LOOK, cogAt(scene, scene.tightest)))
  const rigged = rigMarks(scene, placing)
  const ring = scene.gap === undefined ? [] : gapRing(onPaper(placing, seen(LOOK, scene.gap.at)))
  return {
    marks: [...ghosts, now, ...rigged.marks, ...cogMark(cog), ...ring],
    labels: [...gapLabel(scene, placing), ...rigged.labels],
  }
}

const RING = 3.6

const gapLabel = (scene: Scene, placing: Placing): Label[] =>
  scene.gap === undefined
    ? []
    : [
        {
          lines: ['D'],
          at: onPaper(placing, seen(LOOK, scene.gap.at)),
          towards: 30,
          from: RING + 0.4,
          ink: 'fail',
          weight: 700,
          size: 3,
          backed: true,
        },
      ]

const gapRing = (at: PaperPoint): Mark[] => [{ kind: 'circle', centre: at, radius: RING, stroke: ATTENTION }]

function rigMarks(scene: Scene, placing: Placing): { marks: Mark[]; labels: Label[] } {
  const { main } = scene.subject
  const hook = hookAt(scene, scene.tightest)
  if (hook === undefined) return { marks: [], labels: [] }
  const points = pointsAt(scene, scene.tightest)
  const at = onPaper(placing, seen(LOOK, hook))
  const legs = (main.rigging?.legs ?? []).flatMap((leg) => {
    const point = points.get(leg.to)
    return point === undefined ? [] : [line([at, onPaper(placing, seen(LOOK, point))], EDGE)]
  })
  const top = onPaper(placing, [hook[0], highestHook(scene)])
  return {
    marks: [
      line([at, top], EDGE),
      ...legs,
      box({ left: at[0] - 1, right: at[0] + 1, top: at[1] - 1.6, bottom: at[1] + 0.4 }, { fill: 'ink' }),
    ],
    labels: [{ lines: [main.hook.name], at: [at[0] + 1, at[1] - 0.6], towards: 0, from: 0.6, backed: true }],
  }
}

/** The lifting system over the shaft: highest hook, and for a tower its legs and header as signs. */
function machineMarks({ subject }: Scene, placing: Placing, window: PaperBox): Mark[] {
  const { main } = subject
  const { highest } = main.hook
  if (highest?.value === undefined) return []
  const [left, right] = main.system.rails?.map((r) => r.value as number) ?? [undefined, undefined]
  const [, y] = onPaper(placing, [0, highest.value])
  const reach = left === undefined || right === undefined ? [] : towerMarks(placing, left, right, y, window)
  return [
    line(
      [
        [window.left + 1, y],
        [window.right - 1, y],
      ],
      AXIS,
    ),
    ...reach,
  ]
}

function towerMarks(placing: Placing, left: number, right: number, top: number, window: PaperBox): Mark[] {
  const legs = [left, right].flatMap((x) => {
    const [px, foot] = onPaper(placing, [x, 0])
    return px < window.left + 0.8 || px > window.right - 0.8
      ? []
      : [-0.8, 0.8].map((d) =>
          line(
            [
              [px + d, top - 2],
              [px + d, foot],
            ],
            FINE,
          ),
        )
  })
  const ends = [left, right].map((x) =>
    Math.min(window.right - 0.5, Math.max(window.left + 0.5, onPaper(placing, [x, 0])[0])),
  )
  return [
    ...legs,
    box(
      { left: ends[0] as number, right: ends[1] as number, top: top - 5, bottom: top - 2 },
      { fill: 'pale', stroke: EDGE },
    ),
  ]
}

function measureMarks(scene: Scene, sheet: LiftSheet, placing: Placing): Mark[] {
  const { shaft } = scene.subject.stages.model.project
  if (shaft === undefined) return []
  const { units } = sheet
  const clear = shaft.clearDiameter.value as number
  const collar = shaft.collar.value as number
  const slab = shaft.slabTop.value as number
  const outline = frameOfLoops(outlineAt(scene, scene.tightest, LOOK))
  const free = outline.top + Math.min(4, Math.max(1.5, (collar - outline.top) / 4)) + 3
  return [
    dimension({
      name: 'clear diameter of the shaft',
      value: clear,
      words: `Ø ${lengthText(clear, units)} clear`,
      placing,
      from: [-clear / 2, free],
      along: 'across',
      offset: 0,
      shift: -0.2,
    }),
    ...levelMark(onPaper(placing, [-clear / 2 + lengthOf(placing, 12.5), collar]), levelText(collar, units), 'right'),
    ...levelMark(onPaper(placing, [clear / 2 - lengthOf(placing, 14.5), slab]), levelText(slab, units), 'right'),
    ...hookMeasures(scene, sheet, placing, -clear / 2),
  ]
}

const lengthOf = ({ scale }: Placing, mm: number): number => (mm * scale) / 1000

function hookMeasures(scene: Scene, sheet: LiftSheet, placing: Placing, left: number): Mark[] {
  const { height } = scene.subject.outcome
  const measure = (value: number | undefined, name: string, aside: number): Mark[] =>
    value === undefined || value <= 0
      ? []
      : [
          dimension({
            name,
            value,
            words: `${name} ${lengthText(value, sheet.units)}`,
            placing,
            from: [left + lengthOf(placing, aside), 0],
            along: 'up',
            offset: 0,
          }),
        ]
  return [...measure(height.available.value, 'hook can reach', 5), ...measure(height.needed.value, 'hook needed', 11)]
}
