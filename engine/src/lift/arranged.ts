import { type Answer, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faults, NONE_ALLOWED } from './hookChecks.ts'
import { classArranged } from './kinds.ts'
import type { Pick } from './pick.ts'

/** One thing that a class of lift demands to be arranged before it. */
export interface Arrangement {
  /** Field of the lift's `arranged`. */
  field: 'plan' | 'director' | 'crew' | 'plannedBy' | 'checkedBy' | 'contingency' | 'sharing' | 'meeting' | 'trial'
  text: string
  /** Lifts that it is demanded of. */
  of: 'every lift' | 'critical lifts' | 'lifts of two machines'
  /** Where it comes from, and how that is known. */
  source: string
}

/** What is demanded before a lift, in the order in which it is arranged. */
export const ARRANGEMENTS: readonly Arrangement[] = [
  {
    field: 'plan',
    text: 'a plan in writing; one may serve a series of like lifts',
    of: 'every lift',
    source: 'ASME P30.1 chapter 5 (excerpts read); EM 385-1-1 16.H.02 (read)',
  },
  {
    field: 'director',
    text: 'one person who directs the lift and is there throughout',
    of: 'every lift',
    source: '29 CFR 1926.1432 for shared lifts (read); of every lift: common practice, no source',
  },
  {
    field: 'crew',
    text: 'operator, riggers and signaller qualified for this lift, and how they talk to one another',
    of: 'every lift',
    source: '29 CFR 1926.1419 to .1430 (from memory)',
  },
  {
    field: 'plannedBy',
    text: 'planned by a qualified person',
    of: 'critical lifts',
    source: '29 CFR 1926.1432 for shared lifts (read)',
  },
  {
    field: 'checkedBy',
    text: 'checked by a person who was not involved in planning it',
    of: 'critical lifts',
    source: 'BS 5975-1:2024 table 2, category 2 and above, for what carries the load (read in excerpts)',
  },
  {
    field: 'contingency',
    text: 'what is done when machine, rigging, power or radio fails, weather turns, the load or the site is not as planned',
    of: 'critical lifts',
    source: 'ASME P30.1 5-2.9 (excerpts read)',
  },
  {
    field: 'sharing',
    text: 'how each machine is brought to its share and kept there; a reading of the load on each',
    of: 'lifts of two machines',
    source: 'Mobile Crane Code of Practice (Queensland), 14.3 (read)',
  },
  {
    field: 'meeting',
    text: 'a meeting in which everybody who takes part goes through the plan',
    of: 'critical lifts',
    source: '29 CFR 1926.1432 for shared lifts (read); ASME P30.1 5-3 (excerpts read)',
  },
  {
    field: 'trial',
    text: 'a trial lift: the load taken, held low and looked at before it goes on',
    of: 'critical lifts',
    source: 'common practice, no source: 50 to 150 mm, 10 minutes or more',
  },
]

/** Of what its class demands, each with what is arranged; where the class is not known, all of it. */
export const arrangementsOf = (
  pick: Pick,
  critical: boolean | undefined,
): { arrangement: Arrangement; what: string | undefined; answer: Answer }[] =>
  ARRANGEMENTS.filter(({ of }) => isDemanded(of, pick, critical)).map((arrangement) => {
    const { lift, at } = pick
    const { field } = arrangement
    const pointer = `${at}/arranged/${field}`
    if (field === 'trial')
      return {
        arrangement,
        what: trialWords(lift.arranged.trial),
        answer: knownOr(lift.arranged.trial?.hold, 's', pointer),
      }
    const what = lift.arranged[field]
    return { arrangement, what, answer: given('1', pointer, what === undefined ? undefined : 1) }
  })

function isDemanded(of: Arrangement['of'], { main, tail }: Pick, critical: boolean | undefined): boolean {
  switch (of) {
    case 'every lift':
      return true
    case 'critical lifts':
      return critical !== false
    case 'lifts of two machines':
      return tail !== undefined && tail.systemId !== main.systemId
    default:
      return of satisfies never
  }
}

/** Asked in turn by the lift director immediately before the hook takes the load: one no, and nothing is lifted. */
export const GO_OR_STOP: readonly string[] = [
  'The piece is free: every joint, service and lock of this step is off and signed.',
  'Load, rigging and place of the centre of gravity are as on this sheet; nothing on the piece can shift.',
  'Rigging looked at hook to piece; every certificate in date; load readings at zero.',
  'Ground, rails and supports as checked; settlement read.',
  'The zone is closed and empty, the shaft floor counted, the bay and its packing ready.',
  'Everybody of the meeting is there and fit; one voice; radios tried; the stop signal of anybody counts.',
  'Wind now and as forecast for the window of this sheet below its limit; no lightning, ice or fog in sight.',
  'Standby of power and hoist tried; the holding positions are known to the operator.',
  'Rescue and first aid stand by, and their way out is free.',
  'Nothing has changed since the plan was signed; if it has, stop and have it reviewed.',
]

/** Where the list comes from, and how that is known. */
export const GO_OR_STOP_SOURCE =
  'after ASME P30.1 5-2.6 to 5-4 (excerpts read) and 29 CFR 1926.1417 to .1432 (from memory), in own words'

type Trial = Pick['lift']['arranged']['trial']

const trialWords = (trial: Trial): string | undefined =>
  trial === undefined
    ? undefined
    : `${(trial.height.value as number) * 1000} mm, held ${(trial.hold.value as number) / 60} min`

/** Whether what the class demands is arranged, and arranged so that it serves. */
export function arrangedCheck(pick: Pick, critical: boolean | undefined): Check {
  const demanded = arrangementsOf(pick, critical)
  const wrong = critical === false ? [] : faultsOf(pick.lift.arranged)
  return check({
    kind: classArranged,
    subject: pick.subject,
    demand: faults(
      wrong.length,
      'arrangements that do not serve: a checker who planned it, a trial lift outside 50 to 150 mm or shorter than 10 minutes',
      Object.fromEntries(demanded.map(({ arrangement, answer }) => [arrangement.text, answer])),
    ),
    capacity: NONE_ALLOWED,
    near: pick.near,
    cautions: [
      'That it is arranged does not make it done: the lift director asks for each before the hook takes load.',
    ],
    found: wrong,
  })
}

const [LOW, HIGH, HELD] = [0.05, 0.15, 600]

function faultsOf({ plannedBy, checkedBy, trial }: Pick['lift']['arranged']): string[] {
  const [height, hold] = [trial?.height.value as number | undefined, trial?.hold.value as number | undefined]
  return [
    ...(plannedBy !== undefined && same(plannedBy, checkedBy)
      ? [`planned and checked by the same: ${plannedBy}; name another person to check it`]
      : []),
    ...(height !== undefined && (height < LOW - 1e-9 || height > HIGH + 1e-9)
      ? [`trial lift of ${(height * 1000).toFixed(0)} mm: hold it between 50 and 150 mm`]
      : []),
    ...(hold !== undefined && hold < HELD - 1e-9
      ? [`trial lift held ${(hold / 60).toFixed(0)} min: hold it 10 min or more`]
      : []),
  ]
}

const same = (a: string, b: string | undefined): boolean => a.trim().toLowerCase() === b?.trim().toLowerCase()
