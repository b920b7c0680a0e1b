import { type LiftOutcome, largestLeg, type TowerCase } from '../lift/index.ts'
import type { Ground, Shaft } from '../model/index.ts'
import { type Answer, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { pileLoad } from './tower.formulas.ts'

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
