import { expect, test } from 'vitest'
import { sensitivityOf } from './sensitivity.ts'

const inputs = [
  { key: 'm', symbol: 'm', unit: 'kg', si: 627_953 },
  { key: 'R', symbol: 'R', unit: 'kg', si: 660_000 },
] as const
const use = { value: 627_953 / 660_000, unit: '1' } as const
const slopes = { m: 1 / 660_000, R: -627_953 / 660_000 ** 2 }

test('one tonne more on the hook, and one tonne more of rating, move the use by what a hand calculation gives', () => {
  // By hand: 1000 / 660 000 = 0.00152; −627 953 · 1000 / 660 000² = −0.00144.
  expect(sensitivityOf(use, inputs, slopes, 'SI')).toEqual([
    { key: 'm', symbol: 'm', per: '1\u00a0t', effect: '+0.0015', share: expect.closeTo(1, 9) },
    { key: 'R', symbol: 'R', per: '1\u00a0t', effect: '\u22120.0014', share: expect.closeTo(1, 9) },
  ])
})

test('in US customary units one more is a kip', () => {
  // 453.59237 / 660 000 = 0.000687.
  expect(sensitivityOf(use, inputs, slopes, 'US')[0]).toMatchObject({ per: '1\u00a0kip', effect: '+0.00069' })
})

test('what moves the result most stands first, and what does not move it is left out', () => {
  const moves = sensitivityOf(
    { value: 10, unit: 'm' },
    [
      { key: 'a', symbol: 'a', unit: 'm', si: 1 },
      { key: 'b', symbol: 'b', unit: 'm', si: 9 },
      { key: 'c', symbol: 'c', unit: 'rad', si: 0.1 },
    ],
    { a: 1, b: 1, c: 0 },
    'SI',
  )
  expect(moves.map((move) => move.key)).toEqual(['b', 'a'])
})

test('of an input smaller than its unit, one more is a tenth or a hundredth of it', () => {
  const [move] = sensitivityOf(
    { value: 1, unit: 'm' },
    [{ key: 'a', symbol: 'a', unit: 'm', si: 0.35 }],
    { a: 2 },
    'SI',
  )
  expect(move).toMatchObject({ per: '0.1\u00a0m', effect: '+0.20\u00a0m' })
})

test('an unknown result has no sensitivity', () => {
  expect(sensitivityOf({ value: undefined, unit: '1' }, inputs, slopes, 'SI')).toEqual([])
})
