import type { Model, Programme } from '../model/index.ts'
import { type Answer, found, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check, type Subject } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { neededBy } from './activities.ts'
import type { Activities, Activity } from './activity.ts'
import { ancestorsOf } from './bound.ts'
import { secondsOfDay } from './calendars.ts'
import type { Question } from './health.ts'
import { deliveryInTime, gapOfPlan, networkHealth, planFeasible, resourceEachDay } from './kinds.ts'
import type { Network } from './network.ts'
import { PATH_TEST_DAYS, pathTest } from './pathTest.ts'
import { deliveredBy, neededOn, offendingShare, pathLengthIndex, planGap } from './plan.formulas.ts'
import type { Planned } from './plan.ts'
import { holdersAtPeak, peakUse, peakUseRecounted, violations } from './residual.ts'
import { triangularQuantile } from './three-points.formulas.ts'
import { dayNumber, elapsedAt, type Zone } from './zone.ts'

/** What the checks of a plan are made from. */
export interface Checked {
  model: Model
  programme: Programme
  activities: Activities
  network: Network
  planned: Planned
  bound: { value: number; reason: string }
  questions: readonly Question[]
  zone: Zone
}

const PLAN: Subject = { pointer: '/programme', id: 'plan', name: 'Plan' }
const METHOD = 'serial scheme by latest finish and latest start, improved forward and backward'
const CAUTION = 'A plan is no permit: lifts, entries and isolations go by their own.'

/** Inputs without which durations are not known, each as an open input. */
export function unknownDurations(activities: Iterable<Activity>): Record<string, Answer<'s'>> {
  const pointers = new Set([...activities].flatMap(({ unknown }) => unknown ?? []))
  return Object.fromEntries([...pointers].map((pointer) => [pointer, given('s', pointer, undefined)]))
}

/** Every check of the programme. */
export function programmeChecks(checked: Checked): Check[] {
  const unknown = unknownDurations(Object.values(checked.activities))
  return [
    ...resourceChecks(checked, unknown),
    feasibleCheck(checked, unknown),
    ...Object.keys(checked.programme.deliveries).map((id) => deliveryCheck(checked, id)),
    gapCheck(checked, unknown),
    ...checked.questions.filter((q) => !q.listed).map((q) => healthCheck(checked, q, unknown)),
    ...pathLengthChecks(checked, unknown),
    ...pathTestChecks(checked, unknown),
  ]
}

function resourceChecks({ programme, network, planned }: Checked, unknown: Record<string, Answer<'s'>>): Check[] {
  const { dates } = planned.plan
  const use = peakUse(network, dates)
  const recounted = peakUseRecounted(network, dates)
  return network.resources.map((id, r) => {
    const pointer = pointerOf('programme', 'resources', id)
    const demand = found({
      unit: '1',
      value: use[r] as number,
      method: 'greatest use at any instant, by a sweep over starts and finishes',
      inputs: unknown,
      residuals: [
        {
          title: 'use recounted at each start',
          value: (use[r] as number) - (recounted[r] as number),
          unit: '1',
          tolerance: 1e-9,
        },
      ],
    })
    const capacity = given('1', `${pointer}/capacity`, network.capacity[r] as number)
    const over = (use[r] as number) > (network.capacity[r] as number)
    return check({
      kind: resourceEachDay,
      subject: { pointer, id, name: programme.resources[id]?.name ?? id },
      demand,
      capacity,
      near: 1,
      found: over ? [`held at once by ${holdersAtPeak(network, dates, r).join(', ')}`] : [],
      assumptions: ['held from start to finish, over the breaks between shifts too'],
    })
  })
}

/** An activity whose calendar never has the time: the plan has no end. */
export const endlessCheck = (network: Network, planned: Planned, activities: Activities): Check =>
  feasibleCheck({ network, planned }, unknownDurations(Object.values(activities)))

function feasibleCheck(
  { network, planned }: Pick<Checked, 'network' | 'planned'>,
  unknown: Record<string, Answer<'s'>>,
): Check {
  const broken = violations(network, planned.plan.dates)
  return check({
    kind: planFeasible,
    subject: PLAN,
    demand: found({
      unit: '1',
      value: broken.length,
      method: 'links, durations in working time, one-piece lifts and fixed dates recounted from the dates of the plan',
      inputs: unknown,
      residuals: [],
    }),
    capacity: stated('1', 0, 'none may be broken'),
    near: 1,
    found: broken.map(({ activity, what, by }) =>
      Number.isFinite(by) ? `${activity}: ${what}, by ${(by / 3600).toFixed(1)} h` : `${activity}: ${what}`,
    ),
    cautions: [CAUTION],
  })
}

/** A circle of predecessors allows no plan at all. */
export function circleCheck(circle: readonly string[]): Check {
  return check({
    kind: planFeasible,
    subject: PLAN,
    demand: stated('1', circle.length, 'activities that wait for each other in a circle'),
    capacity: stated('1', 0, 'none may be broken'),
    near: 1,
    found: [`${[...circle, circle[0]].join(' before ')}: a circle`],
  })
}

/** Steps are there and nobody said how the work is done. */
export function workMissingCheck(): Check {
  return check({
    kind: planFeasible,
    subject: PLAN,
    of: 'derived',
    title: 'Strip and return can be planned',
    demand: given('1', '/programme/work', undefined),
    capacity: stated('1', 0, 'none may be broken'),
    near: 1,
  })
}

const CONFIDENCE = stated('1', 0.8, 'confidence asked of a delivery (practice, check 92)')

function deliveryCheck(checked: Checked, id: string): Check {
  const { model, programme, activities, planned } = checked
  const pointer = pointerOf('programme', 'deliveries', id)
  const delivery = programme.deliveries[id] as Programme['deliveries'][string]
  const order = activities[delivery.activity]
  const needing = neededBy(delivery, Object.values(activities)).filter((a) => activities[a] !== undefined)
  const first = needing.reduce<string | undefined>(
    (best, a) => (best === undefined || startOf(planned, a) < startOf(planned, best) ? a : best),
    undefined,
  )
  const demand = deliveredBy.show({
    O: dateAnswer(checked, order?.id, `${pointer}/activity`),
    L: leadAt(order, pointer),
  })
  const capacity = neededOn.show({
    S: dateAnswer(checked, first, `${pointer}/neededBy`),
    r: delivery.reserve ?? stated('s', 0, 'no reserve set'),
  })
  const band = ((model.project.settings.deliveryReserve?.value ?? 0) as number) * 86_400
  const due = capacity.value ?? 0
  return check({
    kind: deliveryInTime,
    subject: { pointer, id, name: delivery.what },
    demand,
    capacity,
    near: due > band ? (due - band) / due : 1,
    assumptions: first === undefined ? [] : [`first needed by ${first}, ${activities[first]?.name}`],
  })
}

const startOf = ({ scheduled }: Planned, id: string): number => scheduled[id]?.start ?? Number.POSITIVE_INFINITY

/** Lead time of the order at the confidence asked for; the three points of a typed activity are extremes and mode. */
function leadAt(order: Activity | undefined, pointer: string): Answer<'s'> {
  const at = order === undefined ? `${pointer}/activity` : (order.from[0] as string)
  const [a, m, b] = ['least', 'most likely', 'greatest'].map((_, i) =>
    given('s', `${at}/days/${i}`, order?.work[i]),
  ) as [Answer<'s'>, Answer<'s'>, Answer<'s'>]
  return triangularQuantile.show({ p: CONFIDENCE, a, m, b })
}

/** Planned start of an activity: it rests on every duration that leads to it. */
function dateAnswer({ activities, planned }: Checked, id: string | undefined, pointer: string): Answer<'s'> {
  if (id === undefined || activities[id] === undefined) return given('s', pointer, undefined)
  const { bound } = planned
  const leading = [...ancestorsOf(bound, bound.index.get(id) as number)].map(
    (i) => activities[bound.ids[i] as string] as Activity,
  )
  return found({
    unit: 's',
    value: startOf(planned, id),
    method: `planned start of ${id}: ${METHOD}`,
    inputs: unknownDurations(leading.filter((a) => a.id !== id)),
    residuals: [],
  })
}

function gapCheck({ programme, planned, bound }: Checked, unknown: Record<string, Answer<'s'>>): Check {
  const method = planned.adopted ? 'serial scheme in the adopted sequence' : METHOD
  const F = found({ unit: 's', value: planned.plan.restart, method, inputs: unknown, residuals: [] })
  const B = found({
    unit: 's',
    value: bound.value,
    method: 'trial of earlier restarts against what each resource must do',
    inputs: unknown,
    residuals: [],
    note: bound.reason,
  })
  return check({
    kind: gapOfPlan,
    subject: PLAN,
    demand: planGap.show({ F, B }),
    capacity: knownOr(programme.gap, '1', '/programme/gap'),
    near: 1,
    assumptions: [
      `bound: ${bound.reason}`,
      planned.adopted ? 'the adopted sequence' : 'quick default plan: nothing has been adopted from a search',
    ],
  })
}

function healthCheck({ model }: Checked, question: Question, unknown: Record<string, Answer<'s'>>): Check {
  const { id, title, limit, total, offenders, explained, onDates, source } = question
  const n = found({
    unit: '1',
    value: offenders.length,
    method: `${title}, counted over the network; those explained are left out`,
    inputs: onDates ? unknown : {},
    residuals: [],
  })
  return check({
    kind: networkHealth,
    subject: PLAN,
    of: id,
    title,
    demand: offendingShare.show({ n, N: stated('1', Math.max(1, total), `all ${question.of}`) }),
    capacity: stated('1', limit, limit === 0 ? 'none unexplained' : 'largest share that is not asked about'),
    near: model.near,
    found: offenders.map(({ text }) => text),
    assumptions: [
      `question and limit: ${source.text} (${source.basis})`,
      ...explained.map(({ text, answer }) => `${text}: ${answer}`),
    ],
  })
}

/** With a date promised: the longest path with what float is left to it, over its length. */
function pathLengthChecks({ programme, planned, zone }: Checked, unknown: Record<string, Answer<'s'>>): Check[] {
  if (programme.promised === undefined) return []
  const due = elapsedAt(zone, dayNumber(programme.promised) + 1, 0)
  const length = (value: number, method: string) => found({ unit: 's', value, method, inputs: unknown, residuals: [] })
  return [
    check({
      kind: networkHealth,
      subject: PLAN,
      of: 'path-length-index',
      title: 'Critical path length index',
      demand: stated('1', 0.95, 'least index that is not asked about (threshold read on public pages)'),
      capacity: pathLengthIndex.show({
        L: length(planned.plan.restart, 'restart in the plan'),
        F: length(due - planned.plan.restart, 'date promised less restart in the plan'),
      }),
      near: 1,
    }),
  ]
}

/** Does the longest path carry a slip? 600 days put into its first activity must move the restart by as much. */
function pathTestChecks({ programme, activities, network }: Checked, unknown: Record<string, Answer<'s'>>): Check[] {
  const length = dayLengths(programme)
  const tested = pathTest(network, (id) => length(activities[id]?.calendar ?? ''))
  if (tested === undefined) return []
  const { id, added, moved, day } = tested
  return [
    check({
      kind: networkHealth,
      subject: PLAN,
      of: 'critical-path-test',
      title: 'Critical path test',
      demand: stated(
        's',
        added - ROUNDING_DAYS * day,
        `${PATH_TEST_DAYS} working days less ${ROUNDING_DAYS} for calendars`,
      ),
      capacity: found({
        unit: 's',
        value: moved,
        method: `early dates again with ${PATH_TEST_DAYS} days more in ${id}; by how much the restart moves, in its working time`,
        inputs: unknown,
        residuals: [],
      }),
      near: 1,
      assumptions: ['question: DCMA-EA PAM 200.1, section 4 (memory); the week for calendars is our own'],
    }),
  ]
}

/** Where several calendars follow each other, a slip may be taken up or lengthened by a weekend or a holiday. */
const ROUNDING_DAYS = 5

/** Clock seconds of a working day on each calendar. */
export const dayLengths =
  ({ calendars }: Programme) =>
  (calendar: string): number => {
    const rule = calendars[calendar]
    return rule === undefined ? 86_400 : secondsOfDay(rule)
  }
