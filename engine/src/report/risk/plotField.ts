import { civilDay, DAY, MONTHS } from '../civil.ts'
import { box, line, type Mark, type PaperBox, text } from '../drawing.ts'
import { GRID, RULE, SMALL } from '../paper/pen.ts'

/** A field of time across and some measure up. */
export interface PlotField {
  box: PaperBox
  x: (seconds: number) => number
  y: (value: number) => number
}

/** First of the month at or before an instant, and of the months after it; seconds from the origin. */
function monthStarts(origin: string, from: number, to: number): { at: number; month: number; year: number }[] {
  const starts: { at: number; month: number; year: number }[] = []
  for (let day = Math.floor(from / DAY); day * DAY <= to; day++) {
    const { year, month, day: of } = civilDay(origin, day * DAY)
    if (of === 1) starts.push({ at: day * DAY, month, year })
  }
  return starts
}

const FEWEST_MM = 9

/** Whole months about a stretch of time. */
export function aroundMonths(origin: string, from: number, to: number): readonly [number, number] {
  const before = monthStarts(origin, from - 32 * DAY, from).at(-1)
  const after = monthStarts(origin, to, to + 32 * DAY)[0]
  return [before?.at ?? from, after?.at ?? to]
}

/** Months across the foot of a field, a fine line at each; names where there is room for them. */
export function monthMarks(origin: string, [from, to]: readonly [number, number], { box: b, x }: PlotField): Mark[] {
  const starts = monthStarts(origin, from, to)
  const apart = starts.length < 2 ? FEWEST_MM : ((x(starts[1]?.at as number) - x(starts[0]?.at as number)) as number)
  const every = [1, 2, 3, 6, 12].find((n) => n * apart >= FEWEST_MM) ?? 12
  return starts.flatMap(({ at, month, year }, i): Mark[] => {
    const named = (month - 1) % every === 0
    const rule = line(
      [
        [x(at), b.top],
        [x(at), b.bottom + (named ? 1.2 : 0)],
      ],
      GRID,
    )
    if (!named || i === starts.length - 1) return [rule]
    const words = month === 1 || i === 0 ? `${MONTHS[month - 1]} ${year}` : (MONTHS[month - 1] as string)
    return [rule, text([x(at) + 0.6, b.bottom + 3.4], words, { size: SMALL, ink: 'quiet' })]
  })
}

/** Level lines of a field with their values on the left. */
export const levelMarks = (levels: readonly { value: number; words: string }[], { box: b, y }: PlotField): Mark[] =>
  levels.flatMap(({ value, words }): Mark[] => [
    line(
      [
        [b.left, y(value)],
        [b.right, y(value)],
      ],
      GRID,
    ),
    text([b.left - 1.4, y(value) + SMALL * 0.36], words, { size: SMALL, anchor: 'end', ink: 'quiet', tabular: true }),
  ])

export const frameOf = ({ box: b }: PlotField): Mark => box(b, { stroke: RULE })
