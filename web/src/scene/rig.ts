import type { Stages } from '@shieldwright/engine'
import { type Boom, type HungRigging, isCrane, standingIn } from '@shieldwright/engine/lift/index.ts'
import { coordinates, poseOfMachine, ratedRows } from '@shieldwright/engine/model/index.ts'
import { AT_REST, add, type Pose, place, scale, subtract, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import type { SceneItem } from './sceneItem.ts'
import { type SolidShape, v, v2 } from './solids.ts'

type Project = Stages['model']['project']
type System = Project['systems'][string]

/** A hook at work: where it holds the piece, and how the lines run. Points in the site frame, piece as found. */
export interface HookUse {
  hook: string
  points: readonly Vec3[]
  /** Upper end of the leg to each point, from the hook; the hook itself where the rigging is not known. */
  tops: readonly Vec3[]
  /** The hook from the middle of its points, as the piece hangs. */
  above: Vec3
}

/** How a step's piece hangs. */
export interface RigUse {
  lift: string
  system: string
  main: HookUse
  tail: HookUse | undefined
  /** Where a crane stands. */
  standing: readonly [number, number] | undefined
  /** How the rigging hangs, of the machine as found at a pose; not of two hooks, nor where the hang is not known. */
  hung?: { rigging: HungRigging; found: Pose }
  /** The boom as the lift's check takes it. */
  boom?: Boom
}

/** Where a machine is while others lift. */
export interface Parked {
  /** Not on the site, or taken down. */
  away: boolean
  at: readonly [number, number] | undefined
  /** What the hook of a crane rests over. */
  over: readonly [number, number] | undefined
}

/** What is known of a lifting system to draw it. */
export interface RigFrame {
  name: string
  kind: System['kind']
  /** Level that hoist lines run up to, site z. */
  head: number
  /** Where it stands when nothing hangs from it; a crane, its standing. */
  rest: readonly [number, number]
  /** Where it is while others lift, as far as the project says; of a tower along its runway. */
  parked?: Parked
  hooks: readonly string[]
  /** Its boom by its maker, as the crane is set up; a symbol stands for one of which the project does not say enough. */
  boom?: Omit<Boom, 'centre'>
}

/** Systems that the model says enough of to draw. */
export function rigFrames({ systems }: Project): Record<string, RigFrame> {
  return Object.fromEntries(
    Object.entries(systems).flatMap(([id, s]) => {
      const hooks = Object.entries(s.hooks)
      const known = hooks.flatMap(([, h]) => {
        const top = h.head ?? h.highest
        return top === undefined ? [] : [v(top)]
      })
      const parked = parkedOf(s)
      const first = isTower(s) ? ([0, 0] as const) : s.standings[0] && v2(s.standings[0])
      const rest = parked?.at ?? first
      if (rest === undefined || known.length === 0 || (isTower(s) && Object.keys(s.legs).length === 0)) return []
      const boom = boomFrame(s)
      return [
        [
          id,
          {
            name: s.name,
            kind: s.kind,
            head: Math.max(...known),
            rest,
            ...(parked === undefined ? {} : { parked }),
            hooks: hooks.map(([h]) => h),
            ...(boom === undefined ? {} : { boom }),
          },
        ],
      ]
    }),
  )
}

function parkedOf(system: System): Parked | undefined {
  const { parked, standings } = system
  if (parked === undefined) return undefined
  const standing = standings[standingIn(system, parked.standing) ?? -1]
  const along = parked.along?.value
  return {
    away: parked.away,
    at: isTower(system) ? (along === undefined ? undefined : [0, along]) : standing && v2(standing),
    over: parked.over && v2(parked.over),
  }
}

function boomFrame(system: System): RigFrame['boom'] {
  const { boom, setUp } = system
  const values = [boom?.ahead, boom?.level, setUp?.boom, boom?.depth, boom?.width].map((q) => q?.value)
  if (!isCrane(system) || values.includes(undefined)) return undefined
  const [ahead, level, length, depth, width] = values as [number, number, number, number, number]
  return { ahead, level, length, depth, width }
}

const isTower = (s: System): boolean => s.kind === 'lift tower' || s.kind === 'gantry'

/** Sections of legs, beams and blocks are not in the model, nor always that of a boom: these stand for them, m. */
const SYMBOL = { leg: 1, beam: 1.5, block: 0.8, boom: 0.9 } as const

/** Legs, beams, blocks, booms and reach of every system that can be drawn. */
export function rigItems(project: Project): SceneItem[] {
  const frames = rigFrames(project)
  const ground = project.ground?.surface.value ?? 0
  return Object.entries(frames).flatMap(([id, frame]): SceneItem[] => {
    const system = project.systems[id] as System
    const item = (
      part: NonNullable<SceneItem['rig']>['part'],
      solids: readonly SolidShape[],
      more: Partial<SceneItem> = {},
    ): SceneItem => ({
      id: `system/${id}/${part}`,
      pointer: pointerOf('systems', id),
      name: system.name,
      layer: 'lifting',
      group: 'lifting',
      shade: 0.3,
      lines: 0.85,
      picked: true,
      pose: AT_REST,
      solids,
      moved: [],
      rig: { system: id, part },
      ...more,
    })
    const hooks = Object.entries(system.hooks).map(([hook, h]) =>
      item('hook', [block(0)], {
        id: `system/${id}/hook/${hook}`,
        name: `${h.name}, ${system.name}`,
        shade: 0.8,
        rig: { system: id, part: 'hook', hook },
      }),
    )
    if (isTower(system))
      return [item('frame', towerFrame(system, frame.head, ground)), ...rails(item, system, id, ground), ...hooks]
    return [
      item('frame', carrier(system, ground)),
      item('boom', [
        {
          shape: 'box',
          centre: [0.5, 0, 0],
          size: [1, frame.boom?.width ?? SYMBOL.boom, frame.boom?.depth ?? SYMBOL.boom],
          turn: 0,
        },
      ]),
      ...reach(item, system, ground),
      ...hooks,
    ]
  })
}

const block = (z: number): SolidShape => ({
  shape: 'cylinder',
  radii: [SYMBOL.block, SYMBOL.block * 0.6],
  from: [0, 0, z + 1.6],
  to: [0, 0, z],
})

/** Legs up to the head, beams along the runway, and the header across; the hook line at y = 0. */
function towerFrame(system: System, head: number, ground: number): SolidShape[] {
  const legs = Object.values(system.legs).map((l) => [v(l.x), v(l.offset)] as const)
  const xs = [...new Set(legs.map(([x]) => x))]
  const offsets = legs.map(([, y]) => y)
  const [front, back] = [Math.min(...offsets), Math.max(...offsets)]
  const bar = (centre: Vec3, size: Vec3): SolidShape => ({ shape: 'box', centre, size, turn: 0 })
  return [
    ...legs.map(([x, y]) => bar([x, y, (head + ground) / 2], [SYMBOL.leg, SYMBOL.leg, head - ground])),
    ...xs.map((x) =>
      bar([x, (front + back) / 2, head + SYMBOL.leg / 2], [SYMBOL.leg, back - front + SYMBOL.leg, SYMBOL.leg]),
    ),
    bar(
      [(Math.min(...xs) + Math.max(...xs)) / 2, 0, head + SYMBOL.leg + SYMBOL.beam / 2],
      [Math.max(...xs) - Math.min(...xs) + 2, SYMBOL.beam, SYMBOL.beam],
    ),
  ]
}

type Make = (
  part: NonNullable<SceneItem['rig']>['part'],
  solids: readonly SolidShape[],
  more?: Partial<SceneItem>,
) => SceneItem

function rails(item: Make, system: System, id: string, ground: number): SceneItem[] {
  if (system.rails === undefined || system.runway === undefined) return []
  const [from, to] = v2(system.runway)
  const ends = v2(system.rails).flatMap((x) =>
    [-0.5, 0.5].flatMap((d): Vec3[] => [
      [x + d, from, ground + 0.05],
      [x + d, to, ground + 0.05],
    ]),
  )
  return [
    item('frame', [{ shape: 'lines', ends }], { id: `system/${id}/rails`, picked: false, lines: 0.6, rig: undefined }),
  ]
}

/** What a crane stands on, by its tracks or outriggers; the body is a symbol. */
function carrier({ tracks, outriggers }: System, ground: number): SolidShape[] {
  const box = (centre: Vec3, size: Vec3): SolidShape => ({ shape: 'box', centre, size, turn: 0 })
  const body = box([0, 0, ground + 2.4], [5, 3, 2])
  if (tracks !== undefined) {
    const [length, width, gauge] = [v(tracks.length), v(tracks.width), v(tracks.gauge)]
    return [...[-1, 1].map((side) => box([0, (side * gauge) / 2, ground + 0.7], [length, width, 1.4])), body]
  }
  const [long, wide] = outriggers === undefined ? ([6, 3] as const) : v2(outriggers.base)
  const float = outriggers === undefined ? 0.6 : v(outriggers.mat[0])
  const floats = [-1, 1].flatMap((i) =>
    [-1, 1].map((j) => box([(i * long) / 2, (j * wide) / 2, ground + 0.15], [float, float, 0.3])),
  )
  return [...floats, box([0, 0, ground + 0.9], [long, 2.6, 1]), body]
}

const AROUND = 96

/** The largest radius of its charts, on the ground. */
function reach(item: Make, system: System, ground: number): SceneItem[] {
  const radii = Object.values(system.hooks).flatMap((hook) => ratedRows(hook).map((row) => v(row.radius)))
  if (radii.length === 0) return []
  const r = Math.max(...radii)
  const at = (i: number): Vec3 => [
    r * Math.cos((2 * Math.PI * i) / AROUND),
    r * Math.sin((2 * Math.PI * i) / AROUND),
    ground + 0.06,
  ]
  const ends = Array.from({ length: AROUND / 2 }, (_, i) => [at(2 * i), at(2 * i + 1)]).flat()
  return [item('reach', [{ shape: 'lines', ends }], { picked: false, lines: 0.5 })]
}

/** How the piece of a lift hangs; undefined where its hook or its points are not known. */
export function rigUse(stages: Stages, liftId: string | undefined, turned: (p: Vec3) => Vec3): RigUse | undefined {
  const { project } = stages.model
  const lift = liftId === undefined ? undefined : project.lifts[liftId]
  if (liftId === undefined || lift === undefined || project.machine === undefined) return undefined
  const outcome = stages.lift.lifts[liftId]
  const found = poseOfMachine(project.machine)
  const pointAt = (id: string): Vec3 | undefined => {
    const own = project.pieces[lift.piece]?.points[id]
    const point =
      own ??
      Object.values(project.gear)
        .map((g) => g.points[id])
        .find((p) => p !== undefined)
    return point === undefined ? undefined : place(found, coordinates(point.at))
  }
  const main = hookUse(lift.hook, lift.rigging?.legs.map((l) => l.to) ?? [], pointAt, turned, outcome?.legs ?? [])
  if (main === undefined) return undefined
  const tail =
    lift.tail === undefined
      ? undefined
      : hookUse(
          lift.tail.hook,
          lift.tail.rigging.legs.map((l) => l.to),
          pointAt,
          turned,
          [],
        )
  const stand = project.systems[lift.system]?.standings[lift.standing ?? 0]
  const { hung, boom } = outcome?.overhead ?? {}
  return {
    lift: liftId,
    system: lift.system,
    main,
    tail,
    standing: stand === undefined ? undefined : v2(stand),
    ...(hung === undefined || tail !== undefined ? {} : { hung: { rigging: hung, found } }),
    ...(boom === undefined ? {} : { boom }),
  }
}

type Legs = Stages['lift']['lifts'][string]['legs']

/** Drawn over its points where no equilibrium says how far, m. */
const OVER = 4

function hookUse(
  hook: string,
  names: readonly string[],
  pointAt: (id: string) => Vec3 | undefined,
  turned: (p: Vec3) => Vec3,
  legs: Legs,
): HookUse | undefined {
  const known = legs.flatMap(({ to, ends }) => {
    const point = pointAt(to)
    return point === undefined || ends === undefined ? [] : [{ point, ends }]
  })
  if (known.length > 0) {
    const hooks = known.map(({ point, ends }) => subtract(turned(point), ends[0]))
    const at = scale(hooks.reduce(add), 1 / hooks.length)
    const middle = scale(known.map(({ point }) => turned(point)).reduce(add), 1 / known.length)
    return { hook, points: known.map((k) => k.point), tops: known.map((k) => k.ends[1]), above: subtract(at, middle) }
  }
  const points = names.map(pointAt).filter((p) => p !== undefined)
  if (points.length === 0) return undefined
  return { hook, points, tops: points.map(() => [0, 0, 0]), above: [0, 0, OVER] }
}
