import type { Answer } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { WIND_CAUTIONS } from './caution.ts'
import { words } from './cure.ts'
import { wind, windSwing } from './kinds.ts'
import type { LiftOutcome } from './lift.ts'
import type { Pick } from './pick.ts'
import { swingAtCollar, type WindLimit } from './wind.ts'

/** The gust at which the plan stops is no higher than any limit. */
export function windCheck(pick: Pick, { allowable, planned, terms }: WindLimit): Check {
  return check({
    kind: wind,
    subject: pick.subject,
    demand: planned,
    capacity: allowable,
    found: [
      `the plan stops at ${words(planned)}, ${governsText(terms, allowable)} asks for ${words(allowable)}: name a lower wind at which the lift stops (stopWind), or lessen its sail`,
    ],
    // a plan that stops at the machine's own limit uses it fully, and is not near anything
    near: 1,
    assumptions: [
      pick.lift.stopWind === undefined
        ? "The lift names no wind of its own: it stops at the machine's limit."
        : 'The lift names the wind at which it stops.',
      readText(pick),
      'Sail area: outline of all solids over all headings; holes count as closed.',
    ],
    cautions: WIND_CAUTIONS,
  })
}

const governsText = (terms: WindLimit['terms'], { value }: Answer<'m/s'>): string =>
  terms.find(({ answer }) => answer.value === value)?.label ?? 'a limit'

function readText({ main: { system } }: Pick): string {
  const { read } = system.wind ?? {}
  const own =
    read === undefined ? 'Nobody has said how' : `As a ${read.as} at ${read.at === 'hook' ? 'the hook' : '10 m'}`
  return `${own} the limit of the machine is read; here all speeds are gusts of about 3 s at the hook, a forecast is a mean at 10 m.`
}

/** At the gust that stops it, the piece swings less than it has room in the mouth of the shaft. */
export function swingChecks(
  pick: Pick,
  sail: Answer<'m2'>,
  { planned }: WindLimit,
  least: LiftOutcome['clearance'],
): Check[] {
  if (!pick.inShaft || least === undefined) return []
  const demand = swingAtCollar(pick, sail, planned)
  return [
    check({
      kind: windSwing,
      subject: pick.subject,
      of: least.to,
      demand,
      capacity: least.gap,
      near: pick.near,
      assumptions: [
        'The whole piece in the wind on a line down to the collar; steady wind at the gust, without the doubling of a sudden one.',
        `Room: the least gap on its way, to ${least.to}.`,
      ],
      cautions: WIND_CAUTIONS,
      found: [
        `the wind alone takes it against the shaft: it swings ${words(demand)} with ${words(least.gap)} of room; a lower wind at which the lift stops (stopWind), tag lines, or a shelter over the mouth of the shaft`,
      ],
    }),
  ]
}
