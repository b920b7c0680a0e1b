import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import type { Cut } from './cuts.ts'
import type { Layer } from './sceneItem.ts'

/** A plane across an axis of the site; what lies beyond it, on the greater side or on the lesser, is cut away. */
export interface Section {
  axis: 0 | 1 | 2
  /** m */
  at: number
  /** The lesser side is cut away. */
  flipped: boolean
}

/** What the drawing shows, but for where one looks from. */
export interface Shown3d {
  selected: string | undefined
  hidden: ReadonlySet<Layer>
  /** What stands before the selection is seen through. */
  through: boolean
  /** All but the selection is seen through. */
  ghost: boolean
  section: Section | undefined
  measured: { from: Vec3; to: Vec3 | undefined } | undefined
  /** The cut whose services are marked. */
  cut: Cut | undefined
  /** The last travels while pointing; the pick is told and not taken as a selection. */
  lengthText: (metres: number) => string
  levelText: (metres: number) => string
}

/** Ways to look that engineers ask for. */
export type View = 'overview' | 'side' | 'front' | 'above' | 'path' | 'selection'
