import { type Hang, type HungLoad, hang } from './hang.ts'

/** A link in the leg with this place, and how far it can be drawn, m. */
export interface Link {
  leg: number
  stroke: number
}

/** Settings of level links that make a piece hang as it is meant to. */
export interface Levelled {
  /** Length that each link adds, m, in the order given. */
  settings: readonly number[]
  load: HungLoad
  hang: Hang
}

/**
 * Links set, within their strokes, until the piece hangs level: all alike as far as that is enough, for unequal links put
 * the load on a diagonal; then each by itself, with the least change that takes both tilts away.
 *
 * @param enough tilt that need not be taken away by unequal settings, rad
 */
export function levelled(load: HungLoad, links: readonly Link[], enough: number): Levelled {
  const strokes = links.map((link) => link.stroke)
  const found = levelSettings<Hang>(
    strokes,
    (settings, near) => {
      const changed = withSettings(load, links, settings)
      return near === undefined ? hang(changed) : hang(changed, near.pose)
    },
    enough,
  )
  return { ...found, load: withSettings(load, links, found.settings) }
}

/** How something leans that is to be levelled. */
interface Leaning {
  tilt: number
  tiltX: number
  tiltY: number
}

/** Settings found for what hangs, and how it hangs with them. */
export interface LevelSettings<H> {
  settings: readonly number[]
  hang: H
}

/** How it hangs with these settings, from a pose that is near where one is known. */
type HangWith<H> = (settings: readonly number[], near?: H) => H

/** The same for anything that hangs by links: how it hangs is asked of the caller. */
export function levelSettings<H extends Leaning>(
  strokes: readonly number[],
  hangWith: HangWith<H>,
  enough: number,
): LevelSettings<H> {
  const closed = strokes.map(() => 0)
  const problem = { strokes, hangWith }
  const alike = improved(problem, { settings: closed, hang: hangWith(closed) }, 0, (slopes, tilt) => {
    const together = slopes.reduce<Slope>((sum, s) => [sum[0] + s[0], sum[1] + s[1]], [0, 0])
    const [change] = leastChange([together], tilt) as [number]
    return slopes.map(() => change)
  })
  return alike.hang.tilt <= enough ? alike : improved(problem, alike, enough, leastChange)
}

interface Problem<H> {
  strokes: readonly number[]
  hangWith: HangWith<H>
}

const ROUNDS = 30
const LEVEL = 1e-7
const PROBE = 1e-3

/** Change of both tilts with a setting, rad/m. */
type Slope = readonly [number, number]
type Rule = (slopes: readonly Slope[], tilt: Slope) => number[]

/** Settings changed by a rule as long as the tilt falls, until it is level or little enough. */
function improved<H extends Leaning>(
  problem: Problem<H>,
  start: LevelSettings<H>,
  enough: number,
  rule: Rule,
): LevelSettings<H> {
  let best = start
  for (let round = 0; round < ROUNDS && best.hang.tilt > Math.max(LEVEL, enough); round++) {
    const change = rule(slopesOf(problem, best), [best.hang.tiltX, best.hang.tiltY])
    const next = best.settings.map((s, k) =>
      Math.min(problem.strokes[k] as number, Math.max(0, s + (change[k] as number))),
    )
    const tried = { settings: next, hang: problem.hangWith(next, best.hang) }
    if (tried.hang.tilt >= best.hang.tilt) break
    best = tried
  }
  return best
}

function slopesOf<H extends Leaning>(
  { strokes, hangWith }: Problem<H>,
  { settings, hang: now }: LevelSettings<H>,
): Slope[] {
  return strokes.map((stroke, k) => {
    const by = (settings[k] as number) + PROBE <= stroke ? PROBE : -PROBE
    const probed = hangWith(
      settings.map((s, i) => (i === k ? s + by : s)),
      now,
    )
    return [(probed.tiltX - now.tiltX) / by, (probed.tiltY - now.tiltY) / by]
  })
}

function withSettings(load: HungLoad, links: readonly Link[], settings: readonly number[]): HungLoad {
  const legs = load.legs.map((leg, i) => lengthened(leg, settings[links.findIndex((l) => l.leg === i)] ?? 0))
  return { ...load, legs }
}

/** A line with a link drawn by so much: far stiffer than a sling, so that the pull per metre of stretch stays the sling's. */
export function lengthened<L extends { length: number; stiffness: number }>(line: L, by: number): L {
  if (by === 0) return line
  const length = line.length + by
  return { ...line, length, stiffness: (line.stiffness * length) / line.length }
}

const DAMPING = 1e-6

/** Least change of settings that takes away the tilts, by damped least squares. */
function leastChange(slopes: readonly Slope[], tilt: Slope): number[] {
  let [a, b, d] = [0, 0, 0]
  for (const [x, y] of slopes) {
    a += x * x
    b += x * y
    d += y * y
  }
  const damp = DAMPING * (a + d) + 1e-12
  const det = (a + damp) * (d + damp) - b * b
  const u = [((d + damp) * tilt[0] - b * tilt[1]) / det, ((a + damp) * tilt[1] - b * tilt[0]) / det] as const
  return slopes.map(([x, y]) => -(x * u[0] + y * u[1]))
}
