import { describe, expect, test } from 'vitest'
import { modelOf } from '../programme/programme.fixture.ts'
import { localAt, zoneFrom } from '../programme/zone.ts'
import { climateOf } from './risk.fixture.ts'
import { diurnalFactor, hourPlaces, levelsOf, windSeries } from './wind.ts'
import { meanWait, windowChance } from './window.ts'

const climate = modelOf({
  climate: climateOf({ persistence: 0.85, diurnal: { calmest: 5, windiest: 15, amplitude: 0.2 } }),
}).project.climate as NonNullable<ReturnType<typeof modelOf>['project']['climate']>
const shift = { month: 3, from: 7, hours: 12 }

describe('wind by the hour', () => {
  test('every hour has the month and the hour of its local day, after the clocks have changed too', () => {
    const zone = zoneFrom('2026-01-31', 'CET', 3)
    const places = hourPlaces(zone, 24 * 800)
    let shifted = 0
    for (let h = 0; h < places.length; h += 24) {
      const { month, hour } = localAt(zone, h * 3600)
      expect(places[h]).toBe((month - 1) * 24 + hour)
      shifted += Number(hour !== 0)
    }
    expect(shifted).toBeGreaterThan(200)
  })

  test('the series has mean nought, variance one and the persistence of the climate', () => {
    const series = windSeries(3, 0.9, 4000)
    const values: number[] = []
    for (let run = 0; run < 30; run++) {
      series.begin(run)
      for (let h = 0; h < 3000; h++) values.push(series.level(h))
    }
    const mean = values.reduce((a, b) => a + b, 0) / values.length
    const variance = values.reduce((a, b) => a + b * b, 0) / values.length
    const lagged = values.slice(1).reduce((a, b, i) => a + b * (values[i] as number), 0) / (values.length - 1)
    expect(Math.abs(mean)).toBeLessThan(0.06)
    expect(variance).toBeCloseTo(1, 1)
    expect(lagged / variance).toBeCloseTo(0.9, 1)
  })

  // A first-order process: the correlation over k hours is ρᵏ, across the coarse grid of 64 hours too (derived).
  test('hours go together by the persistence to the power of what lies between them', () => {
    const series = windSeries(5, 0.93, 400)
    const pairs = [
      [63, 64],
      [60, 65],
      [101, 111],
      [120, 140],
    ] as const
    const sums = pairs.map(() => 0)
    const runs = 20_000
    for (let run = 0; run < runs; run++) {
      series.begin(run)
      pairs.forEach(([a, b], i) => {
        sums[i] = (sums[i] as number) + (series.level(a) * series.level(b)) / runs
      })
    }
    pairs.forEach(([a, b], i) => {
      expect(Math.abs((sums[i] as number) - 0.93 ** (b - a))).toBeLessThan(0.03)
    })
  })

  test('the wind of an hour is the same in whatever order hours are asked', () => {
    const [a, b] = [windSeries(3, 0.9, 4000), windSeries(3, 0.9, 4000)]
    a.begin(7)
    b.begin(7)
    const late = a.level(2000)
    expect([a.level(10), late]).toEqual([b.level(10), b.level(2000)])
  })

  test('calmest and windiest hour stand where they should, and the day’s mean is one', () => {
    const day = Array.from({ length: 24 }, (_, h) => diurnalFactor(climate, h))
    expect(day.indexOf(Math.min(...day))).toBe(5)
    expect(day.indexOf(Math.max(...day))).toBe(15)
    expect(day.reduce((a, b) => a + b, 0) / 24).toBeCloseTo(1, 1)
  })
})

describe('chance of a window', () => {
  test('it falls with the hours needed and rises with the limit', () => {
    const chances = [1, 3, 6, 9, 12].map((n) => windowChance(climate, 6, shift, n))
    for (let i = 1; i < chances.length; i++) expect(chances[i]).toBeLessThan(chances[i - 1] as number)
    expect(windowChance(climate, 7, shift, 6)).toBeGreaterThan(windowChance(climate, 6, shift, 6))
    expect(windowChance(climate, 6, shift, 13)).toBe(0)
  })

  test('it agrees with the simulated series it stands for', () => {
    const levels = levelsOf(climate, 6)
    const series = windSeries(11, 0.85, 200)
    const runs = 20_000
    let found = 0
    for (let run = 0; run < runs; run++) {
      series.begin(run)
      let calm = 0
      for (let h = 0; h < shift.hours; h++) {
        calm = series.level(h) <= (levels[(shift.month - 1) * 24 + shift.from + h] as number) ? calm + 1 : 0
        if (calm === 5) {
          found++
          break
        }
      }
    }
    // two states by the hour forget how far the wind is from the limit: a few hundredths
    expect(Math.abs(found / runs - windowChance(climate, 6, shift, 5))).toBeLessThan(0.03)
  })
})

describe('mean wait for a window of two-state weather', () => {
  // Mean number of trials to n successes in a row (S. M. Ross, by a public solution page): p = 0.5, n = 3: 14 periods.
  test('without memory it is the mean number of trials to n in a row', () => {
    expect(meanWait(0.5, 0.5, 3).fromAny).toBeCloseTo(14, 9)
    expect(meanWait(0.5, 0.5, 2).fromAny).toBeCloseTo(6, 9)
  })

  // Derived, by a linear system and by simulation: g 0.9, b 0.7, n 4.
  test('with memory the wait is shorter for the same share of calm', () => {
    const wait = meanWait(0.9, 0.7, 4)
    expect(wait.goodShare).toBeCloseTo(0.75, 12)
    expect(wait.fromBad).toBeCloseTo(8.289895, 5)
    expect(wait.fromAny).toBeCloseTo(6.789895, 5)
    expect(wait.opensNow).toBeCloseTo(0.54675, 9)
    expect(wait.fromAny).toBeLessThan(meanWait(0.75, 0.25, 4).fromAny)
  })
})
