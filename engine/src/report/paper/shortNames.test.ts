import { expect, test } from 'vitest'
import { shortNames, withShortNames } from './shortNames.ts'

const long = (middle: string): string =>
  `Weatherproof undercarriage counterbalance assembly ${middle} intermediate platform with bearers`

test('a short name is left as it is', () => {
  const project = { parts: { a: { name: 'Crown segment' } } }
  expect(shortNames(project).size).toBe(0)
  const data = { title: 'Crown segment, back' }
  expect(withShortNames(data, shortNames(project))).toBe(data)
})

test('two long names never read the same, even where they differ in their middle alone', () => {
  const project = { parts: { a: { name: long('of the north') }, b: { name: long('of the south') } } }
  const forms = [...shortNames(project).values()]
  expect(new Set(forms).size).toBe(2)
  for (const form of forms) expect(form.length).toBeLessThan(long('of the north').length)
})

test('wherever a long name stands in the words of a sheet it is short, and its figures stay', () => {
  const project = { pieces: { a: { name: long('of the north') } } }
  const found: string[] = []
  const sheet = { lines: [{ label: `4 × ${long('of the north')} RG-1`, value: 4.2 }], open: undefined }
  const shown = withShortNames(sheet, shortNames(project), (name) => found.push(name))
  expect(shown.lines[0]?.label).toMatch(/^4 × Weatherproof.*….*bearers RG-1$/)
  expect(shown.lines[0]?.value).toBe(4.2)
  expect(found).toEqual([long('of the north')])
})
