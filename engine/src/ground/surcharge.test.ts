import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cornerHorizontal, pointElastic } from './surcharge.formulas.ts'
import { peakOf, pressureField, type SurfaceLoad, together, wallGrid } from './surcharge.ts'

const grid = wallGrid(8, 0, -25)
const point = (x: number, y: number, force = 1e6): SurfaceLoad => ({ force, x, y, z: 0, size: [0, 0] })
const total = (field: Float64Array) => field.reduce((s, p) => s + p, 0)
const bearingAt = (degrees: number) => Math.round((degrees / 360) * grid.bearings.length)

const force = fc.double({ min: 1e3, max: 1e7, noNaN: true })
const distance = fc.double({ min: 9, max: 60, noNaN: true })
const bearing = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true })

test('two loads press as each alone, added', () => {
  fc.assert(
    fc.property(distance, bearing, distance, bearing, force, force, (r, a, s, b, P, Q) => {
      const one = pressureField(grid, point(r * Math.cos(a), r * Math.sin(a), P))
      const two = pressureField(grid, point(s * Math.cos(b), s * Math.sin(b), Q))
      const both = together(
        [one, two].map((field) => ({ field, share: 1 })),
        one.length,
      )
      expect(Math.abs(total(both) - total(one) - total(two))).toBeLessThan(1e-9 * total(both) + 1e-9)
    }),
    { numRuns: 30 },
  )
})

test('twice the load presses twice as much', () => {
  const [one, two] = [pressureField(grid, point(12, 0, 1e6)), pressureField(grid, point(12, 0, 2e6))]
  const scaled = together([{ field: one, share: 2 }], one.length)
  expect([...scaled].every((p, i) => Math.abs(p - (two[i] as number)) < 1e-9 * (p + 1))).toBe(true)
  one.forEach((p, i) => {
    expect(two[i]).toBeCloseTo(2 * p, 6)
  })
})

test('a load a quarter turn on presses a quarter turn on', () => {
  const [here, there] = [pressureField(grid, point(13, 0)), pressureField(grid, point(0, 13))]
  const quarter = grid.bearings.length / 4
  for (let i = 0; i < grid.levels.length; i++) {
    for (let j = 0; j < grid.bearings.length; j++) {
      const turned = (j + quarter) % grid.bearings.length
      expect(there[i * grid.bearings.length + turned]).toBeCloseTo(here[i * grid.bearings.length + j] as number, 6)
    }
  }
})

test('a load to one side presses alike to the left and right of itself, and not at all on the far side', () => {
  const field = pressureField(grid, point(14, 0))
  const n = grid.bearings.length
  for (let i = 0; i < grid.levels.length; i++) {
    for (let j = 1; j < n / 2; j++) expect(field[i * n + j]).toBeCloseTo(field[i * n + n - j] as number, 6)
    expect(field[i * n + bearingAt(180)]).toBe(0)
  }
})

test('straight before a load the field is the point formula (Boussinesq, doubled)', () => {
  const field = pressureField(grid, point(11, 0))
  grid.levels.forEach((level, i) => {
    const byFormula = pointElastic.value({ k: 2, Q: 1e6, x: 3, y: 0, z: -level })
    expect(field[i * grid.bearings.length]).toBeCloseTo(byFormula, 6)
  })
})

test('a pad divided into points gives what the closed form of its four corners gives, within 1 %', () => {
  const load: SurfaceLoad = { force: 200e3 * 9, x: 8 + 3.5, y: 0, z: 0, size: [3, 3] }
  const field = pressureField(grid, load, 8)
  const corner = (L: number, z: number) => cornerHorizontal.value({ q: 200e3, L, B: 1.5, z })
  for (const depth of [2, 4, 9]) {
    const i = grid.levels.indexOf(-depth)
    const closed = 4 * (corner(5, depth) - corner(2, depth))
    expect((field[i * grid.bearings.length] as number) / closed).toBeCloseTo(1, 2)
  }
})

test('the same load farther off presses less at its worst, and deeper', () => {
  const near = peakOf(grid, pressureField(grid, point(11, 0)))
  const far = peakOf(grid, pressureField(grid, point(20, 0)))
  expect(far.pressure).toBeLessThan(near.pressure)
  expect(far.level).toBeLessThan(near.level)
})

test('loads in a ring round the shaft press evenly: the oval part is far below the mean', () => {
  const ring = Array.from({ length: 48 }, (_, k) =>
    point(12 * Math.cos((k * Math.PI) / 24), 12 * Math.sin((k * Math.PI) / 24)),
  )
  const field = together(
    ring.map((l) => ({ field: pressureField(grid, l), share: 1 })),
    grid.levels.length * grid.bearings.length,
  )
  const { mean, oval, pressure } = peakOf(grid, field)
  expect(oval).toBeLessThan(1e-9 * mean)
  expect(pressure / mean).toBeCloseTo(1, 6)
})

test('a load brought down on piles presses on nothing above its foot', () => {
  const field = pressureField(grid, { ...point(11, 0), z: -10 })
  grid.levels.forEach((level, i) => {
    const p = field[i * grid.bearings.length] as number
    if (level >= -10) expect(p).toBe(0)
    else expect(p).toBeGreaterThan(0)
  })
})
