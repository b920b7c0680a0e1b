import { box, type Mark, type PaperBox, text } from '../drawing.ts'
import { type Grain, grain, hatch } from '../paper/hatch.ts'
import { EDGE, FINE, HIDDEN, SMALL, THIN } from '../paper/pen.ts'
import { headingRow, proseRows, type Row } from '../paper/rows.ts'
import type { SiteSubject } from './subject.ts'

/** A hatch and what it stands for. */
export interface Swatch {
  words: string
  marks: (box: PaperBox) => Mark[]
}

const WIDE = 11
const HIGH = 4.6

/** Legend of the hatches of a drawing, and nothing else: all other marks carry their own words. */
export function hatchBlock(swatches: readonly Swatch[], width: number, basis = ''): Row[] {
  if (swatches.length === 0) return []
  return [
    headingRow('Hatches', width),
    ...swatches.map(
      (s): Row => ({
        height: HIGH + 1.4,
        marks: ([x, y]) => [
          ...s.marks({ left: x, right: x + WIDE, top: y + 0.7, bottom: y + 0.7 + HIGH }),
          text([x + WIDE + 2, y + 0.7 + HIGH / 2 + SMALL * 0.36], s.words, { size: SMALL }),
        ],
      }),
    ),
    ...(basis === '' ? [] : proseRows(basis, width, { size: SMALL, ink: 'quiet' })),
  ]
}

const LIGHT = { width: 0.13, ink: 'edge' } as const

const CONCRETE: Swatch = {
  words: 'concrete, cut',
  marks: (b) => {
    const shape = box(b, { fill: 'concrete', stroke: EDGE })
    return [shape, ...hatch(shape.loops, 1.6, Math.PI / 4, LIGHT)]
  },
}

const TREATED: Swatch = {
  words: 'ground treated, as wide as its eye and the cover asked',
  marks: (b) => {
    const shape = box(b, { stroke: HIDDEN })
    return [...hatch(shape.loops, 2.2, -Math.PI / 4, LIGHT), shape]
  },
}

const THING: Swatch = {
  words: 'fixed in the shaft',
  marks: (b) => {
    const shape = box(b, { fill: 'paper', stroke: THIN })
    return [shape, ...hatch(shape.loops, 0.8, -Math.PI / 4, FINE)]
  },
}

const CUT: Swatch = {
  words: 'steel, cut',
  marks: (b) => {
    const shape = box(b, { fill: 'paper', stroke: EDGE })
    return [shape, ...hatch(shape.loops, 1.1, Math.PI / 4, FINE)]
  },
}

/** Hatches that a plan of the site has. */
export function planHatches({ stages }: SiteSubject): Swatch[] {
  const { shaft, ground } = stages.model.project
  return [
    ...(shaft === undefined ? [] : [CONCRETE]),
    ...(Object.keys(shaft?.obstructions ?? {}).length === 0 ? [] : [THING]),
    ...(Object.keys(ground?.treatments ?? {}).length === 0 ? [] : [TREATED]),
  ]
}

/** Hatches that the sections have: concrete, steel, treated ground, and each kind of soil. */
export function sectionHatches({ stages, remaining }: SiteSubject, grains: readonly Grain[]): Swatch[] {
  const { shaft, ground } = stages.model.project
  return [
    ...grains.map(
      (kind): Swatch => ({
        words: kind,
        marks: (b) => [box(b, { fill: 'ground', stroke: FINE }), ...grain(kind, b)],
      }),
    ),
    ...(shaft === undefined ? [] : [CONCRETE]),
    ...(remaining.length === 0 ? [] : [CUT]),
    ...(Object.keys(ground?.treatments ?? {}).length === 0 ? [] : [TREATED]),
  ]
}
