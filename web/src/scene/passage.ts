import type { Stages } from '@shieldwright/engine'
import { type Move, poseInSite } from '@shieldwright/engine/model/index.ts'
import { AT_REST, IDENTITY, type Mat3, type Pose, place, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { type Box3, boxAt, meetInPlan, middleOf } from './bounds.ts'
import { shapePoints, solidShapes, v, v2, v3 } from './solids.ts'
import { spotOn } from './spot.ts'
import { type Leg, reversed, turnBetween, type Way, wayOf } from './way.ts'

/** The way of one step as it is drawn: what the order has of it, and what joins that to where the piece lies. */
export interface Passage {
  way: Way
  /** Legs that stand in the order: from, and up to but not with. The others only join, straight. */
  planned: readonly [number, number]
  bay: string | undefined
  /** What is drawn and does not stand in the project. */
  drawn: readonly string[]
}

interface Standing {
  bay: string
  step: string
  parts: Set<string>
  pose: Pose
  /** Legs from the end of the order's moves to the bay. */
  joined: readonly Leg[]
}

/** How far above its bay a piece may end its moves and count as set down: stools and packing, m. */
const PACKING = 1

/** Ways of all steps, one after the other: each begins where the one before left its parts. */
export function passagesOf(stages: Stages): Passage[] {
  const points = pointsAsFound(stages)
  const landed: Standing[] = []
  return stages.strip.steps.map((step, index) => {
    const before = landed.find((s) => step.parts.some((p) => s.parts.has(p)))
    const start = step.poses[0] ?? AT_REST
    const legs = step.moves.map(legOf)
    const own = wayOf(start, legs)
    const back = before === undefined ? [] : wayOf(before.pose, reversed(before.joined)).legs
    for (const s of landed) for (const p of step.parts) s.parts.delete(p)
    const corners = step.parts.flatMap((p) => points.get(p) ?? [])
    const landing = landingOf(stages, index, corners, own.poses.at(-1) as Pose, standingBoxes(landed, points))
    const way = wayOf(back.length === 0 ? start : (before as Standing).pose, [...back, ...own.legs, ...landing.legs])
    if (landing.bay !== undefined)
      landed.push({
        bay: landing.bay,
        step: step.step,
        parts: new Set(step.parts),
        pose: way.poses.at(-1) as Pose,
        joined: landing.legs,
      })
    return {
      way,
      planned: [back.length, back.length + own.legs.length],
      bay: landing.bay,
      drawn: [...(back.length === 0 ? [] : ['taken up from where it is drawn on its bay']), ...landing.drawn],
    }
  })
}

const AXES: Readonly<Record<'x' | 'y' | 'z', Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }

function legOf(move: Move): Leg {
  if ('by' in move) return { by: v3(move.by) }
  const angle = v(move.turn)
  const [x, y, z] = AXES[move.axis]
  return { turn: [x * angle, y * angle, z * angle], about: v3(move.about) }
}

/** Points of every part as found, site frame. */
function pointsAsFound({ model }: Stages): ReadonlyMap<string, readonly Vec3[]> {
  const { machine } = model.project
  if (machine === undefined) return new Map()
  return new Map(
    [...model.instances.byId.values()].map((instance) => {
      const pose = poseInSite(machine, instance)
      const shapes = solidShapes(instance.part.solids, model.meshes)
      return [instance.id, shapes.flatMap(shapePoints).map((p) => place(pose, p))]
    }),
  )
}

type Boxes = readonly { bay: string; box: Box3 }[]

const standingBoxes = (landed: readonly Standing[], points: ReadonlyMap<string, readonly Vec3[]>): Boxes =>
  landed
    .filter((s) => s.parts.size > 0)
    .map((s) => ({
      bay: s.bay,
      box: boxAt(
        [...s.parts].flatMap((p) => points.get(p) ?? []),
        s.pose,
      ),
    }))

interface Landing {
  bay: string | undefined
  legs: readonly Leg[]
  drawn: readonly string[]
}

/** From the end of the order's moves to the bay: nothing where the moves set the piece down themselves. */
function landingOf(stages: Stages, index: number, corners: readonly Vec3[], end: Pose, standing: Boxes): Landing {
  const planned = stages.ground.steps[index]?.landing
  const bay = planned === undefined ? undefined : stages.model.project.bays[planned.bay]
  if (planned === undefined || bay === undefined || corners.length === 0) return { bay: undefined, legs: [], drawn: [] }
  const at = boxAt(corners, end)
  if (liesOn(at, v2(bay.centre), v2(bay.size), v(bay.level))) return { bay: planned.bay, legs: [], drawn: [] }
  const others = standing.filter((s) => s.bay === planned.bay).map((s) => s.box)
  const turn = turnBetween(end.turn, planned.turned)
  return { bay: planned.bay, ...joined(stages, index, { at, corners, end, turn, turned: planned.turned, others }) }
}

function liesOn(
  { min, max }: Box3,
  [cx, cy]: readonly [number, number],
  [w, l]: readonly [number, number],
  level: number,
): boolean {
  const [mx, my] = middleOf({ min, max })
  return Math.abs(mx - cx) <= w / 2 && Math.abs(my - cy) <= l / 2 && min[2] >= level - 0.05 && min[2] <= level + PACKING
}

interface Hanging {
  at: Box3
  corners: readonly Vec3[]
  end: Pose
  turn: Vec3
  turned: Mat3
  others: readonly Box3[]
}

function joined(
  stages: Stages,
  index: number,
  { at, corners, end, turn, turned, others }: Hanging,
): Pick<Landing, 'legs' | 'drawn'> {
  const { project } = stages.model
  const step = stages.strip.steps[index] as Stages['strip']['steps'][number]
  const bay = project.bays[stages.ground.steps[index]?.landing?.bay ?? ''] as NonNullable<(typeof project.bays)[string]>
  const lying = boxAt(corners, { turn: turned ?? IDENTITY, shift: [0, 0, 0] })
  const size = [lying.max[0] - lying.min[0], lying.max[1] - lying.min[1]] as const
  const spot = spotOn(bay, size, others)
  const target: Vec3 = [spot.centre[0], spot.centre[1], v(bay.level)]
  const box: Box3 = {
    min: [target[0] - size[0] / 2, target[1] - size[1] / 2, 0],
    max: [target[0] + size[0] / 2, target[1] + size[1] / 2, 0],
  }
  const under = others.filter((o) => meetInPlan(box, o, 0)).map((o) => o.max[2] + 0.3)
  const rest = Math.max(target[2], ...under)
  const [mx, my, mz] = middleOf(at)
  const safe = safeLevel(stages, step)
  const rise = Math.max(0, safe - at.min[2])
  const trailer = Object.entries(project.transports).find(([, t]) => t.at !== undefined && t.takes.includes(step.piece))
  const legs: Leg[] = [{ by: [0, 0, rise] }]
  let [x, y, low] = [mx, my, at.min[2] + rise]
  const go = (to: readonly [number, number]): void => {
    legs.push({ by: [to[0] - x, to[1] - y, 0] })
    ;[x, y] = to
  }
  const lower = (to: number): void => {
    legs.push({ by: [0, 0, to - low] })
    low = to
  }
  if (trailer !== undefined && trailer[1].at !== undefined) {
    const [tx, ty, tz] = v3(trailer[1].at)
    go([tx, ty])
    lower(tz)
  }
  if (under.length > 0) lower(Math.max(low, rest + 0.5))
  go([target[0], target[1]])
  if (Math.hypot(...turn) > 0) {
    const centre: Vec3 = [x, y, mz + low - at.min[2]]
    legs.push({ turn, about: centre })
    const hanging = wayOf(end, legs)
    const after = boxAt(corners, hanging.poses.at(-1) as Pose)
    const [ax, ay] = middleOf(after)
    ;[x, y, low] = [ax, ay, after.min[2]]
    go([target[0], target[1]])
  }
  lower(rest)
  return { legs, drawn: saidOf(trailer?.[0], bay.name ?? step.piece, spot.free, Math.hypot(...turn) > 0) }
}

/** The lowest that a piece may travel over ground: over what the lift names, else over the barrier, with the clearance set. */
function safeLevel({ model: { project } }: Stages, step: Stages['strip']['steps'][number]): number {
  const lift = step.lift === undefined ? undefined : project.lifts[step.lift]
  const keep = project.settings.clearanceOverBarrier?.value ?? 0
  if (lift?.over !== undefined) return v(lift.over) + keep
  const { shaft } = project
  return step.from === 'shaft' && shaft !== undefined ? v(shaft.collar) + v(shaft.barrier) + keep : keep
}

function saidOf(trailer: string | undefined, bay: string, free: boolean, turns: boolean): string[] {
  return [
    trailer === undefined
      ? `From where the order ends to ${bay} it is drawn straight, at the height that clears what is in the way.`
      : `Set on trailer ${trailer}, it is drawn straight to ${bay}: the trailer's way is not in the project.`,
    ...(turns ? ['Turned over the bay to how the plan lays it.'] : []),
    free
      ? 'Where on the bay it lies is not planned: it is drawn where there is room.'
      : `${bay} has no room left beside what stands there: it is drawn on top.`,
  ]
}
