import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { halfHeight, outerRadius, type Project, still } from './block.ts'
import type { Levels } from './ground.ts'
import type { SceneItem } from './sceneItem.ts'
import { type SolidShape, type Strip, v, v2 } from './solids.ts'

/** Wall with its eyes, beam, barrier, slab and cradle. */
export function shaftItems(project: Project): SceneItem[] {
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
