import { peakOf, type Stretches, stretchesOf } from './stretches.ts'
import { swayStiffness } from './sway.ts'
import { type Planar, type TurnGeometry, type TwoHooks, turned } from './turning.ts'

/** A corner of the box of the centre of gravity in the plane of the turn, and what the turn comes to there. */
export interface TurnCorner {
  /** From its place, along site x and up while upright, m. */
  shift: Planar
  weight: number
  mass: 'upper' | 'lower'
  worked: CornerTurn
}

/** What a turn comes to with the centre of gravity at one place. */
export interface CornerTurn {
  course: Stretches
  /** Greatest pulls, N. */
  most: { main: number; tail: number }
  /** Angle over which no pair of pulls holds the piece, rad. */
  lost: number
  /** Least resistance to swaying, N/m, and where, rad; undefined where it is held nowhere. */
  sway: { stiffness: number; angle: number } | undefined
  /** Greatest force on the tail points that would hold it where no pair of pulls does, N, and where. */
  restraint: { pull: number; angle: number }
}

/**
 * A turn with the centre of gravity at the corners of its box in the plane of the turn, at the upper and the lower weight:
 * eight corners. Pulls are in proportion to the weight, where a piece is held does not depend on it.
 */
export function turnCorners(geometry: TurnGeometry, turn: Turn, shift: number, lower: number): TurnCorner[] {
  const signs = shift === 0 ? [0] : [-1, 1]
  return signs.flatMap((x) =>
    signs.flatMap((z): TurnCorner[] => {
      const by: Planar = [x * shift, z * shift]
      const worked = cornerTurn(moved(geometry, by), turn)
      return [
        { shift: by, weight: geometry.weight, mass: 'upper', worked },
        { shift: by, weight: lower, mass: 'lower', worked: scaled(worked, lower / geometry.weight) },
      ]
    }),
  )
}

interface Turn {
  from: number
  to: number
  /** Greatest distance of the angles looked at, rad. */
  step: number
}

/** With the centre of gravity shifted, along site x and up while upright. */
export const moved = (geometry: TurnGeometry, [x, z]: Planar): TurnGeometry => ({
  ...geometry,
  main: [geometry.main[0] - x, geometry.main[1] - z],
  tail: [geometry.tail[0] - x, geometry.tail[1] - z],
})

/** The whole of a turn with the centre of gravity where it is. */
export function cornerTurn(geometry: TurnGeometry, { from, to, step }: Turn): CornerTurn {
  const course = stretchesOf(geometry, from, to, step)
  const most = (of: (held: TwoHooks) => number): number => peakOf(geometry, course, of)?.value ?? 0
  const soft = peakOf(geometry, course, (held) => -swayStiffness(geometry, held))
  const lost = course.stretches.filter((s) => s.holding === 'neither')
  return {
    course,
    most: { main: most((h) => h.main), tail: most((h) => h.tail) },
    lost: lost.reduce((sum, s) => sum + Math.abs(s.to - s.from), 0),
    sway: soft === undefined ? undefined : { stiffness: -soft.value, angle: soft.held.angle },
    restraint: restraintOver(geometry, course),
  }
}

const scaled = (turn: CornerTurn, by: number): CornerTurn => ({
  ...turn,
  most: { main: turn.most.main * by, tail: turn.most.tail * by },
  sway: turn.sway === undefined ? undefined : { ...turn.sway, stiffness: turn.sway.stiffness * by },
  restraint: { ...turn.restraint, pull: turn.restraint.pull * by },
})

/**
 * Least force on the tail points that holds the piece on its main hook at an angle where no pair of pulls does: moments about
 * the main point, W x / L, square to the line between the points.
 */
export const restraintAt = ({ main, tail, weight }: TurnGeometry, angle: number): number =>
  (weight * Math.abs(turned(main, angle)[0])) / Math.hypot(main[0] - tail[0], main[1] - tail[1])

/** Greatest at an end of a stretch, or where the main point stands level with the centre of gravity. */
function restraintOver(geometry: TurnGeometry, { stretches }: Stretches): CornerTurn['restraint'] {
  const level = Math.atan2(geometry.main[1], geometry.main[0])
  const levels = [level - Math.PI, level, level + Math.PI]
  let worst = { pull: 0, angle: stretches[0]?.from ?? 0 }
  for (const { from, to, holding } of stretches) {
    if (holding !== 'neither') continue
    const [low, high] = [Math.min(from, to), Math.max(from, to)]
    for (const angle of [low, high, ...levels.filter((a) => a > low && a < high)]) {
      const pull = restraintAt(geometry, angle)
      if (pull > worst.pull) worst = { pull, angle }
    }
  }
  return worst
}

/** The worst corner: lost over the widest angle; where none is lost, the one that resists swaying the least for its weight. */
export function worstCorner(corners: readonly TurnCorner[]): TurnCorner | undefined {
  const rank = ({ worked, weight }: TurnCorner): readonly [number, number] => [
    worked.lost,
    -(worked.sway?.stiffness ?? 0) / weight,
  ]
  return [...corners].sort((a, b) => {
    const [p, q] = [rank(a), rank(b)]
    return q[0] - p[0] || q[1] - p[1] || b.weight - a.weight
  })[0]
}

/** Held over the whole turn, and hanging stable there. */
export const holdsThroughout = ({ worked }: TurnCorner): boolean => worked.lost === 0 && isStable(worked)

/** Whether a piece comes back from a push wherever it is held. */
export const isStable = ({ sway }: CornerTurn): boolean => sway !== undefined && sway.stiffness > 0
