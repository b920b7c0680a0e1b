import { ASCENT, DESCENT, type Face, missingGlyphs, printableText, textWidth, type Weight } from './fontWidth.ts'
import { figuresKept } from './rightToLeft.ts'

/** A point on paper: millimetres from the top left corner, y downwards. */
export type PaperPoint = readonly [x: number, y: number]

/** Colours by what they mean; both writers and the page look them up. */
export type Ink =
  | 'ink'
  | 'quiet'
  | 'edge'
  | 'hair'
  | 'fail'
  | 'now'
  | 'paper'
  | 'steel'
  | 'pale'
  | 'concrete'
  | 'ground'
  | 'air'

export const INKS: Readonly<Record<Ink, string>> = {
  ink: '#171B19',
  quiet: '#555A55',
  edge: '#84827A',
  hair: '#B4B1A6',
  fail: '#A31D0B',
  now: '#00625A',
  paper: '#FFFFFF',
  steel: '#C3C8C7',
  pale: '#ECEDEA',
  concrete: '#D5D8D8',
  ground: '#F3EFE4',
  air: '#2A628F',
}

export interface Stroke {
  /** Line width, mm. */
  width: number
  ink: Ink
  /** Lengths of dashes and gaps, mm. */
  dash?: readonly number[]
}

/** What both writers know how to put on paper. */
export type Primitive = Line | Shape | Circle | Text | Photograph

export interface Line {
  kind: 'line'
  points: readonly PaperPoint[]
  stroke: Stroke
}

/** Closed loops, filled where an odd number of them surround. */
export interface Shape {
  kind: 'shape'
  loops: readonly (readonly PaperPoint[])[]
  fill?: Ink
  stroke?: Stroke
}

/** A photograph kept beside the project, as large as it fits into a box, and in its middle. A drawing names it; whoever writes the drawing has its bytes. */
export interface Photograph {
  kind: 'photograph'
  /** SHA-256 of its bytes. */
  hash: string
  /** What is to be seen, for those who do not see it. */
  words: string
  box: PaperBox
}

export interface Circle {
  kind: 'circle'
  centre: PaperPoint
  radius: number
  fill?: Ink
  stroke?: Stroke
}

export interface Text {
  kind: 'text'
  text: string
  /** Start, middle or end of the baseline, by `anchor`. */
  at: PaperPoint
  anchor: 'start' | 'middle' | 'end'
  /** Height of the letter's body, mm. */
  size: number
  weight: Weight
  tabular: boolean
  ink: Ink
  /** 0 reads from below, 90 from the right. */
  turn: 0 | 90
  /** Measured, mm. */
  width: number
}

/** A measured distance: `value` is a value of the derivation, and its ends lie `value / scale` apart on paper. */
export interface Dimension {
  kind: 'dimension'
  /** What it measures, in words. */
  name: string
  /** SI, m. */
  value: number
  /** Metres of the world on a metre of paper. */
  scale: number
  from: PaperPoint
  to: PaperPoint
  marks: readonly Primitive[]
}

/** A named part of a drawing: a view at one scale, or the marks that stand for one thing of the project. */
export interface View {
  kind: 'view'
  id: string
  title: string
  scale?: number
  /** What of the project these marks stand for: the page selects it by its address and reads it by its words. */
  about?: About
  marks: readonly Mark[]
}

/** Something of the project that marks stand for. */
export interface About {
  /** JSON Pointer of the entity, such as `/pieces/head`. */
  pointer: string
  /** A sentence for those who hear the drawing, and for the pointer that rests on it. */
  words: string
}

export type Mark = Primitive | Dimension | View

/** Marks that stand for one thing of the project. */
export const standFor = (pointer: string, words: string, marks: readonly Mark[]): View => ({
  kind: 'view',
  id: pointer,
  title: words,
  about: { pointer, words },
  marks,
})

/** One sheet of paper as plain data. */
export interface Drawing {
  title: string
  /** Chapter that begins on this sheet: it can be gone to by this name. */
  chapter?: string
  /** mm. */
  width: number
  height: number
  marks: readonly Mark[]
  /** Letters asked for that the shipped font lacks; they are printed as their code points. */
  missing: readonly MissingGlyph[]
}

export interface MissingGlyph {
  glyph: string
  text: string
}

/** A drawing of marks, with the letters that the font lacks found and written as code points. */
export function drawing(title: string, width: number, height: number, marks: readonly Mark[]): Drawing {
  const missing: MissingGlyph[] = []
  const printable = marks.map((mark) => printableMark(mark, missing))
  const said = missing.length === 0 ? [] : [codePointsSaid(width, height)]
  return { title, width, height, marks: [...printable, ...said], missing }
}

/** In the margin of a sheet with letters that the font lacks: how they are to be read. */
const codePointsSaid = (width: number, height: number): Text =>
  text([width / 2, height - 2], CODE_POINTS, { size: 1.8, anchor: 'middle' })

const CODE_POINTS =
  'The font of this sheet has Latin, Greek, Cyrillic, Hebrew and Arabic letters: any other is printed by its code point in Unicode, such as [U+4E2D]. The page shows it as it is.'

function printableMark<M extends Mark>(mark: M, missing: MissingGlyph[]): M {
  if (mark.kind === 'view' || mark.kind === 'dimension')
    return { ...mark, marks: mark.marks.map((inner) => printableMark(inner, missing)) }
  if (mark.kind !== 'text') return mark
  const lacking = missingGlyphs(mark.text)
  if (lacking.length === 0) return { ...mark, text: figuresKept(mark.text) }
  missing.push(...lacking.map((glyph) => ({ glyph, text: mark.text })))
  const text = figuresKept(printableText(mark.text))
  return { ...mark, text, width: textWidth(text, mark) }
}

/** Every primitive in the order it is painted. */
export function primitivesOf(marks: readonly Mark[]): Primitive[] {
  return marks.flatMap((mark) =>
    mark.kind === 'view' || mark.kind === 'dimension' ? primitivesOf(mark.marks) : [mark],
  )
}

/** Every dimension, wherever it stands. */
export function dimensionsOf(marks: readonly Mark[]): Dimension[] {
  return marks.flatMap((mark) =>
    mark.kind === 'dimension' ? [mark] : mark.kind === 'view' ? dimensionsOf(mark.marks) : [],
  )
}

/** Every text, wherever it stands. */
export function textsOf(marks: readonly Mark[]): Text[] {
  return primitivesOf(marks).filter((mark) => mark.kind === 'text')
}

export interface TextStyle extends Partial<Face> {
  ink?: Ink
  anchor?: Text['anchor']
  turn?: Text['turn']
}

export const TEXT_SIZE = 2.5

/** A text with its measured width. */
export function text(at: PaperPoint, words: string, style: TextStyle = {}): Text {
  const face: Face = { size: style.size ?? TEXT_SIZE, weight: style.weight ?? 400, tabular: style.tabular ?? false }
  return {
    kind: 'text',
    text: words,
    at,
    anchor: style.anchor ?? 'start',
    ...face,
    ink: style.ink ?? 'ink',
    turn: style.turn ?? 0,
    width: textWidth(words, face),
  }
}

/** Left, top, right and bottom, mm. */
export interface PaperBox {
  left: number
  top: number
  right: number
  bottom: number
}

/** The box that the letters of a text fill: cap height above the line, the lowest letter below it. */
export function textBox({ at: [x, y], anchor, size, width, turn }: Text): PaperBox {
  const before = anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width
  const [up, down] = [ASCENT * size, DESCENT * size]
  if (turn === 0) return { left: x - before, right: x - before + width, top: y - up, bottom: y + down }
  return { left: x - up, right: x + down, top: y + before - width, bottom: y + before }
}

/** Whether two boxes share more than an edge. */
export const boxesMeet = (a: PaperBox, b: PaperBox): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom

/** A box with air around it, mm. */
export const widerBox = ({ left, top, right, bottom }: PaperBox, air: number): PaperBox => ({
  left: left - air,
  top: top - air,
  right: right + air,
  bottom: bottom + air,
})

export const line = (points: readonly PaperPoint[], stroke: Stroke): Line => ({ kind: 'line', points, stroke })

/** A cross that marks a place, its arms along the paper. */
export const cross = ([x, y]: PaperPoint, arm: number, stroke: Stroke): Line[] => [
  line(
    [
      [x - arm, y],
      [x + arm, y],
    ],
    stroke,
  ),
  line(
    [
      [x, y - arm],
      [x, y + arm],
    ],
    stroke,
  ),
]

export const box = ({ left, top, right, bottom }: PaperBox, look: { fill?: Ink; stroke?: Stroke }): Shape => ({
  kind: 'shape',
  loops: [
    [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
    ],
  ],
  ...look,
})
