import type { Piece } from '../model/index.ts'
import { type Answer, knownOr, largestOf, leastOf, sumOf, type Term } from '../working/answer.ts'
import { leastThat, millimetresUp } from './cure.ts'
import {
  clearEdge,
  doubleShear,
  edgeFracture,
  edgeLoss,
  effectiveWidth,
  netTension,
  pinBearing,
  pinClearanceFactor,
  pinPlateBearing,
  pinPlateByGeometry,
  pinPlateByThickness,
} from './lug.formulas.ts'
import { DESIGN_FACTOR, GAMMA_M0, GAMMA_M6, LOAD_FACTOR } from './structure.ts'

export type Lug = NonNullable<Piece['points'][string]['lug']>

/**
 * Allowable loads of a round lug by two methods, each limit named with its own. The main plate alone carries tension,
 * splitting and shear; cheeks share in bearing only: the cautious side where their outline is not given.
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
  const bth = 'ASME BTH-1'
  return [
    { label: `tension through the hole, ${bth}`, answer: netTension.show({ C_r, F_u, N_d, t, b_eff }) },
    { label: `fracture beyond the hole, ${bth}`, answer: edgeFracture.show({ C_r, F_u, N_d, R, D_h, b_e: a, t }) },
    { label: `shear on two planes, ${bth}`, answer: doubleShear.show({ F_u, N_d, a, D_p: pin, D_h, Z, t }) },
    { label: `bearing of the pin, ${bth}`, answer: pinBearing.show({ F_y, N_d, D_p: pin, t: bearingPlate(lug) }) },
    ...pinPlateTerms(lug, a, pin),
  ]
}

/** The same plate as a pin plate: its edges or, where it has the proportions for it, its thickness; and its bearing. */
function pinPlateTerms(lug: Lug, a: Answer<'m'>, pin: Answer<'m'>): Term<'N'>[] {
  const [t, d_0, f_y] = [lug.plate, lug.hole, lug.yield]
  const factors = { gamma_M0: GAMMA_M0, gamma_F: LOAD_FACTOR }
  const shape = largestOf('Pin plate by the better of two rules', 'N', [
    { label: 'edges, type A', answer: pinPlateByThickness.show({ a, c: a, d_0, t, f_y, ...factors }) },
    { label: 'thickness, type B', answer: pinPlateByGeometry.show({ R: lug.radius, d_0, t, f_y, ...factors }) },
  ])
  const bearing = pinPlateBearing.show({ t: bearingPlate(lug), d: pin, f_y, gamma_M6: GAMMA_M6, ...factors })
  return [
    { label: 'plate round the hole, EN 1993-1-8', answer: shape },
    { label: 'bearing of the pin, EN 1993-1-8', answer: bearing },
  ]
}

/** What would mend a lug that does not bear its pull: the least plate with this hole, or the least edge with this plate. */
export function lugCure(lug: Lug, pointer: string, pull: number, pin?: Answer<'m'>): string[] {
  const bears = (changed: Lug): boolean => (lugCapacity(lugCapacities(changed, pointer, pin)).value ?? 0) >= pull
  const plate = leastThat((k) => bears({ ...lug, plate: scaled(lug.plate, k) }))
  const edge = leastThat((k) => bears({ ...lug, radius: scaled(lug.radius, k) }))
  return [
    ...(plate === undefined ? [] : [`a plate of at least ${millimetresUp(lug.plate, plate)} would bear it`]),
    ...(edge === undefined ? [] : [`an edge ${millimetresUp(lug.radius, edge)} from the centre would bear it`]),
    ...(plate === undefined && edge === undefined ? [`neither a thicker plate nor a wider edge alone bears it`] : []),
  ]
}

/** A length so many times as large. */
export const scaled = (length: Lug['plate'], k: number): Lug['plate'] => ({
  ...length,
  value: (length.value as number) * k,
})

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
