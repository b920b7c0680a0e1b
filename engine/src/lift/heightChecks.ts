import type { Answer } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { showQuantity } from '../working/quantity.ts'
import { words } from './cure.ts'
import type { HeightChain } from './height.ts'
import { height } from './kinds.ts'
import type { Pick } from './pick.ts'

/** The hook goes high enough. */
export const heightCheck = (pick: Pick, { needed, available }: HeightChain): Check =>
  check({
    kind: height,
    subject: pick.subject,
    demand: needed,
    capacity: available,
    near: 1,
    found: heightWords(needed, available),
    assumptions: [
      'The hull hangs as in equilibrium; working lengths of legs are between pins, so shackles are in them.',
      'The hook is the point where legs or spreader are fixed; what is above it belongs to the machine.',
    ],
  })

function heightWords(needed: Answer<'m'>, available: Answer<'m'>): string[] {
  const short = (needed.value ?? 0) - (available.value ?? 0)
  return [
    `the hook would have to go to ${words(needed)}, it goes no higher than ${words(available)}, ${showQuantity(short, 'm')} too low: shorter legs or gear, less to be cleared, or a higher hook`,
  ]
}
