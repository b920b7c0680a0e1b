import type { Cradle, Ground, Machine } from '../model/index.ts'
import { type Answer, given, knownOr, largestOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import {
  concreteBearing,
  contactOffset,
  lineLoad,
  rollFriction,
  saddlePressure,
  sidewaysOffset,
  spanLength,
} from './cradle.formulas.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import type { Remainder } from './remainder.ts'
import { designStress } from './ring.formulas.ts'
import { half } from './wall.formulas.ts'
import { weight } from './weight.ts'

/** What is left in the shaft at one time, standing on the cradle. */
export interface CradleCase {
  /** Step after which it stands so, or the start. */
  id: string
  name: string
  parts: readonly string[]
  weight: Answer<'N'>
  /** Largest load per metre along the cradle. */
  along: Answer<'N/m'>
  /** At the bottom of the bed, where the load along is largest. */
  pressure: Answer<'Pa'>
  /** Friction that holds it against rolling. */
  friction: Answer<'1'>
}

/** Contact of a set of parts with the cradle, the worse of as found and as returned. Frame: site. */
export function cradleCase(
  cradle: Cradle,
  machine: Machine,
  remainder: Remainder,
  at: Pick<CradleCase, 'id' | 'name'>,
): CradleCase {
  const L = spanLength.show({ x_1: cradle.along[0], x_2: cradle.along[1] })
  const R = cradle.radius ?? half.show({ D: knownOr(machine.shieldDiameter, 'm', '/machine/shieldDiameter') })
  const cases = (['found', 'returned'] as const).map((state) => {
    const { design, x, y } = remainder[state]
    const W = weight(design)
    const e = contactOffset.show({ x, x_1: cradle.along[0], x_2: cradle.along[1] })
    const w = lineLoad.show({ W, L, e })
    const sideways = sidewaysOffset.show({ y, y_axis: machine.pose.origin[1] })
    return {
      label: `as ${state}`,
      W,
      w,
      p: saddlePressure.show({ w, R, alpha: cradle.contactHalfAngle }),
      mu: rollFriction.show({ e: sideways, R, alpha: cradle.contactHalfAngle }),
    }
  })
  const worst = <U extends 'N' | 'N/m' | 'Pa' | '1'>(
    title: string,
    unit: U,
    pick: (c: (typeof cases)[number]) => Answer<U>,
  ) =>
    largestOf(
      title,
      unit,
      cases.map((c): Term<U> => ({ label: c.label, answer: pick(c) })),
    )
  return {
    ...at,
    parts: remainder.parts,
    weight: worst('weight on the cradle', 'N', (c) => c.W),
    along: worst('load along the cradle', 'N/m', (c) => c.w),
    pressure: worst('contact pressure', 'Pa', (c) => c.p),
    friction: worst('friction against rolling', '1', (c) => c.mu),
  }
}

/** Contact pressure and roll of what remains. Practice 66. */
export function cradleChecks(ground: Ground | undefined, cradle: Cradle, c: CradleCase, near: number): Check[] {
  const factor = (name: 'ringConcrete' | 'ringLoad') =>
    ground?.factors?.[name] ?? given('1', pointerOf('ground', 'factors', name), undefined)
  const shared = {
    subject: { pointer: '/cradle', id: 'cradle', name: 'Cradle' },
    of: c.id,
    near,
    assumptions: [
      'All of it stands on the cradle; what the tunnel or a prop carries is not taken off. Shell taken as rigid.',
      ...(ground === undefined ? [] : [restingOn(ground, 'G5', 'G10')]),
    ],
    cautions: [SOIL, 'The machine maker confirms the shell on the cradle with doors open or the bulkhead out.'],
  }
  return [
    check({
      ...shared,
      kind: kinds.cradleContact,
      title: `${kinds.cradleContact.title}: ${c.name}`,
      demand: designStress.show({ gamma_F: factor('ringLoad'), sigma: c.pressure }),
      capacity: concreteBearing.show({ f_ck: cradle.strength, gamma_c: factor('ringConcrete') }),
    }),
    check({
      ...shared,
      kind: kinds.cradleRoll,
      title: `${kinds.cradleRoll.title}: ${c.name}`,
      demand: c.friction,
      capacity: knownOr(cradle.holds, '1', '/cradle/holds'),
    }),
  ]
}
