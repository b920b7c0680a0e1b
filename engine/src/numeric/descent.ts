import { eigenOf, type Matrix, solvedPositive, spectral } from './symmetric.ts'

/** A smooth function over points of any kind; `moved` applies a small step of n numbers to a point. */
export interface Landscape<P> {
  value(at: P): number
  gradient(at: P): readonly number[]
  hessian(at: P): Matrix
  moved(at: P, step: readonly number[]): P
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
  let at = start
  let value = land.value(at)
  for (let steps = 0; ; steps++) {
    const gradient = land.gradient(at)
    const settled = normOf(gradient) <= limits.atRest
    const next =
      settled || steps === limits.mostSteps
        ? undefined
        : shortened(land, at, value, gradient, cappedStep(land.hessian(at), gradient, limits.longest))
    if (next === undefined) return { at, value, gradient, steps, settled }
    at = next.at
    value = next.value
  }
}

export const normOf = (x: readonly number[]): number => Math.sqrt(x.reduce((s, v) => s + v * v, 0))

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

/** The step, halved until the value falls by the Armijo rule; undefined when round-off ends the search. */
function shortened<P>(
  land: Landscape<P>,
  at: P,
  value: number,
  gradient: readonly number[],
  step: readonly number[],
): { at: P; value: number } | undefined {
  const slope = gradient.reduce((s, g, i) => s + g * (step[i] as number), 0)
  let share = 1
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const next = land.moved(
      at,
      step.map((s) => s * share),
    )
    const nextValue = land.value(next)
    // near the bottom the fall drowns in round-off: the full step is then taken as it is
    if (nextValue <= value + ARMIJO * share * slope + ROUND_OFF * Math.abs(value)) return { at: next, value: nextValue }
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
    const gradient = land.gradient(at)
    if (normOf(gradient) <= limits.atRest) return { at, value: land.value(at), gradient, steps, settled: true }
    const eigen = eigenOf(land.hessian(at))
    const size = Math.max(...eigen.values.map(Math.abs))
    const step = spectral(eigen, gradient, (value) => (Math.abs(value) < FLOOR * size ? 0 : -1 / value))
    const length = normOf(step)
    at = land.moved(at, length <= limits.longest ? step : step.map((s) => (s * limits.longest) / length))
  }
  return undefined
}
