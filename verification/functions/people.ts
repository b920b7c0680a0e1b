import {
  checksOfPeople,
  DAYS_BELOW,
  lockOf,
  OCTOBER,
  type Planned,
  permitOf,
  teamOf,
} from '../../engine/src/programme/people/people.fixture.ts'
import { listOf, numberOf, numberOr, recordOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'

/** Checks of people below ground, each on a project that holds nothing else. Faults found; null where the check is open. */
export const functions: Record<string, VerifiedFunction> = {
  /** Ways out by name, each with whether a stretcher comes out by it, in a shaft in which nothing is lifted. */
  'programme.people.ways-out-found': (inputs) => faultsOf({ ways: waysIn(inputs) }, 'programme.people.ways-out/ways'),
  /** People at one time, and for each team the time from the call to the shaft: days on which one is missing. */
  'programme.people.rescue-found': (inputs) =>
    faultsOf(
      { rescue: teamsIn(inputs), air: { shaft: { what: 'Shaft', people: numberOf(inputs, 'people') } } },
      'programme.people.rescue/day',
      DAYS_BELOW,
    ),
  /** Watch after hot work, and flammable gas before it as a share of its lower explosive limit. */
  'programme.people.hot-work-found': (inputs) =>
    faultsOf(
      permitOf({
        watch: `${numberOf(inputs, 'watch')} s`,
        flammable: `${100 * numberOr(inputs, 'flammable', 0)} %`,
      }),
      'programme.people.hot-work/P1',
    ),
  /** Pressure read in a lock whose hatch stands open to the shaft. */
  'programme.people.lock-found': (inputs) =>
    faultsOf(lockOf({ pressure: `${numberOf(inputs, 'pressure')} Pa` }), 'programme.people.lock/man'),
}

function faultsOf(belowGround: Readonly<Record<string, unknown>>, id: string, planned: Planned = {}) {
  const found = checksOfPeople(belowGround, OCTOBER, planned).get(id)
  if (found === undefined) throw new Error(`no check ${id}`)
  return { faults: found.demand.value }
}

const waysIn = (inputs: Inputs) =>
  Object.fromEntries(
    Object.entries(recordOf(inputs, 'ways')).map(([what, rescue]: [string, Value]) => [
      what,
      { what, rescue: rescue === true, tested: { on: '2032-10-01', by: 'inspector' } },
    ]),
  )

const teamsIn = (inputs: Inputs) =>
  Object.fromEntries(
    listOf(inputs, 'reach').map((reach, i) => [`T${i}`, teamOf({ team: `Team ${i}`, reach: `${reach} s` })]),
  )
