import { goldenSection } from '../numeric/golden.ts'
import { heldAt, type TurnGeometry, type TwoHooks, turningPoints } from './turning.ts'

/** How a piece is held over part of a turn: by both hooks, by the main hook while the tail hangs slack, or by no pair of pulls. */
export type Holding = 'both' | 'main alone' | 'neither'

/** Part of a turn within which the holding is one; angles in the order of the turn, rad. */
export interface Stretch {
  from: number
  to: number
  holding: Holding
}

/**
 * Stretches of a turn in its order, and what it comes to at the angles that were looked at, upwards: between two of these
 * nothing changes that a closed form names.
 */
export interface Stretches {
  stretches: readonly Stretch[]
  marks: readonly { angle: number; held: TwoHooks | undefined }[]
}

/**
 * How the piece is held from one end of a turn to the other. The ends of a stretch are angles of a closed form, or roots
 * held between two angles of unlike holding to the last bits; a stretch between two closed forms is found however narrow.
 *
 * @param step greatest distance of the angles looked at, rad
 */
export function stretchesOf(geometry: TurnGeometry, from: number, to: number, step: number): Stretches {
  const known = turningPoints(geometry, from, to)
  const marks = marksOf(known, from, to, step)
  const samples = marks.slice(1).map((mark, i) => ((marks[i] as number) + mark) / 2)
  const holding = (angle: number): Holding => holdingOf(heldAt(geometry, angle), geometry)
  const stretches: Stretch[] = []
  let open = { from, holding: holding(samples[0] as number) }
  for (let i = 1; i < samples.length; i++) {
    const next = holding(samples[i] as number)
    if (next === open.holding) continue
    const end = boundary(holding, open.holding, samples[i - 1] as number, samples[i] as number, known)
    stretches.push({ ...open, to: end })
    open = { from: end, holding: next }
  }
  const seen = [...marks].sort((a, b) => a - b).map((angle) => ({ angle, held: heldAt(geometry, angle) }))
  return { stretches: [...stretches, { ...open, to }], marks: seen }
}

function marksOf(known: readonly number[], from: number, to: number, step: number): number[] {
  const n = Math.max(1, Math.ceil(Math.abs(to - from) / step))
  const even = Array.from({ length: n + 1 }, (_, k) => from + ((to - from) * k) / n)
  const all = [...new Set([...even, ...known])].sort((a, b) => a - b)
  return to < from ? all.reverse() : all
}

function holdingOf(held: TwoHooks | undefined, { weight }: TurnGeometry): Holding {
  if (held === undefined) return 'neither'
  return held.tail === 0 && held.main === weight ? 'main alone' : 'both'
}

const HALVINGS = 60
const SAME = 1e-9

function boundary(
  holding: (angle: number) => Holding,
  before: Holding,
  from: number,
  to: number,
  known: readonly number[],
): number {
  let [a, b] = [from, to]
  for (let k = 0; k < HALVINGS && a !== b; k++) {
    const middle = (a + b) / 2
    if (holding(middle) === before) a = middle
    else b = middle
  }
  return known.find((angle) => Math.abs(angle - b) < SAME) ?? b
}

/** Where something is greatest over a turn, and how the piece is held there. */
export interface Peak {
  value: number
  held: TwoHooks
}

/**
 * Greatest value over what is held of a turn: the best of the marks and of the ends of the stretches, then between its
 * neighbours by golden section to the last bits that a value near its top has.
 */
export function peakOf(
  geometry: TurnGeometry,
  { stretches, marks }: Stretches,
  of: (held: TwoHooks) => number,
): Peak | undefined {
  let best: Peak | undefined
  for (const { from, to, holding } of stretches) {
    if (holding === 'neither') continue
    const [low, high] = [Math.min(from, to), Math.max(from, to)]
    const inside = marks.filter((m) => m.angle > low && m.angle < high).map((m) => m.held)
    const ends = [endOf(geometry, low, INSIDE), endOf(geometry, high, -INSIDE)]
    const peak = peakWithin(geometry, [ends[0], ...inside, ends[1]], of)
    if (height(peak) > height(best)) best = peak
  }
  return best
}

const INSIDE = 1e-10

/** An end of a stretch may itself be held no more: then looked at from just inside. */
const endOf = (geometry: TurnGeometry, angle: number, inwards: number): TwoHooks | undefined =>
  heldAt(geometry, angle) ?? heldAt(geometry, angle + inwards)

function peakWithin(
  geometry: TurnGeometry,
  places: readonly (TwoHooks | undefined)[],
  of: (held: TwoHooks) => number,
): Peak | undefined {
  const known = places.filter((held) => held !== undefined)
  const peaks = known.map((held): Peak => ({ value: of(held), held }))
  const top = peaks.reduce((best, peak, i) => (height(peak) > height(peaks[best]) ? i : best), 0)
  const about = [peaks[Math.max(0, top - 1)], peaks[top], peaks[Math.min(peaks.length - 1, top + 1)]] as Peak[]
  const best = about[1]
  if (best === undefined || about.every((peak) => isPlumb(peak.held))) return best
  const at = (angle: number): Peak | undefined => {
    const held = heldAt(geometry, angle)
    return held === undefined ? undefined : { value: of(held), held }
  }
  const [from, to] = [(about[0] as Peak).held.angle, (about[2] as Peak).held.angle]
  const between = goldenSection(at, height, { from, to, sections: SECTIONS }).value
  return height(between) > best.value ? between : best
}

/** With plumb lines everything that is asked for runs one way between two marks. */
const isPlumb = ({ mainLean, tailLean }: TwoHooks): boolean => mainLean < SAME && tailLean < SAME

/** A degree to a hundred-thousandth of it: a value near its top is then right to its last bits. */
const SECTIONS = 24

const height = (peak: Peak | undefined): number => peak?.value ?? Number.NEGATIVE_INFINITY
