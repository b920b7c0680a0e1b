import { pivotHook, pivotReaction } from './pivot.formulas.ts'
import { type Planar, plumbAngles, turned } from './turning.ts'

/** A piece that turns about an edge or a trunnion on the ground, from one hook. Angles about site y, from upright. */
export interface PivotGeometry {
  /** From the pivot, at angle zero: along site x and up, m. */
  cog: Planar
  lug: Planar
  /** N */
  weight: number
}

/** Hook and pivot at one angle, N; the pivot's upright force and that along site x that it must give. */
export interface OnPivot {
  angle: number
  hook: number
  up: number
  across: number
}

/**
 * Forces at an angle, whatever their sign.
 *
 * @param lean of the hoist line from plumb to the side of x, rad
 */
export function forcesAt({ cog, lug, weight }: PivotGeometry, angle: number, lean = 0): OnPivot {
  const [c, l] = [turned(cog, angle), turned(lug, angle)]
  const hook = pivotHook.value({ W: weight, x_c: c[0], x_l: l[0], z_l: l[1], alpha: lean })
  return {
    angle,
    hook,
    up: pivotReaction.value({ W: weight, F: hook, alpha: lean }),
    across: -hook * Math.sin(lean),
  }
}

/** How a piece on a pivot is held: by hook and pivot; over centre, where the hook would have to push; or off its pivot. */
export type PivotHolding = 'held' | 'over centre' | 'off the pivot'

/** Part of a turn within which the holding is one. */
export interface PivotStretch {
  from: number
  to: number
  holding: PivotHolding
}

/** Angles at which something changes on a plumb line, by closed form, rad. */
export interface PivotAngles {
  /** The centre of gravity stands over the pivot: the hook goes slack, and the piece falls on by itself. */
  overCentre: readonly number[]
  /** The hoist line stands over the pivot: it cannot turn the piece. */
  lineOver: readonly number[]
  /** The centre of gravity is plumb under the lifting points: the pivot is relieved, and the piece leaves the ground. */
  relieved: readonly number[]
}

/** Angles of a turn at which the centre of gravity or the line passes over the pivot, or the pivot is relieved. */
export function pivotAngles({ cog, lug }: PivotGeometry, from: number, to: number): PivotAngles {
  const [low, high] = [Math.min(from, to), Math.max(from, to)]
  const within = (p: Planar): number[] => plumbAngles(p).filter((a) => a >= low && a <= high)
  return {
    overCentre: within(cog),
    lineOver: within(lug),
    relieved: within([cog[0] - lug[0], cog[1] - lug[1]]),
  }
}

/** How the piece is held from one end of the turn to the other: every end is a closed form. */
export function pivotStretches(geometry: PivotGeometry, from: number, to: number): PivotStretch[] {
  const known = Object.values(pivotAngles(geometry, from, to)).flat()
  const ends = [...new Set([from, ...known, to])].sort((a, b) => (to > from ? a - b : b - a))
  const parts = ends.slice(1).map((end, i): PivotStretch => {
    const start = ends[i] as number
    return { from: start, to: end, holding: holdingAt(geometry, (start + end) / 2) }
  })
  const joined: PivotStretch[] = []
  for (const part of parts) {
    const last = joined.at(-1)
    if (last?.holding === part.holding) joined[joined.length - 1] = { ...last, to: part.to }
    else joined.push(part)
  }
  return joined
}

function holdingAt(geometry: PivotGeometry, angle: number): PivotHolding {
  const { hook, up } = forcesAt(geometry, angle)
  if (hook < 0) return 'over centre'
  return up < 0 ? 'off the pivot' : 'held'
}

/** What a turn about a pivot comes to with the centre of gravity at one place. */
export interface PivotTurn {
  stretches: readonly PivotStretch[]
  /** Greatest pull of the hook and reaction of the pivot while held, lines leaning either way as far as they may. */
  hook: OnPivot
  up: OnPivot
  /** Where the horizontal force is greatest against the upright one: most apt to slide. */
  sliding: OnPivot
  /** Angle over which nothing holds it, rad, and the greatest force on the lifting points that would, N. */
  lost: number
  holdBack: { pull: number; angle: number }
}

/**
 * The whole of a turn about a pivot. Hook and pivot forces are quotients of two sines of the angle, so that they run one way
 * between two critical angles: what is greatest stands at an end of a stretch.
 *
 * @param lean greatest lean of the line from plumb, either way, rad
 */
export function pivotTurn(geometry: PivotGeometry, from: number, to: number, lean: number): PivotTurn {
  const stretches = pivotStretches(geometry, from, to)
  const held = stretches.filter((s) => s.holding === 'held')
  const angles = held.length === 0 ? [from] : held.flatMap((s) => endsOf(geometry, s))
  const places = angles.flatMap((angle) => [-lean, 0, lean].map((alpha) => forcesAt(geometry, angle, alpha)))
  const most = (of: (f: OnPivot) => number): OnPivot => places.reduce((a, b) => (of(b) > of(a) ? b : a))
  const lost = stretches.filter((s) => s.holding !== 'held')
  return {
    stretches,
    hook: most((f) => f.hook),
    up: most((f) => f.up),
    sliding: most((f) => Math.abs(f.across) / Math.max(f.up, Number.EPSILON)),
    lost: lost.reduce((sum, s) => sum + Math.abs(s.to - s.from), 0),
    holdBack: holdBackOver(geometry, lost),
  }
}

const SAME = 1e-9
const INSIDE = 1e-6

/** Where centre of gravity and line stand over the pivot at once, their quotient is looked at from just inside. */
function endsOf({ cog, lug }: PivotGeometry, { from, to }: PivotStretch): number[] {
  const size = Math.hypot(...cog) + Math.hypot(...lug)
  const isOver = (p: Planar, angle: number): boolean => Math.abs(turned(p, angle)[0]) < SAME * size
  const inward = (angle: number, other: number): number =>
    isOver(cog, angle) && isOver(lug, angle) ? angle + Math.sign(other - angle) * INSIDE : angle
  return [inward(from, to), inward(to, from)]
}

/** Least force on the lifting points that keeps the piece from falling on, square to the line from the pivot to them, N. */
export const holdBackAt = ({ cog, lug, weight }: PivotGeometry, angle: number): number =>
  (weight * Math.abs(turned(cog, angle)[0])) / Math.hypot(lug[0], lug[1])

/** W x / L about the pivot, square to the line to the lifting points; greatest at an end, or where x is. */
function holdBackOver(geometry: PivotGeometry, lost: readonly PivotStretch[]): PivotTurn['holdBack'] {
  const level = Math.atan2(geometry.cog[1], geometry.cog[0])
  let worst = { pull: 0, angle: lost[0]?.from ?? 0 }
  for (const { from, to, holding } of lost) {
    if (holding !== 'over centre') continue
    const [low, high] = [Math.min(from, to), Math.max(from, to)]
    const levels = [level - Math.PI, level, level + Math.PI].filter((a) => a > low && a < high)
    for (const angle of [low, high, ...levels]) {
      const pull = holdBackAt(geometry, angle)
      if (pull > worst.pull) worst = { pull, angle }
    }
  }
  return worst
}

/** A turn about a pivot at the corners of the box of the centre of gravity, with the upper and the lower weight. */
export interface PivotCorner {
  shift: Planar
  mass: 'upper' | 'lower'
  worked: PivotTurn
}

/** Eight corners: four places of the centre of gravity in the plane of the turn, two weights. */
export function pivotCorners(
  geometry: PivotGeometry,
  turn: { from: number; to: number; lean: number },
  box: { shift: number; lower: number },
): PivotCorner[] {
  const signs = box.shift === 0 ? [0] : [-1, 1]
  return signs.flatMap((x) =>
    signs.flatMap((z) => {
      const shift: Planar = [x * box.shift, z * box.shift]
      const cog: Planar = [geometry.cog[0] + shift[0], geometry.cog[1] + shift[1]]
      return (['upper', 'lower'] as const).map((mass): PivotCorner => {
        const weight = mass === 'upper' ? geometry.weight : box.lower
        return { shift, mass, worked: pivotTurn({ ...geometry, cog, weight }, turn.from, turn.to, turn.lean) }
      })
    }),
  )
}
