import type { BelowGround } from '../../model/index.ts'
import { type Answer, stated } from '../../working/answer.ts'
import { type Check, check } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { type Below, CAUTION, missingAt, msOf, nothingEntered, subjectAt } from './below.ts'
import { hotWorkPermit } from './kinds.ts'

type Permit = BelowGround['hotWork'][string]

const WATCH = stated('s', 3600, '60 minutes: NFPA 51B, recent editions, from memory')
const GAS_STOP = 0.1

const CAUTIONS = [
  CAUTION,
  'Hoses, grease and oil near the work are taken away, drained or covered; the watcher does nothing else, and stays after the last spark.',
]

/** Check 103: every permit by itself, and the welds of the plan that have begun without one. No hot work, no check. */
export function hotWorkChecks(below: Below): Check[] {
  const permits = Object.entries(below.people?.hotWork ?? {})
  const welds = weldsBelow(below)
  if (permits.length === 0)
    return welds.length === 0 ? [] : [nothingEntered(hotWorkPermit, below, 'hotWork', 'Permits for hot work')]
  return [
    ...permits.map(([id, permit]) => permitCheck(below, id, permit)),
    ...(welds.length === 0 ? [] : [plannedCheck(below, welds, permits)]),
  ]
}

/** Welds that the plan cuts or lays. */
function weldsBelow({ activities, model: { project } }: Below): Weld[] {
  return activities.flatMap(({ id, kind }) => {
    const joint = jointOf(id)
    const isHot = (kind === 'open' || kind === 'close') && project.joints[joint]?.kind === 'welded'
    return isHot ? [{ id, joint }] : []
  })
}

interface Weld {
  id: string
  joint: string
}

/** `S04-crown.open.J-FW-CRUR` → `J-FW-CRUR`. */
const jointOf = (activity: string): string => activity.split('.').slice(2).join('.')

function plannedCheck(below: Below, welds: readonly Weld[], permits: readonly (readonly [string, Permit])[]): Check {
  const named = new Set(permits.flatMap(([, { activities }]) => activities))
  const without = welds.filter(({ id }) => below.actual[id] !== undefined && !named.has(id))
  return check({
    kind: hotWorkPermit,
    subject: subjectAt('Hot work of the plan', 'hotWork'),
    of: 'plan',
    demand: faultsFound(
      0,
      'hot work that has begun with no permit entered',
      Object.fromEntries(without.map(({ id }) => [`permit of ${id}`, missingAt('hotWork')])),
    ),
    capacity: NONE,
    near: 1,
    assumptions: [
      `welds to cut and lay in the plan: ${welds.length}, each with a permit of its own on the day; entered: ${permits.length}`,
    ],
    cautions: CAUTIONS,
  })
}

function permitCheck(below: Below, id: string, permit: Permit): Check {
  const { signed, worker, watcher, watch, flammable, fireLoad } = permit
  const due = below.people?.rules.fireWatch ?? WATCH
  const beside = hosesBeside(below, permit)
  const faults = [
    ...(msOf(below, permit.until) <= msOf(below, permit.from) ? ['ends before it begins'] : []),
    ...(signed !== undefined && signed.on > permit.until.slice(0, 10)
      ? [`signed on ${signed.on}, after it had ended`]
      : []),
    ...(watch?.value !== undefined && due.value !== undefined && watch.value < due.value
      ? [`watched for ${minutes(watch.value)} min after the work, ${minutes(due.value)} are due`]
      : []),
    ...(worker !== undefined && worker.trim() === watcher?.trim()
      ? [`${worker} works and is named as the watcher`]
      : []),
    ...(flammable?.value !== undefined && flammable.value >= GAS_STOP
      ? [
          `flammable gas at ${(100 * flammable.value).toFixed(1)} % of its lower explosive limit; none is begun from 10 %`,
        ]
      : []),
  ]
  const missing: [string, Answer][] = [
    ...Object.entries({ signed, worker, watcher, watch, flammable })
      .filter(([, value]) => value === undefined)
      .map(([field]): [string, Answer] => [field, missingAt('hotWork', id, field)]),
    ...Object.entries(fireLoad)
      .filter(([, { done }]) => done === undefined)
      .map(([f, { what }]): [string, Answer] => [what, missingAt('hotWork', id, 'fireLoad', f, 'done')]),
    ...beside.map((service): [string, Answer] => [`hose ${service}`, missingAt('hotWork', id, 'fireLoad')]),
  ]
  return check({
    kind: hotWorkPermit,
    subject: subjectAt(permit.what, 'hotWork', id),
    title: `${hotWorkPermit.title}: ${permit.what}`,
    demand: faultsFound(faults.length, 'faults of the permit', Object.fromEntries(missing)),
    capacity: NONE,
    near: 1,
    found: faults,
    assumptions: [
      `from ${permit.from} to ${permit.until}`,
      ...(beside.length === 0
        ? []
        : [`hoses on the parts of the weld that the permit does not name: ${beside.join(', ')}`]),
    ],
    cautions: CAUTIONS,
  })
}

const minutes = (seconds: number): string => (seconds / 60).toFixed(0)

/** Hoses that end on a part of a weld of this permit, that are not recorded as parted, and that its fire load does not name. */
function hosesBeside({ model: { project } }: Below, { activities, fireLoad }: Permit): string[] {
  const parts = new Set(activities.flatMap((a) => project.joints[jointOf(a)]?.between ?? []))
  const named = new Set(Object.values(fireLoad).flatMap(({ services }) => services))
  return Object.entries(project.services).flatMap(([id, { kind, from, to, parted }]) =>
    kind === 'hose' && parted === undefined && !named.has(id) && (parts.has(from) || parts.has(to)) ? [id] : [],
  )
}
