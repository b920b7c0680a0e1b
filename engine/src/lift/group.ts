import { norm } from '../numeric/vector.ts'

/** A line from a fixed point down to a rigid block under one hook pin; it pulls and never pushes. */
export interface GroupLine {
  /** From the pin, in plan, m. */
  at: readonly [number, number]
  /** EA/L, N/m; nought for a line that is lost. */
  stiffness: number
  /** How far this line is drawn in beyond the others, m. */
  ahead: number
}

/** What each line of a group takes. */
export interface GroupLoads {
  /** N */
  loads: readonly number[]
  residual: { force: number; moment: number }
}

type Three = [number, number, number]

/**
 * Loads of the lines that hold a rigid block with a weight on its pin: the block sinks and tilts, small, until forces and
 * moments close; a line that would push is slack. Undefined where the block tips, because the pin lies outside of what is left.
 *
 * Source: derived, lowest of the convex Σ ½k s² − W u with s = u + a x + b y + ahead and s > 0; Newton with halved steps.
 * Limits: small tilt, lines plumb.
 */
export function groupLoads(lines: readonly GroupLine[], weight: number): GroupLoads | undefined {
  const scaled = scaledTo(lines, reach(lines))
  const total = scaled.reduce((s, l) => s + l.stiffness, 0)
  if (total === 0 || weight === 0) return weight === 0 ? { loads: lines.map(() => 0), residual: NONE } : undefined
  let pose: Three = [weight / total + Math.max(...scaled.map((l) => Math.abs(l.ahead))), 0, 0]
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const slope = slopeAt(scaled, pose, weight)
    if (norm(slope) < CLOSED * weight) return closed(lines, scaled, pose, slope)
    const next = lower(scaled, pose, slope, weight)
    if (next === pose) break
    pose = next
  }
  const slope = slopeAt(scaled, pose, weight)
  return norm(slope) < LEFT * weight ? closed(lines, scaled, pose, slope) : undefined
}

const MOST_ROUNDS = 80
const CLOSED = 1e-10
/** Of the weight: what rounding may leave where the energy can fall no further. */
const LEFT = 1e-7
const NONE = { force: 0, moment: 0 }

const reach = (lines: readonly GroupLine[]): number => Math.max(...lines.map((l) => Math.hypot(...l.at)), 1e-3)

const scaledTo = (lines: readonly GroupLine[], r: number): GroupLine[] =>
  lines.map((l) => ({ ...l, at: [l.at[0] / r, l.at[1] / r] }))

const stretchOf = ({ at, ahead }: GroupLine, pose: Three): number =>
  Math.max(0, pose[0] + pose[1] * at[0] + pose[2] * at[1] + ahead)

const pullOf = (line: GroupLine, pose: Three): number => line.stiffness * stretchOf(line, pose)

function slopeAt(lines: readonly GroupLine[], pose: Three, weight: number): Three {
  const slope: Three = [-weight, 0, 0]
  for (const line of lines) {
    const pull = pullOf(line, pose)
    slope[0] += pull
    slope[1] += line.at[0] * pull
    slope[2] += line.at[1] * pull
  }
  return slope
}

function energyAt(lines: readonly GroupLine[], pose: Three, weight: number): number {
  let energy = -weight * pose[0]
  for (const line of lines) energy += 0.5 * line.stiffness * stretchOf(line, pose) ** 2
  return energy
}

/** One Newton step on the lines that are taut, halved until the energy falls, or near its lowest the slope. */
function lower(lines: readonly GroupLine[], pose: Three, slope: Three, weight: number): Three {
  const step = solved(curvatureAt(lines, pose), slope)
  const [now, steep] = [energyAt(lines, pose, weight), norm(slope)]
  for (let share = 1; share > 1e-18; share /= 2) {
    const next: Three = [pose[0] - share * step[0], pose[1] - share * step[1], pose[2] - share * step[2]]
    if (energyAt(lines, next, weight) < now || norm(slopeAt(lines, next, weight)) < steep / 2) return next
  }
  return pose
}

/** A trace on the diagonal, so that what no taut line resists has a step as well. */
const TRACE = 1e-9

/** Symmetric: its diagonal, then the elements beside it (0 1, 0 2, 1 2). */
function curvatureAt(lines: readonly GroupLine[], pose: Three): { diagonal: Three; beside: Three } {
  const trace = TRACE * lines.reduce((most, l) => Math.max(most, l.stiffness), 0)
  const diagonal: Three = [trace, trace, trace]
  const beside: Three = [0, 0, 0]
  for (const line of lines) {
    if (stretchOf(line, pose) <= 0) continue
    const [k, x, y] = [line.stiffness, line.at[0], line.at[1]]
    diagonal[0] += k
    diagonal[1] += k * x * x
    diagonal[2] += k * y * y
    beside[0] += k * x
    beside[1] += k * y
    beside[2] += k * x * y
  }
  return { diagonal, beside }
}

/** Three equations by Cramer's rule. */
function solved({ diagonal: [a, b, c], beside: [d, e, f] }: ReturnType<typeof curvatureAt>, [p, q, r]: Three): Three {
  const whole = determinant(a, d, e, d, b, f, e, f, c)
  return [
    determinant(p, d, e, q, b, f, r, f, c) / whole,
    determinant(a, p, e, d, q, f, e, r, c) / whole,
    determinant(a, d, p, d, b, q, e, f, r) / whole,
  ]
}

/** Of three rows. */
const determinant = (
  a: number,
  b: number,
  c: number,
  d: number,
  e: number,
  f: number,
  g: number,
  h: number,
  i: number,
): number => a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)

function closed(lines: readonly GroupLine[], scaled: readonly GroupLine[], pose: Three, slope: Three): GroupLoads {
  const r = reach(lines)
  return {
    loads: scaled.map((l) => pullOf(l, pose)),
    residual: { force: Math.abs(slope[0]), moment: r * Math.hypot(slope[1], slope[2]) },
  }
}

/** How a unit comes to its largest load, and that load; undefined where nothing holds the block. */
export interface Worst {
  /** Index of the line, and of the one that is lost where one is. */
  line: number
  load: number
  residual: GroupLoads['residual']
}

/**
 * Largest load of any line when the strokes of any two differ by no more than `difference`: for each line the signs of all
 * errors that load it most, from the slopes of its load, and the group solved again with slack lines out.
 */
export function worstOfLevel(lines: readonly GroupLine[], weight: number, difference: number): Worst | undefined {
  const slopes = slopesOf(lines, weight)
  if (slopes === undefined) return undefined
  const all = lines.map((_, i) => {
    const uneven = lines.map((l, j) => ({ ...l, ahead: (Math.sign(slopes[i]?.[j] as number) * difference) / 2 }))
    const solved = groupLoads(uneven, weight)
    return solved === undefined ? undefined : { line: i, load: solved.loads[i] as number, residual: solved.residual }
  })
  return all.includes(undefined) ? undefined : largestWorst(all as Worst[])
}

/** Of every line's load, how fast it grows with every line's error, while none is slack; nought where it does not. */
function slopesOf(lines: readonly GroupLine[], weight: number): number[][] | undefined {
  const even = groupLoads(lines, weight)
  if (even === undefined) return undefined
  const stiffest = Math.max(...lines.map((l) => l.stiffness))
  const nudge = (1e-3 * weight) / stiffest / lines.length
  const columns = lines.map((_, j) =>
    groupLoads(
      lines.map((l, k) => (k === j ? { ...l, ahead: nudge } : l)),
      weight,
    ),
  )
  return lines.map((_, i) =>
    columns.map((c) => {
      const slope = ((c?.loads[i] ?? 0) - (even.loads[i] as number)) / nudge
      return Math.abs(slope) < 1e-9 * stiffest ? 0 : slope
    }),
  )
}

/** Largest load of any line left when any one is lost; where the block then tips, one line may take everything. None without lines. */
export function worstOfLoss(
  lines: readonly GroupLine[],
  weight: number,
): (Worst & { lost: number; tips: boolean }) | undefined {
  if (lines.length === 0) return undefined
  const all = lines.map((_, lost) => {
    const solved = groupLoads(
      lines.map((l, i) => (i === lost ? { ...l, stiffness: 0 } : l)),
      weight,
    )
    if (solved === undefined) return { lost, tips: true, line: lost, load: weight, residual: { force: 0, moment: 0 } }
    const load = Math.max(...solved.loads)
    return { lost, tips: false, line: solved.loads.indexOf(load), load, residual: solved.residual }
  })
  return all.reduce((a, b) => (b.load > a.load ? b : a))
}

const largestWorst = (all: readonly Worst[]): Worst => all.reduce((a, b) => (b.load > a.load ? b : a))
