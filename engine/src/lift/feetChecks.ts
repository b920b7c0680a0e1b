import { type Answer, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { standing } from './crane.ts'
import { tooMuch, words } from './cure.ts'
import { craneFeet, type Feet, towerCase } from './feet.ts'
import { ofMachine } from './machines.ts'
import type { Hooked, Pick } from './pick.ts'
import { craneBase, towerLeg, towerLifts } from './systemKinds.ts'
import { legRating } from './tower.formulas.ts'
import { leastLeg, type TowerCase } from './tower.ts'

const TOWER = [
  'Header as a beam on two rails; horizontal force of travel at the highest hook; wind on the tower itself, from the side that brings most on one leg.',
]

/** The machine on its own feet: legs within what their wheels bear and none lifting, a crane within its base. */
export function feetChecks(pick: Pick, hooked: Hooked, feet: Feet | undefined, load: Answer<'kg'>): Check[] {
  if (feet === undefined) return []
  const tower = towerCase(pick, hooked)
  if (tower !== undefined && feet.anywhere !== undefined)
    return [legCheck(pick, hooked, feet.anywhere), liftsCheck(pick, hooked, tower, load)]
  return baseCheck(pick, hooked, load)
}

function legCheck(pick: Pick, hooked: Hooked, demand: Answer<'N'>): Check {
  const { system, systemAt } = hooked
  const at = (field: string) => `${systemAt}/underLeg/${field}`
  const capacity = legRating.show({
    n: given('1', at('wheels'), system.underLeg?.wheels),
    P: knownOr(system.underLeg?.wheelLoad, 'N', at('wheelLoad')),
  })
  return check({
    kind: towerLeg,
    subject: pick.subject,
    ...ofMachine(pick, hooked),
    demand,
    capacity,
    found: tooMuch(
      demand,
      capacity,
      'more or stronger wheels under each leg, a travel of the hook that stays off the rails, or a lighter load',
    ),
    near: pick.near,
    assumptions: [...TOWER, 'With two hooks the whole load stands at the worse end.'],
    cautions: ['Leg loads are read and compared in the lift; a leg that settles puts the tower out of plumb.'],
  })
}

function liftsCheck(pick: Pick, hooked: Hooked, tower: TowerCase, load: Answer<'kg'>): Check {
  const { rest, lifting } = leastLeg(tower, hooked.id, load)
  return check({
    kind: towerLifts,
    subject: pick.subject,
    ...ofMachine(pick, hooked),
    demand: lifting,
    capacity: rest,
    near: pick.near,
    found: [
      `travel and wind would take ${words(lifting)} off a leg that stands with no more than ${words(rest)}: a lower wind limit, slower travel, ballast on the legs, or a travel of the hook that stays off the rails`,
    ],
    assumptions: TOWER,
  })
}

function baseCheck(pick: Pick, hooked: Hooked, load: Answer<'kg'>): Check[] {
  const crane = craneFeet(pick, hooked, load)
  const stands = crane === undefined ? undefined : standing(crane)
  if (stands === undefined) return []
  return [
    check({
      kind: craneBase,
      subject: pick.subject,
      ...ofMachine(pick, hooked),
      demand: stands.offset,
      capacity: stands.limit,
      near: 1,
      found: [
        `crane and load together bear ${words(stands.offset)} from the slewing centre, beyond the nearest tipping line at ${words(stands.limit)}: feet set wider, a smaller radius, more counterweight, or a lighter load`,
      ],
      assumptions: [
        'The crane may slew all round; loaded and with its hook empty. The margin against tipping is in the maker’s chart, not here.',
      ],
      cautions: ['A crane stands level on feet that all bear; the maker’s limit of level governs.'],
    }),
  ]
}
