import type { Stroke } from '../drawing.ts'

/** Line widths, mm: outlines 0.5, dimensions 0.25, grid 0.18. */
const pen = (width: number, ink: Stroke['ink'], dash?: readonly number[]): Stroke =>
  dash === undefined ? { width, ink } : { width, ink, dash }

export const OUTLINE = pen(0.5, 'ink')
export const EDGE = pen(0.35, 'ink')
export const THIN = pen(0.25, 'ink')
export const FINE = pen(0.18, 'ink')
export const GRID = pen(0.18, 'hair')
export const RULE = pen(0.25, 'edge')
/** Where a piece starts and where it is clear. */
export const CHAIN = pen(0.25, 'ink', [3.2, 0.8, 0.6, 0.8])
export const AXIS = pen(0.18, 'quiet', [4, 0.9, 0.7, 0.9])
/** Hidden, or behind the section. */
export const HIDDEN = pen(0.25, 'ink', [1.4, 0.8])
export const ASKED = pen(0.25, 'quiet', [0.6, 0.6])
export const ATTENTION = pen(0.35, 'fail')

export const SMALL = 2.3
export const BODY = 2.6
export const LABEL = 2.5
export const HEAD = 3.3
