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
    if (Math.hypot(...slope) < CLOSED * weight) return closed(lines, scaled, pose, slope)
    pose = lower(scaled, pose, slope, weight)
  }
  const slope = slopeAt(scaled, pose, weight)
  return Math.hypot(...slope) < LEFT * weight ? closed(lines, scaled, pose, slope) : undefined
}

const MOST_ROUNDS = 80
const CLOSED = 1e-10
/** Of the weight: what rounding may leave where the energy can fall no further. */
const LEFT = 1e-7
const NONE = { force: 0, moment: 0 }

const reach = (lines: readonly GroupLine[]): number => Math.max(...lines.map((l) => Math.hypot(...l.at)), 1e-3)

const scaledTo = (lines: readonly GroupLine[], r: number): GroupLine[] =>
  lines.map((l) => ({ ...l, at: [l.at[0] / r, l.at[1] / r] }))

const stretchOf = ({ at: [x, y], ahead }: GroupLine, [u, a, b]: Three): number => Math.max(0, u + a * x + b * y + ahead)

const pullOf = (line: GroupLine, pose: Three): number => line.stiffness * stretchOf(line, pose)

function slopeAt(lines: readonly GroupLine[], pose: Three, weight: number): Three {
  const sum = (of: (l: GroupLine) => number) => lines.reduce((s, l) => s + of(l) * pullOf(l, pose), 0)
  return [sum(() => 1) - weight, sum((l) => l.at[0]), sum((l) => l.at[1])]
}

const energyAt = (lines: readonly GroupLine[], pose: Three, weight: number): number =>
  lines.reduce((s, l) => s + 0.5 * l.stiffness * stretchOf(l, pose) ** 2, -weight * pose[0])

/** One Newton step on the lines that are taut, halved until the energy falls, or near its lowest the slope. */
function lower(lines: readonly GroupLine[], pose: Three, slope: Three, weight: number): Three {
  const step = solved(curvatureAt(lines, pose), slope)
  const [now, steep] = [energyAt(lines, pose, weight), Math.hypot(...slope)]
  for (let share = 1; share > 1e-18; share /= 2) {
    const next = pose.map((p, i) => p - share * (step[i] as number)) as Three
    if (energyAt(lines, next, weight) < now || Math.hypot(...slopeAt(lines, next, weight)) < steep / 2) return next
  }
  return pose
}

/** A trace on the diagonal, so that what no taut line resists has a step as well. */
const TRACE = 1e-9

function curvatureAt(lines: readonly GroupLine[], pose: Three): number[][] {
  const trace = TRACE * Math.max(...lines.map((l) => l.stiffness))
  const rows = lines.filter((l) => stretchOf(l, pose) > 0).map(({ at, stiffness }) => ({ q: [1, ...at], stiffness }))
  return [0, 1, 2].map((i) =>
    [0, 1, 2].map((j) =>
      rows.reduce((s, { q, stiffness }) => s + stiffness * (q[i] as number) * (q[j] as number), i === j ? trace : 0),
    ),
  )
}

/** Three equations by Cramer's rule. */
function solved(m: readonly (readonly number[])[], rhs: Three): Three {
  const whole = determinant(m)
  return [0, 1, 2].map(
    (c) => determinant(m.map((row, i) => row.map((value, j) => (j === c ? (rhs[i] as number) : value)))) / whole,
  ) as Three
}

function determinant(m: readonly (readonly number[])[]): number {
  const [[a, b, c], [d, e, f], [g, h, i]] = m as unknown as [Three, Three, Three]
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
}

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

/** Largest load of any line left when any one is lost; where the block then tips, one line may take everything. */
export function worstOfLoss(lines: readonly GroupLine[], weight: number): Worst & { lost: number; tips: boolean } {
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
