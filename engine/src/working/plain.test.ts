import { expect, test } from 'vitest'
import { brokenText } from './plain.ts'

const HALF = '\ud83d'

test('half a character is found in a text or a name at any depth, and a whole one is none', () => {
  expect(brokenText({ a: ['ok', { 'b/c': `x${HALF}` }] })).toMatchObject({
    pointer: '/a/1/b~1c',
    found: 'half a character in "x\\ud83d"',
  })
  expect(brokenText({ [HALF]: 1 })).toMatchObject({ pointer: `/${HALF}` })
  expect(brokenText(HALF)).toMatchObject({ pointer: '' })
  expect(brokenText({ a: '\u{1f6e0} é 掘', b: [1, null, true] })).toBeUndefined()
})

test('nesting without end is walked in steps and not in calls', () => {
  let deep: unknown = HALF
  for (let i = 0; i < 100_000; i++) deep = [deep]
  expect(brokenText(deep)?.found).toContain('half a character')
})
