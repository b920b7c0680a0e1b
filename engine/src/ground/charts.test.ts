import { expect, test } from 'vitest'
import { type BesideWall, besideWall, chartsAt, chartsDown } from './charts.ts'
import { groundOf, siteModel } from './ground.fixture.ts'
import { wallRing } from './wall.ts'

const H = 20
const line = (middle: number, more: Partial<BesideWall> = {}): BesideWall => ({
  ...{ load: {} as BesideWall['load'], middle, edge: middle - 0.05, across: 0.1, along: 40 },
  ...{ height: H, level: 0, perMetre: 100_000, isNear: false, ...more },
})
const resultant = (of: BesideWall, pick: 'line' | 'strip') => {
  const n = 4000
  return Array.from({ length: n }, (_, i) => chartsAt(of, ((i + 0.5) * H) / n)[pick] as number).reduce(
    (a, b) => a + (b * H) / n,
    0,
  )
}

test('the line load chart sums to 0.55 Q near the wall and 0.64 Q/(m² + 1) farther off', () => {
  // published resultants, rounded to two places; the near one is the integral of 0.20 n/(0.16 + n²)² to n = 1
  expect(resultant(line(6), 'line') / 100_000).toBeCloseTo(0.55, 1)
  expect(resultant(line(16), 'line') / 100_000).toBeCloseTo(0.64 / (0.8 ** 2 + 1), 3)
})

test('beyond 0.4 H a narrow strip on a rigid wall and the chart of a line agree: 4 Q/π is 1.27 Q', () => {
  for (const z of [2, 6, 12, 19]) {
    const { line: byLine, strip } = chartsAt(line(12), z)
    expect((strip as number) / (byLine as number)).toBeCloseTo(4 / Math.PI / 1.28, 2)
  }
})

test('a load nearer than a tenth of the height is outside the charts, not small', () => {
  expect(chartsAt(line(1, { isNear: true }), 5)).toMatchObject({ line: undefined, point: undefined })
})

test('a load of the step is a line of its force over its length along the wall, and a leg without a plan is none', () => {
  const { shaft } = siteModel([]).project
  const loads = groundOf([]).steps[0]?.loads ?? []
  const all = shaft === undefined ? [] : besideWall(shaft, wallRing(shaft), loads)
  const silo = all.find(({ load }) => load.kind === 'plant')
  // 60 t on 3 m × 3 m, 16 m from the axis, the wall's back at 7.4 m
  expect(silo?.perMetre).toBeCloseTo((60_000 * 9.80665) / 3, 6)
  expect([silo?.middle, silo?.edge]).toEqual([16 - 7.4, 16 - 7.4 - 1.5].map((v) => expect.closeTo(v, 9)))
  expect(all.some(({ load }) => load.kind === 'leg')).toBe(false)
  expect(chartsDown(silo as BesideWall).at(-1)?.depth).toBeCloseTo(19.5, 9)
})
