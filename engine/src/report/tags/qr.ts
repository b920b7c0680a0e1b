import { encode } from 'uqr'
import { box, type PaperBox, type PaperPoint, type Shape } from '../drawing.ts'

/** Light modules that a reader needs around a symbol (ISO/IEC 18004, from memory). */
const QUIET = 4

/**
 * A text as a QR symbol that fills a square of paper, its quiet zone included; a seventh of it may be soiled and it still reads.
 *
 * @param side  of the square, mm
 * @throws where the text is longer than any symbol holds: some two thousand letters
 */
export function qrMarks(words: string, [left, top]: PaperPoint, side: number): Shape[] {
  const { data, size } = encode(words, { ecc: 'M', border: 0 })
  const module = side / (size + 2 * QUIET)
  const at = (n: number): number => (n + QUIET) * module
  const runs = data.flatMap((row, y) =>
    darkRuns(row).map(([from, to]): PaperBox => {
      const [x0, x1, y0, y1] = [left + at(from), left + at(to), top + at(y), top + at(y + 1)]
      return { left: x0, top: y0, right: x1, bottom: y1 }
    }),
  )
  const loops = runs.map((run) => box(run, {}).loops[0] as PaperPoint[])
  return [
    box({ left, top, right: left + side, bottom: top + side }, { fill: 'paper' }),
    { kind: 'shape', loops, fill: 'ink' },
  ]
}

/** From the first dark module of each run to the first light one after it. */
function darkRuns(row: readonly boolean[]): [number, number][] {
  const runs: [number, number][] = []
  row.forEach((dark, x) => {
    const last = runs.at(-1)
    if (!dark) return
    if (last?.[1] === x) last[1] = x + 1
    else runs.push([x, x + 1])
  })
  return runs
}
