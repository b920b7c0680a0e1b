import type { Stages } from '@shieldwright/engine'
import { AT_REST, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { grainOf } from './grain.ts'
import type { SceneItem, SceneLabel } from './sceneItem.ts'
import { type SolidShape, type Strip, v, v2 } from './solids.ts'

/** What stands still: ground cut open along the drive, shaft, cradle, bays and what is fixed in the shaft. */
export interface Surroundings {
  items: readonly SceneItem[]
  labels: readonly SceneLabel[]
}

type Project = Stages['model']['project']

/** The block of ground that is drawn: half its width, how far back, and its foot; site frame, m. */
export interface Block {
  half: number
  back: number
  foot: number
}

export function surroundingsOf({ model, strip }: Stages): Surroundings {
  const { project } = model
  const order = strip.steps.map((s) => s.step)
  const block = blockOf(project)
  return {
    items: [
      ...groundItems(project, block),
      ...waterItems(project, block),
      ...shaftItems(project),
      ...frontItems(project, block),
      ...padItems(project),
      ...bayItems(project),
      ...obstructionItems(project, order),
    ],
    labels: [...groundLabels(project, block), ...waterLabels(project, block), ...bayLabels(project)],
  }
}

const SIDE = 9

function blockOf({ shaft, bays, systems, ground }: Project): Block {
  const outer = outerRadius(shaft)
  const sides = Object.values(bays).map((b) => Math.abs(v(b.centre[0])) + v(b.size[0]) / 2 + 2)
  const rails = Object.values(systems).flatMap((s) =>
    s.rails === undefined ? [] : s.rails.map((r) => Math.abs(v(r)) + 3),
  )
  const backs = Object.values(bays).map((b) => v(b.centre[1]) + v(b.size[1]) / 2 + 3)
  const bottoms = Object.values(ground?.layers ?? {}).map((l) => v(l.bottom))
  const toe = shaft === undefined ? -10 : v(shaft.wall.toe) - 5
  return {
    half: Math.max(outer + SIDE, ...sides, ...rails),
    back: Math.max(outer + SIDE, ...backs),
    foot: bottoms.length === 0 ? toe : Math.max(toe, Math.min(...bottoms)),
  }
}

function outerRadius(shaft: Project['shaft']): number {
  if (shaft === undefined) return 6
  const { ringDiameter, pileDiameter, thickness } = shaft.wall
  const clear = v(shaft.clearDiameter) / 2
  if (ringDiameter !== undefined && pileDiameter !== undefined) return (v(ringDiameter) + v(pileDiameter)) / 2
  return clear + (thickness === undefined ? 1 : v(thickness))
}

const still = (
  item: Pick<SceneItem, 'id' | 'pointer' | 'name' | 'layer' | 'group' | 'shade' | 'solids'> & Partial<SceneItem>,
): SceneItem => ({
  lines: 0.55,
  picked: true,
  pose: AT_REST,
  moved: [],
  ...item,
})

/** Opening of a bore of this radius at a distance from its axis: half its height. */
const halfHeight = (radius: number, y: number): number => (y < radius ? Math.sqrt(radius * radius - y * y) : 0)

const TINTS = [0.035, 0.1, 0.06, 0.14, 0.08, 0.17, 0.12]

function groundItems({ ground, shaft, machine }: Project, block: Block): SceneItem[] {
  const outer = outerRadius(shaft)
  const eye = Object.values(shaft?.eyes ?? {}).find((e) => e.side === '-x')
  const bore =
    eye === undefined ? undefined : { axis: v(eye.centre), radius: v(machine?.shieldDiameter ?? eye.diameter) / 2 }
  const ys = stationsOf([outer, ...(bore === undefined ? [] : [bore.radius])], block.back)
  return Object.entries(ground?.layers ?? {}).flatMap(([id, layer], i): SceneItem[] => {
    const [top, bottom] = [v(layer.top), Math.max(block.foot, v(layer.bottom))]
    if (top <= bottom) return []
    const right = groundStrip(ys, outer, block.half, 1, () => [bottom, top])
    const under = shaft === undefined ? [] : plugStrips(shaft, outer, bottom, top)
    const left =
      bore === undefined
        ? [groundStrip(ys, outer, block.half, -1, () => [bottom, top])]
        : boredStrips(ys, outer, block.half, bore, bottom, top)
    const pointer = pointerOf('ground', 'layers', id)
    const shared = { pointer, name: layer.name, layer: 'ground' as const, group: 'ground' }
    return [
      still({
        ...shared,
        id: `ground/${id}`,
        shade: TINTS[i % TINTS.length] as number,
        solids: [right, ...left, ...under],
      }),
      still({
        ...shared,
        id: `grain/${id}`,
        group: 'grain',
        shade: 0,
        lines: 0.3,
        picked: false,
        solids: [
          grainOf({
            name: layer.name,
            top,
            bottom,
            from: outer,
            to: block.half,
            bore,
            seed: i,
            under: shaft === undefined ? undefined : { top: v(shaft.excavation), half: v(shaft.clearDiameter) / 2 },
          }),
        ],
      }),
    ]
  })
}

/** Distances from the cut at which a side of the ground is cut into stations, so that round edges read as round. */
function stationsOf(radii: readonly number[], back: number): number[] {
  const quarter = Array.from({ length: 13 }, (_, i) => Math.sin((Math.PI / 2) * (i / 12)))
  const all = [0, ...radii.flatMap((r) => quarter.map((s) => r * s)), back]
  return [...new Set(all.map((y) => Number(y.toFixed(6))))].filter((y) => y <= back).sort((a, b) => a - b)
}

/** Ground under the base slab: within the wall down to its toe, and below that over the whole round. */
function plugStrips(shaft: NonNullable<Project['shaft']>, outer: number, bottom: number, top: number): Strip[] {
  const [dug, toe, clear] = [v(shaft.excavation), v(shaft.wall.toe), v(shaft.clearDiameter) / 2]
  const spans = [
    { low: Math.max(bottom, toe), high: Math.min(top, dug), radius: clear },
    { low: bottom, high: Math.min(top, toe), radius: outer },
  ]
  return spans
    .filter(({ low, high }) => high - low > 1e-6)
    .map(({ low, high, radius }) => ({
      shape: 'strip',
      stations: stationsOf([radius], radius).map((y) => {
        const x = halfHeight(radius, y)
        return [
          [x, y, low],
          [-x, y, low],
          [-x, y, high],
          [x, y, high],
        ] as const
      }),
      lines: [],
      ends: ['first'],
    }))
}

type Levels = (y: number) => readonly [number, number]

function groundStrip(ys: readonly number[], outer: number, half: number, side: 1 | -1, levels: Levels): Strip {
  const thick = (y: number | undefined): boolean => y !== undefined && levels(y)[1] - levels(y)[0] > 1e-9
  const first = ys.findIndex((y, i) => thick(y) || thick(ys[i + 1]))
  return {
    shape: 'strip',
    stations: ys.slice(Math.max(0, first)).map((y) => {
      const near = side * halfHeight(outer, y)
      const far = side * half
      const [right, left] = side === 1 ? [far, near] : [near, far]
      const [low, high] = levels(y)
      return [
        [right, y, low],
        [left, y, low],
        [left, y, high],
        [right, y, high],
      ] as const
    }),
    lines: side === 1 ? [0, 3] : [1, 2],
    ends: ['first', 'last'],
  }
}

/** The side that the machine came through, below and above its bore. */
function boredStrips(
  ys: readonly number[],
  outer: number,
  half: number,
  { axis, radius }: { axis: number; radius: number },
  bottom: number,
  top: number,
): Strip[] {
  const within = (z: number): number => Math.min(top, Math.max(bottom, z))
  const below: Levels = (y) => [bottom, within(axis - halfHeight(radius, y))]
  const above: Levels = (y) => [within(axis + halfHeight(radius, y)), top]
  const beside = ys.filter((y) => y <= radius + 1e-6)
  const behind = ys.filter((y) => y >= radius - 1e-6)
  const cut = [below, above]
    .filter((levels) => levels(0)[1] > levels(0)[0] + 1e-9 || levels(radius)[1] > levels(radius)[0] + 1e-9)
    .map((levels) => groundStrip(beside, outer, half, -1, levels))
  return [...cut, groundStrip(behind, outer, half, -1, () => [bottom, top])]
}

function groundLabels({ ground }: Project, { half, foot }: Block): SceneLabel[] {
  return Object.entries(ground?.layers ?? {}).flatMap(([id, l]): SceneLabel[] => {
    const [top, bottom] = [v(l.top), Math.max(foot, v(l.bottom))]
    if (top <= bottom) return []
    const shared = { layer: 'ground' as const, pointer: pointerOf('ground', 'layers', id) }
    return [
      { ...shared, at: [half, 0, (top + bottom) / 2], text: l.name, side: 'right', rank: 2 },
      { ...shared, at: [-half, 0, top], text: '', level: top, side: 'left', rank: 3 },
    ]
  })
}

const WATER_RUN = 5
/** Texts of water stand left of those of levels, m. */
const WATER_TEXT = 11

function waterItems({ ground, shaft }: Project, { half }: Block): SceneItem[] {
  return Object.entries(ground?.water ?? {}).map(([id, w]) => {
    const heads = [v(w.head), ...(w.drawnDown === undefined ? [] : [v(w.drawnDown)])]
    const pointer = pointerOf('ground', 'water', id)
    return still({
      id: `water/${id}`,
      pointer,
      name: `Water ${id}${w.note === undefined ? '' : `, ${w.note}`}`,
      layer: 'water',
      group: 'water',
      shade: 0,
      lines: 0.9,
      picked: false,
      solids: heads.map((z) => waterMark(-half, Math.min(-half + WATER_RUN, -outerRadius(shaft)), z)),
    })
  })
}

/** A level with the triangle that stands on water. */
function waterMark(from: number, to: number, z: number): SolidShape {
  const y = -0.05
  const x = from + 1.2
  const ends: Vec3[] = []
  for (let a = from; a < to; a += 0.8) ends.push([a, y, z], [Math.min(to, a + 0.5), y, z])
  ends.push([x - 0.6, y, z + 1], [x + 0.6, y, z + 1], [x + 0.6, y, z + 1], [x, y, z], [x, y, z], [x - 0.6, y, z + 1])
  return { shape: 'lines', ends }
}

function waterLabels({ ground }: Project, { half }: Block): SceneLabel[] {
  return Object.entries(ground?.water ?? {}).flatMap(([id, w]): SceneLabel[] => {
    const shared = {
      layer: 'water' as const,
      pointer: pointerOf('ground', 'water', id),
      side: 'left' as const,
      rank: 4,
    }
    const mark = (level: number, text: string): SceneLabel => ({
      ...shared,
      at: [-half - WATER_TEXT, 0, level],
      text,
      level,
    })
    const head = mark(v(w.head), `water ${id}`)
    return w.drawnDown === undefined ? [head] : [head, mark(v(w.drawnDown), `${id} drawn down`)]
  })
}

function shaftItems(project: Project): SceneItem[] {
  const { shaft, cradle, machine } = project
  if (shaft === undefined) return []
  const outer = outerRadius(shaft)
  const clear = v(shaft.clearDiameter) / 2
  const [collar, floor] = [v(shaft.collar), v(shaft.slabTop)]
  const beam = shaft.cappingBeam
  const wallTop = collar - (beam === undefined ? 0 : v(beam.depth))
  const of = (id: string, name: string, pointer: string, shade: number, solids: readonly SolidShape[]): SceneItem =>
    still({ id, name, pointer, layer: 'shaft', group: 'shaft', shade, solids, lines: 0.7 })
  const beamAt = beam === undefined ? undefined : (clear + outer) / 2
  return [
    of('wall', `Wall, ${shaft.wall.kind}`, '/shaft/wall', 0.2, wallStrips(shaft, clear, outer, wallTop)),
    ...Object.entries(shaft.eyes)
      .filter(([, e]) => e.side === '+x')
      .map(([id, e]) =>
        of(`eye/${id}`, `Eye, ${id}`, pointerOf('shaft', 'eyes', id), 0.28, [eyePlug(e, clear, outer)]),
      ),
    ...(beam === undefined || beamAt === undefined
      ? []
      : [
          of('beam', 'Capping beam', '/shaft/cappingBeam', 0.26, [
            halfRing(beamAt - v(beam.width) / 2, beamAt + v(beam.width) / 2, wallTop, collar),
          ]),
        ]),
    of('barrier', 'Barrier around the collar', '/shaft/barrier', 0.06, [
      halfRing(outer + 0.4, outer + 0.46, collar, collar + v(shaft.barrier)),
    ]),
    of('slab', 'Base slab', '/shaft/slabTop', 0.22, [
      { shape: 'cylinder', radii: [clear, clear], from: [0, 0, floor - v(shaft.slabThickness)], to: [0, 0, floor] },
    ]),
    still({
      id: 'rim',
      name: 'Clear bore at the collar',
      pointer: '/shaft/clearDiameter',
      layer: 'shaft',
      group: 'rim',
      shade: 0,
      lines: 0.45,
      picked: false,
      solids: [circle(clear, collar), circle(outer, collar)],
    }),
    ...(cradle === undefined || machine === undefined
      ? []
      : [of('cradle', 'Cradle', '/cradle', 0.3, [cradleBed(cradle, v2(cradle.along), machine, floor)])]),
  ]
}

type Shaft = NonNullable<Project['shaft']>
type Eye = Shaft['eyes'][string]

const SIDES = 72

/** Half a ring behind the cut, from the right to the left. */
function halfRing(inner: number, outer: number, low: number, high: number): Strip {
  return ringStrip(inner, outer, 0, Math.PI, () => [low, high], [0, 1, 2, 3], ['first', 'last'])
}

function ringStrip(
  inner: number,
  outer: number,
  from: number,
  to: number,
  levels: Levels,
  lines: Strip['lines'],
  ends: Strip['ends'],
): Strip {
  const count = Math.max(2, Math.ceil((SIDES * (to - from)) / Math.PI))
  return {
    shape: 'strip',
    stations: Array.from({ length: count + 1 }, (_, i) => {
      const a = from + ((to - from) * i) / count
      const [c, s] = [Math.cos(a), Math.sin(a)]
      const [low, high] = levels(s)
      const at = (r: number, z: number): Vec3 => [r * c, r * s, z]
      return [at(outer, low), at(inner, low), at(inner, high), at(outer, high)] as const
    }),
    lines,
    ends,
  }
}

/** The wall behind the cut, with its eyes left out. */
function wallStrips(shaft: Shaft, clear: number, outer: number, top: number): Strip[] {
  const toe = v(shaft.wall.toe)
  const eyeOn = (side: Eye['side']): Eye | undefined => Object.values(shaft.eyes).find((e) => e.side === side)
  const spans = (
    [
      ['+x', 0],
      ['-x', 1],
    ] as const
  ).map(([side, end]) => {
    const eye = eyeOn(side)
    const span = eye === undefined ? 0 : Math.asin(Math.min(1, v(eye.diameter) / 2 / clear))
    return { eye, from: end === 0 ? 0 : Math.PI - span, to: end === 0 ? span : Math.PI, span, end }
  })
  const middle = ringStrip(
    clear,
    outer,
    spans[0]?.span ?? 0,
    Math.PI - (spans[1]?.span ?? 0),
    () => [toe, top],
    [0, 1, 2, 3],
    [],
  )
  const beside = spans.flatMap(({ eye, from, to, end }): Strip[] => {
    if (eye === undefined) return []
    const ends: Strip['ends'] = [end === 0 ? 'first' : 'last']
    const half = (s: number): number => halfHeight(v(eye.diameter) / 2, clear * s)
    return [
      ringStrip(clear, outer, from, to, (s) => [toe, v(eye.centre) - half(s)], [0, 1, 2, 3], ends),
      ringStrip(clear, outer, from, to, (s) => [v(eye.centre) + half(s), top], [0, 1, 2, 3], ends),
    ]
  })
  return [middle, ...beside]
}

/** What still fills an eye that has not been opened. */
function eyePlug(eye: Eye, clear: number, outer: number): Strip {
  const radius = v(eye.diameter) / 2
  const span = Math.asin(Math.min(1, radius / clear))
  const half = (s: number): number => halfHeight(radius, clear * s)
  return ringStrip(clear, outer, 0, span, (s) => [v(eye.centre) - half(s), v(eye.centre) + half(s)], [], ['first'])
}

function circle(radius: number, z: number): SolidShape {
  const at = (i: number): Vec3 => [
    radius * Math.cos((2 * Math.PI * i) / SIDES),
    radius * Math.sin((2 * Math.PI * i) / SIDES),
    z,
  ]
  return { shape: 'lines', ends: Array.from({ length: SIDES }, (_, i) => [at(i), at(i + 1)]).flat() }
}

function cradleBed(
  cradle: NonNullable<Project['cradle']>,
  [rear, front]: readonly [number, number],
  machine: NonNullable<Project['machine']>,
  floor: number,
): Strip {
  const radius = v(cradle.radius ?? { value: v(machine.shieldDiameter ?? { value: 12 }) / 2 })
  const [, y0, z0] = machine.pose.origin.map(v) as [number, number, number]
  const half = v(cradle.contactHalfAngle)
  return {
    shape: 'strip',
    stations: Array.from({ length: 25 }, (_, i) => {
      const a = -half + (2 * half * i) / 24
      const [y, high] = [y0 + radius * Math.sin(a), z0 - radius * Math.cos(a)]
      return [
        [front, y, floor],
        [rear, y, floor],
        [rear, y, high],
        [front, y, high],
      ] as const
    }),
    lines: [0, 1, 2, 3],
    ends: ['first', 'last'],
  }
}

/** Outline of the surface in front of the cut, so that what stands there is seen to stand. */
function frontItems({ ground, systems }: Project, { half }: Block): SceneItem[] {
  if (ground === undefined) return []
  const ys = Object.values(systems).flatMap((s) => [
    ...s.standings.map((p) => v(p[1]) - 9),
    ...(s.runway === undefined ? [] : [v(s.runway[0]) - 2]),
  ])
  const front = Math.min(-2, ...ys)
  const z = v(ground.surface)
  const corners: Vec3[] = [
    [-half, 0, z],
    [-half, front, z],
    [half, front, z],
    [half, 0, z],
  ]
  return [
    still({
      id: 'surface',
      pointer: '/ground/surface',
      name: 'Surface in front of the cut',
      layer: 'ground',
      group: 'rim',
      shade: 0,
      lines: 0.28,
      picked: false,
      solids: [{ shape: 'lines', ends: [0, 1, 2].flatMap((i) => dashes(corners[i] as Vec3, corners[i + 1] as Vec3)) }],
    }),
  ]
}

const DASH = 1.2

function dashes(a: Vec3, b: Vec3): Vec3[] {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2])
  const at = (d: number): Vec3 => {
    const s = Math.min(1, d / length)
    return [a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s, a[2] + (b[2] - a[2]) * s]
  }
  return Array.from({ length: Math.ceil(length / (2 * DASH)) }, (_, i) => [
    at(2 * i * DASH),
    at((2 * i + 1) * DASH),
  ]).flat()
}

const padItems = ({ ground }: Project): SceneItem[] =>
  Object.entries(ground?.pads ?? {}).map(([id, pad]) => {
    const [x, y] = v2(pad.centre)
    const [w, l] = v2(pad.size)
    return still({
      id: `pad/${id}`,
      pointer: pointerOf('ground', 'pads', id),
      name: `Standing ${id}`,
      layer: 'bays',
      group: 'pad',
      shade: 0.07,
      lines: 0.4,
      solids: [
        { shape: 'box', centre: [x, y, v(ground?.surface ?? { value: 0 }) + 0.03], size: [w, l, 0.06], turn: 0 },
      ],
    })
  })

const SLAB = 0.3

function bayItems({ bays }: Project): SceneItem[] {
  return Object.entries(bays).map(([id, b]) => {
    const [x, y] = v2(b.centre)
    const [w, l] = v2(b.size)
    return still({
      id: `bay/${id}`,
      pointer: pointerOf('bays', id),
      name: b.name ?? `Bay ${id}`,
      layer: 'bays',
      group: 'bay',
      shade: 0.14,
      lines: 0.75,
      solids: [{ shape: 'box', centre: [x, y, v(b.level) - SLAB / 2], size: [w, l, SLAB], turn: 0 }],
    })
  })
}

const bayLabels = ({ bays }: Project): SceneLabel[] =>
  Object.entries(bays).map(([id, b]) => {
    const [x, y] = v2(b.centre)
    return {
      at: [x, y - v(b.size[1]) / 2, v(b.level)],
      text: b.name ?? `Bay ${id}`,
      layer: 'bays',
      pointer: pointerOf('bays', id),
      side: 'over',
      rank: 1,
    }
  })

function obstructionItems({ shaft }: Project, order: readonly string[]): SceneItem[] {
  return Object.entries(shaft?.obstructions ?? {}).map(([id, o]) => {
    const [[x0, x1], [y0, y1], [z0, z1]] = [v2(o.x), v2(o.y), v2(o.z)]
    const [x, y] = [(x0 + x1) / 2, (y0 + y1) / 2]
    const radius = Math.min(x1 - x0, y1 - y0) / 2
    const until = o.removedBefore === undefined ? -1 : order.indexOf(o.removedBefore)
    return still({
      id: `obstruction/${id}`,
      pointer: pointerOf('shaft', 'obstructions', id),
      name: o.what,
      layer: 'obstructions',
      group: 'obstruction',
      shade: 0.34,
      lines: 0.8,
      ...(until < 0 ? {} : { until }),
      solids: [
        o.round
          ? { shape: 'cylinder', radii: [radius, radius], from: [x, y, z0], to: [x, y, z1] }
          : { shape: 'box', centre: [x, y, (z0 + z1) / 2], size: [x1 - x0, y1 - y0, z1 - z0], turn: 0 },
      ],
    })
  })
}
