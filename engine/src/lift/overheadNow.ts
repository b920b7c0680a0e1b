import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { add, compose, type Pose, place, scale } from '../numeric/vector.ts'
import type { StripResult } from '../strip/index.ts'
import type { Memory } from '../working/memory.ts'
import { pieceHull } from './bodies.ts'
import { nearestToBoom, outOfReach } from './boom.ts'
import { bodiesUnder, boomOf } from './boomChecks.ts'
import { leansOf } from './clearance.ts'
import { type ClearanceNow, nearAround } from './clearanceNow.ts'
import { boomClearance, riggingClearance } from './kinds.ts'
import { hungOf } from './outcome.ts'
import { foundPose } from './path.ts'
import { type Pick, pickOf } from './pick.ts'
import { riggingHull, spreaderSections } from './riggingHull.ts'
import type { Suspension } from './suspension.ts'

type Near = (pose: Pose) => ClearanceNow[]

/**
 * How near, moment by moment, what is over the piece of a lift comes: its legs and spreaders to wall and fixed things, and piece,
 * rigging and block to the boom of their crane; each as its check measures it, and left out where that is open.
 *
 * @returns from the pose of the piece (from as found, site frame) to what is near; undefined where nothing is measured
 */
export function overheadNow(
  model: Model,
  mass: MassResult,
  strip: StripResult,
  lift: string,
  memory: Memory,
): Near | undefined {
  const pick = pickOf(model, mass, strip, lift)
  const found = foundPose(pick)
  const { suspension } = hungOf(pick, memory)
  if (found === undefined || suspension.tilt.value === undefined) return undefined
  const hull = pieceHull(model, mass, pick.lift.piece, memory)
  const both = [
    riggingNear(pick, suspension),
    hull === undefined ? undefined : boomNear(pick, bodiesUnder(pick, hull, suspension)),
  ].filter((near) => near !== undefined)
  return both.length === 0 ? undefined : (pose) => both.flatMap((near) => near(compose(pose, found)))
}

function riggingNear(pick: Pick, suspension: Suspension): Near | undefined {
  const { shaft, inShaft } = pick
  const isKnown = Object.values(spreaderSections(pick)).every(({ value }) => value !== undefined)
  if (!inShaft || shaft === undefined || !isKnown) return undefined
  const hull = riggingHull(pick, suspension)
  if (hull.solids.length === 0) return undefined
  const check = `${riggingClearance.id}/${pick.subject.id}`
  const near = nearAround(pick, hull, shaft, leansOf(suspension))
  return (pose) => near(pose).map((one) => ({ ...one, check }))
}

function boomNear(pick: Pick, bodiesAt: ReturnType<typeof bodiesUnder>): Near | undefined {
  const boom = boomOf(pick)
  if (boom === undefined || bodiesAt === undefined) return undefined
  const check = `${boomClearance.id}/${pick.subject.id}`
  return (pose) => {
    const hook = place(pose, pick.set.cogMachine)
    const [x, y] = hook
    const moment = { stage: 0, share: 0, pose, hook, radius: Math.hypot(x - boom.centre[0], y - boom.centre[1]) }
    if (outOfReach(boom, [moment]) !== undefined) return []
    const [nearest] = nearestToBoom(boom, [moment], bodiesAt)
    if (nearest === undefined) return []
    const { gap, body, from, along } = nearest
    const at = add(from, scale(along, gap))
    return [
      { gap, to: 'boom', name: `boom of ${pick.main.system.name}`, part: body.part, as: body.as, check, from, at },
    ]
  }
}
