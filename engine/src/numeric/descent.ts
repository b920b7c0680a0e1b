import { eigenOf, type Matrix, solvedPositive, spectral } from './symmetric.ts'

/** A smooth function over points of any kind; `moved` applies a small step of n numbers to a point. */
export interface Landscape<P> {
  /** @param spare surroundings that this landscape gave before and nobody reads any more: it may write over them */
  at(point: P, spare?: Surroundings): Surroundings
  moved(point: P, step: readonly number[]): P
}

/** Value, slope and second derivative at a point. */
export interface Surroundings {
  value: number
  gradient: readonly number[]
  hessian: Matrix
}

export interface DescentLimits {
  /** Gradient norm at which a point counts as at rest. */
  atRest: number
  /** Longest step; the step's numbers are taken in the landscape's own scale. */
  longest: number
  mostSteps: number
}

export interface Descent<P> {
  at: P
  value: number
  gradient: readonly number[]
  steps: number
  settled: boolean
}

const ARMIJO = 1e-4
const FLOOR = 1e-9
const MOST_HALVINGS = 50
const ROUND_OFF = 1e-13

/**
 * Lowest point near a start: Newton's step with every eigenvalue taken by its size, so that it goes down through saddles,
 * capped, and shortened until the value falls as the slope promises. The value may have kinks in curvature.
 */
export function descend<P>(land: Landscape<P>, start: P, limits: DescentLimits): Descent<P> {
  let here: Here<P> = { at: start, around: land.at(start) }
  let spare: Surroundings | undefined
  for (let steps = 0; ; steps++) {
    const { value, gradient } = here.around
    const settled = normOf(gradient) <= limits.atRest
    const next = settled || steps === limits.mostSteps ? undefined : shortened(land, here, limits.longest, spare)
    if (next === undefined) return { at: here.at, value, gradient, steps, settled }
    spare = here.around
    here = next
  }
}

export const normOf = (x: readonly number[]): number => Math.sqrt(inner(x, x))

function inner(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number)
  return sum
}

const scaled = (step: readonly number[], by: number): number[] => step.map((s) => s * by)

/** Newton's step where the matrix is positive definite; otherwise with every eigenvalue taken by its size. */
function cappedStep(hessian: Matrix, gradient: readonly number[], longest: number): number[] {
  const uphill = solvedPositive(hessian, gradient)
  const step = uphill === undefined ? saddleStep(hessian, gradient) : scaled(uphill, -1)
  const length = normOf(step)
  return length <= longest ? step : scaled(step, longest / length)
}

function saddleStep(hessian: Matrix, gradient: readonly number[]): number[] {
  const eigen = eigenOf(hessian)
  const size = Math.max(...eigen.values.map(Math.abs))
  return spectral(eigen, gradient, (value) => -1 / Math.max(Math.abs(value), FLOOR * size))
}

interface Here<P> {
  at: P
  around: Surroundings
}

/** The next point: the step, halved until the value falls by the Armijo rule; undefined when round-off ends the search. */
function shortened<P>(
  land: Landscape<P>,
  { at: here, around: { value, gradient, hessian } }: Here<P>,
  longest: number,
  spare: Surroundings | undefined,
): Here<P> | undefined {
  const step = cappedStep(hessian, gradient, longest)
  const slope = inner(gradient, step)
  // near the bottom the fall drowns in round-off: the full step is then taken as it is
  const slack = ROUND_OFF * Math.abs(value)
  let share = 1
  let around = spare
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const at = land.moved(here, share === 1 ? step : scaled(step, share))
    around = land.at(at, around)
    if (around.value <= value + ARMIJO * share * slope + slack) return { at, around }
    share /= 2
  }
  return undefined
}

/**
 * Stationary point near a start by plain Newton steps, of whatever kind it is: used to judge a pose that was meant,
 * also when it is not a lowest point. Undefined when the steps do not come to rest.
 */
export function stationaryNear<P>(land: Landscape<P>, start: P, limits: DescentLimits): Descent<P> | undefined {
  let at = start
  for (let steps = 0; steps <= limits.mostSteps; steps++) {
    const { value, gradient, hessian } = land.at(at)
    if (normOf(gradient) <= limits.atRest) return { at, value, gradient, steps, settled: true }
    const eigen = eigenOf(hessian)
    const size = Math.max(...eigen.values.map(Math.abs))
    const step = spectral(eigen, gradient, (value) => (Math.abs(value) < FLOOR * size ? 0 : -1 / value))
    const length = normOf(step)
    at = land.moved(at, length <= limits.longest ? step : scaled(step, limits.longest / length))
  }
  return undefined
}
