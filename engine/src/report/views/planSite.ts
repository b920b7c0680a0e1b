import { isPlaced } from '../../ground/index.ts'
import { showQuantity } from '../../working/quantity.ts'
import { box, type Circle, line, type Mark, type PaperBox, type PaperPoint, type Shape } from '../drawing.ts'
import type { Frame2 } from '../outline/convex.ts'
import { LOOKING_DOWN, type Look, silhouette } from '../outline/picture.ts'
import { hatch } from '../paper/hatch.ts'
import type { Label } from '../paper/labels.ts'
import { AXIS, EDGE, FINE, HIDDEN, SMALL, THIN } from '../paper/pen.ts'
import { lengthOnPaper, loopOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { exactFigure, lengthText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { planOutline } from './planGaps.ts'
import { CHORD_ERROR, cogAt, ghostOf, type Scene } from './scene.ts'
import { wallRadius } from './shaft.ts'

const LOOK: Look = LOOKING_DOWN

/** Whether the lift leads out of the shaft or back into it. */
export const inShaft = ({ subject }: Scene): boolean =>
  subject.stages.model.project.shaft !== undefined && subject.steps.some((s) => s.from === 'shaft')

const bayOf = ({ subject: { lift, piece, stages } }: Scene) => {
  const id = lift.bay ?? piece.bay
  const bay = id === undefined ? undefined : stages.model.project.bays[id]
  return id === undefined || bay === undefined ? undefined : { id, bay }
}

/** The bay, where the piece comes over it in this lift and does not go on by trailer. */
export function bayReached(scene: Scene) {
  const bay = bayOf(scene)
  if (bay === undefined) return undefined
  const { left, right, bottom, top } = bayFrame(bay)
  const over = [scene.start, scene.end].some((pose) => {
    const [x, y] = cogAt(scene, pose)
    return x > left && x < right && y > bottom && y < top
  })
  return over ? bay : undefined
}

/** Plan rectangle of a bay. */
export function bayFrame({ bay }: NonNullable<ReturnType<typeof bayOf>>): Frame2 {
  const [x, y] = bay.centre.map((v) => v.value as number) as [number, number]
  const [a, b] = bay.size.map((v) => (v.value as number) / 2) as [number, number]
  return { left: x - a, right: x + a, bottom: y - b, top: y + b }
}

/** Bay, shaft, rails and what stands under the lifting machine. */
export function siteMarks(scene: Scene, placing: Placing, room: PaperBox): Mark[] {
  const { shaft } = scene.subject.stages.model.project
  const bay = bayReached(scene)
  return [
    ...(bay === undefined ? [] : bayMarks(bay, placing)),
    ...(shaft === undefined || !inShaft(scene) ? [] : shaftPlan(scene, placing)),
    ...railMarks(scene, placing, room),
  ]
}

function bayMarks(bay: NonNullable<ReturnType<typeof bayOf>>, placing: Placing): Mark[] {
  const { left, right, bottom, top } = bayFrame(bay)
  const [x1, y1] = onPaper(placing, [left, top])
  const [x2, y2] = onPaper(placing, [right, bottom])
  return [box({ left: x1, top: y1, right: x2, bottom: y2 }, { fill: 'ground', stroke: EDGE })]
}

function circleLoop(placing: Placing, radius: number): PaperPoint[] {
  return Array.from({ length: 120 }, (_, k) => {
    const angle = (2 * Math.PI * k) / 120
    return onPaper(placing, [radius * Math.cos(angle), radius * Math.sin(angle)])
  })
}

function shaftPlan(scene: Scene, placing: Placing): Mark[] {
  const shaft = scene.subject.stages.model.project.shaft as NonNullable<
    Scene['subject']['stages']['model']['project']['shaft']
  >
  const inner = (shaft.clearDiameter.value as number) / 2
  const outer = wallRadius(shaft)
  const centre = onPaper(placing, [0, 0])
  const wall: Shape = {
    kind: 'shape',
    loops: [circleLoop(placing, outer), circleLoop(placing, inner)],
    fill: 'concrete',
  }
  const ring = (radius: number): Circle => ({
    kind: 'circle',
    centre,
    radius: lengthOnPaper(placing, radius),
    stroke: EDGE,
  })
  const rest = silhouette(scene.rest, LOOK, CHORD_ERROR)
  const reach = lengthOnPaper(placing, outer) + 2
  return [
    wall,
    ...hatch(wall.loops, 2.4, Math.PI / 4, { width: 0.13, ink: 'edge' }),
    ring(inner),
    ...(outer > inner ? [ring(outer)] : []),
    ghostOf(rest, placing, HIDDEN),
    line(
      [
        [centre[0] - reach, centre[1]],
        [centre[0] + reach, centre[1]],
      ],
      AXIS,
    ),
    line(
      [
        [centre[0], centre[1] - reach],
        [centre[0], centre[1] + reach],
      ],
      AXIS,
    ),
    ...Object.values(shaft.obstructions).flatMap((o) => {
      const loop = loopOnPaper(placing, planOutline(o))
      return [
        { kind: 'shape', loops: [loop], fill: 'paper', stroke: THIN } as const,
        ...hatch([loop], 0.9, -Math.PI / 4, FINE),
      ]
    }),
  ]
}

/** Rails of a travelling tower, and what stands under the lifting machine while the piece hangs, as the ground stage has it. */
function railMarks(scene: Scene, placing: Placing, room: PaperBox): Mark[] {
  const { rails } = scene.subject.main.system
  const lines = (rails ?? []).flatMap((rail) => {
    const [x] = onPaper(placing, [rail.value as number, 0])
    return x < room.left + 0.5 || x > room.right - 0.5
      ? []
      : [
          line(
            [
              [x, room.top + 1],
              [x, room.bottom - 1],
            ],
            FINE,
          ),
        ]
  })
  const feet = feetOf(scene)
    .map(({ at }) => onPaper(placing, [at[0], at[1]]))
    .filter((at) => isWithin(at, room))
    .map(([x, y]) => box({ left: x - 0.9, right: x + 0.9, top: y - 0.9, bottom: y + 0.9 }, { fill: 'ink' }))
  return [...lines, ...feet]
}

const isWithin = ([x, y]: PaperPoint, room: PaperBox): boolean =>
  x > room.left + 1 && x < room.right - 1 && y > room.top + 1 && y < room.bottom - 1

/** Legs of the tower or feet of the crane at work, where the piece is taken up. */
export const feetOf = ({ subject }: Scene) =>
  (subject.stages.ground.steps.find((s) => s.lift === subject.id)?.loads ?? []).filter(
    (load) =>
      (load.kind === 'leg' || load.kind === 'crane') &&
      isPlaced(load) &&
      load.stays !== true &&
      load.when.includes('lifting'),
  )

/** Loads under the lifting machine, each beside its foot. */
export function footLabels(scene: Scene, { units, forceUnit }: LiftSheet, placing: Placing, room: PaperBox): Label[] {
  return feetOf(scene).flatMap(({ at, what, force }) => {
    const place = onPaper(placing, [at[0], at[1]])
    if (!isWithin(place, room)) return []
    const towards = at[0] < 0 ? 180 : 0
    return [
      {
        lines: [
          what.split(' of ')[0] as string,
          `${exactFigure({ value: force.value, unit: 'N' }, units).text} ${forceUnit}`,
        ],
        at: place,
        towards,
        size: SMALL,
        backed: true,
      },
    ]
  })
}

/** Words begin so far inside an edge, mm. */
const INSIDE = 1.6

/** A bay's level, what it bears and what of that the piece uses. */
export function bayLabel(
  scene: Scene,
  bay: NonNullable<ReturnType<typeof bayOf>>,
  sheet: LiftSheet,
  placing: Placing,
): Label {
  const { left, top } = bayFrame(bay)
  const level = lengthText(bay.bay.level.value as number, sheet.units)
  const landing = scene.subject.stages.ground.steps.find((s) => s.lift === scene.subject.id)?.landing
  const used = landing === undefined ? '' : `, ${showQuantity(landing.pressure.value, 'Pa', sheet.units)} used`
  const corner = onPaper(placing, [left, top])
  const name = bay.bay.name === undefined || bay.bay.name.includes(bay.id) ? bay.id : `${bay.id}, ${bay.bay.name}`
  return {
    lines: [name, `level +${level}`, `${showQuantity(bay.bay.allowable.value, 'Pa', sheet.units)}${used}`],
    at: [corner[0], corner[1] + INSIDE],
    towards: -45,
    from: 0.4,
    weight: 700,
    size: SMALL,
    backed: 'ground',
  }
}
