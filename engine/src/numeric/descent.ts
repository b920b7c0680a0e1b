import { eigenOf, type Matrix, solvedPositive, spectral } from './symmetric.ts'

/** A smooth function over points of any kind; `moved` applies a small step of n numbers to a point. */
export interface Landscape<P> {
  at(point: P): Surroundings
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
  let here = { at: start, ...land.at(start) }
  for (let steps = 0; ; steps++) {
    const settled = normOf(here.gradient) <= limits.atRest
    const next = settled || steps === limits.mostSteps ? undefined : shortened(land, here, limits.longest)
    if (next === undefined) return { at: here.at, value: here.value, gradient: here.gradient, steps, settled }
    here = next
  }
}

export const normOf = (x: readonly number[]): number => {
  let sum = 0
  for (const v of x) sum += v * v
  return Math.sqrt(sum)
}

/** Newton's step where the matrix is positive definite; otherwise with every eigenvalue taken by its size. */
function cappedStep(hessian: Matrix, gradient: readonly number[], longest: number): number[] {
  const step = solvedPositive(hessian, gradient)?.map((s) => -s) ?? saddleStep(hessian, gradient)
  const length = normOf(step)
  return length <= longest ? step : step.map((s) => (s * longest) / length)
}

function saddleStep(hessian: Matrix, gradient: readonly number[]): number[] {
  const eigen = eigenOf(hessian)
  const size = Math.max(...eigen.values.map(Math.abs))
  return spectral(eigen, gradient, (value) => -1 / Math.max(Math.abs(value), FLOOR * size))
}

type Here<P> = Surroundings & { at: P }

/** The next point: the step, halved until the value falls by the Armijo rule; undefined when round-off ends the search. */
function shortened<P>(land: Landscape<P>, here: Here<P>, longest: number): Here<P> | undefined {
  const step = cappedStep(here.hessian, here.gradient, longest)
  const slope = here.gradient.reduce((s, g, i) => s + g * (step[i] as number), 0)
  // near the bottom the fall drowns in round-off: the full step is then taken as it is
  const slack = ROUND_OFF * Math.abs(here.value)
  let share = 1
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const at = land.moved(here.at, share === 1 ? step : step.map((s) => s * share))
    const next = land.at(at)
    if (next.value <= here.value + ARMIJO * share * slope + slack) return { at, ...next }
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
    at = land.moved(at, length <= limits.longest ? step : step.map((s) => (s * limits.longest) / length))
  }
  return undefined
}
