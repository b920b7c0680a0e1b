import type { Moment } from './step.ts'

/** In the place of a step: what stands on the site before any step is done. */
export const AS_IT_STANDS = 'as-it-stands'

/** A moment of a step in words, or the standing state. */
export const momentText = (step: string, when: Moment): string =>
  step === AS_IT_STANDS ? 'as it stands, before any step' : `${step}, ${when}`
