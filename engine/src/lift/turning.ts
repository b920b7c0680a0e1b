/** A point in the plane of the turn, from the centre of gravity: along site x and up, m. */
export type Planar = readonly [x: number, z: number]

/** A piece between two hooks, turned about the direction across. Angles about site y, from upright. */
export interface TurnGeometry {
  /** Points it hangs by from the centre of gravity, at angle zero. */
  main: Planar
  tail: Planar
  /** N */
  weight: number
  /** Site level of the centre of gravity at an angle, m. */
  level(angle: number): number
  /** Site level at which each hoist line leaves its machine, m. */
  heads: { main: number; tail: number }
  /** Plan distance of the hooks: fixed, or at least this and else plumb over the points, m. */
  hooks: { fixed?: number; least: number }
  /** +1 where the main hook stands on the side of positive x, −1 on the other. */
  side: 1 | -1
}

/** Both hooks at one angle. */
export interface TwoHooks {
  angle: number
  /** Pull along each line, N. */
  main: number
  tail: number
  /** Each line from plumb, rad. */
  mainLean: number
  tailLean: number
  /** Plan distance of the hooks, m. */
  apart: number
  /** ΣFx, ΣFz less the weight (N), and ΣM about the centre of gravity (N m), from the pulls. */
  residual: { across: number; up: number; moment: number }
}

/** Turned about site y, right-handed: the front of a piece that is upright as driven goes down. */
export const turned = ([x, z]: Planar, angle: number): Planar => [
  x * Math.cos(angle) + z * Math.sin(angle),
  z * Math.cos(angle) - x * Math.sin(angle),
]

const SCAN = 64
const HALVINGS = 44

/**
 * Pulls of both hooks at an angle: the piece shifts sideways until what the two lines and the weight do closes. Lines hang
 * plumb where the hooks can stand over the points; else they lean. Undefined where no pair of pulls holds the piece there.
 */
export function heldAt(geometry: TurnGeometry, angle: number): TwoHooks | undefined {
  const at = placedAt(geometry, angle)
  if (hangsByItself(geometry, angle)) return byItself(at)
  if (at.plumb) {
    const held = hooksAt(at, at.middle)
    return held.main >= 0 && held.tail >= 0 ? held : undefined
  }
  const roots = crossings(at).map((shift) => hooksAt(at, shift))
  const held = roots.filter((r) => r.main >= 0 && r.tail >= 0)
  return held.sort((a, b) => a.mainLean + a.tailLean - b.mainLean - b.tailLean)[0]
}

/** Farther than this from where it hangs by itself, a piece does not get there by itself. */
const NEAR_HANG = (6 * Math.PI) / 180

/**
 * Between upright and the angle at which it hangs from the main hook alone, a piece stays at the latter: the tail cannot push.
 * The turn then begins, or ends, there.
 */
function hangsByItself({ main, side }: TurnGeometry, angle: number): boolean {
  const natural = Math.atan2(-main[0], main[1])
  const past = side * (angle - natural)
  return past <= 0 && past > -NEAR_HANG
}

function byItself({ geometry, angle, apart, main, level }: Placed): TwoHooks {
  const tail = turned(geometry.tail, angle)
  return {
    angle,
    main: geometry.weight,
    tail: 0,
    mainLean: 0,
    tailLean: Math.atan2(Math.abs(apart - Math.abs(main[0] - tail[0])), geometry.heads.tail - level - tail[1]),
    apart,
    residual: { across: 0, up: 0, moment: 0 },
  }
}

interface Placed {
  geometry: TurnGeometry
  angle: number
  main: Planar
  tail: Planar
  apart: number
  level: number
  /** Whether the hooks can stand over the points. */
  plumb: boolean
  /** Shift at which the middle of the points is under the middle of the hooks. */
  middle: number
}

function placedAt(geometry: TurnGeometry, angle: number): Placed {
  const [main, tail] = [turned(geometry.main, angle), turned(geometry.tail, angle)]
  const plumb = geometry.side * (main[0] - tail[0])
  const apart = Math.max(geometry.hooks.least, geometry.hooks.fixed ?? plumb)
  return {
    geometry,
    angle,
    main,
    tail,
    apart,
    level: geometry.level(angle),
    plumb: apart === plumb,
    middle: -(main[0] + tail[0]) / 2,
  }
}

interface Line {
  /** Unit vector from the point up the line. */
  direction: Planar
  /** Moment of a unit pull about the centre of gravity. */
  moment: number
}

function linesAt({ geometry, main, tail, apart, level }: Placed, shift: number): [Line, Line] {
  const line = ([x, z]: Planar, head: number, hook: number): Line => {
    const span: Planar = [hook - (shift + x), head - (level + z)]
    const length = Math.hypot(span[0], span[1])
    const direction: Planar = [span[0] / length, span[1] / length]
    return { direction, moment: x * direction[1] - z * direction[0] }
  }
  const half = (geometry.side * apart) / 2
  return [line(main, geometry.heads.main, half), line(tail, geometry.heads.tail, -half)]
}

/**
 * Sideways force times the determinant of the pulls: zero where everything closes, and without poles. What `linesAt` would
 * give, in plain numbers: it is asked thousands of times a turn.
 */
function sideways({ geometry, main, tail, apart, level }: Placed, shift: number): number {
  const half = (geometry.side * apart) / 2
  const [mx, mz] = [half - (shift + main[0]), geometry.heads.main - (level + main[1])]
  const [tx, tz] = [-half - (shift + tail[0]), geometry.heads.tail - (level + tail[1])]
  const lengths = Math.sqrt((mx * mx + mz * mz) * (tx * tx + tz * tz))
  return ((tail[0] * tz - tail[1] * tx) * mx - (main[0] * mz - main[1] * mx) * tx) / lengths
}

function crossings(at: Placed): number[] {
  const reach = at.apart + 2
  const shiftAt = (k: number): number => at.middle + ((k - SCAN / 2) / (SCAN / 2)) * reach
  const roots: number[] = []
  let before = sideways(at, shiftAt(0))
  for (let k = 1; k <= SCAN; k++) {
    const now = sideways(at, shiftAt(k))
    if (now === 0) roots.push(shiftAt(k))
    else if (before * now < 0) roots.push(halved(at, shiftAt(k - 1), shiftAt(k)))
    before = now
  }
  return roots
}

function halved(at: Placed, from: number, to: number): number {
  let [a, b] = [from, to]
  const sign = Math.sign(sideways(at, a))
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (a + b) / 2
    if (Math.sign(sideways(at, middle)) === sign) a = middle
    else b = middle
  }
  return (a + b) / 2
}

function hooksAt(at: Placed, shift: number): TwoHooks {
  const [m, t] = linesAt(at, shift)
  const det = m.direction[1] * t.moment - t.direction[1] * m.moment
  const { weight } = at.geometry
  const main = clean((weight * t.moment) / det, weight)
  const tail = clean((-weight * m.moment) / det, weight)
  return {
    angle: at.angle,
    main,
    tail,
    mainLean: Math.abs(Math.atan2(m.direction[0], m.direction[1])),
    tailLean: Math.abs(Math.atan2(t.direction[0], t.direction[1])),
    apart: at.apart,
    residual: {
      across: main * m.direction[0] + tail * t.direction[0],
      up: main * m.direction[1] + tail * t.direction[1] - weight,
      moment: main * m.moment + tail * t.moment,
    },
  }
}

const LAST_BIT = 1e-9

/** A pull within the last bits of zero is zero. */
const clean = (pull: number, weight: number): number => (Math.abs(pull) < LAST_BIT * weight ? 0 : pull)

/** Angles at which something changes, within a turn, rad. */
export interface TurnAngles {
  /** The centre of gravity is plumb under the main point: the tail goes slack, and the piece hangs so by itself. */
  tailSlack: readonly number[]
  /** Under the tail point: the main hook goes slack. */
  mainSlack: readonly number[]
  /** Both points stand over one another: plumb lines coincide. */
  coincide: readonly number[]
}

/** Slack angles and the angle at which plumb lines coincide, between the two ends of a turn. */
export function anglesOf({ main, tail }: Pick<TurnGeometry, 'main' | 'tail'>, from: number, to: number): TurnAngles {
  const between = (p: Planar): number[] =>
    plumbAngles(p).filter((a) => a >= Math.min(from, to) && a <= Math.max(from, to))
  return {
    tailSlack: between(main),
    mainSlack: between(tail),
    coincide: between([main[0] - tail[0], main[1] - tail[1]]),
  }
}

/** Angles within a turn of a whole circle at which a point stands plumb over or under the centre: x cos a + z sin a = 0. */
function plumbAngles([x, z]: Planar): number[] {
  const first = Math.atan2(-x, z)
  return [first - 2 * Math.PI, first - Math.PI, first, first + Math.PI, first + 2 * Math.PI].sort((a, b) => a - b)
}
