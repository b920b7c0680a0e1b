import { line, type Mark, type PaperPoint, text } from '../drawing.ts'
import { arrow } from './dimension.ts'
import { FINE, SMALL, THIN } from './pen.ts'
import { onPaper, type Placing } from './scale.ts'
import { spread } from './spread.ts'

/** A place that a ruler gives. */
export interface Stop {
  /** From the ruler's zero, m, along it. */
  value: number
  words: string
  name: string
}

interface Ruler {
  stops: readonly Stop[]
  placing: Placing
  /** Along the view's across or up; the ruler runs at this place on paper: y of one that runs across, x of one that runs up. */
  along: 'across' | 'up'
  at: number
  /** Where its lines begin, on the side of the picture. */
  from: number
}

const ZERO: Stop = { value: 0, words: '0', name: 'zero' }
const APART = 2.7
const WORDS = 3

/**
 * Running dimensions from one zero: a line with a tick for each place and its distance beside it (superimposed running
 * dimensions, as ISO 129 has them, from memory). Words that crowd are spread, each tied to its tick.
 */
export function runningDimensions({ stops, placing, along, at, from }: Ruler): Mark[] {
  const zeroed = stops.some((s) => s.value === 0) ? stops : [...stops, ZERO]
  const sorted = [...zeroed].sort((a, b) => (along === 'across' ? a.value - b.value : b.value - a.value))
  const zero = pointOf(placing, along, 0, at)
  const ends = sorted.map((s) => pointOf(placing, along, s.value, at))
  const axis = along === 'across' ? 0 : 1
  const places = spread(
    ends.map((p) => p[axis]),
    APART,
  )
  return [
    { kind: 'circle', centre: zero, radius: 0.7, fill: 'paper', stroke: THIN },
    ...sorted.map((stop, i): Mark => {
      const end = ends[i] as PaperPoint
      const way: PaperPoint = along === 'across' ? [Math.sign(stop.value), 0] : [0, -Math.sign(stop.value)]
      const start: PaperPoint = along === 'across' ? [end[0], from] : [from, end[1]]
      return {
        kind: 'dimension',
        name: `${stop.name}: ${stop.words}`,
        value: Math.abs(stop.value),
        scale: placing.scale,
        from: zero,
        to: end,
        marks: [
          line([start, end], FINE),
          ...(stop.value === 0 ? [] : [line([zero, end], THIN), arrow(end, [-way[0], -way[1]], THIN)]),
          ...stopWords(stop.words, along, end, places[i] as number, Math.sign(at - from)),
        ],
      }
    }),
  ]
}

function pointOf(placing: Placing, along: 'across' | 'up', value: number, at: number): PaperPoint {
  const [x, y] = onPaper(placing, along === 'across' ? [value, 0] : [0, value])
  return along === 'across' ? [x, at] : [at, y]
}

function stopWords(words: string, along: 'across' | 'up', [x, y]: PaperPoint, place: number, side: number) {
  if (along === 'up')
    return [
      line(
        [
          [x, y],
          [x + side * WORDS, place],
        ],
        FINE,
      ),
      text([x + side * (WORDS + 0.6), place + SMALL * 0.36], words, {
        size: SMALL,
        anchor: side < 0 ? 'end' : 'start',
      }),
    ]
  return [
    line(
      [
        [x, y],
        [place, y + side * WORDS],
      ],
      FINE,
    ),
    text([place + SMALL * 0.36, y + side * (WORDS + 0.6)], words, {
      size: SMALL,
      turn: 90,
      anchor: side < 0 ? 'start' : 'end',
    }),
  ]
}
