import { INKS } from '@shieldwright/engine/report/index.ts'

const mixed = (share: number): string => `color-mix(in srgb, var(--ink) ${share}%, var(--sheet))`

/** Colours of a drawing on the page: those of the page, in every light. */
export const PAGE_INKS: typeof INKS = {
  ...INKS,
  ink: 'var(--ink)',
  quiet: 'var(--quiet)',
  edge: 'var(--edge)',
  hair: 'var(--hair)',
  fail: 'var(--fail)',
  now: 'var(--edit)',
  paper: 'var(--sheet)',
  steel: mixed(22),
  pale: mixed(7),
  concrete: mixed(16),
  ground: mixed(4),
}
