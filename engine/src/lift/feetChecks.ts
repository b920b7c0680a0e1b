import { type Answer, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { standing } from './crane.ts'
import { craneFeet, type Feet, towerCase } from './feet.ts'
import type { Pick } from './pick.ts'
import { craneBase, towerLeg, towerLifts } from './systemKinds.ts'
import { legRating } from './tower.formulas.ts'
import { leastLeg, type TowerCase } from './tower.ts'

const TOWER = [
  'Header as a beam on two rails; horizontal force of travel at the highest hook; wind on the tower itself, from the side that brings most on one leg.',
]

/** The machine on its own feet: legs within what their wheels bear and none lifting, a crane within its base. */
export function feetChecks(pick: Pick, feet: Feet | undefined, load: Answer<'kg'>): Check[] {
  if (feet === undefined) return []
  const tower = towerCase(pick)
  if (tower !== undefined && feet.anywhere !== undefined)
    return [legCheck(pick, feet.anywhere), liftsCheck(pick, tower, load)]
  return baseCheck(pick, load)
}

function legCheck(pick: Pick, demand: Answer<'N'>): Check {
  const { system, systemAt } = pick.main
  const at = (field: string) => `${systemAt}/underLeg/${field}`
  return check({
    kind: towerLeg,
    subject: pick.subject,
    demand,
    capacity: legRating.show({
      n: given('1', at('wheels'), system.underLeg?.wheels),
      P: knownOr(system.underLeg?.wheelLoad, 'N', at('wheelLoad')),
    }),
    near: pick.near,
    assumptions: [...TOWER, 'With two hooks the whole load stands at the worse end.'],
    cautions: ['Leg loads are read and compared in the lift; a leg that settles puts the tower out of plumb.'],
  })
}

function liftsCheck(pick: Pick, tower: TowerCase, load: Answer<'kg'>): Check {
  const { rest, lifting } = leastLeg(tower, pick.main.id, load)
  return check({
    kind: towerLifts,
    subject: pick.subject,
    demand: lifting,
    capacity: rest,
    near: pick.near,
    assumptions: TOWER,
  })
}

function baseCheck(pick: Pick, load: Answer<'kg'>): Check[] {
  const crane = craneFeet(pick, load)
  const stands = crane === undefined ? undefined : standing(crane)
  if (stands === undefined) return []
  return [
    check({
      kind: craneBase,
      subject: pick.subject,
      demand: stands.offset,
      capacity: stands.limit,
      near: 1,
      assumptions: [
        'The crane may slew all round; loaded and with its hook empty. The margin against tipping is in the maker’s chart, not here.',
      ],
      cautions: ['A crane stands level on feet that all bear; the maker’s limit of level governs.'],
    }),
  ]
}
