import type { SheetSize } from './border.ts'

/** Papers that documents can be had on. */
export const PAPERS = ['A1', 'A2', 'A3', 'A4', 'Letter'] as const
export type PaperName = (typeof PAPERS)[number]

/** Papers for what is carried to the work and kept in a file. */
export const HAND_PAPERS = ['A4', 'Letter'] as const
export type HandPaper = (typeof HAND_PAPERS)[number]

/** Papers for the sheet of a lift: one for the wall of the office, two for the pocket. */
export const LIFT_PAPERS = ['A3', 'A4', 'Letter'] as const
export type LiftPaper = (typeof LIFT_PAPERS)[number]

/** Lying, mm: ISO 216; Letter of ANSI/ASME Y14.1, 8.5 in × 11 in. */
export const LYING: Readonly<Record<PaperName, SheetSize>> = {
  A1: { width: 841, height: 594 },
  A2: { width: 594, height: 420 },
  A3: { width: 420, height: 297 },
  A4: { width: 297, height: 210 },
  Letter: { width: 279.4, height: 215.9 },
}

/** The same paper on its short edge. */
export const upright = (paper: PaperName): SheetSize => {
  const { width, height } = LYING[paper]
  return { width: height, height: width }
}
