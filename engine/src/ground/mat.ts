import type { Ground, System } from '../model/index.ts'
import { type Answer, knownOr, largestOf, stated, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { type CraneCase, cranePressure } from './crane.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { equivalentLoad, matBending, matShear } from './pad.formulas.ts'

/** A mat as a beam under what stands on it. */
interface Mat {
  /** Length that bends, across a track or along a mat of a float; the width of it that is looked at. */
  L: Answer<'m'>
  B: Answer<'m'>
  /** Width of the track or float. */
  C: Answer<'m'>
}

/** One metre of the mats under a track, across it; the mat of a float. Undefined where the crane stands on none. */
function matOf({ id, system: { tracks, outriggers } }: CraneCase): Mat | undefined {
  const across = tracks?.mat?.[1]
  if (tracks !== undefined && across !== undefined)
    return { L: across, B: stated('m', 1, 'one metre along the track'), C: tracks.width }
  if (outriggers === undefined) return undefined
  const [L, B] = outriggers.mat
  return { L, B, C: knownOr(outriggers.float, 'm', pointerOf('systems', id, 'outriggers', 'float')) }
}

/**
 * Bending and shear of the mats of a crane beyond what stands on them, under the largest pressure of all its lifts. The pressure under
 * mats counts their whole size: this says whether they can bear over it. Practice 49.
 */
export function matChecks(cranes: readonly CraneCase[], ground: Ground | undefined, near: number): Check[] {
  const [first] = cranes
  const mat = first && matOf(first)
  if (first === undefined || mat === undefined) return []
  const { id, system } = first
  const q = largestOf(
    'largest pressure under the mats over the lifts',
    'Pa',
    cranes.map((c): Term<'Pa'> => ({ label: c.lift, answer: cranePressure(c) })),
  )
  const beam = { P: equivalentLoad.show({ q, B: mat.B, L: mat.L }), ...mat, d: givenOf(id, system, 'thickness', 'm') }
  const shared = {
    kind: kinds.craneMat,
    subject: { pointer: pointerOf('systems', id), id, name: system.name },
    near,
    assumptions: [
      'The whole mat bears evenly and bends beyond the track or float; its own weight neither helps nor harms; bolts, joints and wear are not in it.',
      restingOn(ground, 'G6'),
    ],
    cautions: [SOIL, 'Mats are looked at before they are laid: a split or soft one is taken out.'],
  }
  return [
    check({
      ...shared,
      of: 'bending',
      title: `${kinds.craneMat.title}: bending, ${id}`,
      demand: matBending.show(beam),
      capacity: givenOf(id, system, 'bending', 'Pa'),
    }),
    check({
      ...shared,
      of: 'shear',
      title: `${kinds.craneMat.title}: shear, ${id}`,
      demand: matShear.show(beam),
      capacity: givenOf(id, system, 'shear', 'Pa'),
    }),
  ]
}

const givenOf = <U extends 'm' | 'Pa'>(
  id: string,
  { mats }: System,
  field: U extends 'm' ? 'thickness' : 'bending' | 'shear',
  unit: U,
): Answer<U> => knownOr(mats?.[field] as Answer<U> | undefined, unit, pointerOf('systems', id, 'mats', field))
