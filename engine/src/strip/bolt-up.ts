import type { Joint, Model } from '../model/index.ts'
import { missingUnder } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { type BoltPlaces, placesOfBolts, tighteningOrder } from './bolt-places.ts'
import { type Bolting, type Bolts, boltingOf, USUAL_PASSES } from './bolting.ts'
import { boltingChecks, type ClosedJoint } from './bolting-checks.ts'
import type { VerifiedStep } from './verify.ts'

/** The joints that one step of the return closes with bolts. */
export interface BoltUpStep {
  /** Step of the order that opened them; the return takes the steps backwards. */
  step: string
  piece: string
  joints: readonly BoltUpJoint[]
  /** Joints that the step closes in another way: welded, pinned, seated. */
  others: readonly string[]
}

/** One joint on the list: what is put in, how far it is tightened, and in what order. */
export interface BoltUpJoint {
  joint: string
  between: readonly [string, string]
  access: Joint['access']
  bolts: Bolts
  bolting: Bolting
  places: BoltPlaces
  /** Strokes in their order; each names the bolts that are taken at once, numbered from 1 round the joint. Empty where places are not known. */
  strokes: readonly (readonly number[])[]
  /** Shares of the passes are the file's own, not the usual ones. */
  passesGiven: boolean
  recheck: string
  /** Why the old bolts may not go back in, where that is planned. */
  refused?: string
  cautions: readonly string[]
  /** Pointers of what is missing for torque or pressure, preload and scatter. */
  missing: readonly string[]
}

/** Lists of bolts to close on the return, in its order, and their checks. */
export function boltUpOf(
  model: Model,
  steps: readonly VerifiedStep[],
  memory: Memory,
): { lists: readonly BoltUpStep[]; checks: readonly Check[] } {
  const closed = steps.map((step) =>
    memory.once(`strip-boltUp/${step.step.step}`, [step, model.near], () => listOf(model, step, memory)),
  )
  return memory.once('strip-boltUps', closed, () => ({
    lists: closed
      .map(({ list }) => list)
      .filter(({ joints, others }) => joints.length + others.length > 0)
      .reverse(),
    checks: closed.flatMap(({ checks }) => checks),
  }))
}

function listOf(model: Model, { step, release }: VerifiedStep, memory: Memory) {
  const opened = [...release.joints, ...release.hidden.map((h) => h.joint)]
  const made = opened.flatMap(({ id, joint }) => {
    const { bolts } = joint
    if (bolts === undefined) return []
    return [memory.once(`strip-bolting/${id}`, [joint, model.near], () => jointOf(model, id, joint, bolts))]
  })
  const list: BoltUpStep = {
    step: step.step,
    piece: step.piece,
    joints: made.map(({ entry }) => entry),
    others: opened.filter(({ joint }) => joint.bolts === undefined).map(({ id }) => id),
  }
  return { list, checks: made.flatMap(({ checks }) => checks) }
}

function jointOf(model: Model, id: string, joint: Joint, bolts: Bolts) {
  const bolting = boltingOf(id, bolts)
  const closed: ClosedJoint = { id, joint, bolts, bolting, places: placesOfBolts(joint) }
  return { entry: entryOf(closed), checks: boltingChecks(model, closed) }
}

function entryOf({ id, joint, bolts, bolting, places }: ClosedJoint): BoltUpJoint {
  const refused = bolts.reused === true ? bolting.grade?.onceOnly : undefined
  const aimed = [bolting.target, bolting.least, bolting.torque ?? bolting.pressure]
  return {
    joint: id,
    between: joint.between,
    access: joint.access,
    bolts,
    bolting,
    places,
    strokes: tighteningOrder(places, bolts.tools).map((stroke) => stroke.map((i) => i + 1)),
    passesGiven: bolts.passes !== undefined,
    recheck: bolts.recheck ?? 'every bolt once more after a day, and after the first run (common practice, no source)',
    ...(refused === undefined ? {} : { refused }),
    cautions: cautionsOf(bolts, bolting),
    missing: [...new Set(aimed.flatMap((a) => (a === undefined ? [] : missingUnder(a))))],
  }
}

/** Above this a torque says too little of the preload (a maker's page on slewing rings, read). */
const LARGE = 0.0305

function cautionsOf({ method, passes, circle, rows }: Bolts, { thread }: Bolting): readonly string[] {
  return [
    ...(method !== 'hydraulic tension' && thread !== undefined && thread.d > LARGE
      ? ['above about M30 torque says too little of the preload: hydraulic tensioning is the usual choice']
      : []),
    ...(passes === undefined
      ? [
          `passes of ${USUAL_PASSES.map((q) => `${100 * q} %`).join(', ')} and a check pass are common practice, no source`,
        ]
      : []),
    ...(circle === undefined && rows === undefined
      ? ['where the bolts stand is not given: number them on the joint, opposite ones in turn']
      : []),
  ]
}
