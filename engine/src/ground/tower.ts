import {
  type LegReaction,
  type LiftOutcome,
  largestLeg,
  legReactions,
  type TowerCase,
  windCouple,
} from '../lift/index.ts'
import type { Ground, Shaft } from '../model/index.ts'
import { type Answer, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { pileLoad, withFactor } from './tower.formulas.ts'

/** A tower with what its footings stand in. */
export interface GroundTower extends TowerCase {
  shaft: Shaft
  ground: Ground | undefined
  near: number
}

/** The tower's legs in one lift, on the piles below them. Practice 46. */
export function towerLegCheck(c: GroundTower, outcome: LiftOutcome, carried: Answer<'kg'>): Check {
  const at = (field: string) => pointerOf('systems', c.id, 'foundation', field)
  const { foundation } = c.system
  return check({
    kind: kinds.towerLeg,
    subject: { pointer: pointerOf('lifts', outcome.id), id: outcome.id, name: `Lift ${outcome.id}` },
    of: c.id,
    demand: pileLoad.show({
      V: largestLeg(c, outcome.hook, carried),
      n: given('1', at('pilesUnderLeg'), foundation?.pilesUnderLeg),
    }),
    capacity: knownOr(foundation?.pileWorkingLoad, 'N', at('pileWorkingLoad')),
    near: c.near,
    assumptions: [
      'Rail level taken at the collar, horizontal force of travel at the highest hook; no hoist factor; with two hooks the whole load at the worse end.',
      restingOn(c.ground, 'G6'),
    ],
    cautions: [SOIL, 'Leg loads are read and compared in the lift; a leg that settles puts the tower out of plumb.'],
  })
}

/** The empty tower in a storm: no leg lifts. Practice 47. */
export function towerUpliftCheck(c: GroundTower, gamma: Answer<'1'>): Check {
  const empty = stated('kg', 0, 'hook empty')
  const rest = legReactions(c.id, c.system, empty, stated('m', 0, 'hook empty'))
  return check({
    kind: kinds.towerUplift,
    subject: { pointer: pointerOf('systems', c.id), id: c.id, name: c.system.name },
    demand: withFactor.show({ gamma, U: windCouple(c, 'outOfService') }),
    capacity: (rest[0] as LegReaction).vertical,
    near: c.near,
    assumptions: [
      'Own mass shared evenly by the legs; header parked in the middle; storm along the runway; not tied down.',
      restingOn(c.ground, 'G5'),
    ],
    cautions: ['Above the mooring wind the tower is moored as its maker says.'],
  })
}
