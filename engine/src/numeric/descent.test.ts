import { expect, test } from 'vitest'
import { descend, type Landscape, stationaryNear } from './descent.ts'

const limits = { atRest: 1e-9, longest: 0.5, mostSteps: 200 }
const moved = (at: readonly number[], step: readonly number[]): readonly number[] =>
  at.map((x, i) => x + (step[i] as number))

/** Rosenbrock's valley: lowest at (1, 1); from his paper of 1960, from memory. */
const valley: Landscape<readonly number[]> = {
  moved,
  at: ([x, y]: readonly number[]) => {
    const [a, b] = [x as number, y as number]
    return {
      value: (1 - a) ** 2 + 100 * (b - a * a) ** 2,
      gradient: [-2 * (1 - a) - 400 * a * (b - a * a), 200 * (b - a * a)],
      hessian: [
        [2 - 400 * (b - 3 * a * a), -400 * a],
        [-400 * a, 200],
      ],
    }
  },
}

/** A saddle at the origin between two lowest points at x = ±1. */
const saddle: Landscape<readonly number[]> = {
  moved,
  at: ([x, y]: readonly number[]) => {
    const [a, b] = [x as number, y as number]
    return {
      value: a ** 4 / 4 - a ** 2 / 2 + b ** 2,
      gradient: [a ** 3 - a, 2 * b],
      hessian: [
        [3 * a * a - 1, 0],
        [0, 2],
      ],
    }
  },
}

test('the floor of a curved valley is found', () => {
  const { at, settled } = descend(valley, [-1.2, 1], limits)
  expect(settled).toBe(true)
  expect(at[0]).toBeCloseTo(1, 8)
  expect(at[1]).toBeCloseTo(1, 8)
})

test('descent goes on through the neighbourhood of a saddle, plain steps stop on it', () => {
  expect(Math.abs(descend(saddle, [0.05, 0.3], limits).at[0] as number)).toBeCloseTo(1, 8)
  expect(stationaryNear(saddle, [0.05, 0.3], limits)?.at[0]).toBeCloseTo(0, 8)
})

test('a point already at rest takes no step', () => {
  expect(descend(valley, [1, 1], limits).steps).toBe(0)
})
