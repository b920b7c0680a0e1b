import {
  add,
  cross as crossed,
  distance,
  norm,
  place,
  scale,
  subtract,
  unit,
  type Vec3,
} from '@shieldwright/engine/numeric/vector.ts'
import { type Clear, clearText, TOUCHING } from './clearance.ts'
import type { FreeLines } from './freeLines.ts'
import { spansOf } from './measure.ts'
import type { Ink, Palette } from './palette.ts'
import { boomAxis, hookPlace, pathOf } from './posing.ts'
import type { Scene, SceneService } from './scene.ts'
import type { SceneItem } from './sceneItem.ts'
import type { Shown3d } from './shown.ts'
import { type Hanging, type Moment, parkedNow, poseOf } from './stand.ts'

/** A text that goes with a mark. */
export interface MarkText {
  at: Vec3
  text: string
  kind: 'edit' | 'fail' | 'ink'
}

interface Marking {
  scene: Scene
  shown: Shown3d
  moment: Moment
  hanging: Hanging | undefined
  palette: Palette
}

/** Lines and slings from the head of each system to what it carries. */
export function liftingLines({ scene, shown, moment, hanging, palette }: Marking, lines: FreeLines): void {
  if (shown.hidden.has('lifting')) return
  const ink = palette.grey(0.85)
  for (const [system, frame] of Object.entries(scene.systems)) {
    if (parkedNow(system, scene, moment, hanging)?.away === true) continue
    const tower = frame.kind === 'lift tower' || frame.kind === 'gantry'
    for (const hook of frame.hooks) {
      const at = hookPlace(scene, system, hook, moment, hanging)
      const top: Vec3 = tower ? [at[0], at[1], frame.head] : boomAxis(scene, system, moment, hanging).head
      for (const d of tower ? [-0.35, 0.35] : [0])
        lines.add([top[0] + d, top[1], top[2]], [at[0] + d, at[1], at[2] + 1.6], ink)
    }
  }
  for (const { at, points, tops, spreaders, half } of hanging?.hooks ?? []) {
    points.forEach((p, i) => {
      const top = tops[i] ?? at
      lines.add(p, top, ink)
      lines.add(top, at, ink)
    })
    for (const [a, b] of spreaders) roundBar(lines, a, b, half, ink)
  }
}

const BAR_SIDES = 8

/** The outline of a round bar: its two ends and lines between them. */
function roundBar(lines: FreeLines, a: Vec3, b: Vec3, radius: number, ink: Ink): void {
  const axis = unit(subtract(b, a))
  const side = unit(crossed(axis, Math.abs(axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]))
  const other = crossed(axis, side)
  const ring = (centre: Vec3, k: number): Vec3 => {
    const angle = (2 * Math.PI * k) / BAR_SIDES
    return add(centre, add(scale(side, radius * Math.cos(angle)), scale(other, radius * Math.sin(angle))))
  }
  for (let k = 0; k < BAR_SIDES; k++) {
    for (const end of [a, b]) lines.add(ring(end, k), ring(end, k + 1), ink)
    lines.add(ring(a, k), ring(b, k), ink)
  }
}

type Places = ReadonlyMap<string, { item: SceneItem; centre: Vec3 }>

/** Where the ends of a service are in a moment, as far as they lie on the machine. */
const endsOf = ({ scene, moment }: Marking, { from, to }: SceneService, places: Places): Vec3[] =>
  [from, to].flatMap((id) => {
    const own = id === undefined ? undefined : places.get(id)
    return own === undefined ? [] : [place(poseOf(own.item, scene, moment), own.centre)]
  })

const isParted = ({ moment }: Marking, { parted }: SceneService): boolean => parted !== undefined && moment.out > parted

/** Hoses, cables and pipes that are not yet parted, straight from part to part. */
export function serviceLines(marking: Marking, lines: FreeLines, places: Places): void {
  if (marking.shown.hidden.has('services')) return
  for (const service of marking.scene.services) {
    const [a, b] = isParted(marking, service) ? [] : endsOf(marking, service, places)
    if (a !== undefined && b !== undefined) lines.add(a, b, marking.palette.grey(0.8))
  }
}

/**
 * The services that cross the cut chosen, each with its tag and its state: half way along while it is whole, at its ends once
 * it is parted on the way out; at the end that lies on the machine where the other does not.
 */
export function cutMarks(marking: Marking, lines: FreeLines, places: Places, metresAPixel: number): MarkText[] {
  const { shown, scene, palette } = marking
  const drawn = new Map(scene.services.map((s) => [s.id, s]))
  return (shown.cut?.services ?? []).flatMap(({ id, tag, state }): MarkText[] => {
    const service = drawn.get(id)
    const [a, b] = service === undefined ? [] : endsOf(marking, service, places)
    if (service === undefined || a === undefined) return []
    const kind = state === 'reconnected' ? 'edit' : 'ink'
    const whole = b !== undefined && !isParted(marking, service)
    const at = whole ? middle(a, b) : a
    if (whole) lines.add(a, b, palette[kind])
    for (const p of whole ? [at] : b === undefined ? [a] : [a, b]) cross(lines, p, palette[kind], metresAPixel)
    return [{ at, text: `${tag} ${state}`, kind }]
  })
}

const DASH = 0.7

/** The way of the piece that moves: whole where the order has it, dashed where it is only joined. */
export function pathLines({ scene, moment, palette }: Marking, lines: FreeLines): void {
  if (moment.step === undefined || moment.share <= 0 || moment.share >= 1) return
  const { points, planned } = pathOf(scene, moment.step)
  planned.forEach((known, i) => {
    const [a, b] = [points[i], points[i + 1]] as [Vec3, Vec3]
    if (known) lines.add(a, b, palette.edit)
    else lines.dashed(a, b, palette.edit, DASH)
  })
}

/** The least clearance of the moment, as a dimension where it is; where the two touch, a mark without a length. */
export function clearMark(
  { shown, palette }: Pick<Marking, 'shown' | 'palette'>,
  clear: Clear | undefined,
  lines: FreeLines,
  metresAPixel: number,
  toward: Vec3,
): MarkText | undefined {
  if (clear === undefined) return undefined
  const kind = clear.short ? 'fail' : 'edit'
  const [from, to] = clear.ends
  if (clear.gap < TOUCHING) cross(lines, from, palette[kind], metresAPixel)
  else arrowed(lines, from, to, palette[kind], metresAPixel, toward)
  return { at: middle(from, to), text: clearText(clear, shown.lengthText), kind }
}

/** What is being measured: straight, and along the axes where they differ from it. */
export function measureMark({ shown, palette }: Marking, lines: FreeLines, metresAPixel: number): MarkText[] {
  const { measured } = shown
  if (measured === undefined) return []
  if (measured.to === undefined) {
    cross(lines, measured.from, palette.edit, metresAPixel)
    return []
  }
  const { from, to } = measured
  dimension(lines, from, to, palette.edit, metresAPixel)
  const spans = spansOf({ from, to })
  const corners: Vec3[] = [from, [to[0], from[1], from[2]], [to[0], to[1], from[2]], to]
  const legs = [spans.dx, spans.dy, spans.dz]
  const texts: MarkText[] = [{ at: middle(from, to), text: shown.lengthText(spans.distance), kind: 'edit' }]
  if (legs.filter((d) => Math.abs(d) > 1e-3).length < 2) return texts
  legs.forEach((d, i) => {
    if (Math.abs(d) <= 1e-3) return
    const [a, b] = [corners[i], corners[i + 1]] as [Vec3, Vec3]
    lines.dashed(a, b, palette.ink, Math.max(6 * metresAPixel, Math.abs(d) / 200))
    texts.push({ at: middle(a, b), text: `d${'xyz'[i]} ${shown.levelText(d)}`, kind: 'ink' })
  })
  return texts
}

const middle = (a: Vec3, b: Vec3): Vec3 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2]

/** A line with a cross at each end, of a size on the screen. */
function dimension(lines: FreeLines, a: Vec3, b: Vec3, ink: Ink, metresAPixel: number): void {
  lines.add(a, b, ink)
  cross(lines, a, ink, metresAPixel)
  cross(lines, b, ink, metresAPixel)
}

/** Length of an arrowhead, how wide it spreads, and how far its line goes on behind it where it points inwards, pixels. */
const HEAD = { long: 9, wide: 3.2, tail: 14 } as const

/** A line with an arrow at each end; where it is too short for them on the screen, they point inwards from beyond it. */
function arrowed(lines: FreeLines, a: Vec3, b: Vec3, ink: Ink, metresAPixel: number, toward: Vec3): void {
  const along = unit(subtract(b, a))
  const across = crossed(along, toward)
  const seen = norm(across) * distance(a, b)
  const inwards = seen < 2.5 * HEAD.long * metresAPixel
  const side = scale(unit(norm(across) < 1e-3 ? crossed(along, [0, 1, 0.3]) : across), HEAD.wide * metresAPixel)
  lines.add(a, b, ink)
  for (const [tip, out] of [
    [a, scale(along, -1)],
    [b, along],
  ] as const) {
    const back = scale(out, (inwards ? 1 : -1) * HEAD.long * metresAPixel)
    const foot = add(tip, back)
    lines.add(tip, add(foot, side), ink)
    lines.add(tip, subtract(foot, side), ink)
    if (inwards) lines.add(tip, add(tip, scale(out, HEAD.tail * metresAPixel)), ink)
  }
}

function cross(lines: FreeLines, [x, y, z]: Vec3, ink: Ink, metresAPixel: number): void {
  const d = 5 * metresAPixel
  lines.add([x - d, y, z], [x + d, y, z], ink)
  lines.add([x, y - d, z], [x, y + d, z], ink)
  lines.add([x, y, z - d], [x, y, z + d], ink)
}
