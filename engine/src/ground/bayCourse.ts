import type { Bay, Ground, Model } from '../model/index.ts'
import { type Answer, found, knownOr, type Residual } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { layersDown } from './pressure.ts'
import { edgeSlope } from './settlement.formulas.ts'
import type { Moment } from './step.ts'
import { asPoints, bayPressing, forceOf, type Place, type Pressing, perNewton, pressingAt } from './trough.ts'
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
  /** Slope that what stands beside it brings, edge to edge, rad; asked for only while something stands on it. */
  lean: number | undefined
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
  const remembered = <T>(name: string, p: Pressing, key: string, work: () => T): T =>
    memory.once(`${name}/${id}/${key}`, [ground, bay, ...p.at, ...(p.size ?? []), p.level], work)
  const share = (p: Pressing, key: string): number | undefined =>
    remembered('ground-beside', p, key, () => perNewton(ground, p, place))
  const tips = (p: Pressing, key: string): Tips | undefined =>
    remembered('ground-tips', p, key, () => tipsPerNewton(ground, p, bay, place))
  // a bay stays where it is; a foot or a crane may stand elsewhere at the next step
  const keyOf = (p: Pressing, step: string, when: Moment): string => (p.id in bays ? p.id : `${step}/${when}/${p.id}`)
  return steps.flatMap(({ step, loads }) =>
    MOMENTS.map((when): BaySettled => {
      const all = pressingAt(model, loads, when)
      const standing = all.find((p) => p.id === id) ?? place
      const others = all
        .filter((p) => p.id !== id)
        .map((p) => {
          return { is: p, force: forceOf(p), share: share(p, keyOf(p, step, when)) }
        })
      const total = forceOf(standing)
      return {
        step,
        when,
        total,
        lean:
          total.value === 0 ? 0 : leanOf(others.map(({ is, force }) => [force.value, tips(is, keyOf(is, step, when))])),
        own: times(total.value, share(place, id)),
        beside: others.reduce<number | undefined>((sum, o) => plus(sum, times(o.force.value, o.share)), 0),
        others,
      }
    }),
  )
}

/** Slopes along x and y that one newton brings a bay, 1/N. */
type Tips = readonly [number, number]

/** The middles of the edges of a bay: ahead, behind, left, right. */
export const edgesOf = ({ centre, size }: Bay): readonly (readonly [number, number])[] => {
  const [x, y] = centre.map((c) => c.value as number) as [number, number]
  const [a, b] = size.map((c) => c.value as number) as [number, number]
  return [
    [x + a / 2, y],
    [x - a / 2, y],
    [x, y + b / 2],
    [x, y - b / 2],
  ]
}

function tipsPerNewton(ground: Ground, p: Pressing, bay: Bay, { level }: Place): Tips | undefined {
  const at = edgesOf(bay).map((edge) => perNewton(ground, p, { at: edge, level }))
  if (at.includes(undefined)) return undefined
  const [w1, w2, w3, w4] = at as [number, number, number, number]
  return [(w1 - w2) / (bay.size[0].value as number), (w3 - w4) / (bay.size[1].value as number)]
}

/** Slopes of all loads added up by their ways; undefined where one is not known. */
function leanOf(all: readonly (readonly [force: number | undefined, tips: Tips | undefined])[]): number | undefined {
  let [x, y] = [0, 0]
  for (const [force, tips] of all) {
    if (force === 0) continue
    if (force === undefined || tips === undefined) return undefined
    x += force * tips[0]
    y += force * tips[1]
  }
  return Math.hypot(x, y)
}

const times = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a * b
const plus = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a + b

/** From what stands on a bay and beside it together; undefined where either is. */
export const settledBy = ({ own, beside }: BaySettled): number | undefined => plus(own, beside)

/** The moment at which a bay has settled most, of those at which something stands on it; one of unknown settlement comes first. */
export const mostSettled = (course: readonly BaySettled[]): BaySettled | undefined => mostBy(course, settledBy)

/** The moment at which what stands beside a bay tips it most, of the same; one of unknown slope comes first. */
export const mostTipped = (course: readonly BaySettled[]): BaySettled | undefined => mostBy(course, ({ lean }) => lean)

function mostBy(course: readonly BaySettled[], of: (s: BaySettled) => number | undefined): BaySettled | undefined {
  const heft = (s: BaySettled): number => of(s) ?? Number.POSITIVE_INFINITY
  return course
    .filter(({ total }) => total.value !== 0)
    .reduce<BaySettled | undefined>((most, s) => (most === undefined || heft(s) > heft(most) ? s : most), undefined)
}

/** Of the whole: what cutting the loads into points changes at most, where a load reaches under the bay; beside it a tenth of that. */
const CUT = 0.1

/** A bay at the moment of which its checks tell; what a newton at a place does to it is kept while the place stays. */
export interface BayThen {
  ground: Ground
  id: string
  bay: Bay
  settled: BaySettled
  memory: Memory
}

/** By how much what stands beside a bay lowers its middle. */
export const besideAnswer = (then: BayThen): Answer<'m'> =>
  loweredAt(then, bayPressing(then.id, then.bay), 'the middle')

/** Slope that what stands beside a bay brings it, from the middles of its edges. */
export function besideSlope(then: BayThen): Answer<'rad'> {
  const { id, bay } = then
  const { level } = bayPressing(id, bay)
  const edges = edgesOf(bay)
  const w = (i: number): Answer<'m'> => loweredAt(then, { at: edges[i] as Place['at'], level }, EDGES[i] as string)
  return edgeSlope.show({ w_1: w(0), w_2: w(1), w_3: w(2), w_4: w(3), a: bay.size[0], b: bay.size[1] })
}

const EDGES = ['the edge ahead', 'the edge behind', 'the left edge', 'the right edge']

function loweredAt({ ground, id, settled, memory }: BayThen, place: Place, where: string): Answer<'m'> {
  const { others, step, when } = settled
  const both = others.map(({ is: p, force }) => {
    const from = [ground, ...place.at, place.level, ...p.at, ...(p.size ?? []), p.level]
    const each = memory.once(`ground-lowered/${id}/${where}/${p.id}`, from, () => ({
      whole: perNewton(ground, p, place),
      points: asPoints(ground, p, place) ?? 0,
    }))
    return { whole: times(force.value, each.whole), points: times(force.value, each.points) }
  })
  const value = both.reduce<number | undefined>((sum, { whole }) => plus(sum, whole), 0)
  const points = both.reduce<number | undefined>((sum, each) => plus(sum, each.points), 0)
  const residual: Residual = {
    title: 'the same with each load cut into points, by the displacement of a point load (Boussinesq)',
    value: (points ?? 0) - (value ?? 0),
    unit: 'm',
    tolerance: CUT * Math.abs(value ?? 0),
  }
  return found({
    unit: 'm',
    value,
    method: `each load beside the bay by itself: corners of rectangles under ${where} of the bay added and taken off, layer by layer; then the sum`,
    inputs: { ...forcesOf(others), ...stiffnessOf(ground, place.level) },
    residuals: value === undefined ? [] : [residual],
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
