import { type Answer, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import { gearOf } from './hook.ts'
import { dayOf, dayWords, type Judged, judgedCheck } from './judged.ts'
import { gearProof, loadTest, testValid } from './kinds.ts'
import { machinesOf, ofMachine } from './machines.ts'
import type { Hooked, Pick } from './pick.ts'

const TEST_FACTOR = stated(
  '1',
  1.25,
  'common practice: 125 % of the rated load; local law and the standard of the machine govern',
)

/** Load test of each machine of a lift: high enough, in date, and of the machine as it stands. */
export const loadTestChecks = (pick: Pick): Check[] =>
  machinesOf(pick).flatMap((hooked) => [factorCheck(pick, hooked), ...validCheck(pick, hooked)])

function factorCheck(pick: Pick, hooked: Hooked): Check {
  const { system, systemAt } = hooked
  return check({
    kind: loadTest,
    subject: pick.subject,
    ...ofMachine(pick, hooked),
    demand: TEST_FACTOR,
    capacity: knownOr(system.tested?.factor, '1', `${systemAt}/tested/factor`),
    near: 1,
    found: [
      `tested with ${percentOf(system.tested?.factor?.value)} of its rating, ${percentOf(TEST_FACTOR.value)} are asked for: test it again before the lift, or have the standard that asks for less put on record by the inspector`,
    ],
    assumptions: system.tested?.until === undefined ? [] : [`Valid until ${system.tested.until}.`],
  })
}

const percentOf = (ratio: number | undefined): string =>
  ratio === undefined ? 'open' : `${(ratio * 100).toFixed(0)}\u00a0%`

/** A machine without a test has no date to hold; the check of its factor is open then. */
function validCheck(pick: Pick, hooked: Hooked): Check[] {
  const { system, systemAt } = hooked
  if (system.tested === undefined) return []
  const { day, missing } = dayOf(pick)
  const faults = validFaults(system, day)
  const judged: Judged[] = [
    {
      item: `load test of ${system.name}`,
      pointer: `${systemAt}/tested/on`,
      isMissing: system.tested.on === undefined,
      ...(faults === undefined ? {} : { fault: faults }),
    },
  ]
  return [judgedCheck(pick, testValid, ofMachine(pick, hooked).of, judged, missing, dayWords(pick))]
}

/** What is wrong with the test on a day; of a lift that states none, only what is wrong on any. Dates are compared as they are written. */
function validFaults({ name, tested, changed }: Hooked['system'], day: string | undefined): string | undefined {
  const { on, until } = tested ?? {}
  const isChanged = changed !== undefined && (day === undefined || changed.on <= day)
  const faults = [
    ...(day !== undefined && on !== undefined && on > day ? [`tested on ${on}, the lift is on ${day}`] : []),
    ...(day !== undefined && until !== undefined && until < day
      ? [`its test ran out on ${until}, the lift is on ${day}`]
      : []),
    ...(isChanged && on !== undefined && on < changed.on
      ? [`tested on ${on}, before what was done on ${changed.on}: ${changed.what}`]
      : []),
  ]
  return faults.length === 0 ? undefined : `${name}: ${faults.join('; ')}; test it before the lift`
}

/** Least proof load over the rating of an accessory made for the job, by the rules of the project. */
function proofFactor({ settings }: Pick): Answer<'1'> {
  switch (settings.riggingRules) {
    case undefined:
      return given('1', '/settings/riggingRules', undefined)
    case 'European':
      return stated('1', 1.5, 'Directive 2006/42/EC, annex I 4.1.2.3: static test of lifting accessories (from memory)')
    case 'US':
      return stated('1', 1.25, '29 CFR 1926.251(a)(4): 125 % of the rated load before use (read)')
    default:
      return settings.riggingRules satisfies never
  }
}

/** Every spreader, frame, cross and cradle of a hook: proof-tested before it is used. */
export function gearProofChecks(pick: Pick, { rigging, key }: Hooked): Check[] {
  const ids = rigging === undefined ? [] : gearOf(rigging)
  return ids.map((id) =>
    check({
      kind: gearProof,
      subject: pick.subject,
      of: `${key}/${id}`,
      title: `${gearProof.title}: ${pick.gear[id]?.name ?? id}`,
      demand: proofFactor(pick),
      capacity: knownOr(pick.gear[id]?.proof?.factor, '1', pointerOf('gear', id, 'proof', 'factor')),
      // the required factor met exactly is met
      near: 1,
      found: [
        `${pick.gear[id]?.name ?? id} is proven with ${percentOf(pick.gear[id]?.proof?.factor?.value)} of its rating, ${percentOf(proofFactor(pick).value)} are asked for: have it proof-tested before it is used`,
      ],
      cautions: RIGGING_CAUTIONS,
    }),
  )
}
