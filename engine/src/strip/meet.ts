import { holdsPoint } from '../numeric/body.ts'
import type { Cell } from '../numeric/cell.ts'
import { type Encounter, encounter, type Limits } from '../numeric/encounter.ts'
import { type Extent, extentAround, extentGap, supportPoint } from '../numeric/hull.ts'
import type { Motion } from '../numeric/motion.ts'
import { compose, inverse, type Pose, place, type Vec3 } from '../numeric/vector.ts'

import { directionOf, type Leg, lengthOfLeg, motionSeenFrom, stillSeenFrom } from './leg.ts'
import type { PartCells } from './shape.ts'

/** What a moving part meets on one leg. */
export interface Meeting {
  /** Moving part. */
  part: string
  /** What it meets: a part, an obstruction, `shaft bore` or `base slab`. */
  with: string
  kind: 'part' | 'obstruction' | 'bore' | 'slab'
  /** Number of the move, from 0. */
  move: number
  verdict: Encounter['verdict']
  /** Sure lower bound of the least gap on the leg, m. */
  gap: number
  depth: number
  /** The gap is less than it is where the leg begins. */
  closing: boolean
  /** Way along the leg until it strikes, m or rad. */
  travel?: number
  /** Where, site frame. */
  at: Vec3
  direction?: Vec3
}

/** Parts that move together, and from where. */
export interface Mover {
  parts: readonly PartCells[]
  legs: readonly Leg[]
  machine: Pose
  limits: Limits
  /** The legs as seen from each pose that something stands in, made when first asked for. */
  views: Map<Pose, readonly LegView[]>
}

/** A leg seen from where something stands: what it passes over all, and each part. */
export interface LegView {
  leg: Leg
  motion: Motion
  whole: Extent
  passed: readonly Extent[]
}

/** The legs of a mover as seen from a pose. */
export function viewsFrom({ views, legs, machine, parts }: Mover, standing: Pose): readonly LegView[] {
  const known = views.get(standing)
  if (known !== undefined) return known
  const made = legs.map((leg): LegView => {
    const motion = motionSeenFrom(standing, machine, leg)
    const passed = parts.map((part) => extentAround(part.solids.map(({ cell }) => motion.extent(cell))))
    return { leg, motion, passed, whole: extentAround(passed) }
  })
  views.set(standing, made)
  return made
}

/** Something that stands in the way or not. */
export interface Stander {
  id: string
  kind: 'part' | 'obstruction'
  cells: readonly { index: number; cell: Cell }[]
  meshes: PartCells['meshes']
  extent: Extent
  /** From the pose as found, site frame. */
  pose: Pose
  /** Solids of the two that may overlap: the pair is not looked at. */
  ignores(part: string, own: number, other: number): boolean
}

/** Every meeting of a piece with one thing that stands, over all legs: collisions, and gaps within reach. */
export function meetings(mover: Mover, stander: Stander): readonly Meeting[] {
  if (mover.parts.length === 0) return []
  const { reach } = mover.limits
  return viewsFrom(mover, stander.pose).flatMap(({ leg, motion, whole, passed }, move) => {
    if (extentGap(whole, stander.extent) > reach) return []
    return mover.parts.flatMap((part, i) =>
      extentGap(passed[i] as Extent, stander.extent) > reach
        ? []
        : (meetingOf(mover, stander, leg, move, part, motion) ?? []),
    )
  })
}

function meetingOf(
  mover: Mover,
  stander: Stander,
  leg: Leg,
  move: number,
  part: PartCells,
  motion: Motion,
): Meeting | undefined {
  const found = meet(part, stander, motion, mover.limits)
  if (found.verdict === 'clear' && found.gap >= mover.limits.reach) return undefined
  const direction = directionOf(leg)
  return {
    part: part.id,
    with: stander.id,
    kind: stander.kind,
    move,
    verdict: found.verdict,
    gap: found.gap,
    depth: found.depth,
    closing: found.verdict === 'clear' && isClosing(mover, stander, leg, part, found.gap),
    at: place(compose(stander.pose, mover.machine), found.at),
    ...(found.verdict === 'struck' ? { travel: travelUntil(mover, stander, leg, part) } : {}),
    ...(direction === undefined ? {} : { direction }),
  }
}

/** Solid against solid, those left out that may overlap; then whether one lies inside a mesh. */
export function meet(part: PartCells, stander: Stander, motion: Motion, limits: Limits): Encounter {
  const pairs = part.solids.map(({ index, cell }) => ({
    cell,
    others: stander.cells.filter((c) => !stander.ignores(part.id, index, c.index)).map((c) => c.cell),
  }))
  const whole = pairs.every((p) => p.others.length === stander.cells.length)
  const found = whole
    ? encounter(
        part.solids.map((s) => s.cell),
        stander.cells.map((c) => c.cell),
        motion,
        limits,
      )
    : pairs.map(({ cell, others }) => encounter([cell], others, motion, limits)).reduce(worse)
  const buried = found.verdict === 'clear' ? insideMesh(part, stander, motion) : undefined
  return buried === undefined ? found : { ...found, verdict: 'struck', gap: 0, depth: limits.tolerance, at: buried }
}

const RANK = { clear: 0, open: 1, struck: 2 } as const

const worse = (a: Encounter, b: Encounter): Encounter => {
  if (a.verdict !== b.verdict) return RANK[a.verdict] > RANK[b.verdict] ? a : b
  return b.gap < a.gap ? b : a
}

/** A point of one body that lies inside a mesh of the other where the leg begins: surfaces alone would not see it. */
function insideMesh(part: PartCells, stander: Stander, motion: Motion): Vec3 | undefined {
  if (part.meshes.length + stander.meshes.length === 0) return undefined
  const own = part.solids.map(({ cell }) => supportPoint(motion.passed(cell.outer), [1, 0, 0]))
  const other = stander.cells.map(({ cell }) => supportPoint(cell.outer, [1, 0, 0]))
  const held = own.find((p) => stander.meshes.some(({ body, pose }) => holdsPoint(body, place(inverse(pose), p))))
  return held ?? other.find((p) => part.meshes.some(({ body, pose }) => holdsPoint(body, place(inverse(pose), p))))
}

const MILLIMETRE = 0.001

function isClosing({ machine, limits }: Mover, stander: Stander, leg: Leg, part: PartCells, gap: number): boolean {
  const reach = gap + MILLIMETRE
  const start = meet(part, stander, stillSeenFrom(stander.pose, machine, leg), { ...limits, reach })
  return start.verdict === 'clear' && start.gap >= reach
}

const HALVINGS = 14

/** Way along the leg until the collision is sure, by halving. */
function travelUntil(mover: Mover, stander: Stander, leg: Leg, part: PartCells): number {
  const limits = { ...mover.limits, reach: 0 }
  let [free, struck] = [0, 1]
  for (let i = 0; i < HALVINGS && (struck - free) * lengthOfLeg(leg) > MILLIMETRE; i++) {
    const middle = (free + struck) / 2
    const motion = motionSeenFrom(stander.pose, mover.machine, leg, middle)
    if (meet(part, stander, motion, limits).verdict === 'struck') struck = middle
    else free = middle
  }
  return free * lengthOfLeg(leg)
}
