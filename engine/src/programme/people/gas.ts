import type { BelowGround } from '../../model/index.ts'
import { type Answer, stated } from '../../working/answer.ts'
import { type Check, check } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { type Below, CAUTION, missingAt, msOf, nothingEntered, subjectAt } from './below.ts'
import { gasBelow, gasTested } from './kinds.ts'
import { gasLeast, gasMost } from './people.formulas.ts'

type Monitor = BelowGround['gas'][string]
type Reading = Monitor['readings'][string]
type Gas = Reading['gas']

const CFR = '29 CFR 1926'
const memory = (value: number, text: string) => stated('1', value, `${text}, from memory`)

/** Bounds by the clause, where the project states none. Verify in the edition in force. */
const LIMITS: Readonly<Record<Gas, { atLeast?: Answer<'1'>; atMost: Answer<'1'> }>> = {
  flammable: { atMost: stated('1', 0.2, `20 % of the lower explosive limit: ${CFR}.800(j)(1)(ix), excerpt read`) },
  oxygen: {
    atLeast: memory(0.195, `oxygen, least: ${CFR}.800(j)(1)`),
    atMost: memory(0.22, `oxygen, most: ${CFR}.800(j)(1)`),
  },
  'carbon monoxide': { atMost: memory(50e-6, `50 ppm: ${CFR}.55`) },
  'hydrogen sulphide': { atMost: memory(10e-6, `10 ppm: ${CFR}.55`) },
  'carbon dioxide': { atMost: memory(5000e-6, `5000 ppm: ${CFR}.55`) },
  'nitrogen dioxide': { atMost: memory(5e-6, `5 ppm, never passed: ${CFR}.55`) },
}

const AT_LIMIT = stated('1', 1, 'the limit')
/** Power is off at the stop of flammable gas itself, not only above it. */
const BELOW_LIMIT = stated('1', 1 - 1e-9, 'below the limit: at it the stop already holds')

const DUE: readonly Gas[] = ['oxygen', 'flammable', 'carbon monoxide', 'hydrogen sulphide']

const GAS_CAUTIONS = [
  CAUTION,
  'At the stop for flammable gas everybody withdraws but those who deal with it, and electrical power is cut off, pumps and ventilation excepted. Ventilation comes first, then people.',
]

/** Check 99: of each place the last reading of each gas against its limits, and whether all that is due was read. */
export function gasChecks(below: Below): Check[] {
  const monitors = Object.entries(below.people?.gas ?? {})
  if (monitors.length === 0) return [nothingEntered(gasTested, below, 'gas', 'Readings of gas')]
  return monitors.flatMap(([id, monitor]) => [
    ...[...lastOf(below, monitor)].flatMap(([gas, [r, reading]]) =>
      limitChecks(below, { id, monitor, gas, r, reading }),
    ),
    testedCheck(below, id, monitor),
  ])
}

/** The last reading of each gas; of the same minute the one written last. */
function lastOf(below: Below, { readings }: Monitor): ReadonlyMap<Gas, readonly [string, Reading]> {
  const last = new Map<Gas, readonly [string, Reading]>()
  for (const [id, reading] of Object.entries(readings)) {
    const before = last.get(reading.gas)
    if (before === undefined || msOf(below, before[1].at) <= msOf(below, reading.at))
      last.set(reading.gas, [id, reading])
  }
  return last
}

interface Read {
  id: string
  monitor: Monitor
  gas: Gas
  r: string
  reading: Reading
}

function limitChecks(below: Below, { id, monitor, gas, reading }: Read): Check[] {
  const own = below.people?.rules.gas[gas] ?? {}
  const atLeast = own.atLeast ?? LIMITS[gas].atLeast
  const atMost = own.atMost ?? LIMITS[gas].atMost
  const common = {
    kind: gasBelow,
    subject: subjectAt(`${monitor.where}: ${gas}`, 'gas', id),
    title: `${gasBelow.title}: ${gas}, ${monitor.where}`,
    near: below.model.near,
    assumptions: [
      `read at ${reading.at} by ${reading.by}${reading.instrument === undefined ? '' : ` with ${reading.instrument}`}`,
    ],
    cautions: GAS_CAUTIONS,
  }
  const word = gas.replace(' ', '-')
  const most = check({
    ...common,
    of: `${word}-most`,
    demand: gasMost.show({ c: reading.value, L: atMost }),
    capacity: gas === 'flammable' ? BELOW_LIMIT : AT_LIMIT,
    // air has its oxygen always near both limits: near says nothing of it
    ...(gas === 'oxygen' ? { near: 1 } : {}),
    found: [`${gas} at ${monitor.where}: over the limit at ${reading.at}`],
  })
  if (atLeast === undefined) return [most]
  return [
    check({
      ...common,
      of: `${word}-least`,
      demand: gasLeast.show({ c: reading.value, L: atLeast }),
      capacity: AT_LIMIT,
      near: 1,
      found: [`${gas} at ${monitor.where}: below the least at ${reading.at}`],
    }),
    most,
  ]
}

function testedCheck(below: Below, id: string, monitor: Monitor): Check {
  const last = lastOf(below, monitor)
  const { every } = monitor
  const stale =
    below.dataDate === undefined || every?.value === undefined
      ? []
      : [...last].filter(
          ([, [, { at }]]) => (below.dataDate as number) - msOf(below, at) > 1000 * (every.value as number),
        )
  const missing = DUE.filter((gas) => !last.has(gas))
  return check({
    kind: gasTested,
    subject: subjectAt(monitor.where, 'gas', id),
    demand: faultsFound(stale.length, 'gases whose last reading is older than it may be', {
      ...Object.fromEntries(missing.map((gas) => [gas, missingAt('gas', id, 'readings')])),
      'longest time between readings': every ?? missingAt('gas', id, 'every'),
    }),
    capacity: NONE,
    near: 1,
    found: stale.map(([gas, [, { at }]]) => `${gas}: last read at ${at}`),
    assumptions: [
      ...(missing.length === 0 ? [] : [`not read: ${missing.join(', ')}`]),
      ...(below.dataDate === undefined ? ['no data date: the age of the readings is not looked at'] : []),
    ],
    cautions: GAS_CAUTIONS,
  })
}
