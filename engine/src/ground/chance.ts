import { surveyedElements } from '../model/index.ts'
import { normalCdf, normalDensity } from '../numeric/statistics.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { apartSpread } from './chance.formulas.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { overlap, spacing } from './overlap.formulas.ts'
import type { RingCase } from './ring.ts'

/** Chance that one joint stands open, and that any of n does, joints taken as independent: a margin that is normal about its mean falls below zero. */
export function openChances(margin: number, spread: number, joints: number): { one: number; any: number } {
  const one = normalCdf(-margin / spread)
  return { one, any: -Math.expm1(joints * Math.log1p(-one)) }
}

/** Chance that any joint stands open. */
export function anyOpen<U extends 'm' | 'N'>(margin: Answer<U>, spread: Answer<U>, joints: Answer<'1'>): Answer<'1'> {
  const [m, s, n] = [margin.value, spread.value, joints.value]
  const known = m !== undefined && s !== undefined && n !== undefined
  const chance = known ? openChances(m, s, n) : undefined
  return found({
    unit: '1',
    value: chance?.any,
    method:
      'margin normal about its mean; chance p of one joint that it falls below zero; 1 − (1 − p)ⁿ, joints taken as independent',
    inputs: { margin, 'standard deviation': spread, joints },
    residuals:
      chance === undefined
        ? []
        : [
            {
              title: 'chance of one joint less the same by the area under the density (Simpson)',
              value: chance.one - below(-(m as number) / (s as number)),
              unit: '1',
              tolerance: 1e-9,
            },
          ],
    ...(chance === undefined ? {} : { note: `of one joint ${(100 * chance.one).toPrecision(3)} %` }),
  })
}

/** Beyond so many standard deviations nothing is left that could be seen. */
const FAR = 9
const STEPS = 400

/** Φ(x) by Simpson's rule from the middle. */
function below(x: number): number {
  const to = Math.max(-FAR, Math.min(FAR, x))
  const h = to / STEPS
  const sum = Array.from({ length: STEPS + 1 }, (_, i) => {
    const weight = i === 0 || i === STEPS ? 1 : i % 2 === 0 ? 2 : 4
    return weight * normalDensity(i * h)
  }).reduce((a, b) => a + b, 0)
  return 0.5 + (sum * h) / 3
}

/** Chance that a joint of secant piles stands open at the toe; gone once every pile is surveyed. Practice 58. */
export function overlapChanceChecks({ shaft, ring, ground, near }: RingCase): Check[] {
  const { wall } = shaft
  if (wall.kind !== 'secant piles' || surveyedElements(shaft) !== undefined) return []
  const at = (...path: string[]): string => pointerOf('shaft', 'wall', ...path)
  const n = given('1', at('piles'), wall.piles)
  const D = knownOr(wall.pileDiameter, 'm', at('pileDiameter'))
  const s = spacing.show({ D_r: knownOr(wall.ringDiameter, 'm', at('ringDiameter')), n })
  const spread = apartSpread.show({
    d: ring.deviationAt(wall.toe),
    k: knownOr(wall.openJoint?.deviations, '1', at('openJoint', 'deviations')),
  })
  return [
    check({
      kind: kinds.overlapChance,
      subject: { pointer: '/shaft/wall', id: 'wall', name: 'Shaft wall' },
      demand: anyOpen(overlap.show({ D, s }), spread, n),
      capacity: knownOr(wall.openJoint?.accepted, '1', at('openJoint', 'accepted')),
      near,
      assumptions: [
        'Deviations of a pile along the wall normal about its place, as independent of its neighbour’s as joints are of each other; a tolerance is no limit that nothing passes.',
        restingOn(ground, 'G7'),
      ],
      cautions: [
        SOIL,
        'A chance is a reason to measure: the survey of every pile replaces it, and each joint below its overlap is grouted before it is dug to.',
      ],
    }),
  ]
}
