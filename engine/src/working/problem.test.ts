import { expect, test } from 'vitest'
import { foundText, nearestId, problemText } from './problem.ts'

test('a problem is one line: place, what was found, what is due, an example', () => {
  expect(
    problemText({ pointer: '/parts/head/mass', found: '412', expected: 'a mass with its unit', example: '412 t' }),
  ).toBe('/parts/head/mass: found 412, expected a mass with its unit, such as "412 t"')
  expect(problemText({ pointer: '', found: 'nothing', expected: 'a project' })).toBe(
    '(whole file): found nothing, expected a project',
  )
})

test.each([
  [undefined, 'nothing'],
  [null, 'null'],
  [412, '412'],
  ['412 m', '"412 m"'],
  [[1, 2], 'a list of 2'],
  [{}, 'an object'],
  ['a\nb', '"a\\nb"'],
  [true, 'true'],
])('%j is told as %s', (value, text) => {
  expect(foundText(value)).toBe(text)
})

test('a long text is told by its beginning', () => {
  expect(foundText('x'.repeat(1000))).toHaveLength(61)
})

test.each([
  ['drive-3', ['drive-03', 'drive-12', 'cover'], 'drive-03'],
  ['DRIVE-03', ['drive-03'], 'drive-03'],
  ['haed', ['head', 'heat'], 'head'],
  ['B9', ['B1', 'B2'], 'B1'],
  ['seal-carrier', ['seal-carier', 'seal'], 'seal-carier'],
  ['concrete', ['steel', 'rubber'], undefined],
  ['x', [], undefined],
])('"%s" among %j means %s', (id, known, near) => {
  expect(nearestId(id, known)).toBe(near)
})

test('a long id among many is told in little time', () => {
  const known = Array.from({ length: 2000 }, (_, i) => `part-number-${i}`)
  expect(nearestId('x'.repeat(10_000), known)).toBeUndefined()
})
