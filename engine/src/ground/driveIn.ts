import type { Cradle, Ground, Machine, Shaft } from '../model/index.ts'
import { type Answer, found, given, knownOr, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL, WATER } from './caution.ts'
import { blockResistance, facePush, skinFriction, slideIn } from './cradle.formulas.ts'
import type { CradleCase } from './cradle.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { eyeInvert, fillBand, fillGap, fillVolume, sealPressure } from './overlap.formulas.ts'
import { waterAt } from './pressure.ts'
import { weight } from './weight.ts'

interface DriveIn {
  cradle: Cradle
  machine: Machine | undefined
  ground: Ground | undefined
  /** The whole machine on the cradle. */
  stands: CradleCase
  near: number
}

/** Thrust that the drive-in asks for: along the cradle, on the skin still in the ground, on the face. */
function thrustNeeded({ cradle, machine, stands }: DriveIn): Answer<'N'> {
  const D = knownOr(machine?.shieldDiameter, 'm', '/machine/shieldDiameter')
  const at = (field: string) => pointerOf('cradle', 'driveIn', field)
  const { driveIn } = cradle
  return sumOf('thrust of the drive-in', 'N', [
    {
      label: 'friction on the cradle',
      answer: slideIn.show({
        W: stands.weight,
        mu: knownOr(cradle.friction, '1', '/cradle/friction'),
        beta: cradle.contactHalfAngle,
        i: stated('1', 0, 'cradle level'),
      }),
    },
    {
      label: 'friction on the skin',
      answer: skinFriction.show({
        D,
        L: knownOr(driveIn?.inGround, 'm', at('inGround')),
        f: knownOr(driveIn?.skin, 'Pa', at('skin')),
      }),
    },
    { label: 'pressure on the face', answer: facePush.show({ p: knownOr(driveIn?.face, 'Pa', at('face')), D }) },
  ])
}

/** Thrust without torque, and the block it pushes on. Practice 71, 66. */
export function driveInChecks(c: DriveIn): Check[] {
  const needed = thrustNeeded(c)
  const { cradle } = c
  const shared = {
    subject: { pointer: '/cradle', id: 'cradle', name: 'Cradle' },
    near: c.near,
    assumptions: [
      'Cradle friction as on two strips at the ends of the contact arc; everything at its worst at once.',
      ...(c.ground === undefined ? [] : [restingOn(c.ground, 'G10')]),
    ],
    cautions: [SOIL, 'Roll is watched all the way in; without torque at the head nothing turns it back.'],
  }
  const thrust = check({
    ...shared,
    kind: kinds.driveInThrust,
    demand: needed,
    capacity: knownOr(cradle.driveIn?.thrust, 'N', '/cradle/driveIn/thrust'),
  })
  const { block } = cradle
  const sliding = check({
    ...shared,
    kind: kinds.cradleSliding,
    demand: needed,
    capacity: blockResistance.show({
      mu: knownOr(block?.friction, '1', '/cradle/block/friction'),
      W_c: weight(knownOr(block?.mass, 'kg', '/cradle/block/mass')),
      W_m: c.stands.weight,
    }),
  })
  return [thrust, sliding]
}

/** Each seal against the water at the bottom of its eye; the maker says that its lips pass the joints. Practice 67. */
export function sealChecks(shaft: Shaft, ground: Ground, near: number): Check[] {
  return Object.entries(shaft.eyes).flatMap(([id, eye]) => {
    if (eye.seal === undefined) return []
    const pointer = pointerOf('shaft', 'eyes', id, 'seal')
    const invert = eyeInvert.show({ z: eye.centre, D: eye.diameter })
    return [
      check({
        kind: kinds.eyeSeal,
        subject: { pointer, id, name: `Seal of eye ${id}` },
        demand: sealPressure.show({ factor: eye.seal.factor, u: waterAt(ground, invert) }),
        capacity: found({
          unit: 'Pa',
          value: eye.seal.rated.value,
          method: 'rated pressure, counted once the maker says that the lips pass the joints of the shield',
          inputs: {
            rated: eye.seal.rated,
            passes: given('1', `${pointer}/passes`, eye.seal.passes === undefined ? undefined : 1),
          },
          residuals: [],
        }),
        near,
        assumptions: [
          'Water at its highest ordinary head, at the bottom of the eye; no help from the treated block.',
          restingOn(ground, 'G2'),
        ],
        cautions: [SOIL, WATER],
      }),
    ]
  })
}

/** Fill before the restart: what was pumped against what has room. Practice 72. */
export function fillChecks(shaft: Shaft, near: number): Check[] {
  const { fill } = shaft
  if (fill === undefined) return []
  const at = (field: string) => pointerOf('shaft', 'fill', field)
  const V = fillVolume.show({
    D: shaft.clearDiameter,
    top: fill.top,
    bottom: shaft.slabTop,
    displaced: knownOr(fill.displaced, 'm3', at('displaced')),
  })
  return [
    check({
      kind: kinds.fillVolume,
      subject: { pointer: '/shaft/fill', id: 'fill', name: 'Fill in the shaft' },
      demand: fillGap.show({ pumped: knownOr(fill.pumped, 'm3', at('pumped')), V }),
      capacity: fillBand.show({ band: knownOr(fill.band, '1', at('band')), V }),
      near,
      assumptions: ['Clear bore from the slab to the top of the fill, less what stands in it.'],
      cautions: [SOIL, 'A fill that is short leaves a void at the eye; that it is full is seen at the vents, too.'],
    }),
  ]
}
