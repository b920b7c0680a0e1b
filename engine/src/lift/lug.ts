import type { Piece } from '../model/index.ts'
import { type Answer, knownOr, leastOf, stated, sumOf, type Term } from '../working/answer.ts'
import {
  clearEdge,
  doubleShear,
  edgeFracture,
  edgeLoss,
  effectiveWidth,
  netTension,
  pinBearing,
  pinClearanceFactor,
} from './lug.formulas.ts'

export type Lug = NonNullable<Piece['points'][string]['lug']>

/** Design category B: ordinary uncertainty of loads. The engineer of the lifting gear decides. */
export const DESIGN_FACTOR = stated('1', 3, 'ASME BTH-1 3-1.3, design category B: N_d = 3.00 (from memory)')

/**
 * Allowable loads of a round lug by its limit states. The main plate alone carries tension, splitting and shear; cheeks share
 * in bearing only: the cautious side where their outline is not given.
 *
 * @param pointer of the lug in the file
 * @param pin that goes through it; absent, the one the lug was made for
 */
export function lugCapacities(lug: Lug, pointer: string, pin: Answer<'m'> = lug.pin): Term<'N'>[] {
  const N_d = DESIGN_FACTOR
  const [t, D_h, R, F_y] = [lug.plate, lug.hole, lug.radius, lug.yield]
  const F_u = knownOr(lug.ultimate, 'Pa', `${pointer}/ultimate`)
  const a = clearEdge.show({ R, D_h })
  const C_r = pinClearanceFactor.show({ D_p: pin, D_h })
  const b_eff = effectiveWidth.show({ b_e: a, t, D_h, F_y, F_u })
  const Z = edgeLoss.show({ r: R, D_p: pin, D_h })
  return [
    { label: 'tension through the hole', answer: netTension.show({ C_r, F_u, N_d, t, b_eff }) },
    { label: 'fracture beyond the hole', answer: edgeFracture.show({ C_r, F_u, N_d, R, D_h, b_e: a, t }) },
    { label: 'shear on two planes', answer: doubleShear.show({ F_u, N_d, a, D_p: pin, D_h, Z, t }) },
    { label: 'bearing of the pin', answer: pinBearing.show({ F_y, N_d, D_p: pin, t: bearingPlate(lug) }) },
  ]
}

const bearingPlate = ({ plate, cheeks }: Lug): Answer<'m'> =>
  cheeks === undefined
    ? plate
    : sumOf('Plate in bearing', 'm', [
        { label: 'main plate', answer: plate },
        { label: 'cheeks', answer: cheeks },
      ])

/** The least of them. */
export const lugCapacity = (terms: readonly Term<'N'>[]): Answer<'N'> =>
  leastOf('Allowable load of the lug', 'N', terms)
