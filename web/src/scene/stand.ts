import { riggedAt } from '@shieldwright/engine/lift/index.ts'
import { compose, type Pose, place, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import type { HookUse, Parked, RigUse } from './rig.ts'
import type { Scene, SceneStep } from './scene.ts'
import type { SceneItem } from './sceneItem.ts'
import { poseAlong } from './way.ts'

/** A place along the order, out or back. */
export interface Moment {
  /** Steps of the order that are done, as on the way out. */
  out: number
  /** On the way back. */
  homeward: boolean
  /** The step under way, or the last that was; none where nothing has moved. */
  step: number | undefined
  /** How far along its way out the piece is: 0 where it stood, 1 where it is set down. */
  share: number
}

/** Stops along the order: out, and back again. */
export const stopsOf = (scene: Pick<Scene, 'steps'>): number => 2 * scene.steps.length

/** Which step a place along the order lies in. Behind the last step the way back begins, in reverse order. */
export function momentAt(scene: Pick<Scene, 'steps'>, along: number): Moment {
  const n = scene.steps.length
  const at = Math.min(Math.max(along, 0), 2 * n)
  const homeward = at > n
  const out = homeward ? 2 * n - at : at
  if (n === 0 || at === 0) return { out, homeward, step: undefined, share: 0 }
  const step = homeward ? Math.min(n - 1, Math.floor(out)) : Math.min(n, Math.ceil(out)) - 1
  return { out, homeward, step, share: out - step }
}

/** Whether a piece is on its way. */
export const isUnderWay = ({ step, share }: Moment): boolean => step !== undefined && share > 0 && share < 1

/** Steps of the way out that a thing has gone through: what is scrapped stays where it lies. */
export const outOf = (item: Pick<SceneItem, 'scrapped'>, moment: Moment, steps: number): number =>
  item.scrapped === true && moment.homeward ? steps : moment.out

/** How a thing has moved from where it was found. */
export function displaced(item: SceneItem, scene: Scene, moment: Moment): Pose | undefined {
  const out = outOf(item, moment, scene.steps.length)
  let last = -1
  for (const k of item.moved) if (k < out) last = k
  const step = scene.steps[last]
  return step === undefined ? undefined : poseAlong(step.passage.way, Math.min(1, out - last))
}

/** Where a thing stands, site frame. */
export function poseOf(item: SceneItem, scene: Scene, moment: Moment): Pose {
  const moved = displaced(item, scene, moment)
  return moved === undefined ? item.pose : compose(moved, item.pose)
}

/** Whether a fixed thing is still there: once taken away it is not put back. */
export const isThere = (item: SceneItem, moment: Moment): boolean =>
  item.until === undefined || (!moment.homeward && moment.out <= item.until)

/** A hook as it holds its piece now. */
export interface Hooked {
  hook: string
  at: Vec3
  points: readonly Vec3[]
  tops: readonly Vec3[]
  /** Axes of the spreaders between them, and half of their thickness, m. */
  spreaders: readonly (readonly [Vec3, Vec3])[]
  half: number
}

/** What a lifting system does now: undefined where its piece does not hang. */
export interface Hanging {
  rig: RigUse
  hooks: readonly Hooked[]
}

/** Whether the piece of a step hangs from a hook in a moment: on its way, and not on a trailer. */
export function hangingAt(scene: Scene, moment: Moment): Hanging | undefined {
  const step = moment.step === undefined ? undefined : scene.steps[moment.step]
  const rig = moment.homeward ? (step?.rigBack ?? step?.rig) : step?.rig
  if (step === undefined || rig === undefined || moment.share <= 0 || moment.share >= 1) return undefined
  const pose = poseAlong(step.passage.way, moment.share)
  return { rig, hooks: [hungFrom(rig, pose), ...(rig.tail === undefined ? [] : [hooked(rig.tail, pose)])] }
}

/** The main hook and its rigging as they hang; once the piece is tipped, or where the hang is not known, over its points. */
function hungFrom({ main, hung }: RigUse, pose: Pose): Hooked {
  const rigged = hung && riggedAt(hung.rigging, compose(pose, hung.found))
  if (hung === undefined || rigged === undefined) return hooked(main, pose)
  return {
    hook: main.hook,
    at: rigged.hook,
    points: rigged.legs.map(([lower]) => lower),
    tops: rigged.legs.map(([, upper]) => upper),
    spreaders: rigged.spreaders,
    half: hung.rigging.half,
  }
}

function hooked(use: HookUse, pose: Pose): Hooked {
  const points = use.points.map((p) => place(pose, p))
  const n = points.length
  const middle = points.reduce<Vec3>((s, p) => [s[0] + p[0] / n, s[1] + p[1] / n, s[2] + p[2] / n], [0, 0, 0])
  const at: Vec3 = [middle[0] + use.above[0], middle[1] + use.above[1], middle[2] + use.above[2]]
  const tops = use.tops.map((t): Vec3 => [at[0] + t[0], at[1] + t[1], at[2] + t[2]])
  return { hook: use.hook, at, points, tops, spreaders: [], half: 0 }
}

/** Where the project says that a system is parked, while it is: before it has lifted anything, and while another lifts. */
export function parkedNow(id: string, scene: Scene, moment: Moment, hanging: Hanging | undefined): Parked | undefined {
  const isLifting = hanging?.rig.system === id
  const isIdle = hanging !== undefined || lastUse(id, scene, moment) === undefined
  return !isLifting && isIdle ? scene.systems[id]?.parked : undefined
}

/** Where a system stands: over its piece, where it is parked, or where its last one was set down. */
export function standOf(id: string, scene: Scene, moment: Moment, hanging: Hanging | undefined): Vec3 {
  const frame = scene.systems[id]
  const rest = frame?.rest ?? [0, 0]
  if (frame === undefined) return [rest[0], rest[1], 0]
  const parked = parkedNow(id, scene, moment, hanging)?.at
  if (parked !== undefined) return [parked[0], parked[1], 0]
  const tower = frame.kind === 'lift tower' || frame.kind === 'gantry'
  if (!tower) {
    const used = hanging?.rig.system === id ? hanging.rig : lastUse(id, scene, moment)?.rig
    const at = used?.standing ?? rest
    return [at[0], at[1], 0]
  }
  if (hanging?.rig.system === id) return [0, hanging.hooks[0]?.at[1] ?? 0, 0]
  const last = lastUse(id, scene, moment)
  if (last === undefined) return [0, rest[1], 0]
  const { way } = (last.step as SceneStep).passage
  const done = moment.homeward && last.index === moment.step ? moment.share : 1
  return [0, hungFrom(last.rig, poseAlong(way, done)).at[1], 0]
}

function lastUse(
  id: string,
  scene: Scene,
  { step, share }: Moment,
): { rig: RigUse; step: SceneStep; index: number } | undefined {
  const from = step === undefined ? -1 : share > 0 ? step : step - 1
  for (let k = from; k >= 0; k--) {
    const s = scene.steps[k]
    if (s?.rig?.system === id) return { rig: s.rig, step: s, index: k }
  }
  return undefined
}
