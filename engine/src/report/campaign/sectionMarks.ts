import type { Model } from '../../model/index.ts'
import type { UnitSystem } from '../../working/quantity.ts'
import { showNumber, showQuantity } from '../../working/quantity.ts'
import { box, line, type Mark, type PaperBox, type PaperPoint, standFor, text } from '../drawing.ts'
import { grain, grainOf } from '../paper/hatch.ts'
import type { Placing } from '../paper/scale.ts'
import { lengthScale, lengthUnit } from '../sheet/figures.ts'
import { groundMarks, shaftMarks } from '../views/shaft.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import { level, stroke, together, upright } from './pens.ts'

/** Section along the drive at the left, at the scale of the field: ground, shaft, machine, levels, and what lifts above. */
export function sectionMarks(model: Model, field: Field, units: UnitSystem): Mark[] {
  const { shaft, ground } = model.project
  const { layout } = field
  if (shaft === undefined) return []
  const { k, type } = layout.sheet
  const room: PaperBox = { ...layout.strip, top: layout.collar - 2, bottom: layout.field.bottom }
  const placing: Placing = {
    scale: layout.scale,
    of: [0, 0],
    at: [(room.left + room.right) / 2, layout.collar],
  }
  const below = { ...room, top: layout.collar }
  const marks: Mark[] = [
    ...(ground === undefined ? [] : lighter(groundMarks(ground, shaft, placing, below))),
    ...lighter(shaftMarks(shaft, placing, room)),
    ...machineInSection(model, placing, below),
    level(layout.collar, room.left, room.right, stroke(0.5 * k)),
    ...levelMarks(model, field, units),
    ...(layout.sheet.head ? towerMarks(model, placing, field, units) : []),
  ]
  const clear = shaft.clearDiameter.value as number
  const half = (clear * 1000) / layout.scale / 2
  const y = field.yOf(-6)
  const words = `Section along the drive, 1 : ${layout.scale}: shaft of ${showQuantity(clear, 'm', units)} clear.`
  return [
    standFor('/shaft', words, [
      ...marks,
      level(y, placing.at[0] - half, placing.at[0] + half, stroke(0.25 * k)),
      ...[-1, 1].map((s) => arrow([placing.at[0] + s * half, y], s, k)),
      text([placing.at[0], y - 1.2 * k], `Ø ${showQuantity(clear, 'm', units)}`, {
        size: type.label,
        anchor: 'middle',
      }),
    ]),
  ]
}

const arrow = ([x, y]: PaperPoint, side: number, k: number): Mark => ({
  kind: 'shape',
  loops: [
    [
      [x, y],
      [x - side * 2 * k, y - 0.6 * k],
      [x - side * 2 * k, y + 0.6 * k],
    ],
  ],
  fill: 'ink',
})

/** Grain and hatch of many short lines as few marks. */
function lighter(marks: readonly Mark[]): Mark[] {
  const result: Mark[] = []
  let run: Extract<Mark, { kind: 'line' }>[] = []
  const flush = (): void => {
    result.push(...together(run))
    run = []
  }
  for (const mark of marks) {
    const last = run.at(-1)
    if (mark.kind === 'line' && mark.points.length === 2) {
      if (last !== undefined && last.stroke !== mark.stroke) flush()
      run.push(mark)
    } else {
      flush()
      result.push(mark)
    }
  }
  flush()
  return result
}

/** The shield as it lies, to its diameter, as long as its parts reach; the head in front. */
function machineInSection({ project, instances }: Model, placing: Placing, window: PaperBox): Mark[] {
  const { machine } = project
  const diameter = machine?.shieldDiameter?.value
  if (machine === undefined || diameter === undefined || instances.byId.size === 0) return []
  const mm = 1000 / placing.scale
  const [x, z] = [machine.pose.origin[0].value ?? 0, machine.pose.origin[2].value ?? 0]
  const [top, bottom] = [placing.at[1] - (z + diameter / 2) * mm, placing.at[1] - (z - diameter / 2) * mm]
  const front = placing.at[0] + x * mm
  return [
    box({ left: window.left, right: front, top, bottom }, { fill: 'steel', stroke: stroke(0.3) }),
    box(
      { left: front, right: front + 2.6 * mm, top: top + 0.2, bottom: bottom - 0.2 },
      { fill: 'edge', stroke: stroke(0.3) },
    ),
  ]
}

function levelMarks({ project }: Model, { layout, yOf }: Field, units: UnitSystem): Mark[] {
  const { k, type } = layout.sheet
  const unit = lengthScale(units)
  const step = units === 'US' ? 25 : 10
  const deepest = ((project.shaft?.slabTop.value as number) - 4) / unit
  const x = layout.strip.right
  const marks: Mark[] = []
  for (let z = 0; z >= deepest; z -= step) {
    const y = yOf(z * unit)
    marks.push(level(y, x, x + 1.5 * k, stroke(0.25 * k)))
    marks.push(
      text([x + 2.2 * k, y + type.small * 0.34], z === 0 ? '±0' : `−${showNumber(-z, 0)} ${lengthUnit(units)}`, {
        size: type.small,
        ink: 'quiet',
      }),
    )
  }
  return marks
}

/** The tower over the shaft, to scale: legs, header, and the highest position of its hook. */
function towerMarks({ project }: Model, placing: Placing, { layout }: Field, units: UnitSystem): Mark[] {
  const found = Object.values(project.systems).find((s) => s.rails !== undefined && s.kind === 'lift tower')
  const hook = Object.values(found?.hooks ?? {})[0]
  const rails = found?.rails
  if (found === undefined || rails === undefined || hook?.highest?.value === undefined) return []
  const { k, type } = layout.sheet
  const mm = 1000 / placing.scale
  const at = (x: number, z: number): PaperPoint => [placing.at[0] + x * mm, placing.at[1] - z * mm]
  const head = hook.head?.value ?? hook.highest.value + 3
  const [, top] = at(0, head)
  if (top < layout.supplies.bottom) return []
  const [left, right] = [rails[0].value as number, rails[1].value as number]
  const [x, y] = at(0, hook.highest.value)
  return [
    ...[left, right].flatMap((leg) => {
      const [lx] = at(leg, 0)
      return [lx - 0.8 * k, lx + 0.8 * k].map((side) => upright(side, top, layout.collar, stroke(0.25 * k, 'edge')))
    }),
    box(
      { left: at(left, 0)[0] - 1.2 * k, right: at(right, 0)[0] + 1.2 * k, top: top - 2.4 * k, bottom: top },
      {
        fill: 'pale',
        stroke: stroke(0.3 * k),
      },
    ),
    line(
      [
        [x, top],
        [x, y],
      ],
      stroke(0.2 * k, 'quiet', [1.2, 0.7]),
    ),
    box({ left: x - 1 * k, right: x + 1 * k, top: y - 2 * k, bottom: y }, { fill: 'ink' }),
    text([x, top - 3.6 * k], `${found.kind}, hook to +${showQuantity(hook.highest.value, 'm', units)}`, {
      size: type.label,
      anchor: 'middle',
      ink: 'quiet',
    }),
  ]
}

/** Layers across the field below the collar as a quiet tint, with grain and names at the left of the field. */
export function groundTint({ model, sinking }: Campaign, field: Field): Mark[] {
  const { layout, axis } = field
  const { project } = model
  const begins = sinking.dig[0]?.start ?? sinking.home ?? axis.to
  const standing = axis.xAt(begins) - axis.left
  const { k, type } = layout.sheet
  const room = layout.field
  return Object.values(project.ground?.layers ?? {}).flatMap(({ name, top, bottom }): Mark[] => {
    const part = {
      ...room,
      top: Math.max(layout.collar, field.yOf(top.value as number)),
      bottom: Math.min(room.bottom, field.yOf(bottom.value as number)),
    }
    if (part.bottom - part.top < 0.5) return []
    const grainBox = { ...part, right: Math.min(part.right, part.left + Math.min(12 * k, standing)) }
    const marks: Mark[] = [
      box(part, { fill: 'ground' }),
      ...together(grain(grainOf(name), grainBox)),
      level(part.bottom, part.left, part.right, stroke(0.15 * k, 'hair')),
    ]
    const words = text([part.left + 13.5 * k, part.top + type.small + 0.6 * k], name, {
      size: type.small,
      ink: 'quiet',
    })
    const hasRoom = part.bottom - part.top >= type.small + 1 && words.width + 14 * k < standing
    return hasRoom ? [...marks, words] : marks
  })
}
