import type { System } from '../model/index.ts'
import { type Answer, GRAVITY, given, knownOr, leastOf, stated, type Term } from '../working/answer.ts'
import { machinesOf } from './machines.ts'
import type { Hooked, Pick } from './pick.ts'
import {
  deratedWind,
  gustAtHeight,
  gustOfMean,
  gustRaised,
  heightOver,
  referenceSail,
  sideLoadWind,
  swing,
  windLean,
} from './wind.formulas.ts'

/** Wind that stops a lift, and what each limit says. */
export interface WindLimit {
  /** The lowest of them. */
  allowable: Answer<'m/s'>
  terms: readonly Term<'m/s'>[]
  /** Gust at which the plan stops. */
  planned: Answer<'m/s'>
}

/**
 * Allowable wind for a hanging piece: the machine's own limit, that limit brought down for the piece's sail, and the speed
 * at which drag reaches the permitted side load; the lowest rules.
 *
 * @param sail largest projected area over all headings
 */
export function windLimit(pick: Pick, sail: Answer<'m2'>): WindLimit {
  const owns = machinesOf(pick).map((hooked, i): Term<'m/s'> & { hooked: Hooked } => ({
    label: i === 0 ? "the machine's own limit" : `own limit of ${hooked.system.name}`,
    answer: ownLimit(pick, hooked),
    hooked,
  }))
  const derated = owns
    .filter(({ hooked }) => hooked.system.wind?.referenceArea !== undefined)
    .map(({ hooked, answer }, i): Term<'m/s'> => {
      const machine = i === 0 ? 'the machine' : hooked.system.name
      return { label: `sail above what ${machine} allows for`, answer: deratedLimit(pick, hooked, answer, sail) }
    })
  const [first, ...others] = owns.map(({ label, answer }) => ({ label, answer })) as [Term<'m/s'>, ...Term<'m/s'>[]]
  const terms: Term<'m/s'>[] = [
    first,
    { label: 'side load of the piece', answer: sideLoadLimit(pick, sail) },
    ...others,
    ...derated,
  ]
  const own = others.length === 0 ? first.answer : leastOf('Lowest limit of the machines', 'm/s', [first, ...others])
  return {
    allowable: leastOf('Lowest wind limit', 'm/s', terms),
    terms,
    planned: pick.lift.stopWind ?? own,
  }
}

/** In service; where the machine travels with the load, the lower of that and of travel. As a gust at the hook. */
function ownLimit(pick: Pick, hooked: Hooked): Answer<'m/s'> {
  const { lift } = pick
  const { wind } = hooked.system
  if (wind === undefined) return given('m/s', `${hooked.systemAt}/wind/service`, undefined)
  const service = atHook(pick, hooked, wind.service)
  if (wind.travel === undefined || lift.kind === 'turn') return service
  return leastOf("Machine's own limit", 'm/s', [
    { label: 'in service', answer: service },
    { label: 'travelling with load', answer: atHook(pick, hooked, wind.travel) },
  ])
}

const TEN = stated('m', 10, 'height at which such limits are read')

function atHook(
  { climate, shaft }: Pick,
  { system, systemAt, hook, hookAt }: Hooked,
  limit: Answer<'m/s'>,
): Answer<'m/s'> {
  return gustAtHook(limit, {
    read: system.wind?.read,
    readAt: `${systemAt}/wind/read`,
    gustFactor: climate?.gustFactor,
    highest: knownOr(hook.highest, 'm', `${hookAt}/highest`),
    collar: shaft?.collar,
  })
}

/** How the wind limits of a machine are read, and at what height its hook is. */
export interface WindReading {
  read: NonNullable<System['wind']>['read']
  /** Address of `read`. */
  readAt: string
  gustFactor: Answer<'1'> | undefined
  /** Of the hook, site z. */
  highest: Answer<'m'>
  collar: Answer<'m'> | undefined
}

/** A limit of the maker as a gust at the height of the hook; open where nobody has said how it is read. */
export function gustAtHook(
  limit: Answer<'m/s'>,
  { read, readAt, gustFactor, highest, collar }: WindReading,
): Answer<'m/s'> {
  if (read === undefined) return given('m/s', readAt, undefined)
  if (read.at === 'hook')
    return read.as === 'gust'
      ? limit
      : gustOfMean.show({ m: limit, G: knownOr(gustFactor, '1', '/climate/gustFactor') })
  const z = heightOver.show({ top: highest, c: knownOr(collar, 'm', '/shaft/collar') })
  return read.as === 'gust' ? gustRaised.show({ g10: limit, z, h: TEN }) : gustAtHeight.show({ v10: limit, z, h: TEN })
}

/** Shift of the piece against the shaft at the gust that stops the lift, on a line down to the collar; open without its head. */
export function swingAtCollar(pick: Pick, sail: Answer<'m2'>, stop: Answer<'m/s'>): Answer<'m'> {
  const { main, shaft, set, settings } = pick
  return swing.show({
    l: heightOver.show({
      top: knownOr(main.hook.head, 'm', `${main.hookAt}/head`),
      c: knownOr(shaft?.collar, 'm', '/shaft/collar'),
    }),
    alpha: windLean.show({
      v: stop,
      m: set.lower,
      g: GRAVITY,
      rho: knownOr(settings.airDensity, 'kg/m3', '/settings/airDensity'),
      C: dragOf(pick),
      A: sail,
    }),
  })
}

function sideLoadLimit(pick: Pick, A: Answer<'m2'>): Answer<'m/s'> {
  const { settings, set } = pick
  return sideLoadWind.show({
    s: knownOr(settings.sideLoad, '1', '/settings/sideLoad'),
    m: set.lower,
    g: GRAVITY,
    rho: knownOr(settings.airDensity, 'kg/m3', '/settings/airDensity'),
    C: dragOf(pick),
    A,
  })
}

/** Drag coefficient of the piece; a decision, so open where nobody took it. */
export const dragOf = ({ lift, at }: Pick): Answer<'1'> => knownOr(lift.drag, '1', `${at}/drag`)

function deratedLimit(pick: Pick, { system, systemAt }: Hooked, v0: Answer<'m/s'>, A: Answer<'m2'>): Answer<'m/s'> {
  const { referenceArea, drag } = system.wind ?? {}
  const area = knownOr(referenceArea, 'm2/kg', `${systemAt}/wind/referenceArea`)
  const a = drag === undefined ? area : referenceSail.show({ A0: area, C0: drag })
  return deratedWind.show({ v0, a, m: pick.set.lower, C: dragOf(pick), A })
}
