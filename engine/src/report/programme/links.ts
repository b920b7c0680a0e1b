import { line, type Mark, type PaperBox, text } from '../drawing.ts'
import { THIN } from '../paper/pen.ts'
import type { Bar } from './bands.ts'

/** A bar on its sheet: the middle of its height and the box of its label, mm. */
export interface Placed {
  bar: Bar
  middle: number
  label: PaperBox
}

interface Link {
  from: Placed
  to: Placed
  isForResource: boolean
}

/**
 * From the end of what drives to the start of what it drives, where both stand on this sheet: a line where it is short and
 * crosses neither words nor bars; else the same number under both, in brackets where it waits for a resource.
 */
export function linkMarks(all: readonly Placed[]): Mark[] {
  const links = linksOf(all)
  const lines = links.filter((link) => isClear(link, all))
  const numbered = links.filter((link) => !lines.includes(link))
  const numbers = new Map<Placed, number>()
  for (const { from } of numbered) if (!numbers.has(from)) numbers.set(from, numbers.size + 1)
  return [
    ...lines.map((link) => line(courseOf(link), link.isForResource ? { ...THIN, dash: [0.9, 0.6] } : THIN)),
    ...[...numbers].flatMap(([{ bar, middle }, n]) => numberMarks(bar.right, middle, String(n), 'start')),
    ...numbered.flatMap(({ from, to, isForResource }) => {
      const n = numbers.get(from)
      return numberMarks(to.bar.left, to.middle, isForResource ? `(${n})` : String(n), 'end')
    }),
  ]
}

function linksOf(all: readonly Placed[]): Link[] {
  const places = new Map(all.map((p) => [p.bar.activity.id, p]))
  const byStart = [...all].sort((a, b) => a.bar.dates.start - b.bar.dates.start)
  return byStart.flatMap((to): Link[] => {
    const { planCritical, waitsFor } = to.bar.dates
    const from = waitsFor === undefined ? undefined : places.get(waitsFor.activity)
    if (from === undefined || !planCritical || !from.bar.dates.planCritical || from.middle === to.middle) return []
    return [{ from, to, isForResource: waitsFor?.resource !== undefined }]
  })
}

type Point = readonly [number, number]

const HALF_BAR = 1
/** From the middle of a bar to the edge of its lane, clear of the labels, mm. */
const BESIDE = HALF_BAR + 0.75
/** The longest way up or down for a line: about four lanes. Longer ones end in the thick of the sheet. */
const LONGEST = 18

/** Down or up from the end of the driver, along the edge of its lane, and on to the start of what it drives. */
function courseOf({ from, to }: Link): readonly Point[] {
  const turn = Math.max(from.bar.right, to.bar.left)
  const beside = from.middle + Math.sign(to.middle - from.middle) * BESIDE
  return [
    [from.bar.right, from.middle],
    [from.bar.right, beside],
    [turn, beside],
    [turn, to.middle],
    ...(turn > to.bar.left ? ([[to.bar.left, to.middle]] as const) : []),
  ]
}

function isClear(link: Link, all: readonly Placed[]): boolean {
  if (Math.abs(link.to.middle - link.from.middle) > LONGEST) return false
  const course = courseOf(link)
  return all.every((p) => {
    const isEnd = p === link.from || p === link.to
    return !crosses(course, p.label) && (isEnd || !crosses(course, barBox(p)))
  })
}

const barBox = ({ bar: { left, right }, middle }: Placed): PaperBox => ({
  left,
  right,
  top: middle - HALF_BAR,
  bottom: middle + HALF_BAR,
})

/** Whether a course of level and upright lines goes through a box. */
function crosses(course: readonly Point[], { left, right, top, bottom }: PaperBox): boolean {
  return course.slice(1).some(([x, y], i) => {
    const [a, b] = course[i] as Point
    return Math.min(a, x) < right && Math.max(a, x) > left && Math.min(b, y) < bottom && Math.max(b, y) > top
  })
}

const NUMBER_SIZE = 1.8

/** A short foot at the end of a bar and the number beside it, in the strip below the bar that labels leave free. */
function numberMarks(x: number, middle: number, words: string, anchor: 'start' | 'end'): Mark[] {
  const low = middle + HALF_BAR + 1.5
  const out = anchor === 'start' ? 1 : -1
  return [
    line(
      [
        [x, middle + HALF_BAR],
        [x, low],
      ],
      THIN,
    ),
    text([x + out * 0.4, low + 0.2], words, { size: NUMBER_SIZE, anchor }),
  ]
}

/** The same in the legend, at a line of words. */
export const numberSample =
  (y: number) =>
  (left: number): Mark[] => [
    ...numberMarks(left + 1, y - 2.6, 'n', 'start'),
    ...numberMarks(left + 6, y - 2.6, 'n', 'end'),
  ]
