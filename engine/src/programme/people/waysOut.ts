import type { BelowGround } from '../../model/index.ts'
import { type Check, check, type Subject } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { pointerOf } from '../../working/pointer.ts'
import { isLifting, type Lifting } from '../inShaft.ts'
import { type Below, CAUTION, dayIn, missingAt, nothingEntered, subjectAt } from './below.ts'
import { waysOut } from './kinds.ts'

type Way = BelowGround['ways'][string]

const LEAST = 2
const CAUTIONS = [
  CAUTION,
  'Who is below when the hole fills comes out by what is left: each way is walked and each hoist tried with a load before the shift.',
]

/** Check 101: of every lift over the shaft, and of the rest of the time, which ways out are free. */
export function waysOutChecks(below: Below): Check[] {
  const ways = Object.entries(below.people?.ways ?? {})
  if (ways.length === 0) return [nothingEntered(waysOut, below, 'ways', 'Ways out of the shaft')]
  const lifts = below.activities.filter(isLifting).filter((a) => below.overShaft(a.lift))
  return [
    check({ ...counted(below, ways), subject: subjectAt('Ways out, while nothing is lifted', 'ways'), kind: waysOut }),
    ...lifts.map((a) => check({ ...counted(below, ways, a), subject: subjectOf(below, a), of: a.id, kind: waysOut })),
  ]
}

const subjectOf = ({ model: { project } }: Below, { lift, name }: Lifting): Subject => ({
  pointer: pointerOf('lifts', lift),
  id: lift,
  name: `${project.pieces[project.lifts[lift]?.piece ?? '']?.name ?? name}: ${name}`,
})

function counted(below: Below, ways: readonly (readonly [string, Way])[], lifting?: Lifting) {
  const told = ways.map(([id, way]) => ({ id, way, ...stateOf(below, way, lifting) }))
  const free = told.filter(({ shut }) => shut === undefined)
  const known = free.filter(({ isKnown }) => isKnown)
  const outOf = (all: typeof told) => all.filter(({ way }) => way.rescue).length
  const faults = [
    ...(free.length < LEAST ? [`${free.length} of ${LEAST} ways out free`] : []),
    ...(outOf(free) === 0 ? ['no way out for a stretcher'] : []),
  ]
  const decided = known.length >= LEAST && outOf(known) > 0
  return {
    demand: faultsFound(
      faults.length,
      'fewer than two ways out, and none for a stretcher',
      decided
        ? {}
        : Object.fromEntries(
            free.filter(({ isKnown }) => !isKnown).map(({ id, way }) => [way.what, missingAt('ways', id, 'tested')]),
          ),
    ),
    capacity: NONE,
    near: 1,
    found: [...faults, ...told.flatMap(({ way, shut }) => (shut === undefined ? [] : [`${way.what}: ${shut}`]))],
    assumptions: [
      `free: ${free.map(({ way }) => way.what).join(', ') || 'none'}`,
      ...told.flatMap(({ way, shut }) => (shut === undefined ? [] : [`not free: ${way.what}, ${shut}`])),
    ],
    cautions: CAUTIONS,
  }
}

/** Why a way is no way out in a lift, or while nothing is lifted; and whether its test is known to hold on the day. */
function stateOf(below: Below, way: Way, lifting: Lifting | undefined): { shut?: string; isKnown: boolean } {
  const { lifts } = below.model.project
  const day = lifting === undefined ? undefined : dayIn(below, below.plan[lifting.id]?.start)
  const lift = lifting === undefined ? undefined : lifts[lifting.lift]
  const isKnown = way.tested !== undefined
  if (lifting !== undefined && way.blockedBy.includes(lifting.lift)) return { shut: 'blocked by this lift', isKnown }
  const hangs = [lift?.system, lift?.tail?.system]
  if (way.system !== undefined && hangs.includes(way.system)) return { shut: `${way.system} lifts the piece`, isKnown }
  if (isGone(below, way, lifting)) return { shut: 'taken out before', isKnown }
  const until = way.tested?.until
  if (day !== undefined && until !== undefined && until < day) return { shut: `tested until ${until}`, isKnown }
  return { isKnown }
}

/** A thing in the shaft is gone from the step before which it is taken out, on the way back as well. */
function isGone({ model: { project } }: Below, { stands }: Way, lifting: Lifting | undefined): boolean {
  const before = stands === undefined ? undefined : project.shaft?.obstructions[stands]?.removedBefore
  if (before === undefined || lifting?.step === undefined) return false
  return project.order.indexOf(lifting.step) >= project.order.indexOf(before)
}
