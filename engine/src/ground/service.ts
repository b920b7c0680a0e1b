import type { Ground, Model, Utility } from '../model/index.ts'
import { turned } from '../numeric/plan.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { momentText } from './moment.ts'
import type { GroundLoad, Moment } from './step.ts'
import { cornerVertical, pointVertical } from './surcharge.formulas.ts'
import { placeKey, type StepLoads } from './wallLoad.ts'

type Plan = readonly [number, number]

const PLACE = 'Where it lies is found on the ground before anything heavy stands above it.'

/** Along a line, m: far less than what stands on the ground is wide. */
const EVERY = 2

/**
 * Rise of the vertical stress at each buried service or void, from everything that stands above it at one step, largest over the
 * steps and along it. What carries its load deeper than the service, such as a leg on long piles, does not press on it.
 *
 * @param steps as `outsideAt` gives them
 */
export function serviceChecks({ project, near }: Model, steps: readonly StepLoads[], memory: Memory): Check[] {
  return Object.entries(project.utilities).flatMap(([id, u]) => {
    const axis = u.axis?.value
    const places = placesOf(u)
    if (steps.length === 0 || (axis === undefined && u.allowable === undefined)) return []
    if (axis === undefined || places.length === 0) return [unplaced(id, u, near, project.ground)]
    const worst = worstOf(id, u, axis, places, steps, memory)
    return [
      memory.once(`ground-service-check/${id}`, [u, worst, project.ground, near], () => {
        const pointer = pointerOf('utilities', id)
        return check({
          kind: kinds.serviceStress,
          subject: { pointer, id, name: u.what },
          title: `${kinds.serviceStress.title}: ${u.what}, ${momentText(worst.step, worst.when)}`,
          demand: worst.stress,
          capacity: knownOr(u.allowable, 'Pa', `${pointer}/allowable`),
          near,
          assumptions: [
            'Elastic ground without the service in it; at its axis; what its owner allows is its owner’s decision.',
            restingOn(project.ground, 'G6', 'G9'),
          ],
          cautions: [SOIL, PLACE],
        })
      }),
    ]
  })
}

/** A service that somebody limits the load on, or that lies at a level, and of which half of its place is missing. */
function unplaced(id: string, u: Utility, near: number, ground: Ground | undefined): Check {
  const pointer = pointerOf('utilities', id)
  const missing = u.axis === undefined ? 'axis' : 'line'
  return check({
    kind: kinds.serviceStress,
    subject: { pointer, id, name: u.what },
    title: `${kinds.serviceStress.title}: ${u.what}`,
    demand: given('Pa', `${pointer}/${missing}`, undefined),
    capacity: knownOr(u.allowable, 'Pa', `${pointer}/allowable`),
    near,
    assumptions: [restingOn(ground, 'G6', 'G9')],
    cautions: [SOIL, PLACE],
  })
}

/** Points along a line, or the one place. */
function placesOf({ line = [], at }: Utility): Plan[] {
  const corners = (at === undefined ? line : [at]).map(([x, y]): Plan => [x.value as number, y.value as number])
  return corners.flatMap((a, i) => {
    const b = corners[i + 1]
    if (b === undefined) return [a]
    const n = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / EVERY))
    return Array.from({ length: n }, (_, k): Plan => [a[0] + ((b[0] - a[0]) * k) / n, a[1] + ((b[1] - a[1]) * k) / n])
  })
}

interface Worst {
  step: string
  when: Moment
  stress: Answer<'Pa'>
}

const MOMENTS: readonly Moment[] = ['lifting', 'set down']

function worstOf(
  id: string,
  u: Utility,
  axis: number,
  places: readonly Plan[],
  steps: readonly StepLoads[],
  memory: Memory,
): Worst {
  // most stand in one place over many steps: the stress of one newton there is worked once, and kept while neither moves
  const unit = (load: GroundLoad, step: string): Float64Array =>
    memory.once(`ground-service-unit/${id}/${placeKey(load, step)}`, [u, ...load.at, ...load.size, load.turn], () =>
      Float64Array.from(places, (place) => stressOf(load, place, axis)),
    )
  const cases = steps.flatMap((standing) =>
    memory.once(`ground-service/${id}/${standing.step}`, [u, standing], () => {
      const { step, loads } = standing
      const above = loads.filter((l) => l.at[2] > axis)
      return MOMENTS.map((when): Worst => {
        const then = above.filter((l) => l.when.includes(when))
        const fields = then.map((load) => unit(load, step))
        return { step, when, stress: stressAnswer(then, u, largest(then, fields, places.length)) }
      })
    }),
  )
  const value = ({ stress }: Worst): number => stress.value ?? Number.POSITIVE_INFINITY
  return cases.reduce((a, b) => (value(b) > value(a) ? b : a))
}

function largest(loads: readonly GroundLoad[], fields: readonly Float64Array[], points: number): number {
  const total = new Float64Array(points)
  for (const [k, load] of loads.entries()) {
    const field = fields[k] as Float64Array
    for (let i = 0; i < points; i++) total[i] = (total[i] as number) + (load.force.value ?? 0) * (field[i] as number)
  }
  return Math.max(...total)
}

function stressAnswer(loads: readonly GroundLoad[], u: Utility, value: number): Answer<'Pa'> {
  const corners = (u.line ?? (u.at === undefined ? [] : [u.at])).flat()
  return found({
    unit: 'Pa',
    value: loads.some((l) => l.force.value === undefined) ? undefined : value,
    method:
      'Boussinesq: corners of each footprint (Newmark), point loads where there is none; largest along the service',
    inputs: {
      axis: u.axis as Answer<'m'>,
      ...Object.fromEntries(corners.map((c, i) => [`place ${i}`, c])),
      ...Object.fromEntries(loads.map((l) => [`${l.what}, ${l.id}`, l.force])),
    },
    residuals: [],
  })
}

/** Vertical stress of one newton of a load at a place, Pa/N. */
function stressOf({ at, size: [b, l], turn = 0 }: GroundLoad, [x, y]: Plan, axis: number): number {
  const z = at[2] - axis
  const [dx, dy] = turned([x - at[0], y - at[1]], -turn)
  if (b === 0 || l === 0) return pointVertical.value({ Q: 1, r: Math.hypot(dx, dy), z })
  const q = 1 / (b * l)
  const corner = (B: number, L: number): number => cornerVertical.value({ q, B, L, z })
  // each corner seen from the point, with its sign: odd in both sides
  return (
    corner(dx + b / 2, dy + l / 2) -
    corner(dx - b / 2, dy + l / 2) -
    corner(dx + b / 2, dy - l / 2) +
    corner(dx - b / 2, dy - l / 2)
  )
}
