import type { BelowGround } from '../../model/index.ts'
import type { Answer } from '../../working/answer.ts'
import { type Check, check } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { type Below, CAUTION, missingAt, nothingEntered, subjectAt } from './below.ts'
import { lockIdle } from './kinds.ts'

type Lock = BelowGround['locks'][string]
type State = readonly [id: string, state: Lock['states'][string]]

const CAUTIONS = [
  CAUTION,
  'Nobody opens a hatch until the pressure is proved zero on both sides. Work under pressure follows the law on compressed air, with medical supervision and a chamber.',
]

/** Check 104: each lock whenever its hatch stood open to the shaft. Where tests name a lock and none is entered, one is open. */
export function lockChecks(below: Below): Check[] {
  const locks = Object.entries(below.people?.locks ?? {})
  const hasLocks = Object.values(below.model.project.tests).some(({ proves }) => proves === 'lock')
  if (locks.length === 0)
    return hasLocks ? [nothingEntered(lockIdle, below, 'locks', 'Locks while open to the shaft')] : []
  return locks.map(([id, lock]) => lockCheck(id, lock))
}

function lockCheck(id: string, lock: Lock): Check {
  const open = Object.entries(lock.states).filter(([, { hatch }]) => hatch === 'open to the shaft')
  const faults = open.flatMap(faultsOf)
  const missing = open.flatMap(([s, state]) =>
    (['idle', 'pressure', 'provedBy'] as const)
      .filter((field) => state[field] === undefined)
      .map((field) => [`${field} at ${state.at}`, missingAt('locks', id, 'states', s, field)] as const),
  )
  const none: Readonly<Record<string, Answer>> =
    Object.keys(lock.states).length === 0 ? { states: missingAt('locks', id, 'states') } : {}
  return check({
    kind: lockIdle,
    subject: subjectAt(lock.what, 'locks', id),
    title: `${lockIdle.title}: ${lock.what}`,
    demand: faultsFound(faults.length, 'times at which the hatch was open to a lock that was not proved idle', {
      ...Object.fromEntries(missing),
      ...none,
    }),
    capacity: NONE,
    near: 1,
    found: faults,
    assumptions: [`found open to the shaft: ${open.length} times of ${Object.keys(lock.states).length}`],
    cautions: CAUTIONS,
  })
}

function faultsOf([, { at, idle, pressure, by, provedBy }]: State): string[] {
  return [
    ...(idle === false ? [`${at}: in use while its hatch was open`] : []),
    ...(pressure?.value !== undefined && pressure.value > 0 ? [`${at}: under pressure while its hatch was open`] : []),
    ...(provedBy !== undefined && provedBy.trim() === by.trim() ? [`${at}: ${by} proved what ${by} had read`] : []),
  ]
}
