import type { Stages } from '@shieldwright/engine'
import { poseInSite } from '@shieldwright/engine/model/index.ts'
import type { Pose, Vec3 } from '@shieldwright/engine/numeric/vector.ts'

/** A solid in numbers (m, rad), its own frame being the machine frame of its entry. */
export type SolidShape =
  | {
      shape: 'ring sector'
      inner: number
      outer: number
      along: readonly [number, number]
      angles: readonly [number, number]
    }
  | { shape: 'cylinder'; radii: readonly [number, number]; from: Vec3; to: Vec3 }
  | { shape: 'sphere'; radius: number; centre: Vec3 }
  | { shape: 'box'; centre: Vec3; size: Vec3; turn: number }

export interface SceneItem {
  id: string
  name: string
  group: string
  piece: string | undefined
  /** To the site frame, as found. */
  pose: Pose
  solids: readonly SolidShape[]
}

export interface SceneStep {
  step: string
  piece: string
  name: string
  parts: readonly string[]
  /** From the place as found to each stop of the step's moves, site frame. */
  poses: readonly Pose[]
  stays: boolean
}

export interface Scene {
  items: readonly SceneItem[]
  steps: readonly SceneStep[]
  shaft: { radius: number; top: number; slab: number; barrier: number; toe: number } | undefined
  layers: readonly { name: string; top: number; bottom: number }[]
  bays: readonly { id: string; centre: readonly [number, number]; size: readonly [number, number]; level: number }[]
  obstructions: readonly {
    what: string
    x: readonly [number, number]
    y: readonly [number, number]
    z: readonly [number, number]
  }[]
  cradle: { along: readonly [number, number]; radius: number; axis: number } | undefined
}

const v = (g: { value: number | undefined }): number => g.value ?? 0
const v3 = (
  p: readonly [{ value: number | undefined }, { value: number | undefined }, { value: number | undefined }],
): Vec3 => [v(p[0]), v(p[1]), v(p[2])]
const v2 = (p: readonly [{ value: number | undefined }, { value: number | undefined }]): readonly [number, number] => [
  v(p[0]),
  v(p[1]),
]

/** What stands where, for drawing: shaft, ground, machine and the steps of the order. */
export function sceneOf(stages: Stages): Scene {
  const { project, instances } = stages.model
  const { machine, shaft, ground, cradle } = project
  const pieceOf = new Map(stages.strip.steps.flatMap((s) => s.parts.map((p) => [p, s.piece] as const)))
  return {
    items:
      machine === undefined
        ? []
        : [...instances.byId.values()].map((instance) => ({
            id: instance.id,
            name: instance.part.name,
            group: instance.part.group ?? '',
            piece: pieceOf.get(instance.id),
            pose: poseInSite(machine, instance),
            solids: instance.part.solids.filter((s) => s.op === 'add').flatMap(solidShape),
          })),
    steps: stages.strip.steps.map((s) => ({
      step: s.step,
      piece: s.piece,
      name: project.pieces[s.piece]?.name ?? s.piece,
      parts: s.parts,
      poses: s.poses,
      stays: project.steps[s.step]?.stays === true,
    })),
    shaft:
      shaft === undefined
        ? undefined
        : {
            radius: v(shaft.clearDiameter) / 2,
            top: v(shaft.collar),
            slab: v(shaft.slabTop),
            barrier: v(shaft.barrier),
            toe: v(shaft.wall.toe),
          },
    layers: Object.values(ground?.layers ?? {}).map((l) => ({ name: l.name, top: v(l.top), bottom: v(l.bottom) })),
    bays: Object.entries(project.bays).map(([id, b]) => ({
      id,
      centre: v2(b.centre),
      size: v2(b.size),
      level: v(b.level),
    })),
    obstructions: Object.values(shaft?.obstructions ?? {}).map((o) => ({
      what: o.what,
      x: v2(o.x),
      y: v2(o.y),
      z: v2(o.z),
    })),
    cradle:
      cradle === undefined || machine === undefined
        ? undefined
        : { along: v2(cradle.along), radius: v(cradle.radius ?? { value: 6.18 }), axis: v(machine.pose.origin[2]) },
  }
}

type Solid = Stages['model']['project']['parts'][string]['solids'][number]

function solidShape(solid: Solid): SolidShape[] {
  switch (solid.shape) {
    case 'ring sector':
      return [
        {
          shape: 'ring sector',
          inner: v(solid.inner),
          outer: v(solid.outer),
          along: v2(solid.along),
          angles: v2(solid.angles),
        },
      ]
    case 'cylinder':
      return [{ shape: 'cylinder', radii: [v(solid.radius), v(solid.radius)], from: v3(solid.from), to: v3(solid.to) }]
    case 'cone':
      return [{ shape: 'cylinder', radii: v2(solid.radii), from: v3(solid.from), to: v3(solid.to) }]
    case 'sphere':
      return [{ shape: 'sphere', radius: v(solid.radius), centre: v3(solid.centre) }]
    case 'box':
      return [{ shape: 'box', centre: v3(solid.centre), size: v3(solid.size), turn: 0 }]
    case 'radial box':
      return [radialBox(solid)]
    case 'revolution':
    case 'extrusion':
    case 'spherical cap':
    case 'mesh':
      return []
    default:
      return solid satisfies never
  }
}

function radialBox(solid: Extract<Solid, { shape: 'radial box' }>): SolidShape {
  const [from, to] = v2(solid.along)
  const angle = v(solid.angle)
  const centre: Vec3 = [(from + to) / 2, v(solid.radius) * Math.cos(angle), v(solid.radius) * Math.sin(angle)]
  return { shape: 'box', centre, size: [to - from, v(solid.radial), v(solid.across)], turn: angle }
}
