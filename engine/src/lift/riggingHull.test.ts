import { expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import type { Change } from './fixture.ts'
import { withSpreader } from './overhead.fixture.ts'
import { outcome } from './small.fixture.ts'

const riggingOf = (change?: Change): Check =>
  outcome('out', change).checks.find(({ kind }) => kind === 'lift.path.rigging') as Check

// The duct begins at x 2.5 m, y 1 m; the point nearest to it is at x 1.2 m, y 0.9 m, and leaned out by some mm at the worst tilt.
test('a leg is nearest to a duct at the point that it hangs the piece by, where it leans inward from there', () => {
  const check = riggingOf()
  const gap = Math.hypot(2.5 - 1.2, 1 - 0.9)
  expect(check.capacity.value).toBeGreaterThan(gap - 0.1)
  expect(check.capacity.value).toBeLessThan(gap + 0.001)
  expect(check.assumptions[0]).toMatch(/^Nearest: leg \S+ to the duct/)
})

// A bar that ends at x 2.2 m, 0.4 m deep: its end comes to 0.3 m beside and 0.8 m before the corner of the duct.
test('a spreader that reaches out over the piece is nearer than its legs, by its end and half of its depth', () => {
  const check = riggingOf(withSpreader())
  const gap = Math.hypot(2.5 - 2.2, 1 - 0.2)
  expect(check.capacity.value).toBeGreaterThan(gap - 0.15)
  expect(check.capacity.value).toBeLessThan(gap + 0.001)
  expect(check.assumptions[0]).toMatch(/^Nearest: the spreader to the duct/)
})

test('a deeper spreader is nearer, and what is taken out of the shaft before the lift is passed freely', () => {
  const deep = riggingOf(
    withSpreader((d) => {
      d.gear.bar.beam.section.depth = '600 mm'
    }),
  )
  expect(deep.capacity.value).toBeLessThan(riggingOf(withSpreader()).capacity.value as number)
  const free = riggingOf(
    withSpreader((d) => {
      d.shaft.obstructions.duct.removedBefore = 'S1'
    }),
  )
  // only the wall is left, of 6 m: from the corner of the end of the bar, less what it leans
  expect(free.capacity.value).toBeGreaterThan(6 - Math.hypot(2.2, 0.2) - 0.15)
  expect(free.capacity.value).toBeLessThan(6 - Math.hypot(2.2, 0.2) + 0.001)
  expect(free.assumptions[0]).toMatch(/to the wall of the shaft/)
})

test('it is open without the section of a spreader, without a way, or where the hang is not known', () => {
  const missing: [string, Change][] = [
    ['/gear/bar/beam', withSpreader((d) => delete d.gear.bar.beam)],
    [
      '/steps',
      withSpreader((d) => {
        d.order = []
        d.steps = {}
      }),
    ],
    ['/stock/sling/length', withSpreader((d) => delete d.stock.sling.length)],
  ]
  for (const [pointer, change] of missing) {
    const check = riggingOf(change)
    expect(check.verdict, pointer).toBe('open')
    expect(check.reasons).toContain(`${pointer} is not given`)
  }
})
