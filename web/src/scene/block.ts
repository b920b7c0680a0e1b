import type { Stages } from '@shieldwright/engine'
import { wallRadius } from '@shieldwright/engine/model/index.ts'
import { AT_REST } from '@shieldwright/engine/numeric/vector.ts'
import type { SceneItem } from './sceneItem.ts'
import { v } from './solids.ts'

export type Project = Stages['model']['project']

/** The block of ground that is drawn: half its width, how far back, and its foot; site frame, m. */
export interface Block {
  half: number
  back: number
  foot: number
}

const SIDE = 9
/** A wall of which nothing is given is still seen, m. */
const UNKNOWN_WALL = 1

/** As wide and deep as what stands on it, and down below the toe of the wall. */
export function blockOf({ shaft, bays, systems, ground }: Project): Block {
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

/** Outside of the shaft's wall. */
export function outerRadius(shaft: Project['shaft']): number {
  if (shaft === undefined) return 6
  const [outer, clear] = [wallRadius(shaft), v(shaft.clearDiameter) / 2]
  return outer > clear ? outer : clear + UNKNOWN_WALL
}

/** A thing that stands still. */
export const still = (
  item: Pick<SceneItem, 'id' | 'pointer' | 'name' | 'layer' | 'group' | 'shade' | 'solids'> & Partial<SceneItem>,
): SceneItem => ({
  lines: 0.55,
  picked: true,
  pose: AT_REST,
  moved: [],
  ...item,
})

/** Opening of a bore of this radius at a distance from its axis: half its height. */
export const halfHeight = (radius: number, y: number): number => (y < radius ? Math.sqrt(radius * radius - y * y) : 0)
