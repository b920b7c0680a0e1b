import type { Cradle, Ground, Shaft } from '../model/index.ts'
import { type Answer, given, knownOr, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { factorOf, onceSigned, RING, SOIL, WATER } from './caution.ts'
import { heldMargin, heldSpread } from './chance.formulas.ts'
import { anyOpen } from './chance.ts'
import { concreteBearing, skinFriction } from './cradle.formulas.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { meanPressure } from './pad.formulas.ts'
import { waterAt } from './pressure.ts'
import { designStress } from './ring.formulas.ts'
import { footArea, jointForce, jointOpening, tiesTogether } from './rings.formulas.ts'

type LastRings = NonNullable<Cradle['lastRings']>
type Ties = NonNullable<LastRings['ties']>
type Restart = NonNullable<Cradle['restart']>

const RINGS = '/cradle/lastRings'
const count = (n: number, text: string): Answer<'1'> => stated('1', n, text)

/** Joints of the last rings once the machine no longer presses them together: force that opens them, and how far. */
export function lastRingChecks(rings: LastRings, ground: Ground, near: number): Check[] {
  const F = jointForce.show({
    D: rings.diameter,
    a: rings.gasketDepth,
    q: knownOr(rings.gasket, 'N/m', `${RINGS}/gasket`),
    u: waterAt(ground, rings.centre),
  })
  const shared = {
    subject: { pointer: RINGS, id: 'last-rings', name: 'Last rings of the tunnel' },
    near,
    assumptions: [
      'No thrust left in them; friction of the grout is not counted. Water reaches the joint from outside, up to the gasket.',
      'Ties are snug before the thrust is let go; bolts are counted for strength only where the project gives them.',
      restingOn(ground, 'G2'),
    ],
    cautions: [
      SOIL,
      WATER,
      'Thrust is let go in stages, joints measured at each; grouted through the segments before.',
    ],
  }
  return [
    check({ ...shared, kind: kinds.ringsClosed, demand: F, capacity: heldTogether(rings) }),
    check({
      ...shared,
      kind: kinds.ringsOpening,
      demand: openingOf(F, rings.ties),
      capacity: knownOr(rings.opening, 'm', `${RINGS}/opening`),
    }),
    chanceCheck(rings, F, ground, shared),
  ]
}

/** Chance that a joint opens as the thrust is let go: one value of each force says nothing of it. */
function chanceCheck(
  rings: LastRings,
  F: Answer<'N'>,
  ground: Ground,
  shared: Pick<Parameters<typeof check>[0], 'subject' | 'near' | 'cautions'>,
): Check {
  const at = (field: string): string => pointerOf('cradle', 'lastRings', 'openJoint', field)
  const { openJoint } = rings
  const R = heldTogether(rings)
  const spread = heldSpread.show({
    R,
    c_R: knownOr(openJoint?.held, '1', at('held')),
    F,
    c_F: knownOr(openJoint?.force, '1', at('force')),
  })
  return check({
    ...shared,
    kind: kinds.ringsChance,
    demand: anyOpen(heldMargin.show({ R, F }), spread, given('1', at('joints'), openJoint?.joints)),
    capacity: knownOr(openJoint?.accepted, '1', at('accepted')),
    assumptions: [
      'Force and hold normal about the values of the project, independent of each other; joints as independent as alike ones are not, which makes the chance too large rather than too small.',
      'Working loads of ties are less than what they hold on average; how much less is in no figure here.',
      restingOn(ground, 'G2'),
    ],
  })
}

function heldTogether({ bolts, ties }: LastRings): Answer<'N'> {
  const braced = ties === undefined ? given('N', `${RINGS}/ties`, undefined) : tiesHold(ties)
  if (bolts === undefined) return braced
  const bolted = tiesTogether.show({ n: count(bolts.count, 'bolts or dowels in the joint'), P: bolts.load })
  return sumOf('what holds the joint closed', 'N', [
    ...(ties === undefined ? [] : [{ label: 'ties', answer: braced }]),
    { label: 'bolts and dowels', answer: bolted },
  ])
}

const tiesHold = ({ count: n, load, designed }: Ties): Answer<'N'> =>
  onceSigned(
    tiesTogether.show({ n: count(n, 'ties round the ring'), P: load }),
    `${RINGS}/ties/designed`,
    designed,
    'ties, counted once somebody has designed them and their anchorages in the segments',
  )

const openingOf = (F: Answer<'N'>, ties: Ties | undefined): Answer<'m'> =>
  ties === undefined
    ? given('m', `${RINGS}/ties`, undefined)
    : jointOpening.show({ F, s: ties.between, n: count(ties.count, 'ties round the ring'), EA: ties.stiffness })

/** What the machine pushes on as it leaves. Practice 71. */
export function restartChecks(restart: Restart, shaft: Shaft | undefined, ground: Ground, near: number): Check[] {
  const shared = {
    subject: { pointer: '/cradle/restart', id: 'restart', name: 'Restart' },
    near,
    cautions: [
      SOIL,
      ...(restart.on === 'frame' ? [RING] : []),
      'Thrust and roll are limited at the machine, not by hand; the reaction is watched from the first stroke.',
    ],
  }
  const reaction = check({
    ...shared,
    kind: kinds.restartReaction,
    demand: restart.thrust,
    capacity: restart.on === 'frame' ? frameHolds(restart) : ringsHold(restart),
    assumptions: [
      restart.on === 'frame'
        ? 'The frame alone; thrust square to it. How the wall of the shaft carries it is part of what is signed.'
        : 'Friction of grouted rings alone, over their whole circumference; what stands between machine and rings carries it there.',
      restingOn(ground, ...(restart.on === 'frame' ? (['G7'] as const) : (['G4'] as const))),
    ],
  })
  return restart.on === 'frame' ? [reaction, bearingCheck(restart, shaft, ground, shared)] : [reaction]
}

type OnFrame = Extract<Restart, { on: 'frame' }>

const at = (field: string): string => `/cradle/restart/${field}`

const frameHolds = ({ load, signed }: OnFrame): Answer<'N'> =>
  onceSigned(
    knownOr(load, 'N', at('load')),
    at('signed'),
    signed,
    'working load of the frame, counted once a licensed engineer has signed frame and wall',
  )

const ringsHold = ({ diameter, length, friction }: Extract<Restart, { on: 'rings' }>): Answer<'N'> =>
  skinFriction.show({
    D: diameter,
    L: knownOr(length, 'm', at('length')),
    f: knownOr(friction, 'Pa', at('friction')),
  })

/** Feet of the frame on the wall. */
function bearingCheck(
  { thrust, feet, foot }: OnFrame,
  shaft: Shaft | undefined,
  ground: Ground,
  shared: Pick<Parameters<typeof check>[0], 'subject' | 'near' | 'cautions'>,
): Check {
  const A = footArea.show({
    n: feet === undefined ? given('1', at('feet'), undefined) : count(feet, 'feet of the frame'),
    b: knownOr(foot?.[0], 'm', at('foot')),
    h: knownOr(foot?.[1], 'm', at('foot')),
  })
  return check({
    ...shared,
    kind: kinds.restartBearing,
    demand: designStress.show({ gamma_F: factorOf(ground, 'ringLoad'), sigma: meanPressure.show({ P: thrust, A }) }),
    capacity: concreteBearing.show({
      f_ck: knownOr(shaft?.wall.strength, 'Pa', '/shaft/wall/strength'),
      gamma_c: factorOf(ground, 'ringConcrete'),
    }),
    assumptions: [
      'All feet alike; on sound concrete cut back to it, no spread counted.',
      restingOn(ground, 'G5', 'G7'),
    ],
  })
}
