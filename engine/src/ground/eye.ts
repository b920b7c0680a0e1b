import type { Ground, Machine, Shaft } from '../model/index.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { blockNeeded, blockThere, eyeHalfAngle, sagitta } from './overlap.formulas.ts'
import type { WallRing } from './wall.ts'

/** A shield always fills most of its eye: that alone is no warning. */
const NEVER_NEAR = 1

/** A value that counts only once a person has decided or accepted it; until then it is unknown, at that address. */
export function onceDecided(
  value: Answer<'m'>,
  pointer: string,
  decided: string | undefined,
  method: string,
): Answer<'m'> {
  const word = given('1', pointer, decided === undefined ? undefined : 1)
  return found({ unit: 'm', value: value.value, method, inputs: { value, decided: word }, residuals: [] })
}

/** Each eye: the machine passes it, and a licensed engineer has decided how the cut ring carries. Practice 60. */
export function eyeChecks(
  shaft: Shaft,
  machine: Machine | undefined,
  ring: WallRing,
  ground: Ground | undefined,
): Check[] {
  return Object.entries(shaft.eyes).map(([id, eye]) => {
    const pointer = pointerOf('shaft', 'eyes', id)
    return check({
      kind: kinds.eyeCut,
      subject: { pointer, id, name: `Eye ${id}` },
      demand: knownOr(machine?.shieldDiameter, 'm', '/machine/shieldDiameter'),
      capacity: onceDecided(
        eye.diameter,
        `${pointer}/decided`,
        eye.decided,
        'diameter of the eye, counted once a licensed engineer has signed how the cut ring carries',
      ),
      near: NEVER_NEAR,
      assumptions: [
        cutText(ring, eye.diameter),
        'The plain ring checks do not hold at its level once it is cut.',
        restingOn(ground, 'G7'),
      ],
      cautions: [SOIL, 'No one cuts the wall before the frame stands, the block is accepted and the cut is released.'],
    })
  })
}

function cutText(ring: WallRing, D: Answer<'m'>): string {
  const half = eyeHalfAngle.show({ R: ring.meanRadius, D }).value
  return half === undefined
    ? 'The eye cuts the ring.'
    : `The eye cuts the ring over ${((2 * half * 180) / Math.PI).toFixed(0)}° of its round.`
}

/** Each block of treated ground: long enough on the axis, and accepted. Practice 68. */
export function blockChecks(ground: Ground, machine: Machine | undefined, ring: WallRing, near: number): Check[] {
  const D = knownOr(machine?.shieldDiameter, 'm', '/machine/shieldDiameter')
  return Object.entries(ground.treatments).map(([id, block]) => {
    const pointer = pointerOf('ground', 'treatments', id)
    return check({
      kind: kinds.blockLength,
      subject: { pointer, id, name: block.what },
      demand: blockNeeded.show({
        s: sagitta.show({ R: ring.outerRadius, D }),
        cover: knownOr(block.cover, 'm', `${pointer}/cover`),
      }),
      capacity: onceDecided(
        blockThere.show({ x_1: block.along[0], x_2: block.along[1], r_o: ring.outerRadius }),
        `${pointer}/accepted`,
        block.accepted,
        'length of the block, counted once probe holes and cores are accepted',
      ),
      near,
      assumptions: [
        'Where the annulus is sealed by the block alone it must also reach behind the tail seals.',
        restingOn(ground, 'G8'),
      ],
      cautions: [SOIL, 'Probe holes through the eye with measured inflow come before the cut.'],
    })
  })
}
