import type { Cradle, Ground, Machine } from '../model/index.ts'
import { type Answer, given, knownOr, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { bedHolds, offsetMoment, rolled, skinHolds, toolPush, toolTorque } from './breakIn.formulas.ts'
import { onceSigned, SOIL } from './caution.ts'
import { facePush, sidewaysOffset, skinFriction } from './cradle.formulas.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import type { Resting } from './remainder.ts'
import { half } from './wall.formulas.ts'
import { weight } from './weight.ts'

/** The head against the wall at the eye, and the machine kept from rolling. */
export interface BreakInCase {
  cradle: Cradle
  machine: Machine
  ground: Ground | undefined
  near: number
}

const ON_WAY = '/cradle/driveIn'
const at = (field: string): string => pointerOf('cradle', 'driveIn', 'breakIn', field)
const diameter = ({ machine }: BreakInCase): Answer<'m'> =>
  knownOr(machine.shieldDiameter, 'm', '/machine/shieldDiameter')

const shared = ({ near }: BreakInCase) => ({ subject: { pointer: '/cradle', id: 'cradle', name: 'Cradle' }, near })

const ROLL_CAUTION =
  'Roll is read at every stroke. Nobody stands between the shield and its stops or the wall while it is pushed or turned.'
const WALL_CAUTION =
  'The last of a wall comes out in blocks, with the ground and its water behind it: the shaft floor is empty, thrust goes down in stages as the head comes near.'

/** Push, torque and roll while the head breaks the wall at the eye, and the roll at which the machine rests. Practice 71. */
export function breakInChecks(c: BreakInCase, resting: Resting): Check[] {
  return [pushCheck(c), wallCheck(c), torqueCheck(c), heldInGround(c, resting), rollCheck(c)]
}

function push({ cradle }: BreakInCase): Answer<'N'> {
  const { tools, tool } = cradle.driveIn?.breakIn ?? {}
  return toolPush.show({ n: given('1', at('tools'), tools), P: knownOr(tool, 'N', at('tool')) })
}

/** Of the head on what is left of the wall. */
function onFace(c: BreakInCase) {
  const p = knownOr(c.cradle.driveIn?.face, 'Pa', `${ON_WAY}/face`)
  return [
    { label: 'tools', answer: push(c) },
    { label: 'pressure on the face', answer: facePush.show({ p, D: diameter(c) }) },
  ]
}

function pushCheck(c: BreakInCase): Check {
  const { driveIn } = c.cradle
  const skin = skinFriction.show({
    D: diameter(c),
    L: knownOr(driveIn?.breakIn?.inGround, 'm', at('inGround')),
    f: knownOr(driveIn?.skin, 'Pa', `${ON_WAY}/skin`),
  })
  return check({
    ...shared(c),
    kind: kinds.breakInPush,
    demand: sumOf('push as the head meets the wall', 'N', [
      ...onFace(c),
      { label: 'friction on the skin', answer: skin },
    ]),
    capacity: knownOr(driveIn?.thrust, 'N', `${ON_WAY}/thrust`),
    assumptions: [
      'Every tool at its push at once; friction on the skin has that of the weight in it; what is towed is not.',
      restingOn(c.ground, 'G8'),
    ],
    cautions: [SOIL, WALL_CAUTION],
  })
}

function wallCheck(c: BreakInCase): Check {
  const { wall, signed } = c.cradle.driveIn?.breakIn ?? {}
  return check({
    ...shared(c),
    kind: kinds.breakInWall,
    demand: sumOf('push on what is left of the wall', 'N', onFace(c)),
    capacity: onceSigned(
      knownOr(wall, 'N', at('wall')),
      at('signed'),
      signed,
      'what the last of the wall bears, counted once a licensed engineer has signed it',
    ),
    assumptions: [
      'The push that breaks the wall, on the thickness that whoever signs has taken as the last; below it thrust is brought down as the plan says.',
      restingOn(c.ground, 'G7', 'G8'),
    ],
    cautions: [SOIL, WALL_CAUTION],
  })
}

function torqueCheck(c: BreakInCase): Check {
  const { drag, radius, torque } = c.cradle.driveIn?.breakIn ?? {}
  return check({
    ...shared(c),
    kind: kinds.breakInTorque,
    demand: toolTorque.show({
      F: push(c),
      c: knownOr(drag, '1', at('drag')),
      r: knownOr(radius, 'm', at('radius')),
    }),
    capacity: knownOr(torque, 'N m', at('torque')),
    assumptions: [
      'Drag of the tools alone; muck in the chamber, seals and a damaged bearing take their share besides.',
      restingOn(c.ground, 'G8'),
    ],
    cautions: [
      SOIL,
      'A head that cannot turn does not cut: the eye is then broken out by other means, from ground that is treated and proved.',
    ],
  })
}

/** Torque of the head, and the weight that lies to one side as though it turned the same way. */
function turning(c: BreakInCase, torque: Answer<'N m'>, { design, y }: Resting): Answer<'N m'> {
  const e = sidewaysOffset.show({ y, y_axis: c.machine.pose.origin[1] })
  return sumOf('what turns the shield', 'N m', [
    { label: 'torque of the head', answer: torque },
    { label: 'weight to one side', answer: offsetMoment.show({ W: weight(design), e }) },
  ])
}

function heldInGround(c: BreakInCase, resting: Resting): Check {
  const { torque, inGround, holds } = c.cradle.driveIn?.breakIn ?? {}
  return check({
    ...shared(c),
    kind: kinds.breakInHeld,
    demand: turning(c, knownOr(torque, 'N m', at('torque')), resting),
    capacity: skinHolds.show({
      D: diameter(c),
      L: knownOr(inGround, 'm', at('inGround')),
      f: knownOr(holds, 'Pa', at('holds')),
    }),
    assumptions: [
      'The head at the most that the drive may turn with; friction on the whole skin goes round, none of it along: pushing takes its share.',
      restingOn(c.ground, 'G4'),
    ],
    cautions: [SOIL, ROLL_CAUTION],
  })
}

function rollCheck(c: BreakInCase): Check {
  return check({
    ...shared(c),
    kind: kinds.driveInRoll,
    demand: rolled.show({ phi: c.machine.pose.roll }),
    capacity: knownOr(c.cradle.driveIn?.roll, 'rad', `${ON_WAY}/roll`),
    assumptions: ['Roll as the project places the machine: the survey of where it rests replaces what was expected.'],
    cautions: [SOIL, 'A machine that rests rolled has every lug and every match-mark rolled with it.'],
  })
}

/** The shield on its bed under the torque of the restart, as returned. Practice 71. */
export function restartRollCheck(c: BreakInCase, resting: Resting): Check[] {
  const { cradle, near } = c
  const { restart } = cradle
  if (restart === undefined) return []
  const on = (field: string): string => pointerOf('cradle', 'restart', field)
  const bed = bedHolds.show({
    mu: knownOr(restart.holds, '1', on('holds')),
    W: weight(resting.net),
    R: cradle.radius ?? half.show({ D: diameter(c) }),
    alpha: cradle.contactHalfAngle,
  })
  const { stops } = restart
  return [
    check({
      kind: kinds.restartRoll,
      subject: { pointer: '/cradle/restart', id: 'restart', name: 'Restart' },
      near,
      demand: turning(c, knownOr(restart.torque, 'N m', on('torque')), resting),
      capacity: sumOf('what holds the shield on its bed', 'N m', [
        { label: 'friction on the bed', answer: bed },
        ...(stops === undefined ? [] : [{ label: 'stops', answer: stops }]),
      ]),
      assumptions: [
        'All of the machine on its cradle, without contingency where it holds and with it where it turns; thrust takes no share of the friction, fill holds nothing.',
        ...(stops === undefined ? ['No stops counted.'] : []),
        restingOn(c.ground, 'G10'),
      ],
      cautions: [SOIL, ROLL_CAUTION],
    }),
  ]
}
