import { add, type Pose, place, scale, subtract, type Vec3 } from '../../numeric/vector.ts'
import type { Shape, Stroke } from '../drawing.ts'
import { type Frame2, frameOf, loopArea, type Point2 } from '../outline/convex.ts'
import { type Outlines, outlineMemory } from '../outline/memory.ts'
import { type Look, moved, type Standing } from '../outline/picture.ts'
import { loopOnPaper, type Placing } from '../paper/scale.ts'
import { liftingPoints } from '../sheet/rigging.ts'
import { machineAt, type SheetSubject, standing } from '../sheet/subject.ts'
import { type Between, nearestBetween, nearestOn } from './nearest.ts'

/** Everything of one lift that the views draw: shapes and places, worked out once. */
export interface Scene {
  subject: SheetSubject
  /** Shapes of the piece and of gear bolted to it, as found. */
  piece: readonly Standing[]
  /** Shapes of what is still in the shaft. */
  rest: readonly Standing[]
  start: Pose
  tightest: Pose
  end: Pose
  /** Poses along the way. */
  poses: readonly Pose[]
  gap?: SceneGap
  /** The least that the lift stage measures to what is fixed in the shaft, where that is not the tightest. */
  fixedGap?: SceneGap
  outlines: Outlines
}

/** The tightest place: where it is on the piece and on what is near. */
export interface SceneGap {
  value: number
  to: string
  name: string
  at: Vec3
  /** Of the lift stage, which measures in plan; else of the order of removal, as it lies. */
  inPlan: boolean
  /** Where it begins on the piece and ends on what is near, at the tightest pose. */
  ends: { from: Vec3; to: Vec3 } | undefined
  /** Shapes of the part that comes nearest and of what it comes near to, as found; empty where that is no part. */
  part: readonly Standing[]
  other: readonly Standing[]
}

/** A gap as a stage gives it. */
interface GapFound {
  value: number
  to: string
  at: Vec3
  part: string | undefined
  inPlan: boolean
  /** Poses between which it occurs; all where the stage does not say. */
  poses: readonly Pose[]
}

export function sceneOf(subject: SheetSubject): Scene {
  const { poses, steps, set, stages } = subject
  const piece = standing(stages, set.parts)
  const [least, ...others] = gapsOf(subject)
  const start = poses[0] as Pose
  const tight = least === undefined ? undefined : tightest(subject, least, piece)
  const fixed = others.find((gap) => gap.inPlan)
  return {
    subject,
    piece,
    rest: standing(stages, steps.at(-1)?.remaining ?? []),
    start,
    tightest: tight?.pose ?? start,
    end: poses.at(-1) as Pose,
    poses,
    outlines: outlineMemory(piece, CHORD_ERROR),
    ...(tight === undefined ? {} : { gap: tight.gap }),
    ...(fixed === undefined ? {} : { fixedGap: tightest(subject, fixed, piece).gap }),
  }
}

/** Gaps to the shaft, as the lift stage has them, and to what is left of the machine, as the order has them; the least first. */
function gapsOf({ outcome, steps, poses, back }: SheetSubject): GapFound[] {
  const own = outcome.clearance
  let first = 0
  const gaps: GapFound[] =
    own?.gap.value === undefined
      ? []
      : [{ value: own.gap.value, to: own.to, at: own.at, part: own.part, inPlan: true, poses }]
  for (const { clearance: c, moves } of steps) {
    const begin = back ? poses.length - 2 - first - (c?.move ?? 0) : first + (c?.move ?? 0)
    if (c !== undefined)
      gaps.push({
        value: c.gap,
        to: c.to,
        at: c.at,
        part: c.part,
        inPlan: false,
        poses: poses.slice(Math.max(0, begin), begin + 2),
      })
    first += moves.length
  }
  return gaps.sort((a, b) => a.value - b.value)
}

function tightest(subject: SheetSubject, found: GapFound, piece: readonly Standing[]): { pose: Pose; gap: SceneGap } {
  const { stages } = subject
  const named = found.part === undefined ? [] : standing(stages, [found.part])
  const part = named.length > 0 ? named : piece
  const other = standing(stages, [found.to])
  const near = (pose: Pose): Between | undefined => {
    const moving = moved(part, pose)
    if (other.length > 0) return nearestBetween(moving, other, found.at)
    const on = nearestOn(moving, found.at)
    return on === undefined ? undefined : { from: on.at, to: found.at, away: on.away }
  }
  let best: { pose: Pose; between: Between } | undefined
  for (const pose of samplesAlong(found.poses)) {
    const between = near(pose)
    if (between !== undefined && between.away < (best?.between.away ?? Infinity) - 1e-6) best = { pose, between }
  }
  const gap = {
    value: found.value,
    to: found.to,
    name: nameOf(subject, found.to),
    at: best?.between.to ?? found.at,
    inPlan: found.inPlan,
    ends: best?.between,
    part,
    other,
  }
  return { pose: best?.pose ?? (found.poses[0] as Pose), gap }
}

function nameOf({ stages }: SheetSubject, id: string): string {
  const { shaft } = stages.model.project
  const part = stages.model.instances.byId.get(id)?.part.name
  return part ?? shaft?.obstructions[id]?.what ?? (id === 'wall' ? 'wall of the shaft' : id)
}

const SAMPLES = 60

function samplesAlong(poses: readonly Pose[]): Pose[] {
  return poses.flatMap((to, i) => {
    const from = poses[i - 1]
    if (from === undefined) return [to]
    return Array.from({ length: SAMPLES }, (_, k): Pose => {
      const t = (k + 1) / SAMPLES
      const shift = from.shift.map((x, axis) => x + t * ((to.shift[axis] as number) - x))
      return { turn: t < 1 ? from.turn : to.turn, shift: [shift[0] as number, shift[1] as number, shift[2] as number] }
    })
  })
}

/** Greatest distance of a chord from its arc, m: finer than a line at the scales of a sheet. */
export const CHORD_ERROR = 0.008

/** Outline of the piece in a pose. */
export const outlineAt = ({ outlines }: Scene, pose: Pose, look: Look): Point2[][] => outlines(pose, look)

/** Holes smaller than this on paper are left out, mm². */
const LEAST_HOLE = 0.6

/** Loops of the view as a shape on paper. */
export function shapeOf(loops: readonly Point2[][], placing: Placing, look: Pick<Shape, 'fill' | 'stroke'>): Shape {
  const least = (LEAST_HOLE * placing.scale ** 2) / 1e6
  return {
    kind: 'shape',
    loops: loops
      .filter((loop) => loopArea(loop) > 0 || -loopArea(loop) > least)
      .map((loop) => loopOnPaper(placing, loop)),
    ...look,
  }
}

/** The same, only as lines: where the piece was or will be. */
export const ghostOf = (loops: readonly Point2[][], placing: Placing, stroke: Stroke): Shape =>
  shapeOf(
    loops.filter((loop) => loopArea(loop) > 0),
    placing,
    { stroke },
  )

export const frameOfLoops = (loops: readonly Point2[][]): Frame2 => frameOf(loops.flat())

/** Frame that holds several. */
export const framesTogether = (frames: readonly Frame2[]): Frame2 => ({
  left: Math.min(...frames.map((f) => f.left)),
  right: Math.max(...frames.map((f) => f.right)),
  bottom: Math.min(...frames.map((f) => f.bottom)),
  top: Math.max(...frames.map((f) => f.top)),
})

/** Centre of gravity of the piece in a pose, site frame. */
export const cogAt = ({ subject }: Scene, pose: Pose): Vec3 => place(machineAt(subject, pose), subject.set.cogMachine)

/** Lifting points in a pose, by id. */
export function pointsAt({ subject }: Scene, pose: Pose): ReadonlyMap<string, Vec3> {
  return new Map([...liftingPoints(subject)].map(([id, p]) => [id, place(pose, p)]))
}

/** The hook over the piece in a pose, as the equilibrium has it; undefined where that is open. */
export function hookAt(scene: Scene, pose: Pose): Vec3 | undefined {
  const points = pointsAt(scene, pose)
  const places = scene.subject.outcome.legs.flatMap(({ to, ends }) => {
    const point = points.get(to)
    return point === undefined || ends === undefined ? [] : [subtract(point, ends[0])]
  })
  if (places.length === 0) return undefined
  return scale(places.reduce(add), 1 / places.length)
}
