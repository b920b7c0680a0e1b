import type { Programme } from '../model/index.ts'
import type { Source } from '../working/formula.ts'
import type { Activities, Activity, Scheduled } from './activity.ts'
import { impliedLinks } from './impliedLinks.ts'
import { unfitting } from './unfitting.ts'

/** One question about the network with everything that raises it. */
export interface Question {
  id: string
  title: string
  /** Share above which it is asked, and of what. */
  limit: number
  of: 'activities' | 'links'
  total: number
  /** Those that nobody has explained, with words. */
  offenders: readonly Offender[]
  explained: readonly (Offender & { answer: string })[]
  /** It rests on dates, and so on every duration. */
  onDates: boolean
  /** Shown to be looked through; nothing is passed or failed by it. */
  listed: boolean
  /** Where question and limit come from, and how that is known. */
  source: Source
}

export interface Offender {
  activity: string
  text: string
}

const MOST_DAYS = 44
const MINUTE = 60
const MEETING = 3

interface Asked {
  activities: readonly Activity[]
  all: Activities
  plan: Readonly<Record<string, Scheduled>>
  programme: Programme
  /** Clock seconds of a working day, by calendar. */
  day: (calendar: string) => number
}

interface Asking {
  title: string
  /** Absent: listed only. */
  limit?: number
  of?: Question['of']
  onDates?: boolean
  source: Source
  find: (asked: Asked) => Offender[]
}

const READ: Source = {
  basis: 'read',
  text: 'DCMA-EA PAM 200.1 (October 2012), section 4: limit by public pages that agree on it',
}
const practice = (number: number, what: string): Source => ({
  basis: 'memory',
  text: `GAO-16-89G (December 2015), practice ${number}, ${what}; its list is from memory, it gives no limit`,
})
const OWN: Source = { basis: 'common practice', text: 'no source' }

/** The questions planners put to a network, as the public guides list them and as this job adds. */
const QUESTIONS: Readonly<Record<string, Asking>> = {
  'open-ends': {
    title: 'Activities without a predecessor or a successor',
    limit: 0.05,
    source: READ,
    find: (asked) => openEnds(asked),
  },
  'half-tied': {
    title: 'Activities whose start or finish hangs free',
    limit: 0,
    source: practice(2, 'sequencing all activities'),
    find: (asked) => halfTied(asked),
  },
  'broken-links': {
    title: 'Links to activities that are not in the network',
    limit: 0,
    of: 'links',
    source: practice(5, 'traced horizontally and vertically'),
    find: (asked) => brokenLinks(asked),
  },
  leads: { title: 'Leads', limit: 0, of: 'links', source: READ, find: (asked) => lags(asked, (lag) => lag < 0) },
  lags: { title: 'Lags', limit: 0.05, of: 'links', source: READ, find: (asked) => lags(asked, (lag) => lag > 0) },
  'other-links': {
    title: 'Links other than finish-to-start',
    limit: 0.1,
    of: 'links',
    source: READ,
    find: (asked) => otherLinks(asked),
  },
  'hard-dates': { title: 'Fixed dates', limit: 0.05, source: READ, find: (asked) => hardDates(asked) },
  long: {
    title: `Activities longer than ${MOST_DAYS} working days`,
    limit: 0.05,
    source: READ,
    find: (asked) => long(asked),
  },
  'high-float': {
    title: `Total float above ${MOST_DAYS} working days`,
    limit: 0.05,
    onDates: true,
    source: READ,
    find: (asked) => highFloat(asked),
  },
  'negative-float': {
    title: 'Negative float',
    limit: 0,
    onDates: true,
    source: READ,
    find: (asked) => negativeFloat(asked),
  },
  'stand-ins': { title: 'Typed stand-ins without a reason', limit: 0, source: OWN, find: (asked) => standIns(asked) },
  unfitting: {
    title: 'Overrides, answers and adopted orders that no longer fit',
    limit: 0,
    source: OWN,
    find: ({ programme, all }) => unfitting(programme, all),
  },
  'no-resources': {
    title: 'Activities of a day or more that hold no resource and cost nothing',
    source: {
      basis: 'memory',
      text: 'DCMA-EA PAM 200.1 (October 2012), section 4: resources or cost on every activity',
    },
    find: (asked) => withoutResources(asked),
  },
  'implied-links': {
    title: 'Links that a longer chain implies',
    of: 'links',
    source: OWN,
    find: ({ activities }) => impliedLinks(activities),
  },
  'merge-points': {
    title: `Activities in which ${MEETING} or more paths of little float meet`,
    onDates: true,
    source: practice(8, 'schedule risk analysis'),
    find: (asked) => mergePoints(asked),
  },
}

/** Every question with what raises it, answered or not. */
export function questions(asked: Asked): Question[] {
  const links = asked.activities.reduce((sum, a) => sum + a.after.length, 0)
  const { explained } = asked.programme
  return Object.entries(QUESTIONS).map(([id, { title, limit, of = 'activities', onDates = false, source, find }]) => {
    const found = find(asked)
    return {
      id,
      title,
      limit: limit ?? 1,
      of,
      total: of === 'links' ? links : asked.activities.length,
      offenders: found.filter(({ activity }) => explained[activity] === undefined),
      explained: found.flatMap((o) => {
        const answer = explained[o.activity]
        return answer === undefined ? [] : [{ ...o, answer }]
      }),
      onDates,
      listed: limit === undefined,
      source,
    }
  })
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
    .filter(({ finishBy, startBy, finishNotBefore }) =>
      [finishBy, startBy, finishNotBefore].some((d) => d !== undefined),
    )
    .map(({ id, finishBy }) => ({
      activity: id,
      text: `${id} is ${finishBy === undefined ? 'held' : 'promised'} by a date`,
    }))

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

/** Deliveries and what waits are no work of a crew here; they cost what is typed for them. */
const withoutResources = ({ activities, programme, day }: Asked): Offender[] => {
  const ordered = new Set(Object.values(programme.deliveries).map(({ activity }) => activity))
  return activities
    .filter(({ id, needs, fixedCost, work, calendar }) => {
      const free = Object.values(needs).every((amount) => amount === 0) && fixedCost === 0
      return free && work[1] >= day(calendar) && !ordered.has(id)
    })
    .map(({ id, work, calendar }) => ({ activity: id, text: `${id}: ${(work[1] / day(calendar)).toFixed(1)} days` }))
}

/** Where several that have little float in the plan come together, the latest of them sets the date. */
function mergePoints({ activities, all, plan, programme, day }: Asked): Offender[] {
  const isNear = (id: string): boolean => {
    const [activity, dates] = [all[id], plan[id]]
    if (activity === undefined || dates === undefined || activity.work[1] <= 0) return false
    return dates.planFloat <= programme.nearCriticalDays * day(activity.calendar)
  }
  return activities.flatMap(({ id, after }): Offender[] => {
    const meeting = [...new Set(after.map(({ to }) => to))].filter(isNear)
    return meeting.length < MEETING ? [] : [{ activity: id, text: `${id} waits for ${meeting.join(', ')}` }]
  })
}
