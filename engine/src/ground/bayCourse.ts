import type { Bay, Ground, Model } from '../model/index.ts'
import { type Answer, found, knownOr, type Residual } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { layersDown } from './pressure.ts'
import type { Moment } from './step.ts'
import { asPoints, bayPressing, forceOf, type Pressing, perNewton, pressingAt } from './trough.ts'
import type { StepLoads } from './wallLoad.ts'

/** A bay at one moment of a step. Settlements in m, downwards, at its middle; undefined where something under them is not known. */
export interface BaySettled {
  step: string
  when: Moment
  /** What stands on it. */
  total: Answer<'N'>
  /** From what stands on it, and from what stands beside it. */
  own: number | undefined
  beside: number | undefined
  others: readonly { is: Pressing; force: Answer<'N'>; share: number | undefined }[]
}

const MOMENTS: readonly Moment[] = ['lifting', 'set down']

/**
 * Settlement of one bay at both moments of every step, elastic: it comes and goes with what stands there.
 *
 * What one newton at a place does to the bay is kept while the place stays.
 */
export function bayCourse(model: Model, id: string, steps: readonly StepLoads[], memory: Memory): BaySettled[] {
  const { bays, ground } = model.project
  const bay = bays[id]
  if (bay === undefined || ground === undefined) return []
  const place = bayPressing(id, bay)
  const share = (p: Pressing, key: string): number | undefined =>
    memory.once(`ground-beside/${id}/${key}`, [ground, bay, ...p.at, ...(p.size ?? []), p.level], () =>
      perNewton(ground, p, place),
    )
  return steps.flatMap(({ step, loads }) =>
    MOMENTS.map((when): BaySettled => {
      const all = pressingAt(model, loads, when)
      const standing = all.find((p) => p.id === id) ?? place
      const others = all
        .filter((p) => p.id !== id)
        .map((p) => {
          const key = p.id in bays ? p.id : `${step}/${when}/${p.id}`
          return { is: p, force: forceOf(p), share: share(p, key) }
        })
      return {
        step,
        when,
        total: forceOf(standing),
        own: times(forceOf(standing).value, share(place, id)),
        beside: others.reduce<number | undefined>((sum, o) => plus(sum, times(o.force.value, o.share)), 0),
        others,
      }
    }),
  )
}

const times = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a * b
const plus = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a + b

/** From what stands on a bay and beside it together; undefined where either is. */
export const settledBy = ({ own, beside }: BaySettled): number | undefined => plus(own, beside)

/** The moment at which a bay has settled most, of those at which something stands on it; one of unknown settlement comes first. */
export function mostSettled(course: readonly BaySettled[]): BaySettled | undefined {
  const heft = (s: BaySettled): number => settledBy(s) ?? Number.POSITIVE_INFINITY
  return course
    .filter(({ total }) => total.value !== 0)
    .reduce<BaySettled | undefined>((most, s) => (most === undefined || heft(s) > heft(most) ? s : most), undefined)
}

/** Of the whole: what cutting the loads into points changes at most, where a load reaches under the bay; beside it a tenth of that. */
const CUT = 0.1

/** By how much what stands beside a bay lowers its middle. */
export function besideAnswer(ground: Ground, { id, bay }: { id: string; bay: Bay }, settled: BaySettled): Answer<'m'> {
  const { beside, others, step, when } = settled
  const place = bayPressing(id, bay)
  const points = others.reduce((sum, { is, force }) => sum + (force.value ?? 0) * (asPoints(ground, is, place) ?? 0), 0)
  const residual: Residual = {
    title: 'the same with each load cut into points, by the displacement of a point load (Boussinesq)',
    value: points - (beside ?? 0),
    unit: 'm',
    tolerance: CUT * (beside ?? 0),
  }
  return found({
    unit: 'm',
    value: beside,
    method:
      'each load beside the bay by itself: corners of rectangles under the middle of the bay added and taken off, layer by layer; then the sum',
    inputs: { ...forcesOf(others), ...stiffnessOf(ground, place.level) },
    residuals: beside === undefined ? [] : [residual],
    note: `after ${step}, ${when}`,
  })
}

/** By what they are; alike ones numbered. */
function forcesOf(others: BaySettled['others']): Record<string, Answer> {
  const forces: Record<string, Answer> = {}
  for (const { is, force } of others) forces[is.what in forces ? `${is.what}, ${is.id}` : is.what] = force
  return forces
}

/** What the layers below a level are stiff by. */
function stiffnessOf(ground: Ground, level: number): Record<string, Answer> {
  const below = layersDown(ground).filter(({ is }) => (is.bottom.value as number) < level)
  return Object.fromEntries(
    below.flatMap(({ id, is }): [string, Answer][] => {
      const at = (field: string) => pointerOf('ground', 'layers', id, field)
      return [
        [`${id}, modulus`, knownOr(is.young, 'Pa', at('young'))],
        [`${id}, Poisson's ratio`, knownOr(is.poisson, '1', at('poisson'))],
      ]
    }),
  )
}
