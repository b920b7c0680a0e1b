import { place } from '@shieldwright/engine/numeric/vector.ts'
import { type Box3, boxOf, middleOf } from './bounds.ts'
import type { Scene } from './scene.ts'
import { shapePoints } from './solids.ts'

/** Where a section across an axis can go, and where it begins: m, site frame. */
export interface Reach {
  from: number
  to: number
  start: number
}

/** For x, y and z: over all that stands, beginning in the middle of the machine. */
export function sectionReach(scene: Scene): Reach[] {
  const boxOfItems = (items: Scene['items']): Box3 =>
    boxOf(items.flatMap((item) => item.solids.flatMap(shapePoints).map((p) => place(item.pose, p))))
  const fixed = scene.items.filter((item) => item.rig === undefined)
  if (fixed.length === 0) return [0, 1, 2].map(() => ({ from: -1, to: 1, start: 0 }))
  const machine = fixed.filter((item) => item.layer === 'machine')
  const all = boxOfItems(fixed)
  const middle = middleOf(boxOfItems(machine.length > 0 ? machine : fixed))
  const head = Math.max(all.max[2], ...Object.values(scene.systems).map((s) => s.head))
  return ([0, 1, 2] as const).map((k) => ({
    from: Math.floor(all.min[k]),
    to: Math.ceil(k === 2 ? head : all.max[k]),
    start: Math.round(middle[k] * 20) / 20,
  }))
}
