import { type Hang, type HangPose, type HungLoad, hang } from './hang.ts'

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
  const closed = set(
    load,
    links,
    links.map(() => 0),
  )
  const alike = improved(load, links, closed, 0, (slopes, tilt) => {
    const together = slopes.reduce<Slope>((sum, s) => [sum[0] + s[0], sum[1] + s[1]], [0, 0])
    const [change] = leastChange([together], tilt) as [number]
    return slopes.map(() => change)
  })
  return alike.hang.tilt <= enough ? alike : improved(load, links, alike, enough, leastChange)
}

const ROUNDS = 30
const LEVEL = 1e-7
const PROBE = 1e-3

/** Change of both tilts with a setting, rad/m. */
type Slope = readonly [number, number]
type Rule = (slopes: readonly Slope[], tilt: Slope) => number[]

/** Settings changed by a rule as long as the tilt falls, until it is level or little enough. */
function improved(load: HungLoad, links: readonly Link[], start: Levelled, enough: number, rule: Rule): Levelled {
  let best = start
  for (let round = 0; round < ROUNDS && best.hang.tilt > Math.max(LEVEL, enough); round++) {
    const change = rule(slopesOf(load, links, best), [best.hang.tiltX, best.hang.tiltY])
    const next = best.settings.map((s, k) =>
      Math.min((links[k] as Link).stroke, Math.max(0, s + (change[k] as number))),
    )
    const tried = set(load, links, next, best.hang.pose)
    if (tried.hang.tilt >= best.hang.tilt) break
    best = tried
  }
  return best
}

function slopesOf(load: HungLoad, links: readonly Link[], { settings, hang: now }: Levelled): Slope[] {
  return links.map(({ stroke }, k) => {
    const by = (settings[k] as number) + PROBE <= stroke ? PROBE : -PROBE
    const probed = set(
      load,
      links,
      settings.map((s, i) => (i === k ? s + by : s)),
      now.pose,
    ).hang
    return [(probed.tiltX - now.tiltX) / by, (probed.tiltY - now.tiltY) / by]
  })
}

function set(load: HungLoad, links: readonly Link[], settings: readonly number[], start?: HangPose): Levelled {
  const legs = load.legs.map((leg, i) => {
    const added = settings[links.findIndex((l) => l.leg === i)] ?? 0
    if (added === 0) return leg
    const length = leg.length + added
    // a link is far stiffer than a sling: the pull per metre of stretch stays that of the sling
    return { ...leg, length, stiffness: (leg.stiffness * length) / leg.length }
  })
  const changed = { ...load, legs }
  return { settings, load: changed, hang: start === undefined ? hang(changed) : hang(changed, start) }
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
