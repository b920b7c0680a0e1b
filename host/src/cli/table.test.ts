import { expect, test } from 'vitest'
import { table } from './table.ts'

test('numbers stand with their points under each other, whatever the decimals and units', () => {
  const text = table(
    [{ title: 'piece' }, { title: 'mass', align: 'decimal' }],
    [
      ['P01', '1.3 t'],
      ['P10', '565.95 t'],
      ['P12', '−77 kg'],
      ['P13', 'open'],
    ],
  )
  const rows = text.split('\n').slice(2, 5)
  const points = rows.map((row) => row.search(/[.](?=\d)|(?<=77)/))
  expect(new Set(points).size).toBe(1)
  expect(text.split('\n')[0]).toBe('piece  mass')
})

test('a table without rows prints nothing', () => {
  expect(table([{ title: 'x' }], [])).toBe('')
})
