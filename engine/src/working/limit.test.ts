import { expect, test } from 'vitest'
import { type Answer, given, largestOf, stated } from './answer.ts'
import { formula } from './formula.ts'
import { brokenWords } from './limit.ts'

/** With plain spaces in place of those that keep a number and its unit together. */
const said = (answer: Answer): string[] => brokenWords(answer).map((words) => words.replaceAll('\u00a0', ' '))

const legs = formula({
  id: 'test.limit.legs',
  title: 'Legs of a bridle',
  source: { basis: 'derived', text: 'made for this test' },
  gives: ['K', '1'],
  from: {
    beta: ['rad', 'angle of a leg from the vertical'],
    l: ['m', 'length of a leg'],
    a: ['m', 'distance across'],
  },
  where: { q: ['1', 'a / l', 'share across'] },
  as: 'q * cos(beta)',
  valid: ['beta <= 1.04721', 'a < l', '0.1 * l < a', 'q > 0', 'a + l > 0.2 * (a + 2 * l)'],
})

const at = (beta: number, l: number, a: number) =>
  legs.show({ beta: given('rad', '/b', beta), l: given('m', '/l', l), a: given('m', '/a', a) })

test('a broken limit is told by the meaning of the symbol, in degrees, without the id of the formula', () => {
  expect(said(at(1.2, 4, 2))).toEqual([
    'Legs of a bridle: angle of a leg from the vertical is 68.8 °, where it holds only for no more than 60.0 °',
  ])
})

test('what is held against another value names both, from whichever side it stands', () => {
  expect(said(at(0.5, 4, 5))).toEqual([
    'Legs of a bridle: distance across is 5.00 m, where it holds only for less than length of a leg, 4.00 m',
  ])
  expect(said(at(0.5, 4, 0.2))).toEqual([
    'Legs of a bridle: distance across is 0.20 m, where it holds only for more than 0.40 m',
  ])
})

test('what lies just beyond a limit is told in as many digits as tell the two apart', () => {
  expect(said(at(1.0473, 4, 2))[0]).toBe(
    'Legs of a bridle: angle of a leg from the vertical is 60.0058699 °, where it holds only for no more than 60.0007133 °',
  )
})

test('a named step is told by its meaning, an expression on both sides by its symbols with theirs', () => {
  const broken = said(at(0.5, -1, 0.2))
  expect(broken).toContain('Legs of a bridle: share across is −0.200, where it holds only for more than 0.000')
  expect(broken).toContain(
    'Legs of a bridle: it holds only while a + l > 0.2 · (a + 2 · l) (a, distance across: 0.20 m; l, length of a leg: −1.00 m)',
  )
})

test('inputs that give no number are named, and a limit broken under several answers is told once', () => {
  const [none] = said(at(Number.POSITIVE_INFINITY, 4, 2))
  expect(none).toContain('Legs of a bridle')
  const twice = largestOf('of both', '1', [
    { label: 'one', answer: at(1.2, 4, 2) },
    { label: 'the other', answer: at(1.2, 4, 2) },
    { label: 'a known one', answer: stated('1', 2, 'x') },
  ])
  expect(said(twice)).toHaveLength(1)
})
