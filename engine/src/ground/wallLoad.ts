import type { Ground, Shaft } from '../model/index.ts'
import { turned } from '../numeric/plan.ts'
import { type Answer, found, knownOr, largestOf, stated, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { RING, SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import { ringArea } from './heave.formulas.ts'
import { cutWidth } from './heave.ts'
import * as kinds from './kinds.ts'
import { AS_IT_STANDS, momentText } from './moment.ts'
import { meanPressure } from './pad.formulas.ts'
import { unequal } from './ring.formulas.ts'
import type { GroundLoad, Moment } from './step.ts'
import {
  type FieldPeak,
  finerAt,
  peakAnswer,
  peakOf,
  pressureField,
  type SurfaceLoad,
  together,
  type WallGrid,
  wallGrid,
} from './surcharge.ts'
import type { WallRing } from './wall.ts'

/** Loads of one step, by its id. */
export interface StepLoads {
  step: string
  loads: readonly GroundLoad[]
}

/** What the loads of one step do to the wall, at the worse of lifting and set down. */
export interface WallLoad {
  when: Moment
  pressure: Answer<'Pa'>
  peak: FieldPeak
  /** Moment that the one-sided part would put into a ring that the ground does not help, per metre of depth: a bound. */
  freeMoment: Answer<'N'>
}

const MOMENTS: readonly Moment[] = ['lifting', 'set down']

/** Loads in the shaft do not press on wall and ground from outside; a load whose force is unknown is carried along as unknown. */
export const outside = (load: GroundLoad): boolean => load.kind !== 'machine'

/** All that a load is worked and named from. */
const identityOf = (l: GroundLoad): unknown[] => [
  ...[l.id, l.what, l.kind, l.force, ...l.at, ...l.size, l.turn],
  ...[l.on, l.pointer, l.when.length, l.when[0]],
]

/** What stands outside the shaft at a step: the very same list while nothing of it has changed, so that what hangs from it is left alone. */
export function outsideAt({ step, loads }: StepLoads, memory: Memory): StepLoads {
  const standing = loads.filter(outside)
  return memory.once(`ground-outside/${step}`, standing.flatMap(identityOf), () => ({ step, loads: standing }))
}

/**
 * Pressure of everything that stands around the shaft at one step; undefined where nothing does.
 *
 * @param standing as `outsideAt` gives it
 */
export function wallLoadOf(shaft: Shaft, ring: WallRing, standing: StepLoads, memory: Memory): WallLoad | undefined {
  const radius = ring.outerRadius.value
  const { step, loads } = standing
  if (radius === undefined || loads.length === 0) return undefined
  const [collar, base] = [shaft.collar.value as number, shaft.excavation.value as number]
  const grid = memory.once('ground-grid', [radius, collar, base], () => wallGrid(radius, collar, base))
  return memory.once(`ground-wall-load/${step}`, [grid, ring.outerRadius, standing], () => {
    const cases = MOMENTS.flatMap((when) => {
      const then = loads.filter((l) => l.when.includes(when))
      return then.length === 0 ? [] : [{ when, then, peak: peakOf(grid, fieldOf(grid, then, memory, step)) }]
    })
    const unknown = cases.find(({ then }) => then.some((l) => l.force.value === undefined))
    const worst = unknown ?? cases.reduce((a, b) => (b.peak.pressure > a.peak.pressure ? b : a))
    const named = worst.then.map((l) => ({
      label: `${l.what}, ${l.id}`,
      force: l.force,
      finer: finerOf(grid, l, worst.peak, memory, step),
    }))
    const pressure = peakAnswer(named, ring.outerRadius, worst.peak)
    return { when: worst.when, pressure, peak: worst.peak, freeMoment: freeMoment(ring, pressure, worst.peak) }
  })
}

/** While the radius of the wall is not known, what presses on it is not: open, never nothing. */
export const unknownWallLoad = (ring: WallRing): Pick<WallLoad, 'when' | 'pressure'> => ({
  when: 'lifting',
  pressure: found({
    unit: 'Pa',
    value: undefined,
    method: 'Boussinesq, at the outer radius of the wall',
    inputs: { 'outer radius of the wall': ring.outerRadius },
    residuals: [],
  }),
})

function freeMoment(ring: WallRing, pressure: Answer<'Pa'>, { oval }: FieldPeak): Answer<'N'> {
  const method = 'amplitude of cos 2θ of the pressure round the ring at its most pressed level'
  const p_n: Answer<'Pa'> = found({ unit: 'Pa', value: oval, method, inputs: { pressure }, residuals: [] })
  return unequal.show({ p_n, r: ring.meanRadius, n: stated('1', 2, 'two waves round the ring') })
}

const surfaceLoad = ({ at: [x, y, z], size, turn = 0, force }: GroundLoad): SurfaceLoad => ({
  force: force.value ?? 0,
  x,
  y,
  z,
  size,
  turn,
})

/** The same thing at another step stands in the same place where that is a bay, and where it is parked. */
export const placeKey = (l: GroundLoad, step: string): string =>
  l.kind === 'piece' ? l.on : l.kind === 'plant' || l.stays === true ? l.id : `${step}/${l.id}`

/** A new force moves the peak seldom: what one newton does there is kept while it stays. */
function finerOf(grid: WallGrid, l: GroundLoad, peak: FieldPeak, memory: Memory, step: string): number {
  const load = surfaceLoad(l)
  const key = `ground-finer/${placeKey(l, step)}/${peak.level}/${peak.bearing}`
  return memory.once(key, [grid, load.x, load.y, load.z, ...load.size, load.turn], () => finerAt(grid, load, peak))
}

/** The field of one newton at each place is kept while the place stays; a new force only scales it. */
function fieldOf(grid: WallGrid, loads: readonly GroundLoad[], memory: Memory, step: string): Float64Array {
  const fields = loads.map((l) => {
    const { force, ...where } = surfaceLoad(l)
    const { x, y, z, size, turn } = where
    const field = memory.once(`ground-field/${placeKey(l, step)}`, [grid, x, y, z, ...size, turn], () =>
      pressureField(grid, { force: 1, ...where }),
    )
    return { field, share: force }
  })
  return together(fields, grid.levels.length * grid.bearings.length)
}

/** Pressure on the wall at a step against what the wall was designed for. Practice 53. */
export function wallSurchargeCheck(
  { shaft, ground, near }: { shaft: Shaft; ground: Ground | undefined; near: number },
  { step }: Pick<StepLoads, 'step'>,
  load: Pick<WallLoad, 'when' | 'pressure'>,
): Check {
  return check({
    kind: kinds.wallSurcharge,
    subject:
      step === AS_IT_STANDS
        ? { pointer: '/shaft/wall/surcharge', id: step, name: 'The site as it stands' }
        : { pointer: pointerOf('steps', step), id: step, name: `Step ${step}` },
    title: `${kinds.wallSurcharge.title}: ${momentText(step, load.when)}`,
    demand: load.pressure,
    capacity: knownOr(shaft.wall.surcharge, 'Pa', '/shaft/wall/surcharge'),
    near,
    assumptions: [
      'Elastic ground; each point of the wall as part of the plane that touches it; bays on their full area; legs on piles from two thirds of their depth.',
      'One-sided pressure bends the ring: the wall designer says what it may take.',
      restingOn(ground, 'G3', 'G7'),
    ],
    cautions: [SOIL, RING],
  })
}

/**
 * Most that stands on the ring of ground 0.7 B wide that would sink with the base, at any step, spread over that ring. A step of which
 * nothing within it has changed is not added up again.
 *
 * @param steps as `outsideAt` gives them
 */
export function heaveSurcharge(
  shaft: Shaft,
  ring: WallRing,
  steps: readonly StepLoads[],
  memory: Memory,
): Answer<'Pa'> {
  const B = memory.once('ground-heave-width', [shaft], () => cutWidth(shaft))
  const [inner, width] = [ring.outerRadius.value, B.value]
  const nothing = stated('N', 0, 'nothing stands beside the shaft')
  if (inner === undefined || width === undefined)
    return meanPressure.show({ P: nothing, A: ringArea.show({ r_o: ring.outerRadius, B }) })
  if (steps.length === 0)
    return memory.once('ground-heave-none', [], () => stated('Pa', 0, 'nothing stands beside the shaft in the order'))
  const reach = inner + 0.7 * width
  const terms = steps.flatMap((standing) =>
    memory.once(`ground-heave-step/${standing.step}`, [standing, reach], () =>
      MOMENTS.map((when) => nearTerm(standing, when, reach, memory)),
    ),
  )
  return memory.once('ground-heave-surcharge', [ring, B, ...terms], () =>
    meanPressure.show({
      P: largestOf('over the steps', 'N', terms),
      A: ringArea.show({ r_o: ring.outerRadius, B }),
    }),
  )
}

/** From the shaft's axis to the nearest place of its footprint, m: what stands on the ring in part counts whole. */
function nearestOf({ at: [x, y], size: [a, b], turn = 0 }: GroundLoad): number {
  const [u, v] = turned([x, y], -turn)
  return Math.hypot(Math.max(0, Math.abs(u) - a / 2), Math.max(0, Math.abs(v) - b / 2))
}

function nearTerm({ step, loads }: StepLoads, when: Moment, reach: number, memory: Memory): Term<'N'> {
  const near = loads.filter((l) => l.when.includes(when) && nearestOf(l) <= reach)
  const inputs = near.flatMap((l) => [l.id, l.force])
  return memory.once(`ground-heave-beside/${step}/${when}`, inputs, () => ({
    label: `${step}, ${when}`,
    answer: sumOf(
      `beside the shaft at ${step}`,
      'N',
      near.map((l) => ({ label: l.id, answer: l.force })),
    ),
  }))
}
