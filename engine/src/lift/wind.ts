import { type Answer, GRAVITY, given, knownOr, leastOf, type Term } from '../working/answer.ts'
import type { Pick } from './pick.ts'
import { deratedWind, referenceSail, sideLoadWind } from './wind.formulas.ts'

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
  const own = ownLimit(pick)
  const terms: Term<'m/s'>[] = [
    { label: "the machine's own limit", answer: own },
    { label: 'side load of the piece', answer: sideLoadLimit(pick, sail) },
  ]
  if (pick.main.system.wind?.referenceArea !== undefined)
    terms.push({ label: 'sail above what the machine allows for', answer: deratedLimit(pick, own, sail) })
  return {
    allowable: leastOf('Lowest wind limit', 'm/s', terms),
    terms,
    planned: pick.lift.stopWind ?? own,
  }
}

/** In service; where the machine travels with the load, the lower of that and of travel. */
function ownLimit({ main, lift }: Pick): Answer<'m/s'> {
  const { wind } = main.system
  if (wind === undefined) return given('m/s', `${main.systemAt}/wind/service`, undefined)
  if (wind.travel === undefined || lift.kind === 'turn') return wind.service
  return leastOf("Machine's own limit", 'm/s', [
    { label: 'in service', answer: wind.service },
    { label: 'travelling with load', answer: wind.travel },
  ])
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

function deratedLimit(pick: Pick, v0: Answer<'m/s'>, A: Answer<'m2'>): Answer<'m/s'> {
  const { referenceArea, drag } = pick.main.system.wind ?? {}
  const area = knownOr(referenceArea, 'm2/kg', `${pick.main.systemAt}/wind/referenceArea`)
  const a = drag === undefined ? area : referenceSail.show({ A0: area, C0: drag })
  return deratedWind.show({ v0, a, m: pick.set.lower, C: dragOf(pick), A })
}
