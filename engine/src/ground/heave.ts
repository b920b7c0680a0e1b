import type { Ground, Shaft } from '../model/index.ts'
import { type Answer, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { thicknessOf } from './base.formulas.ts'
import { factorOf, SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import { bjerrumEide, depthOverWidth, skemptonCircle, strengthAt } from './heave.formulas.ts'
import * as kinds from './kinds.ts'
import { layersDown, surchargeText, verticalStress } from './pressure.ts'
import { setOutDiameter } from './wall.ts'

/** A base that stands in clay. */
export interface HeaveCase {
  c_u: Answer<'Pa'>
  N_c: Answer<'1'>
  /** Depth and width of the cut. */
  H: Answer<'m'>
  B: Answer<'m'>
  sigma_v: Answer<'Pa'>
}

/** What the heave forms need; undefined where the base does not stand in clay. */
export function heaveCase(shaft: Shaft, ground: Ground): HeaveCase | undefined {
  const layers = layersDown(ground)
  const base = shaft.excavation.value as number
  const under = layers.find(({ is }) => (is.top.value as number) >= base && (is.bottom.value as number) < base)
  if (under?.is.undrained === undefined) return undefined
  const { is } = under
  const B = cutWidth(shaft)
  return {
    c_u: strengthAt.show({
      c_u: is.undrained as Answer<'Pa'>,
      g: is.undrainedGradient ?? stated('N/m3', 0, 'no rise with depth given'),
      top: is.top,
      z: shaft.excavation,
    }),
    N_c: skemptonCircle.show({ x: depthOverWidth.show({ top: ground.surface, base: shaft.excavation, B }) }),
    H: thicknessOf.show({ top: ground.surface, bottom: shaft.excavation }),
    B,
    sigma_v: verticalStress(layers, shaft.excavation, ground.surcharge),
  }
}

/**
 * Base heave where the base stands in clay; no check elsewhere. Practice 61.
 *
 * @param q pressure at the surface beside the shaft from what stands there
 */
export function heaveChecks(shaft: Shaft, ground: Ground, q: Answer<'Pa'>, near: number): Check[] {
  const base = heaveCase(shaft, ground)
  if (base === undefined) return []
  const { N_c, c_u, sigma_v } = base
  return [
    check({
      kind: kinds.baseHeave,
      subject: { pointer: '/shaft', id: 'base', name: 'Base of the excavation' },
      demand: factorOf(ground, 'heave'),
      capacity: bjerrumEide.show({ N_c, c_u, sigma_v, q }),
      near,
      assumptions: [
        surchargeText(ground),
        'Strength at the base, taken as the mean below it; surcharge spread over the ring of ground 0.7 B wide that would sink.',
        'Forms that count shear on the side of the sinking block give much more: the form is part of the result.',
        restingOn(ground, 'G1', 'G4', 'G5'),
      ],
      cautions: [SOIL],
    }),
  ]
}

/** Width of the cut inside the wall; the clear bore where the wall is not set out on a circle. */
export const cutWidth = (shaft: Shaft): Answer<'m'> =>
  shaft.wall.kind === 'secant piles' || (shaft.wall.kind === 'slurry panels' && shaft.wall.ringDiameter !== undefined)
    ? setOutDiameter(shaft)
    : shaft.clearDiameter
