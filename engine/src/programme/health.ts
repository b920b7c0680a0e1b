import type { Programme } from '../model/index.ts'
import type { Activities, Activity, Scheduled } from './activity.ts'

/** One question about the network with everything that raises it. */
export interface Question {
  id: string
  title: string
  /** Share above which it is asked, and of what. */
  limit: number
  of: 'activities' | 'links'
  total: number
  /** Those that nobody has explained, with words. */
  offenders: readonly { activity: string; text: string }[]
  explained: readonly { activity: string; text: string; answer: string }[]
  /** It rests on dates, and so on every duration. */
  onDates: boolean
}

const MOST_DAYS = 44
const MINUTE = 60

interface Asked {
  activities: readonly Activity[]
  all: Activities
  plan: Readonly<Record<string, Scheduled>>
  programme: Programme
  /** Clock seconds of a working day, by calendar. */
  day: (calendar: string) => number
}

type Offender = { activity: string; text: string }

/** The questions planners put to a network, as the public guides list them and as this job adds. */
export function questions(asked: Asked): Question[] {
  const links = asked.activities.reduce((sum, a) => sum + a.after.length, 0)
  const of = (
    id: string,
    title: string,
    limit: number,
    unit: Question['of'],
    found: Offender[],
    onDates = false,
  ): Question => {
    const { explained } = asked.programme
    return {
      id,
      title,
      limit,
      of: unit,
      total: unit === 'links' ? links : asked.activities.length,
      offenders: found.filter(({ activity }) => explained[activity] === undefined),
      explained: found.flatMap((o) => {
        const answer = explained[o.activity]
        return answer === undefined ? [] : [{ ...o, answer }]
      }),
      onDates,
    }
  }
  return [
    of('open-ends', 'Activities without a predecessor or a successor', 0.05, 'activities', openEnds(asked)),
    of('half-tied', 'Activities whose start or finish hangs free', 0, 'activities', halfTied(asked)),
    of('broken-links', 'Links to activities that are not in the network', 0, 'links', brokenLinks(asked)),
    of(
      'leads',
      'Leads',
      0,
      'links',
      lags(asked, (lag) => lag < 0),
    ),
    of(
      'lags',
      'Lags',
      0.05,
      'links',
      lags(asked, (lag) => lag > 0),
    ),
    of('other-links', 'Links other than finish-to-start', 0.1, 'links', otherLinks(asked)),
    of('hard-dates', 'Fixed dates', 0.05, 'activities', hardDates(asked)),
    of('long', `Activities longer than ${MOST_DAYS} working days`, 0.05, 'activities', long(asked)),
    of('high-float', `Total float above ${MOST_DAYS} working days`, 0.05, 'activities', highFloat(asked), true),
    of('negative-float', 'Negative float', 0, 'activities', negativeFloat(asked), true),
    of('stand-ins', 'Typed stand-ins without a reason', 0, 'activities', standIns(asked)),
  ]
}

/** First and last activity of the network are left out (common practice); the restart may be the last. */
function openEnds({ activities, programme }: Asked): Offender[] {
  const followed = new Set(activities.flatMap((a) => a.after.map((l) => l.to)))
  const first = activities.find((a) => a.after.length === 0)?.id
  const last = [...activities].reverse().find((a) => !followed.has(a.id))?.id
  return activities.flatMap(({ id, after }): Offender[] => [
    ...(after.length === 0 && id !== first ? [{ activity: id, text: `${id} waits for nothing` }] : []),
    ...(!followed.has(id) && id !== last && id !== programme.restart
      ? [{ activity: id, text: `nothing waits for ${id}` }]
      : []),
  ])
}

/** A start-to-start successor alone leaves a finish free; a finish-to-finish predecessor alone leaves a start free. */
function halfTied({ activities }: Asked): Offender[] {
  const types = new Map<string, Set<string>>()
  for (const { after } of activities)
    for (const { to, type } of after) types.set(to, (types.get(to) ?? new Set()).add(type))
  const only = (used: ReadonlySet<string> | undefined, loose: readonly string[]): boolean =>
    used !== undefined && used.size > 0 && [...used].every((t) => loose.includes(t))
  return activities.flatMap(({ id, after }): Offender[] => [
    ...(only(types.get(id), ['SS', 'SF']) ? [{ activity: id, text: `the finish of ${id} drives nothing` }] : []),
    ...(only(new Set(after.map((l) => l.type)), ['FF', 'SF'])
      ? [{ activity: id, text: `the start of ${id} waits for nothing` }]
      : []),
  ])
}

const brokenLinks = ({ activities, all }: Asked): Offender[] =>
  activities.flatMap(({ id, after }) =>
    after
      .filter(({ to }) => !Object.hasOwn(all, to))
      .map(({ to }) => ({ activity: id, text: `${id} waits for ${to}, which is not in the network` })),
  )

const lags = ({ activities }: Asked, wanted: (lag: number) => boolean): Offender[] =>
  activities.flatMap(({ id, after }) =>
    after
      .filter(({ lag }) => wanted(lag))
      .map(({ to, type, lag }) => ({
        activity: id,
        text: `${to} to ${id}, ${type} ${lag < 0 ? '−' : '+'} ${(Math.abs(lag) / 86_400).toFixed(1)} d`,
      })),
  )

const otherLinks = ({ activities }: Asked): Offender[] =>
  activities.flatMap(({ id, after }) =>
    after
      .filter(({ type }) => type !== 'FS')
      .map(({ to, type }) => ({ activity: id, text: `${to} to ${id}, ${type}` })),
  )

const hardDates = ({ activities }: Asked): Offender[] =>
  activities
    .filter(({ finishBy }) => finishBy !== undefined)
    .map(({ id }) => ({ activity: id, text: `${id} is promised by a date` }))

const long = ({ activities, day }: Asked): Offender[] =>
  activities
    .filter(({ work, calendar }) => work[1] > MOST_DAYS * day(calendar))
    .map(({ id, work, calendar }) => ({ activity: id, text: `${id}: ${Math.round(work[1] / day(calendar))} days` }))

const highFloat = ({ activities, plan, day }: Asked): Offender[] =>
  activities
    .filter(({ id, kind, calendar }) => kind !== 'milestone' && (plan[id]?.totalFloat ?? 0) > MOST_DAYS * day(calendar))
    .map(({ id, calendar }) => ({
      activity: id,
      text: `${id}: ${Math.round((plan[id]?.totalFloat ?? 0) / day(calendar))} days`,
    }))

const negativeFloat = ({ activities, plan, day }: Asked): Offender[] =>
  activities
    .filter(({ id }) => (plan[id]?.totalFloat ?? 0) < -MINUTE)
    .map(({ id, calendar }) => ({
      activity: id,
      text: `${id}: ${((plan[id]?.totalFloat ?? 0) / day(calendar)).toFixed(1)} days`,
    }))

const standIns = ({ programme }: Asked): Offender[] =>
  Object.entries(programme.activities)
    .filter(([, a]) => (a.overrides?.length ?? 0) > 0 && a.reason === undefined)
    .map(([id]) => ({ activity: id, text: `${id} stands in for derived activities and does not say why` }))
