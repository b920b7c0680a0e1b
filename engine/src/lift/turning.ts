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

/** A hoist line: unit vector from the point up the line, and its length to its head, m. */
export interface HoistLine {
  up: Planar
  length: number
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
  lines: { main: HoistLine; tail: HoistLine }
  /** ΣFx, ΣFz less the weight (N), and ΣM about the centre of gravity (N m), from the pulls. */
  residual: { across: number; up: number; moment: number }
}

/** Turned about site y, right-handed: the front of a piece that is upright as driven goes down. */
export const turned = ([x, z]: Planar, angle: number): Planar => {
  const cosine = Math.cos(angle)
  const sine = Math.sin(angle)
  return [x * cosine + z * sine, z * cosine - x * sine]
}

/** A piece is not drawn farther than this beyond its hooks, m. */
const REACH = 2

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
  let held: TwoHooks | undefined
  for (const shift of closings(at)) {
    const root = hooksAt(at, shift)
    if (root.main < 0 || root.tail < 0) continue
    if (held === undefined || root.mainLean + root.tailLean < held.mainLean + held.tailLean) held = root
  }
  return held
}

/** Farther than this from where it hangs by itself, a piece does not get there by itself. */
const NEAR_HANG = (6 * Math.PI) / 180

/**
 * Between upright and the angle at which it hangs from the main hook alone, a piece stays at the latter: the tail cannot push.
 * The turn then begins, or ends, there.
 */
function hangsByItself(geometry: TurnGeometry, angle: number): boolean {
  const past = geometry.side * (angle - naturalHang(geometry))
  return past <= 0 && past > -NEAR_HANG
}

/** Angle at which the piece hangs from its main point alone, rad from upright. */
export const naturalHang = ({ main }: Pick<TurnGeometry, 'main'>): number => Math.atan2(-main[0], main[1])

function byItself({ geometry, angle, apart, main, tail, level }: Placed): TwoHooks {
  const [aside, rise] = [Math.abs(apart - Math.abs(main[0] - tail[0])), geometry.heads.tail - level - tail[1]]
  const slack = Math.hypot(aside, rise)
  return {
    angle,
    main: geometry.weight,
    tail: 0,
    mainLean: 0,
    tailLean: Math.atan2(aside, rise),
    apart,
    lines: {
      main: { up: [0, 1], length: geometry.heads.main - level - main[1] },
      tail: { up: [(-geometry.side * aside) / slack, rise / slack], length: slack },
    },
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
  const main = turned(geometry.main, angle)
  const tail = turned(geometry.tail, angle)
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
  /** Unit vector from the point up the line, and its length. */
  direction: Planar
  length: number
  /** Moment of a unit pull about the centre of gravity. */
  moment: number
}

/** The line of a point, shifted with its piece, to its head over the hook. */
function lineAt([x, z]: Planar, head: number, hook: number, shift: number, level: number): Line {
  const [across, up] = [hook - (shift + x), head - (level + z)]
  const length = Math.sqrt(across * across + up * up)
  const direction: Planar = [across / length, up / length]
  return { direction, length, moment: x * direction[1] - z * direction[0] }
}

/**
 * Shifts at which both lines and the weight close. What is left of ΣF across, times the determinant of the pulls and both
 * lengths, is a quadratic in the shift: (z_m − z_t) X_m X_t + x_t Z_t X_m − x_m Z_m X_t, with X and Z from a point to its
 * head. The roots in reach of the hooks are taken.
 */
function closings({ geometry, main, tail, apart, level, middle }: Placed): number[] {
  const half = (geometry.side * apart) / 2
  const a = half - main[0]
  const b = -half - tail[0]
  const m = main[0] * (geometry.heads.main - level - main[1])
  const t = tail[0] * (geometry.heads.tail - level - tail[1])
  const rise = main[1] - tail[1]
  return quadraticRoots(rise, m - t - rise * (a + b), rise * a * b + t * a - m * b).filter(
    (shift) => Math.abs(shift - middle) <= apart + REACH,
  )
}

/** Real roots of a x² + b x + c, without loss where they are far apart. */
function quadraticRoots(a: number, b: number, c: number): number[] {
  const inner = b * b - 4 * a * c
  if (inner < 0) return []
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(inner)) / 2
  if (q === 0) return a === 0 ? [] : [q / a]
  return a === 0 ? [c / q] : [c / q, q / a]
}

function hooksAt(at: Placed, shift: number): TwoHooks {
  const { heads, weight, side } = at.geometry
  const half = (side * at.apart) / 2
  const m = lineAt(at.main, heads.main, half, shift, at.level)
  const t = lineAt(at.tail, heads.tail, -half, shift, at.level)
  const det = m.direction[1] * t.moment - t.direction[1] * m.moment
  const main = clean((weight * t.moment) / det, weight)
  const tail = clean((-weight * m.moment) / det, weight)
  return {
    angle: at.angle,
    main,
    tail,
    mainLean: Math.abs(Math.atan2(m.direction[0], m.direction[1])),
    tailLean: Math.abs(Math.atan2(t.direction[0], t.direction[1])),
    apart: at.apart,
    lines: {
      main: { up: m.direction, length: m.length },
      tail: { up: t.direction, length: t.length },
    },
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

/**
 * Angles at which how the piece is held can change, by closed form: a hook goes slack, the points stand over one another,
 * the hooks stop following the points, or the piece gets back by itself to where it hangs. A pull that is zero leaves the
 * weight to the other line alone, which is then plumb: so the slack angles are these whether the lines lean or not.
 */
export function turningPoints(geometry: TurnGeometry, from: number, to: number): number[] {
  const { main, tail, hooks, side } = geometry
  const [low, high] = [Math.min(from, to), Math.max(from, to)]
  const angles = anglesOf(geometry, from, to)
  const span: Planar = [main[0] - tail[0], main[1] - tail[1]]
  const natural = naturalHang(geometry)
  const all = [
    ...angles.tailSlack,
    ...angles.mainSlack,
    ...angles.coincide,
    natural - side * NEAR_HANG,
    ...[hooks.least, hooks.fixed ?? hooks.least].flatMap((apart) => widthAngles(span, side * apart)),
  ]
  return [...new Set(all)].filter((a) => a > low && a < high).sort((a, b) => a - b)
}

/** Angles within a turn of a whole circle at which two points stand so far apart in plan: x cos a + z sin a = width. */
function widthAngles([x, z]: Planar, width: number): number[] {
  const length = Math.hypot(x, z)
  if (length === 0 || Math.abs(width) > length) return []
  const [middle, half] = [Math.atan2(z, x), Math.acos(width / length)]
  return [middle - half, middle + half].flatMap((a) => [a - 2 * Math.PI, a, a + 2 * Math.PI])
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
export function plumbAngles([x, z]: Planar): number[] {
  const first = Math.atan2(-x, z)
  return [first - 2 * Math.PI, first - Math.PI, first, first + Math.PI, first + 2 * Math.PI].sort((a, b) => a - b)
}
