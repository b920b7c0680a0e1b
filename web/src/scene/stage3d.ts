import { type Pose, place, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { Color, Plane, Raycaster, SRGBColorSpace, Scene as ThreeScene, Vector2, Vector3, WebGLRenderer } from 'three'
import { type Batch, batchOf } from './batch.ts'
import { type Box3, together } from './bounds.ts'
import type { Clear } from './clearance.ts'
import { freeLines } from './freeLines.ts'
import { handsOn } from './hands.ts'
import { inkItems, inkKey, isCover } from './inking.ts'
import { labelsIn, type Placed } from './labels.ts'
import { eyeOf, type Looking, lookingAt, towardsEye } from './look.ts'
import { clearMark, cutMarks, liftingLines, type MarkText, measureMark, pathLines, serviceLines } from './marks.ts'
import { itemsMeant } from './meant.ts'
import { axisEnds, snapped } from './measure.ts'
import { type Palette, paletteOf } from './palette.ts'
import { cutLines, firstHit, matrixOf, passedBefore, passes } from './pick.ts'
import { boomAxis, posing } from './posing.ts'
import type { Scene } from './scene.ts'
import type { Shown3d, View } from './shown.ts'
import { type Hanging, type Moment, momentAt, parkedNow } from './stand.ts'

/** A place that was pointed at. */
export interface Pointed {
  pointer: string | undefined
  at: Vec3 | undefined
  /** A corner or an axis was near enough to hold on to. */
  held: boolean
}

/** What the drawing tells the page and asks of it. */
export interface StageAsks {
  onPoint: (pointed: Pointed) => void
  /** What the piece on its way is nearest to, as far as that is known. */
  clearAt: (moment: Moment) => Clear | undefined
}

export interface Stage3d {
  /** Everything but the place along the order. */
  show: (shown: Shown3d) => void
  setAlong: (along: number) => void
  /** Draws once more: what is asked of the page has changed. */
  again: () => void
  lookFrom: (view: View) => void
  turn: (across: number, up: number) => void
  shift: (right: number, up: number) => void
  nearer: (factor: number) => void
  /** Where one looks from, unless that is still as at first. */
  looking: () => Looking | undefined
  /** Where one looks from now, and from there again. */
  lookNow: () => Looking
  lookAs: (looking: Looking) => void
  /** The middle of an entity where it stands now. */
  middleOf: (pointer: string) => Vec3 | undefined
  end: () => void
}

/** Times in which it is looked for, on the way of one piece, what the ground hides. */
const LOOKS_A_STEP = 4

/**
 * Draws on demand: after a change of what is shown, of size or of where one looks from, once. Undefined where the browser
 * has no WebGL 2. What a drawing took stands on `host` as data-calls, data-triangles, data-frames and data-inked: how many
 * times all things were given their inks anew.
 */
export function stage3d(host: HTMLElement, scene: Scene, asks: StageAsks, looked?: Looking): Stage3d | undefined {
  const renderer = rendererIn(host)
  if (renderer === undefined) return undefined
  const canvas = renderer.domElement
  const batch = batchOf(scene.items)
  const pose = posing(scene, batch)
  const lines = freeLines(false)
  const over = freeLines(true)
  const world = new ThreeScene()
  world.add(batch.solid, batch.ghost, batch.lines, lines.drawn, over.drawn)
  const labels = labelsIn(host)
  const eye = eyeOf(looked ?? lookingAt(new Vector3(0, 6, -14), -1.18, 0.3, 130), ballAround(scene, batch))
  const ray = new Raycaster()
  const plane = new Plane()
  const places = new Map(
    scene.items.map((item, i) => [item.id, { item, centre: batch.ranges[i]?.centre.toArray() as Vec3 }]),
  )
  const covers = scene.items.map(isCover)

  let palette = readPalette()
  const paper = new Color().setRGB(...palette.sheet, SRGBColorSpace)
  world.background = paper
  let shown: Shown3d | undefined
  let along = 0
  let moment: Moment = momentAt(scene, 0)
  let hanging: Hanging | undefined
  let frames = 0
  let asked: number | undefined
  let stale = true
  let inksStale = true
  let inked = ''
  let inkings = 0
  let before: ReadonlySet<number> = new Set()
  let thinGround = false
  let hidden = { key: '', isHidden: false, looks: 0 }
  let untouched = looked === undefined
  let downPath = false
  let size = { width: 1, height: 1 }

  const cut = (): Plane | undefined => (shown?.section === undefined ? undefined : plane)
  const ask = (): void => {
    asked ??= requestAnimationFrame(frame)
  }
  const askAnew = (): void => {
    stale = true
    inksStale = true
    ask()
  }

  function frame(): void {
    asked = undefined
    if (shown === undefined) return
    eye.settle()
    if (stale) lay(shown)
    const hides = groundHidesNow(shown)
    if (hides !== thinGround) {
      thinGround = hides
      inksStale = true
      lay(shown)
    }
    write(shown)
    renderer?.render(world, eye.camera())
    frames++
    host.dataset.frames = String(frames)
    host.dataset.calls = String(renderer?.info.render.calls)
    host.dataset.triangles = String(renderer?.info.render.triangles)
  }

  /** Rows of the texture: where everything stands, and what it looks like. */
  function lay(now: Shown3d): void {
    stale = false
    moment = momentAt(scene, along)
    hanging = pose(moment)
    const inks = inkKey(moment)
    if (inksStale || inks !== inked) {
      inkItems(scene, batch, { shown: now, moment, palette, before, thinGround })
      inked = inks
      inksStale = false
      host.dataset.inked = String(++inkings)
    }
    batch.send()
    setPlane(now)
    lines.setCut(cut())
    batch.setCut(cut(), palette.ink)
  }

  function setPlane({ section }: Shown3d): void {
    if (section === undefined) return
    const sign = section.flipped ? 1 : -1
    plane.normal.set(0, 0, 0).setComponent(section.axis, sign)
    plane.constant = -sign * section.at
  }

  /** Lines and texts that go with the moment and with where one looks from. */
  function write(now: Shown3d): void {
    const marking = { scene, shown: now, moment, hanging, palette }
    const pixel = eye.metresAPixel()
    lines.clear()
    over.clear()
    liftingLines(marking, lines)
    serviceLines(marking, lines, places)
    pathLines(marking, over)
    const section = cut()
    if (section !== undefined) cutLines(batch, section, (p, q) => lines.add(kept(p), kept(q), palette.ink))
    const clear = clearMark(marking, asks.clearAt(moment), over, pixel, towardsEye(eye.look).toArray() as Vec3)
    const measured = [...measureMark(marking, over, pixel), ...(clear === undefined ? [] : [clear])]
    const cutAt = cutMarks(marking, over, places, pixel)
    lines.send()
    over.send()
    labels.show(placedLabels(now, measured, cutAt), project, size)
  }

  /** Just on the side of the cut that is left. */
  const kept = (p: Vector3): Vec3 => p.addScaledVector(plane.normal, 0.01).toArray()

  function placedLabels(now: Shown3d, measured: readonly MarkText[], tags: readonly MarkText[]): Placed[] {
    const section = cut()
    const left = (at: Vec3): boolean => section === undefined || section.distanceToPoint(new Vector3(...at)) >= -0.1
    const fixed = scene.labels
      .filter((l) => left(l.at as Vec3))
      .filter((l) => !now.hidden.has(l.layer) && !(thinGround && (l.layer === 'ground' || l.layer === 'water')))
      .map(
        (l): Placed => ({
          at: new Vector3(...l.at),
          text: l.level === undefined ? l.text : `${l.text} ${now.levelText(l.level)}`.trim(),
          kind: l.pointer === now.selected ? 'edit' : l.layer === 'bays' ? 'name' : 'quiet',
          side: l.side,
          rank: l.pointer === now.selected ? 0 : l.rank,
        }),
      )
    const over = (texts: readonly MarkText[], rank: number): Placed[] =>
      texts.map((t) => ({ ...t, at: new Vector3(...t.at), side: 'over', rank, stacks: rank === 0 }))
    return [...over(measured, -1), ...over(tags, 0), ...fixed]
  }

  const projected = new Vector3()
  function project(at: Vector3): { x: number; y: number; seen: boolean } {
    projected.copy(at).project(eye.camera())
    return {
      x: ((projected.x + 1) / 2) * size.width,
      y: ((1 - projected.y) / 2) * size.height,
      seen: Math.abs(projected.z) <= 1,
    }
  }

  function boxOfItems(items: readonly number[]): Box3 | undefined {
    if (items.length === 0) return undefined
    const at = new Vector3()
    return together(
      items.map((i) => {
        const range = batch.ranges[i] as NonNullable<(typeof batch.ranges)[number]>
        at.copy(range.centre).applyMatrix4(matrixOf(batch, i))
        const r = range.radius
        return { min: [at.x - r, at.y - r, at.z - r], max: [at.x + r, at.y + r, at.z + r] }
      }),
    )
  }

  const machineItems = scene.items.flatMap((item, i) => (item.layer === 'machine' ? [i] : []))
  const machinery = scene.items.flatMap((item, i) => (item.layer === 'lifting' ? [i] : []))
  const lookedAt = (): readonly number[] => {
    const selected = itemsMeant(scene, shown?.selected)
    return selected.length > 0 ? selected : machineItems
  }

  /** From the eye to corners spread over what is looked at. */
  function* rays(items: readonly number[], count: number): Generator<{ away: number }> {
    const to = new Vector3()
    const eyeAt = eye.camera().position
    const out = towardsEye(eye.look)
    const ranges = items.map((i) => ({ i, range: batch.ranges[i] })).filter(({ range }) => (range?.count ?? 0) > 0)
    const corners = ranges.reduce((sum, { range }) => sum + (range?.count ?? 0), 0)
    const step = Math.max(1, Math.floor(corners / count))
    let next = Math.floor(step / 2)
    let passed = 0
    for (const { i, range } of ranges) {
      if (range === undefined) continue
      for (; next < passed + range.count; next += step) {
        const k = (batch.index[range.from + next - passed] as number) * 3
        to.fromArray(batch.positions, k).applyMatrix4(matrixOf(batch, i))
        if (eye.look.parallel) ray.ray.origin.copy(to).addScaledVector(out, 400)
        else ray.ray.origin.copy(eyeAt)
        ray.ray.direction.copy(to).sub(ray.ray.origin).normalize()
        yield { away: to.distanceTo(ray.ray.origin) - 0.05 }
      }
      passed += range.count
    }
  }

  /**
   * Whether the ground stands before most of what is looked at. Looked for anew when the eye, the cut or the selection moves, and
   * a few times on the way of a piece: a ray is held against every triangle of the ground, which is too much for each frame.
   */
  function groundHidesNow({ selected, section, hidden: layers }: Shown3d): boolean {
    const { target, around, up, distance, parallel } = eye.look
    const view = [...target.toArray(), around, up, distance, parallel, size.width, size.height]
    const things = [selected, JSON.stringify(section), ...layers, inkKey(moment), Math.round(along * LOOKS_A_STEP)]
    const key = [...view, ...things].join()
    if (key !== hidden.key) {
      hidden = { key, isHidden: groundHides(), looks: hidden.looks + 1 }
      host.dataset.looks = String(hidden.looks)
    }
    return hidden.isHidden
  }

  function groundHides(): boolean {
    const items = lookedAt()
    if (items.some((i) => covers[i])) return false
    const asked = [...rays(items, 7)].length
    let [stand, free] = [0, 0]
    for (const { away } of rays(items, 7)) {
      if (passes(batch, ray.ray, away, cut(), (i) => covers[i] === true)) stand++
      else free++
      if (stand * 2 > asked || free * 2 >= asked) break
    }
    return stand * 2 > asked
  }

  /** What stands before the selection: looked for when the hands rest. */
  function lookThrough(): void {
    const selected = new Set(itemsMeant(scene, shown?.selected))
    const wanted = shown?.through === true && selected.size > 0
    const found = new Set<number>(downPath ? machinery : [])
    if (wanted) {
      eye.settle()
      for (const { away } of rays([...selected], 18))
        for (const i of passedBefore(
          batch,
          ray.ray,
          away,
          cut(),
          (k) => !selected.has(k) && !covers[k] && scene.items[k]?.picked === true,
        ))
          found.add(i)
    }
    if (found.size === before.size && [...found].every((i) => before.has(i))) return
    before = found
    askAnew()
  }

  function point(x: number, y: number): void {
    eye.settle()
    ray.setFromCamera(new Vector2((x / size.width) * 2 - 1, 1 - (y / size.height) * 2), eye.camera())
    const hit = firstHit(batch, ray.ray, cut(), (i) => scene.items[i]?.picked === true)
    if (hit === undefined) {
      asks.onPoint({ pointer: undefined, at: undefined, held: false })
      return
    }
    const item = scene.items[hit.item] as Scene['items'][number]
    const matrix = matrixOf(batch, hit.item)
    const candidates = [
      ...hit.corners.map((c) => c.toArray() as Vec3),
      ...axisEnds(item).map((p) => new Vector3(...p).applyMatrix4(matrix).toArray() as Vec3),
    ]
    const away = (p: Vec3): number => {
      const on = project(new Vector3(...p))
      return Math.hypot(on.x - x, on.y - y)
    }
    asks.onPoint({ pointer: item.pointer, ...snapped(hit.at.toArray() as Vec3, candidates, away) })
  }

  function resize(): void {
    const { clientWidth: width, clientHeight: height } = host
    if (width === 0 || height === 0) return
    size = { width, height }
    renderer?.setPixelRatio(Math.min(2, devicePixelRatio))
    renderer?.setSize(width, height, false)
    eye.resize(width, height)
    if (untouched) look('overview')
    ask()
  }

  function look(view: View): void {
    const { look: now } = eye
    downPath = view === 'path'
    const set = (around: number, up: number, parallel: boolean): void => {
      now.around = around
      now.up = up
      now.parallel = parallel
    }
    if (view === 'overview') set(-1.2, 0.3, false)
    if (view === 'side') set(-Math.PI / 2, 0, true)
    if (view === 'front') set(0, 0, true)
    if (view === 'above') set(-Math.PI / 2, Math.PI / 2 - 1e-4, true)
    if (view === 'path') alongPath(set)
    if (view === 'selection') {
      const box = boxOfItems(itemsMeant(scene, shown?.selected))
      if (box !== undefined) eye.fit(box, 1.15)
    } else if (view === 'path') eye.fit(pieceBox() ?? wholeBox(view), 1.5)
    else eye.fit(wholeBox(view), view === 'overview' ? 0.98 : 1.06, headsOfBooms())
    ask()
    lookThrough()
  }

  /** From ahead of the piece, back along the longest leg of its way: what it will pass is seen around it. */
  function alongPath(set: (around: number, up: number, parallel: boolean) => void): void {
    const step = scene.steps[moment.step ?? 0]
    const legs = step?.passage.way.legs.flatMap((leg) => ('by' in leg ? [leg.by] : [])) ?? []
    const longest = legs.reduce<Vec3>((best, by) => (lengthOf(by) > lengthOf(best) ? by : best), [0, 0, 1e-9])
    const flat = Math.hypot(longest[0], longest[1])
    const upright = flat < Math.abs(longest[2])
    set(upright ? -Math.PI / 2 : Math.atan2(longest[1], longest[0]), upright ? Math.PI / 2 - 1e-4 : 0, true)
  }

  function pieceBox(): Box3 | undefined {
    const parts = new Set(scene.steps[moment.step ?? 0]?.parts ?? [])
    return boxOfItems(scene.items.flatMap((item, i) => (parts.has(item.id) ? [i] : [])))
  }

  /** Booms stand higher, and lean farther, than what they lift: the whole is not whole without them. */
  const headsOfBooms = (): Vec3[] =>
    Object.entries(scene.systems).flatMap(([id, { kind }]) =>
      kind === 'lift tower' || kind === 'gantry' || parkedNow(id, scene, moment, hanging)?.away === true
        ? []
        : [boomAxis(scene, id, moment, hanging).head],
    )

  /** All that stands around the shaft; from the side and from above the bays as well. */
  function wholeBox(view: View): Box3 {
    const ground = scene.items.filter((item) => item.layer === 'ground' && item.group === 'ground')
    const corners = ground.flatMap((item) => item.solids.flatMap((s) => (s.shape === 'strip' ? s.stations.flat() : [])))
    const head = Math.max(8, ...Object.values(scene.systems).map((s) => s.head + 4))
    const box =
      corners.length === 0
        ? (boxOfItems(machineItems) ?? { min: [-10, -10, -10], max: [10, 10, 10] })
        : boundsOfPoints(corners)
    const across = Math.max(box.max[0], 1)
    if (view === 'above') return { min: [-across, -27, 0], max: [across, box.max[1], 0] }
    if (view === 'front') return { min: [0, -16, box.min[2]], max: [0, box.max[1], head] }
    if (view === 'side') return { min: [-across, 0, box.min[2]], max: [across, 0, head] }
    return { min: [-across, 0, box.min[2]], max: [across, Math.min(box.max[1], 24), head - 4] }
  }

  const watch = new ResizeObserver(resize)
  watch.observe(host)
  const light = new MutationObserver(() => {
    palette = readPalette()
    paper.setRGB(...palette.sheet, SRGBColorSpace)
    askAnew()
  })
  light.observe(document.documentElement, { attributeFilter: ['data-light'] })
  const letGo = handsOn(canvas, eye, {
    moved: () => {
      untouched = false
      downPath = false
      ask()
    },
    rested: lookThrough,
    pointed: point,
  })
  const moved = (): void => {
    untouched = false
    ask()
    lookThrough()
  }
  resize()
  return {
    show: (now) => {
      const changes = shown?.selected !== now.selected || shown?.through !== now.through
      shown = now
      askAnew()
      if (changes) lookThrough()
    },
    setAlong: (to) => {
      if (to === along) return
      along = to
      stale = true
      ask()
    },
    again: ask,
    lookFrom: (view) => {
      untouched = view === 'overview'
      look(view)
    },
    turn: (across, up) => {
      eye.turn(across, up)
      moved()
    },
    shift: (right, up) => {
      const pixel = eye.metresAPixel()
      eye.shift(right * pixel, up * pixel)
      moved()
    },
    nearer: (factor) => {
      eye.nearer(factor)
      moved()
    },
    lookNow: () => ({ ...eye.look, target: eye.look.target.clone() }),
    lookAs: ({ target, ...rest }) => {
      Object.assign(eye.look, rest)
      eye.look.target.copy(target)
      downPath = false
      moved()
    },
    looking: () => (untouched ? undefined : eye.look),
    middleOf: (pointer) => {
      const box = boxOfItems(itemsMeant(scene, pointer))
      return box === undefined
        ? undefined
        : [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2, (box.min[2] + box.max[2]) / 2]
    },
    end: () => {
      if (asked !== undefined) cancelAnimationFrame(asked)
      watch.disconnect()
      light.disconnect()
      letGo()
      labels.end()
      batch.end()
      lines.end()
      over.end()
      renderer.dispose()
      canvas.remove()
    },
  }
}

/** What is drawn, with booms and pieces on their way. */
function ballAround(scene: Scene, batch: Batch): { centre: Vector3; radius: number } {
  const placed = scene.items.map((item, i) => {
    const range = batch.ranges[i]
    const at = new Vector3(...place3(item.pose, range?.centre ?? new Vector3()))
    return { at, radius: item.rig?.part === 'reach' ? 0 : (range?.radius ?? 0) }
  })
  const centre = placed.reduce((sum, p) => sum.addScaledVector(p.at, 1 / placed.length), new Vector3())
  const radius = placed.reduce((most, p) => Math.max(most, p.at.distanceTo(centre) + p.radius), 1)
  return { centre, radius: radius + BEYOND }
}

/** Booms and hooks reach out of what stands, m. */
const BEYOND = 25

const place3 = (pose: Pose, p: Vector3): Vec3 => place(pose, p.toArray())

function boundsOfPoints(points: readonly Vec3[]): Box3 {
  return together(points.map((p) => ({ min: p, max: p })))
}

function readPalette(): Palette {
  const style = getComputedStyle(document.documentElement)
  return paletteOf((name) => style.getPropertyValue(name).trim())
}

function rendererIn(place: HTMLElement): WebGLRenderer | undefined {
  try {
    const renderer = new WebGLRenderer({ antialias: true, preserveDrawingBuffer: true })
    renderer.localClippingEnabled = true
    place.append(renderer.domElement)
    return renderer
  } catch {
    return undefined
  }
}

const lengthOf = ([x, y, z]: Vec3): number => Math.hypot(x, y, z)
