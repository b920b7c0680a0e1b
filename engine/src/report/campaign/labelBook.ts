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
import type { Weight } from '../fontWidth.ts'
import { FINE } from '../paper/pen.ts'

/** A place that words may take: the baseline of their first line. */
export interface Spot {
  x: number
  y: number
  anchor: Text['anchor']
}

/** Words that want a place: the fullest form first, then shorter ones; places in the order of liking. */
export interface Wish {
  forms: readonly (readonly string[])[]
  spots: readonly Spot[]
  size: number
  ink?: Ink
  weight?: Weight
  /** What it speaks of: a fine line leads there when the label stands away from it. */
  from?: PaperPoint
  /** Pointer of what it speaks of: the page lets it stand out with that. */
  of?: string
  /** Not worth a word when it finds no place: its mark says it. */
  isMinor?: boolean
  /** The sheet says it whatever it meets: where no place is free, fullest at the best. */
  isDue?: boolean
}

const LINE_STEP = 1.16
const AIR = 0.35

/** Words placed so that they meet no other words and nothing that was taken before; what found no place is told. */
export interface LabelBook {
  marks: readonly Mark[]
  dropped: readonly string[]
}

/**
 * Each wish takes its fullest form at its best free place, else a shorter form; one that fits nowhere is dropped and listed.
 *
 * @param taken boxes of words and marks that no label may stand on
 * @param room the labels stay inside it
 */
export function labelBook(wishes: readonly Wish[], taken: readonly PaperBox[], room: PaperBox): LabelBook {
  const grid = boxGrid(taken)
  const marks: Mark[] = []
  const dropped: string[] = []
  for (const wish of wishes) {
    const found = placed(wish, grid, room) ?? (wish.isDue === true ? wordsAt(wish, 0, 0) : undefined)
    if (found === undefined) {
      if (wish.isMinor !== true) dropped.push((wish.forms[0] ?? []).join(', '))
      continue
    }
    const boxes = found.map(textBox)
    boxes.forEach(grid.add)
    const leader = wish.from === undefined ? undefined : leaderTo(found[0] as Text, wish.from)
    const backs = boxes.map((b) => box(widerBox(b, AIR), { fill: 'paper' }))
    const own = [...(leader === undefined ? [] : [leader]), ...backs, ...found]
    const title = found.map((t) => t.text).join(', ')
    marks.push(
      ...(wish.of === undefined ? own : [{ kind: 'view', id: `label:${wish.of}`, title, marks: own } as const]),
    )
  }
  return { marks, dropped }
}

const NEAR = 3.2

function leaderTo(words: Text, from: PaperPoint): Mark | undefined {
  const { left, right, top, bottom } = textBox(words)
  const x = from[0] < left ? left : right
  if (Math.abs(x - from[0]) < NEAR) return undefined
  const y = (top + bottom) / 2
  return line(
    [
      [from[0], y],
      [x, y],
    ],
    FINE,
  )
}

function placed(wish: Wish, grid: Grid, room: PaperBox): Text[] | undefined {
  for (const form of wish.forms.keys())
    for (const spot of wish.spots.keys()) {
      const texts = wordsAt(wish, form, spot)
      if (texts.every((t) => isFree(widerBox(textBox(t), AIR), grid, room))) return texts
    }
  return undefined
}

/** One of its forms at one of its places. */
function wordsAt({ forms, spots, size, ink = 'ink', weight = 400 }: Wish, form: number, spot: number): Text[] {
  const { x, y, anchor } = spots[spot] as Spot
  return (forms[form] ?? []).map((words, i) =>
    text([x, y + i * size * LINE_STEP], words, { size, anchor, ink, weight: i === 0 ? weight : 400 }),
  )
}

const isFree = (b: PaperBox, grid: Grid, room: PaperBox): boolean =>
  b.left >= room.left && b.right <= room.right && b.top >= room.top && b.bottom <= room.bottom && !grid.meets(b)

interface Grid {
  add(box: PaperBox): void
  meets(box: PaperBox): boolean
}

const CELL = 12

/** Boxes by the cells of a grid that they reach, so that asking is cheap among many. */
function boxGrid(boxes: readonly PaperBox[]): Grid {
  const cells = new Map<number, PaperBox[]>()
  const keys = ({ left, top, right, bottom }: PaperBox): number[] => {
    const result: number[] = []
    for (let x = Math.floor(left / CELL); x <= Math.floor(right / CELL); x++)
      for (let y = Math.floor(top / CELL); y <= Math.floor(bottom / CELL); y++) result.push(x * 1000 + y)
    return result
  }
  const add = (b: PaperBox): void => {
    for (const key of keys(b)) {
      const own = cells.get(key)
      if (own === undefined) cells.set(key, [b])
      else own.push(b)
    }
  }
  boxes.forEach(add)
  return { add, meets: (b) => keys(b).some((key) => cells.get(key)?.some((other) => boxesMeet(b, other)) === true) }
}
