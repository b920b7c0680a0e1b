import { type Check, check } from '../working/check.ts'
import { WIND_CAUTIONS } from './caution.ts'
import { wind } from './kinds.ts'
import type { Pick } from './pick.ts'
import type { WindLimit } from './wind.ts'

/** The gust at which the plan stops is no higher than any limit. */
export function windCheck(pick: Pick, { allowable, planned }: WindLimit): Check {
  return check({
    kind: wind,
    subject: pick.subject,
    demand: planned,
    capacity: allowable,
    // a plan that stops at the machine's own limit uses it fully, and is not near anything
    near: 1,
    assumptions: [
      pick.lift.stopWind === undefined
        ? "The lift names no wind of its own: it stops at the machine's limit."
        : 'The lift names the wind at which it stops.',
      'Speeds are gusts of about 3 s at the height of the piece; a forecast is a mean of 10 min at 10 m.',
      'Sail area: outline of all solids over all headings; holes count as closed.',
    ],
    cautions: WIND_CAUTIONS,
  })
}
