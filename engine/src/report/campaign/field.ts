import type { Model } from '../../model/index.ts'
import { box, line, type Mark, type PaperBox, text } from '../drawing.ts'
import { dimension } from '../paper/dimension.ts'
import { grain, grainOf } from '../paper/hatch.ts'
import { EDGE, FINE } from '../paper/pen.ts'
import type { Placing } from '../paper/scale.ts'
import { shaftMarks } from '../views/shaft.ts'
import type { TimeAxis } from './timeAxis.ts'

/** Where things lie: time across, elevation up, lanes above the collar. */
export interface Field {
  axis: TimeAxis
  /** Paper y of a level below the collar. */
  yOf(level: number): number
  collar: number
  /** Metres on a millimetre, below the collar. */
  scale: number
  room: PaperBox
  lanes: ReadonlyMap<string, { top: number; bottom: number }>
}

const LABEL = 3.2

/** Layers of ground across the field below the collar, as a quiet tint; their grain and names at its left. */
export function groundTint({ project }: Model, field: Field, room: PaperBox): Mark[] {
  return Object.values(project.ground?.layers ?? {}).flatMap(({ name, top, bottom }): Mark[] => {
    const part = {
      ...room,
      top: Math.max(field.collar, field.yOf(top.value as number)),
      bottom: Math.min(room.bottom, field.yOf(bottom.value as number)),
    }
    if (part.bottom - part.top < 0.5) return []
    const rule = line(
      [
        [part.left, part.bottom],
        [part.right, part.bottom],
      ],
      FINE,
    )
    const marks: Mark[] = [
      box(part, { fill: 'ground' }),
      ...grain(grainOf(name), { ...part, right: part.left + GRAIN }),
      rule,
    ]
    if (part.bottom - part.top < LABEL + 1.5) return marks
    return [...marks, text([part.left + GRAIN + 2, part.top + LABEL + 0.8], name, { size: LABEL, ink: 'quiet' })]
  })
}

/** Width of the column of grain, mm. */
const GRAIN = 14

/** The shaft in section at the scale of the field, at its left. */
export function shaftStrip({ project }: Model, field: Field, room: PaperBox): Mark[] {
  const { shaft, machine } = project
  if (shaft === undefined) return []
  const placing: Placing = { scale: field.scale, of: [0, 0], at: [(room.left + room.right) / 2, field.collar] }
  const window = { ...room, top: room.top, bottom: room.bottom }
  const clear = shaft.clearDiameter.value as number
  return [
    ...shaftMarks(shaft, placing, window),
    ...(machine?.shieldDiameter?.value === undefined
      ? []
      : machineBox(
          machine.pose.origin[0].value ?? 0,
          machine.pose.origin[2].value ?? 0,
          machine.shieldDiameter.value,
          placing,
          window,
        )),
    dimension({
      name: 'clear diameter of the shaft',
      value: clear,
      words: `Ø ${clear.toFixed(2)} clear`,
      placing,
      from: [-clear / 2, -4],
      along: 'across',
      offset: 0,
    }),
    line(
      [
        [room.left, field.collar],
        [room.right, field.collar],
      ],
      EDGE,
    ),
    ...levels(shaft, field, room),
    text(
      [room.left, room.bottom + 4],
      `section along the drive, 1 : ${field.scale}; elevation of the field to the same scale`,
      { size: 2.8, ink: 'quiet' },
    ),
  ]
}

/** The shield as it lies, to its diameter. */
function machineBox(x: number, z: number, diameter: number, placing: Placing, window: PaperBox): Mark[] {
  const mm = 1000 / placing.scale
  const room = {
    left: window.left,
    right: placing.at[0] + x * mm,
    top: placing.at[1] - (z + diameter / 2) * mm,
    bottom: placing.at[1] - (z - diameter / 2) * mm,
  }
  return [box(room, { fill: 'pale', stroke: EDGE })]
}

function levels(shaft: NonNullable<Model['project']['shaft']>, field: Field, room: PaperBox): Mark[] {
  const shown = [0, -10, -20, -30, -40, -50].filter((z) => z >= (shaft.slabTop.value as number) - 6)
  return shown.map((z) =>
    text([room.right + 1, field.yOf(z) + 1], z === 0 ? '±0' : `−${-z}`, { size: 2.8, ink: 'quiet' }),
  )
}
