import type { Line, PaperBox, PaperPoint, Shape, Stroke } from '../drawing.ts'
import { FINE } from './pen.ts'

/**
 * Parallel lines inside closed loops (inside where an odd number of loops surround), as real lines: screen, paper and
 * print show the same ones.
 *
 * @param spacing mm
 * @param angle of the lines from the paper's x axis, rad; they rise to the right when positive
 */
export function hatch(
  loops: readonly (readonly PaperPoint[])[],
  spacing: number,
  angle: number,
  stroke: Stroke = FINE,
): Line[] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const turned = loops.map((loop) => loop.map(([x, y]): PaperPoint => [x * c - y * s, x * s + y * c]))
  const heights = turned.flat().map(([, y]) => y)
  const lines: Line[] = []
  const last = Math.floor(Math.max(...heights) / spacing)
  for (let k = Math.ceil(Math.min(...heights) / spacing); k <= last; k++) {
    const level = (k + 0.5) * spacing
    const crossings = turned.flatMap((loop) => crossingsAt(loop, level)).sort((a, b) => a - b)
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const ends = [crossings[i], crossings[i + 1]].map(
        (x): PaperPoint => [(x as number) * c + level * s, -(x as number) * s + level * c],
      )
      lines.push({ kind: 'line', points: ends, stroke })
    }
  }
  return lines
}

function crossingsAt(loop: readonly PaperPoint[], level: number): number[] {
  return loop.flatMap(([x1, y1], i) => {
    const [x2, y2] = loop[(i + 1) % loop.length] as PaperPoint
    return y1 <= level === y2 <= level ? [] : [x1 + ((level - y1) / (y2 - y1)) * (x2 - x1)]
  })
}

/** Many lines as one path, which a page draws and selects as one thing. */
export function asOne(lines: readonly Line[]): Shape[] {
  const stroke = lines[0]?.stroke
  return stroke === undefined ? [] : [{ kind: 'shape', loops: lines.map((l) => l.points), stroke }]
}

/** How a layer of ground is drawn: a quiet grain after what it is made of. */
export type Grain = 'clay' | 'silt' | 'sand' | 'gravel' | 'cobbles' | 'till' | 'made ground' | 'rock'

/** Where the patterns come from, to be printed beside them. */
export const GRAIN_BASIS =
  'Patterns in the manner of ISO 710 (dots for sand, rings for gravel, dashes for clay), drawn from memory; the name of the layer decides, not the pattern.'

const GRAIN_WORDS: readonly (readonly [RegExp, Grain])[] = [
  [/made|fill/i, 'made ground'],
  [/till|moraine/i, 'till'],
  [/gravel|cobble/i, 'gravel'],
  [/sand|silt/i, 'sand'],
  [/rock|stone|chalk|marl|granite|shale/i, 'rock'],
]

/** The grain that a layer's name calls for; clay when it names nothing else. */
export const grainOf = (name: string): Grain => GRAIN_WORDS.find(([word]) => word.test(name))?.[1] ?? 'clay'

const SOILS: readonly (readonly [RegExp, Grain])[] = [
  [/\bsand/i, 'sand'],
  [/\bgravel/i, 'gravel'],
  [/cobble|boulder/i, 'cobbles'],
  [/\bsilt/i, 'silt'],
  [/\bclay/i, 'clay'],
]

/** Every grain that a layer's name calls for: a gravelly sand with cobbles has three. */
export function grainsOf(name: string): Grain[] {
  const first = grainOf(name)
  if (first === 'made ground' || first === 'till' || first === 'rock') return [first]
  const all = SOILS.filter(([word]) => word.test(name)).map(([, kind]) => kind)
  return all.length === 0 ? [first] : all
}

const GRAIN_STROKE: Stroke = { width: 0.15, ink: 'edge' }

/** Grain of a layer in a box of paper: dashes, dots and rings on a lattice that is the same every time. */
export function grain(kind: Grain, room: PaperBox): Line[] {
  const [stepX, stepY, marks] = GRAINS[kind]
  const lines: Line[] = []
  let row = 0
  for (let y = room.top + stepY / 2; y < room.bottom - 0.3; y += stepY, row++) {
    for (let x = room.left + (row % 2 === 0 ? 0.3 : stepX / 2); x < room.right; x += stepX) {
      for (const mark of marks) {
        const points = mark.map(([dx, dy]): PaperPoint => [x + dx, y + dy])
        if (points.every((p) => p[0] <= room.right && p[1] >= room.top && p[1] <= room.bottom))
          lines.push({ kind: 'line', points, stroke: GRAIN_STROKE })
      }
    }
  }
  return lines
}

/** Points of one stroke from its place on the lattice, mm. */
type GrainMark = readonly PaperPoint[]

const dash = (x1: number, y1: number, x2: number, y2: number): GrainMark => [
  [x1, y1],
  [x2, y2],
]

const ring = (x: number, y: number, wide: number, high: number): GrainMark =>
  Array.from({ length: 7 }, (_, k): PaperPoint => {
    const angle = (k * Math.PI) / 3
    return [x + wide * Math.cos(angle), y + high * Math.sin(angle)]
  })

const GRAINS: Readonly<Record<Grain, readonly [stepX: number, stepY: number, marks: readonly GrainMark[]]>> = {
  clay: [4, 1.6, [dash(0, 0, 2.6, 0)]],
  silt: [4.4, 2.2, [dash(0, 0, 1.2, 0), dash(2.2, 0, 2.4, 0)]],
  sand: [1.6, 1.4, [dash(0, 0, 0.2, 0)]],
  gravel: [3.4, 2.8, [ring(0.6, 0, 0.45, 0.4)]],
  cobbles: [9, 5.6, [ring(3, 0, 1.1, 0.75)]],
  till: [
    4.6,
    2.2,
    [
      dash(0, 0, 2, 0),
      [
        [2.9, 0.35],
        [3.3, -0.35],
        [3.7, 0.35],
        [2.9, 0.35],
      ],
    ],
  ],
  'made ground': [3.6, 2, [dash(0, 0.4, 0.8, -0.4), dash(0, -0.4, 0.8, 0.4), dash(1.8, 0.1, 2, 0.1)]],
  rock: [6, 2.4, [dash(0, 0, 6, 0), dash(3, 0, 3, 1.2)]],
}
