import { type Check, check } from '../working/check.ts'
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
    assumptions: [
      'The hull hangs as in equilibrium; working lengths of legs are between pins, so shackles are in them.',
      'The hook is the point where legs or spreader are fixed; what is above it belongs to the machine.',
    ],
  })
