import { expect, test } from 'vitest'
import { visualRuns } from './visualRuns.ts'

test('a line without letters from right to left is one stretch, as it is', () => {
  expect(visualRuns('Head, 412 t (weighed)')).toEqual(['Head, 412 t (weighed)'])
})

test('a number at the end of a name from right to left stands at its left', () => {
  expect(visualRuns('לוח 12')).toEqual(['12', 'לוח '])
  // Arabic digits run from left to right too: they are handed over from their end, for the writer turns letters of this script
  expect(visualRuns('لوح ١٢').map((run) => run.normalize('NFKC'))).toEqual(['٢١', 'لوح '])
})

test('a name from right to left keeps its place in a line from left to right, and its brackets enclose the same words', () => {
  expect(visualRuns('Lift of לוח (עליון), back')).toEqual(['Lift of ', 'לוח )עליון(', ', back'])
})
