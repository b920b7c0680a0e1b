import {
  boxesMeet,
  cross,
  type Mark,
  type PaperBox,
  type PaperPoint,
  type Text,
  text,
  textBox,
  widerBox,
} from '../drawing.ts'
import { wrapText } from '../fontWidth.ts'
import { AXIS, FINE, SMALL } from '../paper/pen.ts'
import { RATIOS } from '../site/layout.ts'
import type { BoltUpBlock } from './boltUpSheet.ts'

/** A picture that stands in a row of print. */
export interface BoltPicture {
  width: number
  height: number
  marks: (at: PaperPoint) => Mark[]
}

const NUMBER = 1.9
/** Steps outwards by which numbers that would meet are staggered, and the room they take round the bolts, mm. */
const STEP = 2.7
const MOST_RINGS = 3
const LABELS = 2.2 + STEP * MOST_RINGS
const LEAST_BOLT = 0.3
const CAPTION = SMALL - 0.2
const LINE = CAPTION * 1.25

/** One bolt in so many is numbered: the first with which no numbers meet. */
const SKIPPED = [1, 2, 5, 10, 20, 50, 100]
const MOST_SKIPPED = 100

type Place = readonly [x: number, y: number]

/**
 * Bolts where they stand, to scale, numbered from 1: the number outside, which stroke takes it inside; undefined where their
 * places are not known.
 *
 * @param most width and height that it may take, mm
 */
export function boltPicture(block: BoltUpBlock, most: number): BoltPicture | undefined {
  const { at } = block.places
  if (at.length === 0) return undefined
  const span = (axis: 0 | 1): number => Math.max(...at.map((p) => p[axis])) - Math.min(...at.map((p) => p[axis]))
  const longest = Math.max(span(0), span(1), block.diameter ?? 0.02)
  const room = most - 2 * LABELS
  const ratio = RATIOS.find((r) => (longest * 1000) / r <= room) ?? (RATIOS.at(-1) as number)
  const paper = (metres: number): number => (metres * 1000) / ratio
  const high = paper(span(1)) + 2 * LABELS
  const face = { size: CAPTION, weight: 400, tabular: false } as const
  // the caption may say less than this once the numbers are set, never more
  const lines = wrapText(captionOf(block, ratio, MOST_SKIPPED), face, most).length
  return {
    width: most,
    height: high + lines * LINE + 1,
    marks: ([x, y]) => {
      const middle = [0, 1].map((k) => middleOf(at, k as 0 | 1)) as unknown as Place
      const place = ([px, py]: Place): PaperPoint => [
        x + most / 2 + paper(px - middle[0]),
        y + high / 2 - paper(py - middle[1]),
      ]
      return [pictureView(block, { place, ratio, words: [x, y + high + CAPTION], width: most })]
    },
  }
}

const middleOf = (at: readonly Place[], axis: 0 | 1): number =>
  (Math.max(...at.map((p) => p[axis])) + Math.min(...at.map((p) => p[axis]))) / 2

interface Laid {
  place: (at: Place) => PaperPoint
  ratio: number
  words: PaperPoint
  width: number
}

function pictureView(block: BoltUpBlock, { place, ratio, words, width }: Laid): Mark {
  const { places, diameter, joint } = block
  const radius = Math.max(LEAST_BOLT, ((diameter ?? 0) * 500) / ratio)
  const bolts = places.at.map(
    (at): Mark => ({ kind: 'circle', centre: place(at), radius, stroke: FINE, fill: 'paper' }),
  )
  const { numbers, every } = numbered(block, place, radius)
  const caption = wrapText(captionOf(block, ratio, every), { size: CAPTION, weight: 400, tabular: false }, width)
  return {
    kind: 'view',
    id: `bolts-${joint}`,
    title: `Bolts of ${joint} in their order`,
    scale: ratio,
    marks: [
      ...circleMarks(block, place, ratio),
      ...bolts,
      ...numbers,
      ...caption.map((line, i) => text([words[0], words[1] + i * LINE], line, { size: CAPTION, ink: 'quiet' })),
    ],
  }
}

function captionOf({ places, strokes }: BoltUpBlock, ratio: number, every: number): string {
  const from = places.kind === 'circle' ? ', 1 at the top and on clockwise' : ''
  const number = every === 1 ? 'the number' : `the number of one in ${every}`
  return `1 : ${ratio}, seen along the joint${from}; outside ${number}${strokes.length === 0 ? '' : ', inside the stroke'}`
}

/** The bolt circle and its axes. */
function circleMarks({ places: { kind, at } }: BoltUpBlock, place: Laid['place'], ratio: number): Mark[] {
  if (kind !== 'circle') return []
  const radius = (Math.hypot(...(at[0] as Place)) * 1000) / ratio
  const centre = place([0, 0])
  return [{ kind: 'circle', centre, radius, stroke: AXIS }, ...cross(centre, radius * 0.25, AXIS)]
}

/** Numbers of bolts and strokes, staggered until none meet; where that is not enough only every second, fifth … is numbered. */
function numbered(block: BoltUpBlock, place: Laid['place'], radius: number): { numbers: Text[]; every: number } {
  const strokes = new Map(block.strokes.flatMap((bolts, i) => bolts.map((bolt) => [bolt, i + 1] as const)))
  for (const every of SKIPPED) {
    for (let rings = 1; rings <= MOST_RINGS; rings++) {
      const numbers = numbersAt(block, strokes, { place, radius, every, rings })
      if (!anyMeet(numbers.map((n) => widerBox(textBox(n), 0.15)))) return { numbers, every }
    }
  }
  return { numbers: [], every: MOST_SKIPPED }
}

interface Numbering {
  place: Laid['place']
  radius: number
  every: number
  rings: number
}

function numbersAt(
  { places }: BoltUpBlock,
  strokes: ReadonlyMap<number, number>,
  { place, radius, every, rings }: Numbering,
): Text[] {
  const centre = centreOf(places.at, places.kind)
  const numberAt = ([x, y]: PaperPoint, [ux, uy]: Place, reach: number, words: string, ink: 'ink' | 'quiet'): Text =>
    text([x + ux * reach, y - uy * reach + NUMBER * 0.36], words, {
      size: NUMBER,
      anchor: 'middle',
      tabular: true,
      ink,
    })
  return places.at.flatMap((at, i) => {
    if (i % every !== 0) return []
    const out = outwards(at, centre)
    const reach = radius + 1.7 + STEP * ((i / every) % rings)
    const stroke = strokes.get(i + 1)
    return [
      numberAt(place(at), out, reach, `${i + 1}`, 'ink'),
      ...(stroke === undefined ? [] : [numberAt(place(at), out, -reach, `${stroke}`, 'quiet')]),
    ]
  })
}

/** What the numbers point away from: the middle of the circle; rows have theirs above and below. */
function centreOf(at: readonly Place[], kind: BoltUpBlock['places']['kind']): Place | undefined {
  if (kind === 'circle') return [0, 0]
  if (kind !== 'arc' || at.length < 3) return undefined
  return throughThree(at[0] as Place, at[Math.floor(at.length / 2)] as Place, at.at(-1) as Place)
}

/** Centre of the circle through three points: where the perpendicular bisectors meet. */
function throughThree([ax, ay]: Place, [bx, by]: Place, [cx, cy]: Place): Place | undefined {
  const d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
  if (Math.abs(d) < 1e-12) return undefined
  const [a, b, c] = [ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy]
  return [(a * (by - cy) + b * (cy - ay) + c * (ay - by)) / d, (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / d]
}

function outwards([x, y]: Place, centre: Place | undefined): Place {
  if (centre === undefined) return [0, 1]
  const [dx, dy] = [x - centre[0], y - centre[1]]
  const length = Math.hypot(dx, dy)
  return length === 0 ? [0, 1] : [dx / length, dy / length]
}

const anyMeet = (boxes: readonly PaperBox[]): boolean => {
  const sorted = [...boxes].sort((a, b) => a.left - b.left)
  return sorted.some((a, i) => {
    for (let k = i + 1; k < sorted.length && (sorted[k] as PaperBox).left < a.right; k++)
      if (boxesMeet(a, sorted[k] as PaperBox)) return true
    return false
  })
}
