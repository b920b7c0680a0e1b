import { boomStanding } from '@shieldwright/engine/lift/index.ts'
import { AT_REST, type Pose, place, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { Vector3 } from 'three'
import type { Batch } from './batch.ts'
import type { Scene } from './scene.ts'
import { type Hanging, hangingAt, type Moment, outOf, parkedNow, standOf } from './stand.ts'
import { poseAlong } from './way.ts'

const ROW = 20

/** Writes where everything stands in a moment into the rows of a batch. */
export function posing(scene: Scene, batch: Batch): (moment: Moment) => Hanging | undefined {
  const hookItems = new Map<string, number>()
  scene.items.forEach((item, i) => {
    batch.setPose(i, item.pose)
    if (item.rig?.part === 'hook') hookItems.set(`${item.rig.system}/${item.rig.hook}`, i)
  })
  const towers = scene.items.flatMap((item, i) =>
    item.rig === undefined || item.rig.part === 'hook' ? [] : [{ item, i }],
  )
  const movers = scene.items.flatMap((item, i) => (item.moved.length > 0 ? [{ item, i }] : []))
  const [x, y, z, at] = [new Vector3(), new Vector3(), new Vector3(), new Vector3()]
  const ends = scene.steps.map((s) => s.passage.way.poses.at(-1) ?? AT_REST)
  return (moment) => {
    const under = moment.step === undefined ? undefined : scene.steps[moment.step]
    const now = under === undefined ? AT_REST : poseAlong(under.passage.way, moment.share)
    for (const { item, i } of movers) {
      const out = outOf(item, moment, scene.steps.length)
      let last = -1
      for (const k of item.moved) if (k < out) last = k
      if (last < 0) batch.setPose(i, item.pose)
      else writeComposed(batch.rows, i, out - last >= 1 ? (ends[last] as Pose) : now, item.pose)
    }
    const hanging = hangingAt(scene, moment)
    for (const { item, i } of towers) {
      const rig = item.rig as NonNullable<typeof item.rig>
      const stands = standOf(rig.system, scene, moment, hanging)
      if (parkedNow(rig.system, scene, moment, hanging)?.away === true) {
        hide(batch, i)
        continue
      }
      if (rig.part !== 'boom') {
        batch.setColumns(i, x.set(1, 0, 0), y.set(0, 1, 0), z.set(0, 0, 1), at.set(...stands))
        continue
      }
      const { foot, head } = boomAxis(scene, rig.system, moment, hanging)
      at.set(...foot)
      x.set(...head).sub(at)
      y.set(-x.y, x.x, 0).normalize()
      z.crossVectors(x, y).normalize()
      batch.setColumns(i, x, y, z, at)
    }
    for (const [id, i] of hookItems) {
      const [system = '', hook = ''] = id.split('/')
      if (parkedNow(system, scene, moment, hanging)?.away === true) {
        hide(batch, i)
        continue
      }
      const p = hookPlace(scene, system, hook, moment, hanging)
      batch.setColumns(i, x.set(1, 0, 0), y.set(0, 1, 0), z.set(0, 0, 1), at.set(...p))
    }
    return hanging
  }
}

const NOWHERE = new Vector3(0, 0, 0)

/** Drawn as a point: what is not on the site. */
const hide = (batch: Batch, item: number): void => batch.setColumns(item, NOWHERE, NOWHERE, NOWHERE, NOWHERE)

/** Where the boom of a symbol is pinned, over the ground, m. */
const FOOT = 2.5
/** A boom at rest leans out this far, m. */
const OUT = 9
/** The head of a symbol is never lower than this over its hook, m. */
const OVER_HOOK = 2

/**
 * The axis of a boom: as the check of the lift takes it, from its pin to over the hook; at rest over where the project says that
 * its hook rests, else towards the shaft. Where the project does not say enough of it, up to the highest its hook reaches.
 */
export function boomAxis(
  scene: Scene,
  system: string,
  moment: Moment,
  hanging: Hanging | undefined,
): { foot: Vec3; head: Vec3 } {
  const stands = standOf(system, scene, moment, hanging)
  const frame = scene.systems[system]
  const own = hanging?.rig.system === system ? hanging : undefined
  const used = own?.hooks[0]?.at
  const rests = parkedNow(system, scene, moment, hanging)?.over
  const over: Vec3 = used ?? (rests === undefined ? leanedOut(stands) : [rests[0], rests[1], 0])
  const boom = own?.rig.boom ?? (frame?.boom && { ...frame.boom, centre: [stands[0], stands[1]] as const })
  if (boom !== undefined) {
    const { pin, head } = boomStanding(boom, [over[0], over[1]])
    return { foot: pin, head }
  }
  const head = Math.max(frame?.head ?? 20, used === undefined ? 0 : used[2] + OVER_HOOK)
  return { foot: [stands[0], stands[1], FOOT], head: [over[0], over[1], head] }
}

function leanedOut(stands: Vec3): Vec3 {
  const far = Math.hypot(stands[0], stands[1]) || 1
  const lean = Math.min(OUT, far)
  return [stands[0] - (stands[0] / far) * lean, stands[1] - (stands[1] / far) * lean, 0]
}

const PARKED = 4

/** A hook over its piece; else parked near the head. */
export function hookPlace(
  scene: Scene,
  system: string,
  hook: string,
  moment: Moment,
  hanging: Hanging | undefined,
): Vec3 {
  const used = hanging?.rig.system === system ? hanging.hooks.find((h) => h.hook === hook) : undefined
  if (used !== undefined) return used.at
  const frame = scene.systems[system]
  const stands = standOf(system, scene, moment, hanging)
  const head = (frame?.head ?? 20) - PARKED
  if (frame?.kind === 'lift tower' || frame?.kind === 'gantry') {
    const index = frame.hooks.indexOf(hook)
    return [index === 0 ? 0 : 6 * (index % 2 === 0 ? 1 : -1), stands[1], head]
  }
  const tip = boomAxis(scene, system, moment, hanging).head
  return [tip[0], tip[1], Math.min(head, tip[2] - PARKED)]
}

function writeComposed(rows: Float32Array, item: number, outer: Pose, inner: Pose): void {
  const { turn: a, shift: s } = outer
  const { turn: b, shift: t } = inner
  for (let r = 0; r < 3; r++) {
    const row = a[r as 0 | 1 | 2]
    const k = item * ROW + r * 4
    for (let c = 0; c < 3; c++) {
      const j = c as 0 | 1 | 2
      rows[k + c] = row[0] * b[0][j] + row[1] * b[1][j] + row[2] * b[2][j]
    }
    rows[k + 3] = row[0] * t[0] + row[1] * t[1] + row[2] * t[2] + s[r as 0 | 1 | 2]
  }
}

/** The way of a centre of gravity through the legs of a step: points, and whether the order has each stretch. */
export function pathOf(scene: Scene, index: number): { points: Vec3[]; planned: boolean[] } {
  const step = scene.steps[index]
  if (step === undefined) return { points: [], planned: [] }
  const { way, planned } = step.passage
  const points: Vec3[] = [place(way.poses[0] ?? AT_REST, step.cog)]
  const known: boolean[] = []
  way.legs.forEach((leg, k) => {
    const count = 'by' in leg ? 1 : 24
    const before = way.until[k - 1] ?? 0
    const width = (way.until[k] as number) - before
    for (let i = 1; i <= count; i++) {
      points.push(place(poseAlong(way, before + (width * i) / count), step.cog))
      known.push(k >= planned[0] && k < planned[1])
    }
  })
  return { points, planned: known }
}
