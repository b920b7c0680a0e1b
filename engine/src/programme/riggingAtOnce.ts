import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { unknownDurations } from './checks.ts'
import { isLifting, type Lifting } from './inShaft.ts'
import { riggingAtOnce } from './kinds.ts'
import type { ProgrammeResult } from './programme.ts'

/** A sling, shackle or spreader: what it is called, and how many are there. */
interface Thing {
  name: string
  onHand: number
}

/** A lift of the plan with what it takes of each thing. */
interface Taking {
  lifting: Lifting
  start: number
  finish: number
  takes: Readonly<Record<string, number>>
}

/** Every instant of the plan: what the lifts under way take of each item of stock and gear, against what is on hand. */
export function riggingChecks(
  { project }: Model,
  { lifts }: LiftResult,
  { activities, plan }: Pick<ProgrammeResult, 'activities' | 'plan'>,
  memory: Memory,
): readonly Check[] {
  const { stock, gear } = project
  const rigged = memory.settled(
    'programme/rigging-of',
    Object.fromEntries(Object.values(lifts).map(({ id, takes, gear: hung }) => [id, { takes, hung }])),
  )
  return memory.once('programme/rigging', [stock, gear, rigged, activities, plan], () => {
    const lifting = Object.values(activities).filter(isLifting)
    const takings = lifting.flatMap((one): Taking[] => {
      const [at, own] = [spanOf(one, activities, plan), rigged[one.lift]]
      if (at === undefined || own === undefined) return []
      const ofGear = own.hung.map((id): [string, number] => [gearKey(id), 1])
      return [{ lifting: one, ...at, takes: { ...own.takes, ...Object.fromEntries(ofGear) } }]
    })
    return takings.length === 0 ? [] : [atOnceCheck(thingsOf(project), takings)]
  })
}

const RIGS: ReadonlySet<string> = new Set(['rig', 'rig back'])
const TAKES_OFF: ReadonlySet<string> = new Set(['land', 'release'])

/** From the beginning of rigging until the rigging is off again; undefined where the plan does not have the lift. */
function spanOf(
  lifting: Lifting,
  activities: ProgrammeResult['activities'],
  plan: ProgrammeResult['plan'],
): { start: number; finish: number } | undefined {
  const own = plan[lifting.id]
  if (own === undefined) return undefined
  const before = lifting.after.flatMap(({ to }) => (RIGS.has(activities[to]?.kind ?? '') ? (plan[to] ?? []) : []))
  const after = Object.values(activities).flatMap((a) =>
    TAKES_OFF.has(a.kind) && a.after.some(({ to }) => to === lifting.id) ? (plan[a.id] ?? []) : [],
  )
  return {
    start: Math.min(own.start, ...before.map(({ start }) => start)),
    finish: Math.max(own.finish, ...after.map(({ finish }) => finish)),
  }
}

/** Gear and stock may be named alike. */
const gearKey = (id: string): string => `gear ${id}`

const thingsOf = ({ stock, gear }: Model['project']): Readonly<Record<string, Thing>> => ({
  ...Object.fromEntries(
    Object.entries(stock).map(([id, { name, kind, quantity }]) => [
      id,
      { name: `${name ?? kind} ${id}`, onHand: quantity },
    ]),
  ),
  ...Object.fromEntries(
    Object.entries(gear).map(([id, { name }]) => [gearKey(id), { name: `${name} ${id}`, onHand: 1 }]),
  ),
})

function atOnceCheck(things: Readonly<Record<string, Thing>>, takings: readonly Taking[]): Check {
  const lacking = Object.entries(things).flatMap(([key, thing]) => lackingOf(key, thing, takings))
  return check({
    kind: riggingAtOnce,
    subject: { pointer: '/stock', id: 'rigging', name: 'Rigging' },
    demand: faultsFound(
      lacking.length,
      'items and gear of which lifts that go on at the same time take more than is on hand, each counted once',
      unknownDurations(takings.map(({ lifting }) => lifting)),
    ),
    capacity: NONE,
    near: 1,
    found: lacking,
    assumptions: [
      'From the beginning of rigging until the rigging is off again. What one lift alone takes is held against the stock in its own checks.',
    ],
  })
}

/** Two lifts that only meet, one beginning as the other ends, do not lack anything: s. */
const MEETS = 1

/** Where most of a thing is taken at once by several lifts, and it is more than there is. */
function lackingOf(key: string, { name, onHand }: Thing, takings: readonly Taking[]): string[] {
  const users = takings.filter(({ takes }) => (takes[key] ?? 0) > 0)
  const moments = users.map((user) => {
    const meanwhile = users.filter((other) => other.start <= user.start && other.finish > user.start + MEETS)
    return { meanwhile, count: meanwhile.reduce((sum, { takes }) => sum + (takes[key] as number), 0) }
  })
  const worst = moments
    .filter(({ meanwhile, count }) => meanwhile.length > 1 && count > onHand)
    .sort((a, b) => b.count - a.count)[0]
  return worst === undefined
    ? []
    : [
        `${name}: ${worst.count} taken at once, ${onHand} on hand: ${worst.meanwhile.map(({ lifting }) => lifting.name).join(', ')}`,
      ]
}
