import type { Line, PaperBox, PaperPoint, Stroke } from '../drawing.ts'
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

/** How a layer of ground is drawn: a quiet grain, not the sign of any standard. */
export type Grain = 'clay' | 'sand' | 'gravel' | 'till' | 'made ground' | 'rock'

const GRAIN_WORDS: readonly (readonly [RegExp, Grain])[] = [
  [/made|fill/i, 'made ground'],
  [/till|moraine/i, 'till'],
  [/gravel|cobble/i, 'gravel'],
  [/sand|silt/i, 'sand'],
  [/rock|stone|chalk|marl|granite|shale/i, 'rock'],
]

/** The grain that a layer's name calls for; clay when it names nothing else. */
export const grainOf = (name: string): Grain => GRAIN_WORDS.find(([word]) => word.test(name))?.[1] ?? 'clay'

const GRAIN_STROKE: Stroke = { width: 0.15, ink: 'edge' }

/** Grain of a layer in a box of paper: dashes, dots and strokes on a lattice that is the same every time. */
export function grain(kind: Grain, room: PaperBox): Line[] {
  const [stepX, stepY, marks] = GRAINS[kind]
  const lines: Line[] = []
  let row = 0
  for (let y = room.top + stepY / 2; y < room.bottom - 0.3; y += stepY, row++) {
    for (let x = room.left + (row % 2 === 0 ? 0.3 : stepX / 2); x < room.right; x += stepX) {
      for (const [x1, y1, x2, y2] of marks) {
        const points: PaperPoint[] = [
          [x + x1, y + y1],
          [x + x2, y + y2],
        ]
        if (points.every((p) => p[0] <= room.right && p[1] >= room.top && p[1] <= room.bottom))
          lines.push({ kind: 'line', points, stroke: GRAIN_STROKE })
      }
    }
  }
  return lines
}

type GrainMark = readonly [number, number, number, number]

const GRAINS: Readonly<Record<Grain, readonly [stepX: number, stepY: number, marks: readonly GrainMark[]]>> = {
  clay: [4, 1.6, [[0, 0, 2.6, 0]]],
  sand: [1.6, 1.4, [[0, 0, 0.2, 0]]],
  gravel: [
    3,
    2.2,
    [
      [0, 0.3, 0.5, -0.2],
      [0.5, -0.2, 1, 0.3],
      [1, 0.3, 0, 0.3],
      [2.1, 0.8, 2.3, 0.8],
    ],
  ],
  till: [
    4,
    2,
    [
      [0, 0, 2, 0],
      [2.8, 0.4, 3.2, 0],
    ],
  ],
  'made ground': [
    3.6,
    2,
    [
      [0, 0.4, 0.8, -0.4],
      [1.8, 0.1, 2, 0.1],
    ],
  ],
  rock: [
    6,
    2.4,
    [
      [0, 0, 6, 0],
      [3, 0, 3, 1.2],
    ],
  ],
}
