import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { type Block, halfHeight, outerRadius, type Project, still } from './block.ts'
import { grainOf } from './grain.ts'
import type { SceneItem, SceneLabel } from './sceneItem.ts'
import { type Strip, v } from './solids.ts'

const TINTS = [0.035, 0.1, 0.06, 0.14, 0.08, 0.17, 0.12]

/** Layers of ground behind the cut, with the bore that the machine came through left out. */
export function groundItems({ ground, shaft, machine }: Project, block: Block): SceneItem[] {
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

export type Levels = (y: number) => readonly [number, number]

function groundStrip(
  ys: readonly number[],
  outer: number,
  half: number,
  side: 1 | -1,
  levels: Levels,
  ends: Strip['ends'] = ['first', 'last'],
): Strip {
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
    ends,
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
    .map((levels) => groundStrip(beside, outer, half, -1, levels, ['first']))
  return [...cut, groundStrip(behind, outer, half, -1, () => [bottom, top], ['last'])]
}

/** Names of layers on the right of the block, levels on its left. */
export function groundLabels({ ground }: Project, { half, foot }: Block): SceneLabel[] {
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
