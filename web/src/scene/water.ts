import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { type Block, outerRadius, type Project, still } from './block.ts'
import type { SceneItem, SceneLabel } from './sceneItem.ts'
import { type SolidShape, v } from './solids.ts'

const WATER_RUN = 5
/** Texts of water stand left of those of levels, m. */
const WATER_TEXT = 11

/** Heads of water as levels on the left of the cut. */
export function waterItems({ ground, shaft }: Project, { half }: Block): SceneItem[] {
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

export function waterLabels({ ground }: Project, { half }: Block): SceneLabel[] {
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
