import { type Drawing, type PaperBox, type Primitive, primitivesOf, textBox, textsOf } from '../drawing.ts'

/** How a document stands against the issue before. */
export type PartState = 'as before' | 'changed' | 'redrawn' | 'new' | 'gone'

/** What changed of one document since the issue before. */
export interface PartChange {
  state: PartState
  /** Words that were not there, and words that are there no more, in the order of the sheets. */
  now: readonly string[]
  was: readonly string[]
  /** For each sheet, from where to where down the sheet something changed, mm. */
  bands: readonly (readonly Band[])[]
}

export interface Band {
  top: number
  bottom: number
}

/**
 * Two drawings of one document by what they say: words that are only on one of them, wherever they stand, so that what merely
 * moves down a line is no change. Where no word differs the lines are compared, and a sheet with other lines is redrawn.
 *
 * Both are to be drawn with one date, revision and content, which else would differ on every sheet.
 */
export function partChange(now: readonly Drawing[], before: readonly Drawing[] | undefined): PartChange {
  if (now.length === 0 && before !== undefined && before.length > 0) return { ...NOTHING, state: 'gone' }
  if (before === undefined || before.length === 0)
    return { state: now.length === 0 ? 'as before' : 'new', now: [], was: [], bands: now.map(() => []) }
  const added = onlyIn(wordsOf(now), wordsOf(before))
  const gone = onlyIn(wordsOf(before), wordsOf(now))
  if (added.length > 0 || gone.length > 0) {
    const left = counted(added)
    return { state: 'changed', now: added, was: gone, bands: now.map((page) => joined(wordBands(page, left))) }
  }
  const bands = now.map((page, i) => joined(lineBands(page, before[i])))
  return { state: bands.some((b) => b.length > 0) ? 'redrawn' : 'as before', now: [], was: [], bands }
}

const NOTHING = { now: [], was: [], bands: [] } as const

const wordsOf = (pages: readonly Drawing[]): string[] =>
  pages.flatMap((page) => textsOf(page.marks).map((t) => t.text.trim())).filter((words) => words !== '')

function counted(words: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>()
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1)
  return counts
}

/** What one list has more of than another, in its order. */
function onlyIn(list: readonly string[], other: readonly string[]): string[] {
  const left = counted(other)
  return list.filter((word) => {
    const count = left.get(word) ?? 0
    if (count > 0) left.set(word, count - 1)
    return count === 0
  })
}

/** Where words that were added stand; a word that stands more often than it was added is marked at the last places. */
function wordBands({ marks }: Drawing, left: Map<string, number>): Band[] {
  return textsOf(marks).flatMap((t): Band[] => {
    const count = left.get(t.text.trim()) ?? 0
    if (count === 0) return []
    left.set(t.text.trim(), count - 1)
    return [bandOf(textBox(t))]
  })
}

const bandOf = ({ top, bottom }: PaperBox): Band => ({ top, bottom })

/** Where lines differ: more than a twentieth of a millimetre apart. */
function lineBands(now: Drawing, before: Drawing | undefined): Band[] {
  const known = counted((before === undefined ? [] : primitivesOf(before.marks)).map(keyOf))
  return primitivesOf(now.marks).flatMap((primitive): Band[] => {
    const key = keyOf(primitive)
    const count = known.get(key) ?? 0
    known.set(key, count - 1)
    if (count > 0) return []
    const ys = heightsOf(primitive)
    return ys.length === 0 ? [] : [{ top: Math.min(...ys), bottom: Math.max(...ys) }]
  })
}

const keyOf = (primitive: Primitive): string =>
  JSON.stringify(primitive, (_, value) => (typeof value === 'number' ? Math.round(value * 20) : value))

function heightsOf(primitive: Primitive): number[] {
  switch (primitive.kind) {
    case 'line':
      return primitive.points.map(([, y]) => y)
    case 'shape':
      return primitive.loops.flatMap((loop) => loop.map(([, y]) => y))
    case 'circle':
      return [primitive.centre[1] - primitive.radius, primitive.centre[1] + primitive.radius]
    case 'photograph':
      return [primitive.box.top, primitive.box.bottom]
    case 'text':
      return [primitive.at[1]]
    default:
      return primitive satisfies never
  }
}

/** Bands closer than this are one, mm. */
const NEAR = 3

function joined(bands: readonly Band[]): Band[] {
  const whole: Band[] = []
  for (const band of [...bands].sort((a, b) => a.top - b.top)) {
    const last = whole.at(-1)
    if (last !== undefined && band.top - last.bottom < NEAR) last.bottom = Math.max(last.bottom, band.bottom)
    else whole.push({ ...band })
  }
  return whole
}
