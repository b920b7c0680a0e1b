import type { MassResult } from '../mass/index.ts'
import type { Model, Shaft } from '../model/index.ts'
import { compose, type Pose, type Vec3 } from '../numeric/vector.ts'
import type { StripResult } from '../strip/index.ts'
import type { Memory } from '../working/memory.ts'
import { pieceHull } from './bodies.ts'
import { fixedGap, type Gap, hungPose, leansOf, shiftInPlan, wallGap } from './clearance.ts'
import { facing, type Hull, levelsOf, planDirection } from './hull.ts'
import { clearance } from './kinds.ts'
import { hungOf } from './outcome.ts'
import { foundPose, isShift } from './path.ts'
import { type Pick, pickOf } from './pick.ts'
import { type SurveyedGap, surveyedGap } from './surveyedGap.ts'

/** How near a piece is in one moment to one thing. */
export interface ClearanceNow {
  /** m; below zero it strikes. */
  gap: number
  /** `wall`, the id of the obstruction, or what stands on the site. */
  to: string
  /** What that is, in words, where it is no entity of its own. */
  name?: string
  part: string
  /** As found, or as it hangs; absent outside the shaft, where it is taken as its way has it. */
  as?: string
  /** Id of the check that has the least of it over the way; absent where none has. */
  check?: string
  /** On the piece, and on what is near, site frame, m: as far apart as the gap. */
  from: Vec3
  at: Vec3
}

/**
 * How near the piece of a lift is, moment by moment, to the wall of the shaft and to each fixed thing that it is level with,
 * measured in plan as the check of clearance measures it. The least over a way of level and plumb moves is the gap of the
 * lift's own check; over others it is never less. Once every pile or panel is surveyed, the wall is that of the survey; the
 * check keeps to the clear bore.
 *
 * @returns from the pose of the piece (from as found, site frame) to what is near; undefined for a lift that is not in the shaft
 */
export function clearanceNow(
  model: Model,
  mass: MassResult,
  strip: StripResult,
  lift: string,
  memory: Memory,
): ((pose: Pose) => ClearanceNow[]) | undefined {
  const pick = pickOf(model, mass, strip, lift)
  const hull = pieceHull(model, mass, pick.lift.piece, memory)
  const found = foundPose(pick)
  const { shaft, inShaft } = pick
  if (!inShaft || shaft === undefined || hull === undefined || found === undefined) return undefined
  const near = nearAround(pick, hull, shaft, [undefined, ...leansOf(hungOf(pick, memory).suspension)])
  const checked = (one: ClearanceNow) => ({ ...one, check: `${clearance.id}/${pick.subject.id}/${one.to}` })
  return (pose) => near(compose(pose, found)).map(checked)
}

/** As found, or how it hangs: in words, and the direction that hangs plumb. */
type Attitude = readonly [as: string, up: Vec3] | undefined

/** How near a hull in some attitudes is to the wall and to fixed things at a pose, machine frame to site frame: the least of each. */
export function nearAround(
  pick: Pick,
  hull: Hull,
  shaft: Shaft,
  attitudes: readonly Attitude[],
): (pose: Pose) => ClearanceNow[] {
  const around: Around = { pick, hull, shaft, surveyed: surveyedGap(shaft) }
  const all = attitudes.map((attitude) => ({ attitude, measured: inPlan() }))
  return (pose) =>
    leastOfEach(
      all.flatMap(({ attitude, measured }) =>
        attitude === undefined
          ? nearIn(around, pose, 'as found', measured)
          : nearIn(around, hungPose(pick, pose, attitude[1]), attitude[0], measured),
      ),
    )
}

type Measured = ReturnType<typeof wallGap>

/** Measures in plan, once for poses that differ only in height: most of a way through a shaft is plumb. */
function inPlan(): (to: string, pose: Pose, measure: () => Measured) => Measured {
  const last = new Map<string, { pose: Pose; found: Measured }>()
  return (to, pose, measure) => {
    const known = last.get(to)
    if (known !== undefined && isShift(known.pose, pose) && shiftInPlan(known.pose, pose) < 1e-12) return known.found
    const found = measure()
    last.set(to, { pose, found })
    return found
  }
}

interface Around {
  pick: Pick
  hull: Hull
  shaft: Shaft
  surveyed: ReturnType<typeof surveyedGap>
}

function nearIn(
  { pick: { gone }, hull, shaft, surveyed }: Around,
  pose: Pose,
  as: string,
  measured: ReturnType<typeof inPlan>,
): ClearanceNow[] {
  const levels = levelsOf(hull, pose)
  if (levels.low > (shaft.collar.value as number)) return []
  const level = Object.entries(shaft.obstructions).filter(([id, o]) => !gone.has(id) && isLevel(o, levels))
  const wall =
    surveyed === undefined
      ? onWall(
          hull,
          pose,
          { ...measured('wall', pose, () => wallGap(hull, pose, shaft)), as },
          (shaft.clearDiameter.value as number) / 2,
        )
      : onSurvey(hull, pose, surveyed(hull, pose), as)
  return [
    wall,
    ...level.map(([id, o]) => {
      const fixed = measured(id, pose, () => ({ ...fixedGap(hull, [pose], o), to: id }))
      return onThing(hull, pose, o, { ...fixed, as })
    }),
  ]
}

type Thing = Shaft['obstructions'][string]

const spanOf = (z: Thing['z']): [low: number, high: number] => {
  const [a, b] = z.map((v) => v.value as number) as [number, number]
  return [Math.min(a, b), Math.max(a, b)]
}

function isLevel({ z }: Thing, { low, high }: { low: number; high: number }): boolean {
  const [bottom, top] = spanOf(z)
  return bottom <= high && top >= low
}

/** @param face distance of the wall from the axis there, m */
function onWall(
  hull: Hull,
  pose: Pose,
  { gap, to, part, as, solid, angle }: Omit<Gap, 'at'>,
  face: number,
): ClearanceNow {
  const d = planDirection(angle)
  const [, , z] = facing(hull, pose, solid, d)
  return { gap, to, part, as, from: alongFrom(d, face - gap, z), at: alongFrom(d, face, z) }
}

const onSurvey = (hull: Hull, pose: Pose, gap: SurveyedGap, as: string): ClearanceNow => ({
  ...onWall(hull, pose, { ...gap, as }, gap.face),
  name: `wall of the shaft as surveyed, ${gap.element}`,
})

const alongFrom = (d: Vec3, k: number, z: number): Vec3 => [d[0] * k, d[1] * k, z]

/** Square on to a face of a box the gap is anywhere along it: opposite the middle of what faces it. */
const SQUARE = 1e-4

function onThing(hull: Hull, pose: Pose, { x, y, z, round }: Thing, { gap, to, part, as, solid, angle }: Gap) {
  const d = planDirection(angle)
  const p = facing(hull, pose, solid, d)
  const [bottom, top] = spanOf(z)
  const level = Math.min(top, Math.max(bottom, p[2]))
  const face = ([a, b]: Thing['x'], k: 0 | 1): number => {
    const [low, high] = [Math.min(a.value as number, b.value as number), Math.max(a.value as number, b.value as number)]
    if (round) return (low + high) / 2
    return Math.abs(d[k]) < SQUARE ? Math.min(high, Math.max(low, p[k])) : d[k] > 0 ? low : high
  }
  const radius = round ? Math.max(halfOf(x), halfOf(y)) : 0
  const at: Vec3 = [face(x, 0) - radius * d[0], face(y, 1) - radius * d[1], level]
  return { gap, to, part, as, from: [at[0] - gap * d[0], at[1] - gap * d[1], level] as Vec3, at }
}

const halfOf = ([a, b]: Thing['x']): number => Math.abs((b.value as number) - (a.value as number)) / 2

function leastOfEach(all: readonly ClearanceNow[]): ClearanceNow[] {
  const least = new Map<string, ClearanceNow>()
  for (const one of all) if (one.gap < (least.get(one.to)?.gap ?? Infinity)) least.set(one.to, one)
  return [...least.values()].sort((a, b) => a.gap - b.gap)
}
