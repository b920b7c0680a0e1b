import { ADVANCE_RUNS, TABULAR_ADVANCE } from './fontMetrics.ts'
import { joined } from './rightToLeft.ts'

/** Weights of the shipped font on paper. */
export type Weight = 400 | 700

/** Height of the tallest and depth of the lowest letters, as shares of the size. */
export const ASCENT = 0.74
export const DESCENT = 0.2

const advances: Readonly<Record<Weight, ReadonlyMap<number, number>>> = {
  400: advancesOf(ADVANCE_RUNS[400]),
  700: advancesOf(ADVANCE_RUNS[700]),
}

function advancesOf(runs: readonly string[]): ReadonlyMap<number, number> {
  return new Map(
    runs.flatMap((run) => {
      const [first, ...widths] = run.split(' ') as [string, ...string[]]
      return widths.map((width, i) => [Number.parseInt(first, 16) + i, Number(width)] as const)
    }),
  )
}

export interface Face {
  size: number
  weight: Weight
  /** Every digit as wide as the next, for columns. */
  tabular: boolean
}

/** Width of a text in the unit of its size: the sum of its advances, as the paper writer sets it; a letter that the font lacks is as wide as its code point. */
export function textWidth(text: string, face: Face): number {
  const { size, weight, tabular } = face
  let sum = 0
  for (const letter of joined(text)) {
    const digit = letter >= '0' && letter <= '9'
    sum +=
      digit && tabular
        ? TABULAR_ADVANCE[weight]
        : (advances[weight].get(letter.codePointAt(0) as number) ?? codePointWidth(letter, weight))
  }
  return (sum * size) / 1000
}

const codePointWidth = (letter: string, weight: Weight): number =>
  [...codePointText(letter)].reduce((sum, sign) => sum + (advances[weight].get(sign.codePointAt(0) as number) ?? 0), 0)

/** Code points of a text that the shipped font lacks. */
export function missingGlyphs(text: string): string[] {
  return [...new Set(text)].filter((letter) => !advances[400].has(letter.codePointAt(0) as number))
}

/** The text with every letter that the font lacks written as its code point, so that nothing is lost: `[U+4E2D]`. */
export function printableText(text: string): string {
  if (missingGlyphs(text).length === 0) return text
  return [...text]
    .map((letter) => (advances[400].has(letter.codePointAt(0) as number) ? letter : codePointText(letter)))
    .join('')
}

const codePointText = (letter: string): string =>
  `[U+${(letter.codePointAt(0) as number).toString(16).toUpperCase().padStart(4, '0')}]`

/**
 * Lines no wider than `width`, broken at spaces; a word that is wider stands alone and is broken where it must be.
 *
 * @param width in the unit of the face's size
 */
export function wrapText(text: string, face: Face, width: number): string[] {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(' ').flatMap((w) => brokenWord(w, face, width))) {
    const longer = line === '' ? word : `${line} ${word}`
    if (line !== '' && textWidth(longer, face) > width) {
      lines.push(line)
      line = word
    } else line = longer
  }
  return line === '' && lines.length > 0 ? lines : [...lines, line]
}

/** Lines no wider than `width`, at most so many: the last is cut inside where the words need more. */
export function linesWithin(text: string, face: Face, width: number, most: number): string[] {
  const lines = wrapText(text, face, width)
  if (lines.length <= most) return lines
  return [...lines.slice(0, most - 1), cutInside(lines.slice(most - 1).join(' '), face, width)]
}

/** Share of what is kept of words cut inside that is of their end. */
const END = 0.4

/** Words no wider than `width`, with an ellipsis in place of their middle where they are too long: their end tells as much as their beginning. */
export function cutInside(words: string, face: Face, width: number): string {
  if (textWidth(words, face) <= width) return words
  const letters = [...words]
  const cut = (kept: number): string => {
    const last = Math.floor(kept * END)
    return `${letters
      .slice(0, kept - last)
      .join('')
      .trimEnd()}…${letters
      .slice(letters.length - last)
      .join('')
      .trimStart()}`
  }
  return cut(mostThat(letters.length - 1, (kept) => textWidth(cut(kept), face) <= width))
}

/** The largest whole number, up to a limit, for which something holds that holds for every smaller one; zero where for none. */
export function mostThat(limit: number, holds: (count: number) => boolean): number {
  let [low, high] = [0, limit]
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if (holds(middle)) low = middle
    else high = middle - 1
  }
  return low
}

function brokenWord(word: string, face: Face, width: number): string[] {
  if (textWidth(word, face) <= width) return [word]
  const pieces: string[] = []
  let piece = ''
  for (const letter of word) {
    if (piece !== '' && textWidth(piece + letter, face) > width) {
      pieces.push(piece)
      piece = ''
    }
    piece += letter
  }
  return [...pieces, piece]
}
