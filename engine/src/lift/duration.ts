import { subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import { hoistTime, travelTime, turnTime } from './duration.formulas.ts'
import { hookPlaces } from './path.ts'
import type { Pick } from './pick.ts'

/** Hook time of a lift: rigging and set-up, hoisting and lowering, travel, turning. */
export function durationOf(pick: Pick): Answer<'s'> {
  const terms: Term<'s'>[] = [
    { label: 'rigging and set-up', answer: knownOr(pick.setUp, 's', '/programme/work/setUp') },
    ...movingTerms(pick),
    ...turningTerms(pick),
  ]
  return sumOf('Hook time of the lift', 's', terms)
}

function movingTerms(pick: Pick): Term<'s'>[] {
  const places = hookPlaces(pick).map((p) => p.at)
  const steps = places.slice(1).map((at, i) => subtract(at, places[i] as Vec3))
  const hoisted = steps.reduce((sum, s) => sum + Math.abs(s[2]), 0)
  const travelled = steps.reduce((sum, s) => sum + Math.hypot(s[0], s[1]), 0)
  const { hook, hookAt, system, systemAt } = pick.main
  const terms: Term<'s'>[] = []
  if (hoisted > 0) {
    terms.push({
      label: 'hoisting and lowering',
      answer: hoistTime.show({
        h: stated('m', hoisted, 'heights of the moves, up and down'),
        v: knownOr(hook.speed, 'm/s', `${hookAt}/speed`),
      }),
    })
  }
  if (travelled > SHORT && system.kind !== 'crawler crane' && system.kind !== 'mobile crane') {
    terms.push({
      label: 'travel with the load',
      answer: travelTime.show({
        s: stated('m', travelled, 'lengths of the moves in plan'),
        v: knownOr(system.travelSpeed, 'm/s', `${systemAt}/travelSpeed`),
      }),
    })
  }
  return terms
}

/** Moves in plan below this are drawn with the hook, not travelled. */
const SHORT = 2

function turningTerms({ lift, at }: Pick): Term<'s'>[] {
  if (lift.turn === undefined) return []
  const angle = Math.abs((lift.turn.to.value as number) - (lift.turn.from.value as number))
  return [
    {
      label: 'turning',
      answer: turnTime.show({
        a: stated('rad', angle, 'from start to end of the turn'),
        w: knownOr(lift.turn.speed, 'rad/s', `${at}/turn/speed`),
      }),
    },
  ]
}
