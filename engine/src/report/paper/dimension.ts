import {
  box,
  type Dimension,
  type Ink,
  type Mark,
  type PaperPoint,
  type Primitive,
  type Shape,
  type Stroke,
  type Text,
  text,
  textBox,
} from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { LABEL, THIN } from './pen.ts'
import { onPaper, type Placing } from './scale.ts'

export interface Measured {
  name: string
  /** A value of the derivation, m. */
  value: number
  words: string
  placing: Placing
  /** One end, in the view; the other lies `value` away along the direction. */
  from: Point2
  /** Across to the right, upwards, or a unit vector of the view. */
  along: 'across' | 'up' | Point2
  /** Where the dimension line runs: distance on paper to its left as it goes, mm; negative to its right. */
  offset: number
  ink?: Stroke['ink']
  weight?: 400 | 700
  /** How far from the middle the words stand, as a share of the line; 0 is the middle. */
  shift?: number
  /** Painted under the words, where they cross hatch or lines. */
  backed?: Ink
  /** No words of its own: a label says it. */
  silent?: boolean
}

const ARROW_LENGTH = 2
const ARROW_WIDTH = 0.62
const BEYOND = 1
const GAP = 0.7
/** Shorter than this the arrows point inwards from outside. */
const SHORT = 2 * ARROW_LENGTH + 1

const WAYS: Readonly<Record<'across' | 'up', Point2>> = { across: [1, 0], up: [0, 1] }

/** A dimension drawn at its true length: extension lines, line with filled arrows, words beside it. */
export function dimension(measured: Measured): Dimension {
  const { name, value, placing, from, along, offset } = measured
  const [wayU, wayV] = typeof along === 'string' ? WAYS[along] : along
  const to: Point2 = [from[0] + value * wayU, from[1] + value * wayV]
  const [start, end] = [onPaper(placing, from), onPaper(placing, to)]
  const shift: PaperPoint = [-wayV * offset, -wayU * offset]
  const [a, b] = [moved(start, shift), moved(end, shift)]
  const stroke: Stroke = { ...THIN, ink: measured.ink ?? 'ink' }
  return {
    kind: 'dimension',
    name: `${name}: ${measured.words}`,
    value,
    scale: placing.scale,
    from: a,
    to: b,
    marks: [
      ...extensions(start, a, stroke),
      ...extensions(end, b, stroke),
      ...dimensionLine(a, b, stroke),
      ...(measured.silent ? [] : backedWords(words(a, b, measured), measured.backed)),
    ],
  }
}

const AIR = 0.4

function backedWords(shown: Text, fill: Ink | undefined): Primitive[] {
  if (fill === undefined) return [shown]
  const { left, right, top, bottom } = textBox(shown)
  return [box({ left: left - AIR, right: right + AIR, top: top - AIR, bottom: bottom + AIR / 4 }, { fill }), shown]
}

const moved = ([x, y]: PaperPoint, [dx, dy]: PaperPoint): PaperPoint => [x + dx, y + dy]

function extensions(from: PaperPoint, to: PaperPoint, stroke: Stroke): Primitive[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1])
  if (length < GAP) return []
  const step = (t: number): PaperPoint => [
    from[0] + ((to[0] - from[0]) * t) / length,
    from[1] + ((to[1] - from[1]) * t) / length,
  ]
  return [{ kind: 'line', points: [step(GAP), step(length + BEYOND)], stroke: { ...stroke, width: 0.18 } }]
}

function dimensionLine(a: PaperPoint, b: PaperPoint, stroke: Stroke): Primitive[] {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  const way: PaperPoint = length === 0 ? [1, 0] : [(b[0] - a[0]) / length, (b[1] - a[1]) / length]
  const back: PaperPoint = [-way[0], -way[1]]
  if (length >= SHORT) return [{ kind: 'line', points: [a, b], stroke }, arrow(a, way, stroke), arrow(b, back, stroke)]
  const out = 2 * ARROW_LENGTH
  const ends: PaperPoint[] = [moved(a, [back[0] * out, back[1] * out]), moved(b, [way[0] * out, way[1] * out])]
  return [
    { kind: 'line', points: [a, b], stroke },
    { kind: 'line', points: [ends[0] as PaperPoint, a], stroke },
    { kind: 'line', points: [b, ends[1] as PaperPoint], stroke },
    arrow(a, back, stroke),
    arrow(b, way, stroke),
  ]
}

/** A filled arrow whose tip lies at `tip` and whose body runs `way`. */
export function arrow(tip: PaperPoint, way: PaperPoint, stroke: Stroke): Shape {
  const [x, y] = [tip[0] + way[0] * ARROW_LENGTH, tip[1] + way[1] * ARROW_LENGTH]
  const [sideX, sideY] = [(-way[1] * ARROW_WIDTH) / 2, (way[0] * ARROW_WIDTH) / 2]
  return {
    kind: 'shape',
    loops: [[tip, [x + sideX, y + sideY], [x - sideX, y - sideY]]],
    fill: stroke.ink,
  }
}

const ABOVE = 0.8
const OBLIQUE = 0.02

/** Above the line, read from below; beside an upright line, read from the right; beside an oblique one, level. */
function words(a: PaperPoint, b: PaperPoint, { words: shown, ink, weight, shift }: Measured): Text {
  const t = 0.5 + (shift ?? 0)
  const [x, y]: PaperPoint = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
  const look = { size: LABEL, weight: weight ?? 400, ink: ink ?? 'ink' } as const
  if (Math.abs(b[1] - a[1]) < OBLIQUE) return text([x, y - ABOVE], shown, { ...look, anchor: 'middle' })
  if (Math.abs(b[0] - a[0]) < OBLIQUE) return text([x - ABOVE, y], shown, { ...look, anchor: 'middle', turn: 90 })
  return text([x + 1.2, y - ABOVE], shown, look)
}

/** A level: an open triangle that stands on a short line, with its words. */
export function levelMark(at: PaperPoint, shown: string, side: 'left' | 'right', ink: Stroke['ink'] = 'ink'): Mark[] {
  const [x, y] = at
  const stroke: Stroke = { ...THIN, ink }
  const way = side === 'right' ? 1 : -1
  return [
    {
      kind: 'line',
      points: [
        [x, y],
        [x + way * 5, y],
      ],
      stroke,
    },
    {
      kind: 'shape',
      loops: [
        [
          [x + way * 1.6, y],
          [x + way * 0.6, y - 1.6],
          [x + way * 2.6, y - 1.6],
        ],
      ],
      fill: 'paper',
      stroke,
    },
    text([x + way * 3.2, y - 0.7], shown, { size: LABEL, anchor: side === 'right' ? 'start' : 'end', ink }),
  ]
}

/** Centre of gravity: a quartered circle. */
export function cogMark([x, y]: PaperPoint, radius = 1.5): Mark[] {
  const quarter = (from: number): PaperPoint[] => [
    [x, y],
    ...Array.from({ length: 7 }, (_, k): PaperPoint => {
      const angle = from + (k * Math.PI) / 12
      return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)]
    }),
  ]
  return [
    { kind: 'circle', centre: [x, y], radius, fill: 'paper', stroke: THIN },
    { kind: 'shape', loops: [quarter(0), quarter(Math.PI)], fill: 'ink' },
  ]
}
