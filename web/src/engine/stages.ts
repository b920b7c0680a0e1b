/** The stations of the line, in order. */
export const STAGES = ['project', 'model', 'mass', 'strip', 'lift', 'ground', 'programme', 'risk', 'report'] as const

export type StageName = (typeof STAGES)[number]
