import { type Hang, type HangPose, type HungLoad, hang } from './hang.ts'

/** Settings of level links that make a piece hang as it is meant to. */
export interface Levelled {
  /** Length that each link adds, m, in the order given. */
  settings: readonly number[]
  load: HungLoad
  hang: Hang
}

const LEVELLING_ROUNDS = 30
const LEVEL = 1e-7
const PROBE = 1e-3

/**
 * Links set, within their strokes, until the piece hangs level: the least change of settings that takes both tilts away.
 *
 * @param links leg of each link and its stroke, m
 */
export function levelled(load: HungLoad, links: readonly { leg: number; stroke: number }[]): Levelled {
  let settings = links.map(() => 0)
  let best = withSettings(load, links, settings)
  for (let round = 0; round < LEVELLING_ROUNDS && best.hang.tilt > LEVEL; round++) {
    const slopes = links.map((_, k) => {
      const by = (settings[k] as number) + PROBE <= (links[k] as { stroke: number }).stroke ? PROBE : -PROBE
      const probed = withSettings(
        load,
        links,
        settings.map((s, i) => (i === k ? s + by : s)),
        best.hang.pose,
      )
      return [(probed.hang.tiltX - best.hang.tiltX) / by, (probed.hang.tiltY - best.hang.tiltY) / by] as const
    })
    const change = leastChange(slopes, [best.hang.tiltX, best.hang.tiltY])
    const next = settings.map((s, k) =>
      Math.min((links[k] as { stroke: number }).stroke, Math.max(0, s + (change[k] as number))),
    )
    const tried = withSettings(load, links, next, best.hang.pose)
    if (tried.hang.tilt >= best.hang.tilt) break
    settings = next
    best = tried
  }
  return { settings, ...best }
}

function withSettings(
  load: HungLoad,
  links: readonly { leg: number }[],
  settings: readonly number[],
  start?: HangPose,
): { load: HungLoad; hang: Hang } {
  const legs = load.legs.map((leg, i) => {
    const k = links.findIndex((l) => l.leg === i)
    if (k < 0 || settings[k] === 0) return leg
    const length = leg.length + (settings[k] as number)
    // a link is far stiffer than a sling: the pull per metre of stretch stays that of the sling
    return { ...leg, length, stiffness: (leg.stiffness * length) / leg.length }
  })
  const changed = { ...load, legs }
  return { load: changed, hang: start === undefined ? hang(changed) : hang(changed, start) }
}

const DAMPING = 1e-6

/** Least change of settings that takes away the tilts, by damped least squares. */
function leastChange(slopes: readonly (readonly [number, number])[], tilt: readonly [number, number]): number[] {
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
