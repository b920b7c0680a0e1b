import { describe, expect, test } from 'vitest'
import { stream, uniformAt } from './random.ts'
import {
  bothBelow,
  choleskyOf,
  extremesOf,
  meanOf,
  normalCdf,
  normalQuantile,
  quantileBand,
  quantileOf,
  tabledNormalCdf,
  triangularAt,
} from './statistics.ts'

describe('normal distribution', () => {
  // Tables of the standard normal (from memory): Φ(1) = 0.8413447461, Φ(1.96) = 0.9750021049, Φ(−6) = 9.8659e-10.
  test('Φ at table values, in the middle and in the tails', () => {
    expect(normalCdf(1)).toBeCloseTo(0.8413447461, 10)
    expect(normalCdf(1.96)).toBeCloseTo(0.9750021049, 10)
    expect(normalCdf(-6) / 9.865876450377e-10).toBeCloseTo(1, 9)
    expect(normalCdf(-5.000001) / normalCdf(-4.999999)).toBeCloseTo(1, 4)
  })

  test('the table for simulations agrees with Φ to a billionth, and ends beyond six', () => {
    for (let x = -5.9; x <= 5.9; x += 0.0137) expect(Math.abs(tabledNormalCdf(x) - normalCdf(x))).toBeLessThan(1e-9)
    expect(tabledNormalCdf(-50)).toBeLessThan(1e-8)
    expect(tabledNormalCdf(50)).toBeGreaterThan(1 - 1e-8)
  })

  test('the quantile undoes Φ', () => {
    for (const p of [1e-6, 0.01, 0.2, 0.5, 0.8, 0.975, 0.99999])
      expect(normalCdf(normalQuantile(p)) / p).toBeCloseTo(1, 7)
    expect(normalQuantile(0.9)).toBeCloseTo(1.281552, 6)
  })

  test('both below zero: ¼ + asin ρ ÷ 2π (Sheppard)', () => {
    for (const rho of [-0.5, 0, 0.5, 0.93, 0.98])
      expect(bothBelow(0, 0, rho)).toBeCloseTo(0.25 + Math.asin(rho) / (2 * Math.PI), 8)
  })

  test('without correlation chances multiply; with almost all of it the lower limit rules', () => {
    expect(bothBelow(1, -0.5, 0)).toBeCloseTo(normalCdf(1) * normalCdf(-0.5), 12)
    expect(bothBelow(1, -0.5, 0.99)).toBeCloseTo(normalCdf(-0.5), 6)
  })
})

describe('samples', () => {
  test('the triangular quantile passes through extremes and mode', () => {
    expect([0, 0.2, 1].map((u) => triangularAt(u, 10, 12, 20))).toEqual([10, 12, 20])
    expect(triangularAt(0.3, 5, 5, 5)).toBe(5)
  })

  // Triangular of mode 12 through P10 = 10 and P90 = 20 (derived): 7.033281 to 24.754076.
  test('extremes follow from the 10 % and 90 % quantiles', () => {
    const [a, b] = extremesOf(10, 12, 20)
    expect(a).toBeCloseTo(7.033281, 5)
    expect(b).toBeCloseTo(24.754076, 5)
    expect(triangularAt(0.1, a, 12, b)).toBeCloseTo(10, 9)
    expect(triangularAt(0.9, a, 12, b)).toBeCloseTo(20, 9)
    expect(extremesOf(5, 5, 5)).toEqual([5, 5])
  })

  test('order statistics', () => {
    const sorted = Float64Array.from({ length: 100 }, (_, i) => i + 1)
    expect([0.1, 0.5, 0.8, 1].map((p) => quantileOf(sorted, p))).toEqual([10, 50, 80, 100])
    expect(quantileBand(sorted, 0.5, 2)).toEqual([40, 60])
  })

  test('correlations that contradict each other have no triangle', () => {
    expect(
      choleskyOf([
        [1, 0.9, -0.9],
        [0.9, 1, 0.9],
        [-0.9, 0.9, 1],
      ]),
    ).toBeUndefined()
    expect(
      choleskyOf([
        [1, 0.6],
        [0.6, 1],
      ]),
    ).toEqual([
      [1, 0],
      [0.6, 0.8],
    ])
  })
})

describe('streams', () => {
  const draws = (seed: number, name: string, n: number): number[] => {
    const s = stream(seed, name)
    return Array.from({ length: n }, s.uniform)
  }

  test('same seed and name, same numbers; another name, others', () => {
    expect(draws(1, 'a', 5)).toEqual(draws(1, 'a', 5))
    expect(draws(1, 'a', 5)).not.toEqual(draws(1, 'b', 5))
    expect(draws(1, 'a', 5)).not.toEqual(draws(2, 'a', 5))
  })

  test('numbers are uniform, and streams of like names do not move together', () => {
    const n = 20_000
    const [a, b] = [draws(7, 'activity-1', n), draws(7, 'activity-2', n)]
    expect(meanOf(a)).toBeCloseTo(0.5, 2)
    expect(meanOf(a.map((x) => (x - 0.5) ** 2))).toBeCloseTo(1 / 12, 2)
    expect(Math.abs(meanOf(a.map((x, i) => (x - 0.5) * ((b[i] as number) - 0.5))) * 12)).toBeLessThan(0.03)
  })

  test('numbers by place are uniform and neighbours do not move together', () => {
    const at = Array.from({ length: 20_000 }, (_, i) => uniformAt(99, i) - 0.5)
    expect(Math.abs(meanOf(at))).toBeLessThan(0.01)
    expect(meanOf(at.map((x) => x * x)) * 12).toBeCloseTo(1, 1)
    expect(Math.abs(meanOf(at.slice(1).map((x, i) => x * (at[i] as number))) * 12)).toBeLessThan(0.03)
  })
})
