import type { Stages } from '@shieldwright/engine'
import { poseInSite } from '@shieldwright/engine/model/index.ts'
import { compose, type Pose, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { type Between, nearestBetween, nearestOn } from '@shieldwright/engine/report/views/nearest.ts'
import type { Passage } from './passage.ts'
import { type Leg, posePartly } from './way.ts'

/** The least gap of a step, with the two points that it lies between where these are found. */
export interface SceneGap {
  /** As the order's verification has it, m. */
  gap: number
  to: string
  name: string
  /** On the piece and on what is near, site frame, where the piece is nearest. */
  ends: readonly [Vec3, Vec3] | undefined
  short: boolean
}

/** Points found before: a gap that has not been worked out again lies where it lay. */
const found = new WeakMap<object, { ends: SceneGap['ends'] }>()

type Step = Stages['strip']['steps'][number]

/** The tightest place of a step: the gap is the derivation's; the points are looked for along the move it names. */
export function gapOf(stages: Stages, step: Step, passage: Passage): SceneGap | undefined {
  const { clearance: c } = step
  if (c === undefined) return undefined
  const name =
    stages.model.project.shaft?.obstructions[c.to]?.what ?? stages.model.instances.byId.get(c.to)?.part.name ?? c.to
  const short = stages.checks.some(
    (k) =>
      k.verdict === 'fail' && (k.subject.id === step.step || k.subject.id === step.lift) && k.id.endsWith(`/${c.to}`),
  )
  const known = found.get(c)
  const ends = known === undefined ? endsOf(stages, c, passage) : known.ends
  found.set(c, { ends })
  return { gap: c.gap, to: c.to, name, ends, short }
}

const SAMPLES = 12
/** Looked for again between the samples beside the best one. */
const FINER = 8
/** Points farther apart than the gap by more than this are another place than the one meant, m. */
const ASTRAY = 0.08

function endsOf(stages: Stages, c: NonNullable<Step['clearance']>, { way, planned }: Passage): SceneGap['ends'] {
  const part = bodiesOf(stages, c.part)
  const other = bodiesOf(stages, c.to)
  const leg = way.legs[planned[0] + c.move]
  const start = way.poses[planned[0] + c.move]
  if (leg === undefined || start === undefined || part.length === 0) return undefined
  const near = (share: number): Between | undefined => between(part, other, posePartly(start, leg as Leg, share), c.at)
  const least = (from: number, to: number, count: number): { share: number; found: Between | undefined } => {
    let best: { share: number; found: Between | undefined } = { share: from, found: undefined }
    for (let k = 0; k <= count; k++) {
      const share = from + ((to - from) * k) / count
      const found = near(share)
      if (found !== undefined && found.away < (best.found?.away ?? Infinity) - 1e-6) best = { share, found }
    }
    return best
  }
  const rough = least(0, 1, SAMPLES).share
  const best = least(Math.max(0, rough - 1 / SAMPLES), Math.min(1, rough + 1 / SAMPLES), FINER).found
  return best === undefined || Math.abs(best.away - c.gap) > ASTRAY ? undefined : [best.from, best.to]
}

type Standing = Parameters<typeof nearestOn>[0]

function between(part: Standing, other: Standing, pose: Pose, at: Vec3): Between | undefined {
  const moving = part.map((s) => ({ ...s, pose: compose(pose, s.pose) }))
  if (other.length > 0) return nearestBetween(moving, other, at)
  const on = nearestOn(moving, at)
  return on === undefined ? undefined : { from: on.at, to: at, away: on.away }
}

/** Shapes of a part as found, site frame; none for what is no part. */
function bodiesOf({ model, mass }: Stages, id: string): Standing {
  const instance = model.instances.byId.get(id)
  const { machine } = model.project
  if (instance === undefined || machine === undefined) return []
  const pose = poseInSite(machine, instance)
  return (mass.parts[instance.entry]?.shape.bodies ?? []).map((body) => ({ body, pose }))
}
