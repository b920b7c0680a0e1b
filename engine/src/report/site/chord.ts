/** Greatest distance of a chord from its arc on paper, mm: finer than the finest line. */
const ON_PAPER = 0.06
const LEAST = 0.008

/** The same in the world, m, at a scale. */
export const chordError = (scale: number): number => Math.max(LEAST, (ON_PAPER * scale) / 1000)

/** For pieces on the bays, whatever the scale, m. */
export const LAID_CHORD = 0.02
