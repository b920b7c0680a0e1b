import { type LegReaction, legReactions, ownMass, type TowerCase, windCouple, windPush } from '../lift/index.ts'
import type { Ground } from '../model/index.ts'
import { type Answer, given, knownOr, leastOf, stated, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { onceSigned, SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { stormFriction, withFactor } from './tower.formulas.ts'
import { weight } from './weight.ts'

/** A tower or gantry that stays where it stands through a storm, hook empty. */
export interface StormTower extends TowerCase {
  ground: Ground | undefined
  /** Required factor. */
  gamma: Answer<'1'>
  near: number
}

const CAUTIONS = [SOIL, 'Above the mooring wind the tower is moored as its maker says.']

/** No leg lifts, which is also that it does not overturn; it slides neither along its runway nor across. Practice 47. */
export const stormChecks = (c: StormTower): Check[] => [upliftCheck(c), ...slidingChecks(c)]

const at = ({ id }: StormTower, ...path: string[]): string => pointerOf('systems', id, ...path)
const subject = (c: StormTower) => ({ pointer: at(c), id: c.id, name: c.system.name })
const factored = ({ gamma }: StormTower, U: Answer<'N'>): Answer<'N'> => withFactor.show({ gamma, U })

/** Of a tower whose legs are not given nothing is known. */
function upliftCheck(c: StormTower): Check {
  const stands = Object.keys(c.system.legs).length > 0
  const noLegs = given('N', at(c, 'legs'), undefined)
  return check({
    kind: kinds.towerUplift,
    subject: subject(c),
    demand: stands ? factored(c, windCouple(c, 'outOfService')) : noLegs,
    capacity: stands ? heldDown(c) : noLegs,
    near: c.near,
    assumptions: [
      `Own mass shared evenly by the legs; header parked in the middle; storm from the side that brings most on one leg; ${
        c.system.storm?.moorings === undefined ? 'not tied down' : 'tied down by its moorings'
      }. While no leg lifts it does not overturn.`,
      restingOn(c.ground, 'G5'),
    ],
    cautions: CAUTIONS,
  })
}

/** The leg that rests with least, and what ties a leg down. */
function heldDown(c: StormTower): Answer<'N'> {
  const empty = stated('kg', 0, 'hook empty')
  const legs: readonly LegReaction[] = legReactions(c.id, c.system, empty, stated('m', 0, 'hook empty'))
  const rest = leastOf(
    'leg with the least load',
    'N',
    legs.map(({ leg, vertical }): Term<'N'> => ({ label: leg, answer: vertical })),
  )
  const ties = moored(c, 'down')
  if (ties === undefined) return rest
  return sumOf('what holds a leg down', 'N', [
    { label: 'own weight', answer: rest },
    { label: 'moorings', answer: ties },
  ])
}

function moored(c: StormTower, field: 'along' | 'down'): Answer<'N'> | undefined {
  const moorings = c.system.storm?.moorings
  return (
    moorings &&
    onceSigned(
      moorings[field],
      at(c, 'storm', 'moorings', 'designed'),
      moorings.designed,
      'moorings, counted once somebody has designed them and what they are anchored in',
    )
  )
}

function slidingChecks(c: StormTower): Check[] {
  const shared = {
    kind: kinds.towerSliding,
    subject: subject(c),
    demand: factored(c, windPush(c, 'outOfService')),
    near: c.near,
    cautions: CAUTIONS,
  }
  const ties = moored(c, 'along')
  return [
    check({
      ...shared,
      of: 'along',
      title: `${kinds.towerSliding.title}: along its runway`,
      capacity: sumOf('what holds it along the runway', 'N', [
        { label: 'wheels that are kept from turning', answer: friction(c, heldShare(c)) },
        ...(ties === undefined ? [] : [{ label: 'moorings', answer: ties }]),
      ]),
      assumptions: [
        `Own weight alone, hook empty; wheels that turn hold nothing; ${
          ties === undefined ? 'not moored' : 'friction and moorings act together'
        }. Rails level.`,
        restingOn(c.ground, 'G5'),
      ],
    }),
    check({
      ...shared,
      of: 'across',
      title: `${kinds.towerSliding.title}: across its runway`,
      capacity: sumOf('what holds it across the runway', 'N', [
        { label: 'friction', answer: friction(c, stated('1', 1, 'no wheel turns sideways')) },
        { label: 'flanges or guides', answer: knownOr(c.system.storm?.across, 'N', at(c, 'storm', 'across')) },
      ]),
      assumptions: [
        'Own weight alone, hook empty. That rails and what they are fixed to take the same is their designer’s.',
        restingOn(c.ground, 'G5'),
      ],
    }),
  ]
}

const heldShare = (c: StormTower): Answer<'1'> => knownOr(c.system.storm?.held, '1', at(c, 'storm', 'held'))

const friction = (c: StormTower, s: Answer<'1'>): Answer<'N'> =>
  stormFriction.show({
    mu: knownOr(c.system.storm?.friction, '1', at(c, 'storm', 'friction')),
    s,
    W: weight(ownMass(c.id, c.system)),
  })
