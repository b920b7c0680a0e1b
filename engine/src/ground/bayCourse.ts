import type { Bay, Ground, Model } from '../model/index.ts'
import { type Answer, found, knownOr, type Residual } from '../working/answer.ts'
import { type Memory, sameItems } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { momentText } from './moment.ts'
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
  others: readonly Beside[]
}

/** Something beside a bay, with what one newton of it does there, m/N. */
interface Beside {
  is: Pressing
  force: Answer<'N'>
  /** At the middle of the bay. */
  share: number | undefined
  /** At the middles of its edges; asked for only while something stands on it. */
  edges: Edges | undefined
}

/** Ahead, behind, left, right. */
type Edges = readonly [number, number, number, number]

const MOMENTS: readonly Moment[] = ['lifting', 'set down']

/** What presses on the ground outside the shaft at one moment of a step, each with all that it presses with. */
export interface PressingThen {
  step: string
  when: Moment
  all: readonly { is: Pressing; force: Answer<'N'> }[]
}

/**
 * What presses at both moments of every step: the same objects while nothing that stands there has changed.
 *
 * @param steps as `outsideAt` gives them
 */
export function pressingInOrder(model: Model, steps: readonly StepLoads[], memory: Memory): PressingThen[] {
  const { bays, systems } = model.project
  return steps.flatMap((standing) => {
    const { step, loads } = standing
    return memory.once(`ground-pressing/${step}`, [systems, standing, ...loads.map((l) => bays[l.on])], () =>
      MOMENTS.map((when): PressingThen => {
        const all = pressingAt(model, loads, when).map((is) => ({ is, force: forceOf(is) }))
        return { step, when, all }
      }),
    )
  })
}

/**
 * Settlement of one bay at both moments of every step, elastic: it comes and goes with what stands there.
 *
 * A moment is worked again for a bay when the bay, the ground or something that presses then has changed; what one newton at a place
 * does to the bay is kept while neither moves.
 */
export function bayCourse(model: Model, id: string, inOrder: readonly PressingThen[], memory: Memory): BaySettled[] {
  const { bays, ground } = model.project
  const bay = bays[id]
  if (bay === undefined || ground === undefined) return []
  const c: CourseCase = {
    ground,
    id,
    bay,
    place: bayPressing(id, bay),
    memory,
    middles: memory.once(`ground-middles/${id}`, [ground, bay], () => new Map()),
    edges: memory.once(`ground-edge-places/${id}`, [ground, bay], () => new Map()),
  }
  return memory.once(`ground-course/${id}`, [ground, bay, ...inOrder], () =>
    inOrder.map((then) =>
      memory.once(`ground-settled/${id}/${then.step}/${then.when}`, [ground, bay, then], () => settledAt(c, then)),
    ),
  )
}

/** Moments at which something stands on a bay: its checks ask for no others. */
export const whileLoaded = (inOrder: readonly PressingThen[], bay: string): PressingThen[] =>
  inOrder.filter(({ all }) => all.some(({ is, force }) => is.id === bay && force.value !== 0))

interface CourseCase {
  ground: Ground
  id: string
  bay: Bay
  /** The bay with nothing on it. */
  place: Pressing
  memory: Memory
  /** Of what stands at one place at many steps, and after other edits, each worked once; by what it is. */
  middles: Map<string, AtPlace<number | undefined>[]>
  edges: Map<string, AtPlace<Edges | undefined>[]>
}

/** What was worked for something at a place: where it is, how large, and how high. */
interface AtPlace<T> {
  at: readonly number[]
  value: T
}

function settledAt(c: CourseCase, then: PressingThen): BaySettled {
  const { id, place } = c
  const { step, when, all } = then
  const total = all.find(({ is }) => is.id === id)?.force ?? forceOf(place)
  const isLoaded = total.value !== 0
  const others = all
    .filter(({ is }) => is.id !== id)
    .map(({ is, force }): Beside => {
      const share = middleOf(c, is)
      return { is, force, share, edges: isLoaded && share !== undefined ? edgesUnder(c, is) : undefined }
    })
  return {
    step,
    when,
    total,
    lean: isLoaded ? leanOf(others, c.bay) : 0,
    own: times(total.value, middleOf(c, place)),
    beside: others.reduce<number | undefined>((sum, o) => plus(sum, times(o.force.value, o.share)), 0),
    others,
  }
}

/** What a newton of something does to the middle of the bay. */
const middleOf = (c: CourseCase, p: Pressing): number | undefined =>
  whileNeitherMoves(c, c.middles, `ground-beside/${c.id}/${p.id}`, p, () => perNewton(c.ground, p, c.place))

/** What it does to the middles of its edges; undefined where that of one is not known. */
const edgesUnder = (c: CourseCase, p: Pressing): Edges | undefined =>
  whileNeitherMoves(c, c.edges, `ground-edges/${c.id}/${p.id}`, p, () => {
    const edges = edgesOf(c.bay).map((at) => perNewton(c.ground, p, { at, level: c.place.level }))
    return edges.includes(undefined) ? undefined : (edges as unknown as Edges)
  })

/** Places of one thing that are remembered: a foot stands elsewhere at the next step, a bay where it was moved to. */
const MOST_PLACES = 64

/** Worked once while neither the bay nor what presses moves. */
function whileNeitherMoves<T>(
  c: CourseCase,
  known: Map<string, AtPlace<T>[]>,
  key: string,
  p: Pressing,
  work: () => T,
): T {
  const at = [...p.at, ...(p.size ?? []), p.turn ?? 0, p.level]
  const before = known.get(p.id) ?? []
  const there = before.find((one) => sameItems(one.at, at))
  if (there !== undefined) return there.value
  const value = c.memory.once(key, [c.ground, c.bay, ...at], work)
  known.set(p.id, [...before.slice(1 - MOST_PLACES), { at, value }])
  return value
}

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

/** Slopes of all loads added up by their ways; undefined where one is not known. */
function leanOf(others: readonly Beside[], { size }: Bay): number | undefined {
  let [x, y] = [0, 0]
  for (const { force, edges } of others) {
    if (force.value === 0) continue
    if (force.value === undefined || edges === undefined) return undefined
    const [ahead, behind, left, right] = edges
    x += (force.value * (ahead - behind)) / (size[0].value as number)
    y += (force.value * (left - right)) / (size[1].value as number)
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
  loweredAt(then, bayPressing(then.id, then.bay), 'the middle', ({ share }) => share)

/** Slope that what stands beside a bay brings it, from the middles of its edges. */
export function besideSlope(then: BayThen): Answer<'rad'> {
  const { id, bay } = then
  const { level } = bayPressing(id, bay)
  const edges = edgesOf(bay)
  const w = (i: number): Answer<'m'> =>
    loweredAt(then, { at: edges[i] as Place['at'], level }, EDGES[i] as string, (other) => other.edges?.[i])
  return edgeSlope.show({ w_1: w(0), w_2: w(1), w_3: w(2), w_4: w(3), a: bay.size[0], b: bay.size[1] })
}

const EDGES = ['the edge ahead', 'the edge behind', 'the left edge', 'the right edge']

function loweredAt(
  { ground, id, settled, memory }: BayThen,
  place: Place,
  where: string,
  shareOf: (other: Beside) => number | undefined,
): Answer<'m'> {
  const { others, step, when } = settled
  const value = others.reduce<number | undefined>((sum, o) => plus(sum, times(o.force.value, shareOf(o))), 0)
  const points = others.reduce((sum, { is: p, force }) => {
    const from = [ground, ...place.at, place.level, ...p.at, ...(p.size ?? []), p.turn ?? 0, p.level]
    const each = memory.once(`ground-points/${id}/${where}/${p.id}`, from, () => asPoints(ground, p, place) ?? 0)
    return sum + (force.value ?? 0) * each
  }, 0)
  const residual: Residual = {
    title: 'the same with each load cut into points, by the displacement of a point load (Boussinesq)',
    value: points - (value ?? 0),
    unit: 'm',
    tolerance: CUT * Math.abs(value ?? 0),
  }
  return found({
    unit: 'm',
    value,
    method: `each load beside the bay by itself: corners of rectangles under ${where} of the bay added and taken off, layer by layer; then the sum`,
    inputs: { ...forcesOf(others), ...stiffnessOf(ground, place.level) },
    residuals: value === undefined ? [] : [residual],
    note: momentText(step, when),
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
