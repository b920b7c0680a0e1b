import type { Ground, Shaft } from '../../../model/index.ts'
import { showQuantity } from '../../../working/quantity.ts'
import {
  box,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  type Stroke,
  standFor,
  type Text,
  text,
  textBox,
  type View,
  widerBox,
} from '../../drawing.ts'
import { shortened } from '../../paper/border.ts'
import { asOne, hatch } from '../../paper/hatch.ts'
import { EDGE, FINE, SMALL, THIN } from '../../paper/pen.ts'
import { onPaper, type Placing } from '../../paper/scale.ts'
import { scaleBar } from '../../paper/scaleBar.ts'
import { levelText, useText } from '../../sheet/figures.ts'
import { HEADING } from '../../views/head.ts'
import { rectangle, wallRadius } from '../../views/shaft.ts'
import type { Pictured } from '../layout.ts'
import { siteHead } from '../siteHead.ts'
import { type SiteSubject, scaleWords } from '../subject.ts'
import { governingWords, type ShaftStage, shaftStages } from './stages.ts'

const BESIDE = 5
const OVER = 3
const UNDER = 4
/** Between two sections, and the words under each, mm. */
const GAP = 5
const WORDS = 21
/** Narrower than this no words stand under a section, mm. */
const NARROWEST = 48
const FOOT = 8

interface Frame {
  half: number
  bottom: number
  top: number
}

function frameOfStages({ stages }: SiteSubject, all: readonly ShaftStage[]): Frame {
  const shaft = stages.model.project.shaft as Shaft
  const lows = all.flatMap(({ water }) => water?.bottom.value ?? [])
  return {
    half: wallRadius(shaft) + BESIDE,
    bottom: Math.min(shaft.wall.toe.value as number, ...lows) - UNDER,
    top: (shaft.collar.value as number) + OVER,
  }
}

/** A section of the shaft for every stage, side by side, in rows where there is no room. */
export function stagesPictured(subject: SiteSubject, width: number): Pictured {
  const all = shaftStages(subject)
  const frame = frameOfStages(subject, all)
  const abreast = Math.max(1, Math.min(all.length, Math.floor(width / NARROWEST)))
  const rows = Math.ceil(all.length / abreast)
  return {
    need: {
      wide: abreast * 2 * frame.half,
      high: rows * (frame.top - frame.bottom),
      padWide: (abreast - 1) * GAP + 2,
      padHigh: rows * WORDS + FOOT,
    },
    views: (ratio, room) => [stagesView(subject, all, frame, abreast, ratio, room)],
  }
}

function stagesView(
  subject: SiteSubject,
  all: readonly ShaftStage[],
  frame: Frame,
  abreast: number,
  ratio: number,
  room: PaperBox,
): View {
  const [wide, high] = [(2 * frame.half * 1000) / ratio, ((frame.top - frame.bottom) * 1000) / ratio]
  const windowAt = (i: number): PaperBox => {
    const left = room.left + 0.5 + (i % abreast) * (wide + GAP)
    const top = room.top + HEADING + Math.floor(i / abreast) * (high + WORDS)
    return { left, right: left + wide, top, bottom: top + high }
  }
  const placingAt = ({ left, top }: PaperBox): Placing => ({
    scale: ratio,
    of: [-frame.half, frame.top],
    at: [left, top],
  })
  const rows = Math.ceil(all.length / abreast)
  const title = 'Stages of the shaft'
  const first = placingAt(windowAt(0))
  return {
    kind: 'view',
    id: 'site-stages',
    title: `${title}, ${scaleWords(subject, first)}`,
    scale: ratio,
    marks: [
      ...siteHead(subject, '1', title, `${scaleWords(subject, first)} · dug, then filled again; looking forward`, room),
      ...all.flatMap((stage, i) => {
        const window = windowAt(i)
        return [
          standFor(stage.pointer, `${stage.title} ${levelText(stage.level, subject.units)}`, [
            ...stageMarks(subject, stage, placingAt(window), window),
            ...stageWords(subject, stage, i, window),
          ]),
        ]
      }),
      scaleBar(first, [room.left + 4, room.top + HEADING + rows * (high + WORDS) + 5], 45, subject.units),
    ],
  }
}

function stageMarks({ stages, units }: SiteSubject, stage: ShaftStage, placing: Placing, window: PaperBox): Mark[] {
  const { shaft, ground } = stages.model.project
  const s = shaft as Shaft
  return [
    ...(ground === undefined ? [] : groundLeft(ground, s, stage, placing, window)),
    ...(stage.filled ? slabAndFill(s, stage, placing) : []),
    ...wallCut(s, placing),
    ...wellMarks(stages.model.project.ground, s, stage, placing),
    ...(ground === undefined ? [] : heldOut(ground, stage, placing, window)),
    ...(stage.water === undefined ? [] : waterMarks(stage, s, placing, window, units)),
    box(window, { stroke: FINE }),
  ]
}

/** Layers beside the shaft, and inside it under the level dug to. */
function groundLeft(ground: Ground, shaft: Shaft, stage: ShaftStage, placing: Placing, window: PaperBox): Mark[] {
  const outer = wallRadius(shaft)
  const inner = (shaft.clearDiameter.value as number) / 2
  const inside = stage.filled ? (shaft.excavation.value as number) : stage.level
  const toe = shaft.wall.toe.value as number
  const far = 1000
  return Object.values(ground.layers).flatMap((layer) => {
    const [top, bottom] = [layer.top.value as number, layer.bottom.value as number]
    const parts = [
      rectangle(placing, -far, -outer, bottom, top),
      rectangle(placing, outer, far, bottom, top),
      ...(bottom < inside ? [rectangle(placing, -inner, inner, bottom, Math.min(top, inside))] : []),
      ...(bottom < toe ? [rectangle(placing, -outer, outer, bottom, Math.min(top, toe))] : []),
    ].flatMap((p) => {
      const cut = {
        left: Math.max(p.left, window.left),
        right: Math.min(p.right, window.right),
        top: Math.max(p.top, window.top),
        bottom: Math.min(p.bottom, window.bottom),
      }
      return cut.bottom - cut.top > 0.05 && cut.right > cut.left ? [cut] : []
    })
    return parts.flatMap((p): Mark[] => [
      box(p, { fill: 'ground' }),
      line([[p.left, p.top], [p.right, p.top]], FINE), // biome-ignore format: two ends
    ])
  })
}

function slabAndFill(shaft: Shaft, { level }: ShaftStage, placing: Placing): Mark[] {
  const inner = (shaft.clearDiameter.value as number) / 2
  const slab = shaft.slabTop.value as number
  const fill = box(rectangle(placing, -inner, inner, slab, level), { fill: 'pale', stroke: FINE })
  return [
    box(rectangle(placing, -inner, inner, shaft.excavation.value as number, slab), { fill: 'concrete', stroke: THIN }),
    fill,
    ...asOne(hatch(fill.loops, 2.4, -Math.PI / 4, { width: 0.13, ink: 'edge' })),
  ]
}

function wallCut(shaft: Shaft, placing: Placing): Mark[] {
  const [inner, outer] = [(shaft.clearDiameter.value as number) / 2, wallRadius(shaft)]
  const [toe, collar] = [shaft.wall.toe.value as number, shaft.collar.value as number]
  return [-1, 1].map((s) =>
    box(rectangle(placing, Math.min(s * inner, s * outer), Math.max(s * inner, s * outer), toe, collar), {
      fill: 'concrete',
      stroke: THIN,
    }),
  )
}

const RUNNING: Stroke = { width: 0.5, ink: 'air' }
const RESTING: Stroke = { width: 0.2, ink: 'edge', dash: [1, 0.7] }

/** Wells beside the wall, those that run full: signs, half of them on each side. */
function wellMarks(ground: Ground | undefined, shaft: Shaft, stage: ShaftStage, placing: Placing): Mark[] {
  const { water } = stage
  if (water === undefined) return []
  const needed = ground?.water[water.water]?.wells?.needed ?? 0
  const count = Math.max(stage.running, needed)
  const step = (BESIDE - 1) / Math.max(1, Math.ceil(count / 2))
  return Array.from({ length: count }, (_, i) => {
    const side = i % 2 === 0 ? -1 : 1
    const x = side * (wallRadius(shaft) + 0.8 + Math.floor(i / 2) * step)
    const [top, low] = [shaft.collar.value as number, (water.bottom.value as number) - UNDER / 2]
    return line([onPaper(placing, [x, top]), onPaper(placing, [x, low])], i < stage.running ? RUNNING : RESTING)
  })
}

const HEAD: Stroke = { width: 0.35, ink: 'air', dash: [1.6, 0.9] }
const UP: Stroke = { width: 0.4, ink: 'air' }
const DOWN: Stroke = { width: 0.4, ink: 'ink' }
/** Length of an arrow, mm. */
const ARROW = 6

function waterMarks(
  { water }: ShaftStage,
  shaft: Shaft,
  placing: Placing,
  window: PaperBox,
  units: SiteSubject['units'],
): Mark[] {
  const inner = (shaft.clearDiameter.value as number) / 2
  const head = water?.head.value
  const [left, y] = onPaper(placing, [-inner, water?.bottom.value as number])
  const [right] = onPaper(placing, [inner, 0])
  const length = Math.min(ARROW, window.bottom - y - 0.5)
  const at = (share: number): number => left + (right - left) * share
  return [
    line([[left, y], [right, y]], EDGE), // biome-ignore format: two ends
    ...[0.2, 0.8].flatMap((share) => pointing([at(share), y + length], [at(share), y], UP)),
    ...[0.35, 0.65].flatMap((share) => pointing([at(share), y - length], [at(share), y], DOWN)),
    ...(head === undefined ? [] : headLine(head, left, right, placing, units)),
  ]
}

function headLine(z: number, left: number, right: number, placing: Placing, units: SiteSubject['units']): Mark[] {
  const [, y] = onPaper(placing, [0, z])
  return [
    line([[left, y], [right, y]], HEAD), // biome-ignore format: two ends
    text([(left + right) / 2, y - 0.8], `head ${levelText(z, units)}`, { size: SMALL, anchor: 'middle', ink: 'air' }),
  ]
}

/** Heads of the other waters, which the wall holds out. */
function heldOut(ground: Ground, { water }: ShaftStage, placing: Placing, window: PaperBox): Mark[] {
  return Object.entries(ground.water).flatMap(([id, { head }]) => {
    if (id === water?.water) return []
    const [, y] = onPaper(placing, [0, head.value as number])
    return [
      line([[window.left, y], [window.left + 4, y]], HEAD), // biome-ignore format: two ends
      ...onTint(text([window.left + 0.6, y + SMALL], id, { size: SMALL, ink: 'air' })),
    ]
  })
}

function pointing(from: PaperPoint, to: PaperPoint, stroke: Stroke): Mark[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1])
  const back: PaperPoint = [(from[0] - to[0]) / length, (from[1] - to[1]) / length]
  return [line([from, to], stroke), headOf(to, back, stroke)]
}

/** A head that is seen at this size, mm. */
const HEAD_LONG = 2.2
const HEAD_WIDE = 1.5

const headOf = ([x, y]: PaperPoint, [dx, dy]: PaperPoint, { ink }: Stroke): Mark => ({
  kind: 'shape',
  loops: [
    [
      [x, y],
      [x + dx * HEAD_LONG - (dy * HEAD_WIDE) / 2, y + dy * HEAD_LONG + (dx * HEAD_WIDE) / 2],
      [x + dx * HEAD_LONG + (dy * HEAD_WIDE) / 2, y + dy * HEAD_LONG - (dx * HEAD_WIDE) / 2],
    ],
  ],
  fill: ink,
})

/** Words over lines, on the tint of the ground. */
const onTint = (words: Text): Mark[] => [box(widerBox(textBox(words), 0.2), { fill: 'ground' }), words]

function stageWords({ units }: SiteSubject, stage: ShaftStage, i: number, window: PaperBox): Mark[] {
  const { water, governing } = stage
  const pressure = (v: number | undefined): string => (v === undefined ? 'open' : showQuantity(v, 'Pa', units, 400_000))
  const lines = [
    `${i + 1} ${stage.title} ${levelText(stage.level, units)}`,
    `${stage.running} ${stage.running === 1 ? 'well runs' : 'wells run'}`,
    water === undefined
      ? 'no confined water under it'
      : `up ${pressure(water.pressure.value)}, down ${pressure(water.weight.value)}`,
    governing === undefined
      ? 'no check judges it'
      : `${governing.verdict}: ${useText(governing.utilisation)} of the limit,`,
    governing === undefined ? '' : governingWords(governing),
  ]
  const last = lines.length - 2
  return lines.flatMap((words, k) =>
    words === ''
      ? []
      : [
          text(
            [window.left, window.bottom + 3.4 + k * 3],
            shortened(words, SMALL, window.right - window.left, k === 0 ? 700 : 400),
            {
              size: SMALL,
              weight: k === 0 ? 700 : 400,
              ...(k >= last && governing?.verdict === 'fail' ? { ink: 'fail' as const } : {}),
            },
          ),
        ],
  )
}
