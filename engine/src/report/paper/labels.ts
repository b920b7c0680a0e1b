import {
  box,
  boxesMeet,
  type Ink,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  type Text,
  text,
  textBox,
  widerBox,
} from '../drawing.ts'
import { cutInside, type Face, wrapText } from '../fontWidth.ts'
import { FINE, LABEL, SMALL } from './pen.ts'

/** Words that want to stand near something. */
export interface Label {
  lines: readonly string[]
  /** What they speak of. */
  at: PaperPoint
  /** Other places that would do, tried after it at every distance. */
  or?: readonly PaperPoint[]
  ink?: Text['ink']
  weight?: Text['weight']
  size?: number
  /** Preferred way out from the point, in degrees from the paper's right, anticlockwise. */
  towards?: number
  /** How far it may turn from there, degrees; any way where not said. */
  within?: number
  /** Distance at which to begin, mm. */
  from?: number
  /** Painted on paper colour, or on the tint that it stands on, where it crosses hatch or lines. */
  backed?: boolean | Ink
  /** A smaller room than the rest have. */
  room?: PaperBox
}

const LINE_STEP = 1.18
/** A line of a label that takes more of the room than this share, and more than the least, mm, is cut. */
const LONGEST = 0.5
const LEAST = 40
const REACHES = [0, 1.5, 3.5, 6, 9, 12.5, 16.5, 21, 26, 32, 38, 45]
const TURNS = [0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150, 180]
const LEADER_FROM = 2.2
const AIR = 0.4

/**
 * Labels where they meet no other text, inside the room: each takes the nearest free place, with a leader when that is far.
 * What finds no place is given back, not dropped; a line too long for the room is cut in its middle, for a figure or a number at
 * its end tells most, and given back whole.
 *
 * @param taken boxes of texts already placed
 */
export function placeLabels(
  labels: readonly Label[],
  taken: readonly PaperBox[],
  room: PaperBox,
): { marks: Mark[]; unplaced: readonly Label[]; cut: readonly string[] } {
  const boxes = [...taken]
  const backs: Mark[] = []
  const marks: Mark[] = []
  const unplaced: Label[] = []
  const cut: string[] = []
  for (const whole of labels) {
    const label = fitted(whole, whole.room ?? room)
    const spot = spotOf(label, boxes, label.room ?? room)
    cut.push(...whole.lines.filter((words, i) => words !== label.lines[i]))
    if (spot === undefined) {
      unplaced.push(label)
      continue
    }
    boxes.push(...spot.texts.map(textBox))
    if (spot.leader !== undefined) boxes.push(...alongBoxes(spot.leader))
    backs.push(...backsOf(label, spot))
    if (spot.leader !== undefined) marks.push(line(spot.leader, { ...FINE, ink: label.ink ?? 'ink' }))
    marks.push(...spot.texts)
  }
  return { marks: [...backs, ...marks], unplaced, cut }
}

function fitted(label: Label, room: PaperBox): Label {
  const most = Math.max(LEAST, LONGEST * (room.right - room.left))
  const size = label.size ?? LABEL
  const faceOf = (i: number): Face => ({ size, weight: i === 0 ? (label.weight ?? 400) : 400, tabular: false })
  return { ...label, lines: label.lines.map((words, i) => cutInside(words, faceOf(i), most)) }
}

/** Rounds in which the list of what found no place may grow. */
const ROUNDS = 4

/**
 * Labels with a list of those that found no place, and of those that were cut, at the foot of the room, which is kept free for
 * it: nothing is dropped.
 *
 * @param listed names that stand whole elsewhere: a line that was cut because of one is not listed
 * @param right where the list ends, where that is not the right of the room: something else stands in its corner
 */
export function labelMarks(
  labels: readonly Label[],
  taken: readonly PaperBox[],
  room: PaperBox,
  listed: readonly string[] = [],
  right = room.right,
): Mark[] {
  const footRoom = { ...room, right }
  let foot = 0
  for (let round = 1; ; round++) {
    const left = { ...room, bottom: room.bottom - foot }
    const { marks, unplaced, cut } = placeLabels(
      labels.map((label) => raised(label, left.bottom)),
      taken,
      left,
    )
    const whole = cut.filter((words) => !listed.some((name) => words.includes(name)))
    if (unplaced.length === 0 && whole.length === 0) return marks
    const list = [
      ...listOf(
        'No room for',
        unplaced.map((l) => l.lines.join(', ')),
        footRoom,
      ),
      ...listOf('In full', whole, footRoom),
    ]
    const needed = list.length * SMALL * LINE_STEP + 0.8
    if (needed <= foot || round === ROUNDS) return [...marks, ...listMarks(list, footRoom)]
    foot = needed
  }
}

/** A label whose own room reaches below a line has that room moved up to it. */
function raised(label: Label, bottom: number): Label {
  if (label.room === undefined || label.room.bottom <= bottom) return label
  const by = label.room.bottom - bottom
  return { ...label, room: { ...label.room, top: label.room.top - by, bottom } }
}

function listOf(title: string, words: readonly string[], room: PaperBox): string[] {
  if (words.length === 0) return []
  const face = { size: SMALL, weight: 400, tabular: false } as const
  return wrapText(`${title}: ${[...new Set(words)].join('; ')}.`, face, room.right - room.left)
}

function listMarks(list: readonly string[], room: PaperBox): Mark[] {
  const lines = list.map((line, i) =>
    text([room.left, room.bottom - (list.length - 1 - i) * SMALL * LINE_STEP - 0.5], line, {
      size: SMALL,
      ink: 'quiet',
    }),
  )
  return [...lines.map((t) => box(widerBox(textBox(t), AIR), { fill: 'paper' })), ...lines]
}

function backsOf({ backed }: Label, { texts }: Spot): Mark[] {
  if (backed === undefined || backed === false) return []
  return texts.map((t) => box(widerBox(textBox(t), AIR), { fill: backed === true ? 'paper' : backed }))
}

interface Spot {
  texts: readonly Text[]
  leader?: readonly [PaperPoint, PaperPoint]
}

function spotOf(label: Label, boxes: readonly PaperBox[], room: PaperBox): Spot | undefined {
  for (const reach of REACHES) {
    for (const at of [label.at, ...(label.or ?? [])]) {
      for (const turn of TURNS) {
        if (Math.abs(turn) > (label.within ?? 180)) continue
        const angle = ((label.towards ?? 0) + turn) * (Math.PI / 180)
        const spot = spotAt({ ...label, at }, reach + (label.from ?? 1), angle)
        if (isFree(spot, boxes, room)) return spot
      }
    }
  }
  return undefined
}

function spotAt(label: Label, reach: number, angle: number): Spot {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const foot: PaperPoint = [label.at[0] + reach * c, label.at[1] - reach * s]
  const size = label.size ?? LABEL
  const height = size * LINE_STEP * label.lines.length
  const anchor: Text['anchor'] = c > 0.35 ? 'start' : c < -0.35 ? 'end' : 'middle'
  const top = foot[1] - height * ((1 + s) / 2) + size * 0.86
  const shift = anchor === 'start' ? 0.6 : anchor === 'end' ? -0.6 : 0
  const texts = label.lines.map((words, i) =>
    text([foot[0] + shift, top + i * size * LINE_STEP], words, {
      size,
      anchor,
      ink: label.ink ?? 'ink',
      weight: i === 0 ? (label.weight ?? 400) : 400,
    }),
  )
  return reach > LEADER_FROM + (label.from ?? 1) ? { texts, leader: [label.at, foot] } : { texts }
}

function isFree({ texts, leader }: Spot, boxes: readonly PaperBox[], room: PaperBox): boolean {
  const own = texts.map((t) => widerBox(textBox(t), AIR))
  const inside = own.every(
    (b) => b.left >= room.left && b.right <= room.right && b.top >= room.top && b.bottom <= room.bottom,
  )
  if (!inside || own.some((b) => boxes.some((other) => boxesMeet(b, other)))) return false
  return leader === undefined || !alongBoxes(leader).some((b) => boxes.some((other) => boxesMeet(b, other)))
}

/** Small boxes along a line, so that no words stand on it and no leader crosses words. */
export function alongBoxes([a, b]: readonly [PaperPoint, PaperPoint]): PaperBox[] {
  const count = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / 1.2))
  return Array.from({ length: count }, (_, k) => {
    const t = (k + 0.5) / count
    const [x, y] = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
    return { left: x - 0.15, right: x + 0.15, top: y - 0.15, bottom: y + 0.15 }
  })
}
