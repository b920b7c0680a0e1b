import { expect, test } from 'vitest'
import { missingUnder } from '../working/answer.ts'
import { type Document, outcome } from './small.fixture.ts'

const own = (change: (d: Document) => void) =>
  outcome('out', change).wind.find(({ label }) => label === "the machine's own limit")?.answer

// 16 m over the collar: (1.6^0.14 + 0.4) · 12 m/s = 17.616 m/s from a mean at 10 m; of a gust at 10 m 1/1.4 of that.
test.each([
  ['a gust at the hook stays what it is', { as: 'gust', at: 'hook' }, 12],
  ['a mean at 10 m is a higher gust at the hook', { as: 'mean', at: '10 m' }, 17.616],
  ['a gust at 10 m is a little higher at the hook', { as: 'gust', at: '10 m' }, 12.583],
  ['a mean at the hook is raised by the gust factor of the site', { as: 'mean', at: 'hook' }, 18],
])('a limit of 12 m/s, read: %s', (_, read, due) => {
  const limit = own((d) => {
    d.systems.tower.wind.read = read
    d.climate.gustFactor = 1.5
  })
  expect(limit?.value).toBeCloseTo(due, 2)
})

test('a limit that nobody says how to read is open', () => {
  const limit = own((d) => {
    delete d.systems.tower.wind.read
  })
  expect(missingUnder(limit as never)).toEqual(['/systems/tower/wind/read'])
})

test('more sail swings farther, and without the head of the hoist line nobody knows how far', () => {
  const swing = (change: (d: Document) => void) =>
    outcome('out', change).checks.find(({ kind }) => kind === 'lift.wind.swing')?.demand
  const value = (drag: number): number =>
    swing((d) => {
      d.lifts.out.drag = drag
    })?.value as number
  expect(value(2.4) / value(1.2)).toBeCloseTo(2, 3)
  const open = swing((d) => {
    delete d.systems.tower.hooks.main.head
  })
  expect(missingUnder(open as never)).toEqual(['/systems/tower/hooks/main/head'])
})
