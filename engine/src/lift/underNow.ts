import type { Bay, Model } from '../model/index.ts'
import { placedSupport } from '../numeric/body.ts'
import { type Point2, polygonOf } from '../numeric/plan.ts'
import { applyBack, dot, type Mat3, type Pose, type Vec3 } from '../numeric/vector.ts'
import { boxReaches, isInPlan } from './apart.ts'
import type { ClearanceNow } from './clearanceNow.ts'
import { facing, type Hull } from './hull.ts'
import { fan } from './swept.ts'
import { distanceToAxis } from './zone.ts'

/** A level surface that a piece may be over. */
interface Surface {
  to: string
  name: string
  level: number
  /** Whether any of an outline in plan is over it. */
  isUnder: (outline: Outline) => boolean
}

/** How far a solid reaches round in plan, and the corners that makes. */
interface Outline {
  reach: readonly number[]
  corners: readonly Point2[]
}

const AROUND = fan(24)
const DOWN: Vec3 = [0, 0, -1]

/**
 * How high a piece is, moment by moment, over what is under it: base slab, barrier, ground and the surfaces of the bays. Each
 * solid counts by its lowest point, over every surface that its outline in plan has some part over.
 *
 * @returns from the pose of the piece (machine frame to site frame) to what it is over, least first
 */
export function underNow({ project }: Model, hull: Hull): (own: Pose) => ClearanceNow[] {
  const surfaces = surfacesOf(project)
  const turned = turnedSolids(hull)
  return (own) => {
    const least = new Map<string, ClearanceNow>()
    for (const { solid, part, low, high, reach } of turned(own.turn)) {
      const outline = outlineOf(reach, own.shift)
      for (const { to, name, level, isUnder } of surfaces) {
        const gap = low + own.shift[2] - level
        if (high + own.shift[2] <= level || gap >= (least.get(to)?.gap ?? Infinity) || !isUnder(outline)) continue
        const [x, y] = facing(hull, own, solid, DOWN)
        least.set(to, { gap, to, name, part, from: [x, y, level + gap], at: [x, y, level] })
      }
    }
    return [...least.values()].sort((a, b) => a.gap - b.gap)
  }
}

function surfacesOf({ shaft, bays, ground }: Model['project']): Surface[] {
  const radius = shaft === undefined ? 0 : (shaft.clearDiameter.value as number) / 2
  const surface = ground?.surface.value ?? shaft?.collar.value
  const isOver = (bay: Bay) => overBay(bay)
  const rests = Object.values(bays).map(isOver)
  const inShaft: Surface[] =
    shaft === undefined
      ? []
      : [
          {
            to: 'slab',
            name: 'base slab',
            level: shaft.slabTop.value as number,
            isUnder: ({ corners }) => distanceToAxis(corners) < radius,
          },
          {
            to: 'barrier',
            name: 'barrier around the shaft',
            level: (shaft.collar.value as number) + (shaft.barrier.value as number),
            isUnder: ({ corners }) => distanceToAxis(corners) < radius && farthest(corners) > radius,
          },
        ]
  const around: Surface[] =
    surface === undefined
      ? []
      : [
          {
            to: 'ground',
            name: 'ground',
            level: surface,
            isUnder: (outline) => farthest(outline.corners) > radius && !rests.some(({ isWhole }) => isWhole(outline)),
          },
        ]
  const onBays = Object.entries(bays).map(([id, bay]): Surface => {
    const level = bay.level.value as number
    return { to: `bay/${id}`, name: bay.name ?? `bay ${id}`, level, isUnder: isOver(bay).isPartly }
  })
  return [...inShaft, ...around, ...onBays]
}

const farthest = (corners: readonly Point2[]): number => Math.max(...corners.map(([x, y]) => Math.hypot(x, y)))

/** Whether an outline is over a bay: with some of it, or wholly. */
function overBay({ centre, size }: Bay): Record<'isPartly' | 'isWhole', (outline: Outline) => boolean> {
  const [x, y] = centre.map((c) => c.value as number) as [number, number]
  const [a, b] = size.map((s) => (s.value as number) / 2) as [number, number]
  const own = boxReaches([x, y, 0], [a, b, 0]).filter((_, k) => isInPlan(k))
  const quarters = [0, 1, 2, 3].map((k) => (k * AROUND.length) / 4)
  const opposite = (k: number): number => (k + AROUND.length / 2) % AROUND.length
  return {
    isPartly: ({ reach }) => own.every((r, k) => -r < (reach[opposite(k)] as number)),
    isWhole: ({ reach }) => quarters.every((k) => (reach[k] as number) <= (own[k] as number)),
  }
}

interface TurnedSolid {
  solid: number
  part: string
  /** Before it is shifted. */
  low: number
  high: number
  reach: readonly number[]
}

/** Solids of a hull after a turn, kept for the last turn: most of a way shifts only. */
function turnedSolids(hull: Hull): (turn: Mat3) => readonly TurnedSolid[] {
  let last: { key: string; solids: readonly TurnedSolid[] } | undefined
  return (turn) => {
    const key = turn.join()
    if (last?.key !== key) last = { key, solids: hull.solids.map((s, i) => turnedSolid(s, i, turn)) }
    return last.solids
  }
}

function turnedSolid(own: Hull['solids'][number], solid: number, turn: Mat3): TurnedSolid {
  const reachTo = (d: Vec3): number => placedSupport(own, applyBack(turn, d))
  return { solid, part: own.part, low: -reachTo(DOWN), high: reachTo([0, 0, 1]), reach: AROUND.map(reachTo) }
}

function outlineOf(turned: readonly number[], shift: Vec3): Outline {
  const reach = turned.map((r, k) => r + dot(shift, AROUND[k] as Vec3))
  return { reach, corners: polygonOf(reach) }
}
