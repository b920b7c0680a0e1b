import type { Pose } from '@shieldwright/engine/numeric/vector.ts'
import type { SolidShape } from './solids.ts'

/** What can be switched on and off together. */
export const LAYERS = ['ground', 'water', 'shaft', 'machine', 'services', 'lifting', 'bays', 'obstructions'] as const
export type Layer = (typeof LAYERS)[number]

/** One thing that is drawn. */
export interface SceneItem {
  /** Its own, among all that is drawn. */
  id: string
  /** Address of the entity that it stands for. */
  pointer: string
  name: string
  layer: Layer
  /** Group of the machine, or what kind of thing it is. */
  group: string
  /** Share of ink in its colour, from 0 (paper) to 1. */
  shade: number
  /** Share of ink in its lines. */
  lines: number
  /** Lines that only give a face its grain are not picked. */
  picked: boolean
  /** To the site frame, as found. */
  pose: Pose
  solids: readonly SolidShape[]
  /** Steps of the order that move it, counted from 0. */
  moved: readonly number[]
  /** The piece that it leaves with first. */
  piece?: string
  /** It does not come back. */
  scrapped?: boolean
  /** Taken away before this step of the order. */
  until?: number
  /** What it belongs to of a lifting system, and moves with. */
  rig?: { system: string; part: 'frame' | 'hook' | 'boom' | 'reach'; hook?: string }
}

/** Something named at a place: a level, a bay. */
export interface SceneLabel {
  at: readonly [number, number, number]
  text: string
  /** A level behind the text, site z, m. */
  level?: number
  layer: Layer
  pointer: string
  /** Which side of the place the text stands on. */
  side: 'left' | 'right' | 'over'
  /** First come where room is short. */
  rank: number
}
