import type { BelowGround } from '../../model/index.ts'
import { stated } from '../../working/answer.ts'
import { type Check, check } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { pointerOf } from '../../working/pointer.ts'
import { isBelow } from '../inShaft.ts'
import { type Below, CAUTION, dayIn, missingAt, nothingEntered } from './below.ts'
import { rescueCover } from './kinds.ts'

type Cover = readonly [id: string, cover: BelowGround['rescue'][string]]

const MINUTE = 60
const REACH = stated('s', 30 * MINUTE, 'half an hour: 29 CFR 1926.800(g)(5), from memory')
const SECOND_REACH = 120 * MINUTE
const MANY = 25

/** Check 102: for each calendar on which people are planned below ground, teams on call from the first of its days to the last. */
export function rescueChecks(below: Below): Check[] {
  const spans = spansBelow(below)
  const covers = Object.entries(below.people?.rescue ?? {})
  if (covers.length === 0) return [nothingEntered(rescueCover, below, 'rescue', 'Rescue teams on call')]
  return [...spans].map(([calendar, span]) =>
    coverCheck(
      below,
      calendar,
      span,
      covers.filter(([, { calendars }]) => calendars.includes(calendar)),
    ),
  )
}

/** First and last day of work below ground, by calendar. */
function spansBelow(below: Below): ReadonlyMap<string, readonly [from: string, to: string]> {
  const floor = below.model.project.programme?.work?.shaftFloor
  const spans = new Map<string, readonly [string, string]>()
  for (const activity of below.activities.filter((a) => isBelow(a, below.bayOfStep, floor))) {
    const [from, to] = [dayIn(below, below.plan[activity.id]?.start), dayIn(below, below.plan[activity.id]?.finish)]
    if (from === undefined || to === undefined) continue
    const [first, last] = spans.get(activity.calendar) ?? [from, to]
    const days = [first, last, from, to].sort()
    spans.set(activity.calendar, [days[0] as string, days[3] as string])
  }
  return spans
}

function coverCheck(below: Below, calendar: string, [first, last]: readonly [string, string], covers: Cover[]): Check {
  const reach = below.people?.rules.reach ?? REACH
  const people = Object.values(below.people?.air ?? {}).map((a) => a.people)
  const most = Math.max(0, ...people.map((n) => n ?? 0))
  const within = (limit: number | undefined) =>
    covers.filter(([, c]) => limit === undefined || c.reach?.value === undefined || c.reach.value <= limit)
  const one = gapIn(within(reach.value), first, last, 1)
  const two = most < MANY ? undefined : gapIn(within(SECOND_REACH), first, last, 2)
  const faults = [
    ...(one === undefined ? [] : [`nobody on call near enough on ${one}`]),
    ...(two === undefined ? [] : [`no second team within two hours on ${two}, with ${most} people below ground`]),
  ]
  const unknown = covers.filter(([, c]) => c.reach === undefined && c.until >= first && c.from <= last)
  return check({
    kind: rescueCover,
    subject: {
      pointer: pointerOf('programme', 'calendars', calendar),
      id: calendar,
      name: `Shifts of calendar ${calendar} below ground`,
    },
    demand: faultsFound(faults.length, 'days on which a team is missing', {
      'time to reach the shaft': reach,
      ...Object.fromEntries(unknown.map(([id, { team }]) => [team, missingAt('rescue', id, 'reach')])),
    }),
    capacity: NONE,
    near: 1,
    found: faults,
    assumptions: [
      `people below ground in the plan from ${first} to ${last}`,
      `teams: ${covers.map(([, c]) => c.team).join(', ') || 'none'}`,
    ],
    cautions: [CAUTION],
  })
}

/** The first day of a span on which fewer teams are on call than needed; who is on call changes only where one begins or ends. */
function gapIn(covers: readonly Cover[], first: string, last: string, needed: number): string | undefined {
  const days = [first, ...covers.map(([, { until }]) => dayAfter(until))].filter((d) => d >= first && d <= last).sort()
  return days.find((day) => covers.filter(([, { from, until }]) => from <= day && day <= until).length < needed)
}

const DAY = 86_400_000
const dayAfter = (day: string): string => new Date(Date.parse(day) + DAY).toISOString().slice(0, 10)
