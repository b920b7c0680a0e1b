import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { type Block, type Project, still } from './block.ts'
import type { SceneItem, SceneLabel } from './sceneItem.ts'
import { v, v2 } from './solids.ts'

/** Outline of the surface in front of the cut, so that what stands there is seen to stand. */
export function frontItems({ ground, systems }: Project, { half }: Block): SceneItem[] {
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

/** Prepared standings of cranes. */
export const padItems = ({ ground }: Project): SceneItem[] =>
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

/** Laydown bays. */
export function bayItems({ bays }: Project): SceneItem[] {
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

export const bayLabels = ({ bays }: Project): SceneLabel[] =>
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

/** What is fixed in the shaft. */
export function obstructionItems({ shaft }: Project, order: readonly string[]): SceneItem[] {
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
