import { projectJsonSchema } from '@shieldwright/engine/model/jsonSchema.ts'
import { applyPatch } from '@shieldwright/engine/working/patch.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cellsOf, isBlock, type Pasted, pasted } from './block.ts'
import type { Column } from './collections/collection.ts'
import { fieldBelow, fieldOf, type SchemaNode } from './field.ts'
import { blockText, columnsFor, rowsAt } from './grid.ts'

const project = fieldOf(projectJsonSchema() as SchemaNode)
const document = {
  parts: {
    hub: { name: 'Hub', material: 'steel', mass: { value: '40 t', basis: 'calculated' } },
    rim: { name: 'Rim', material: 'steel' },
    lip: { name: 'Lip', material: 'rubber' },
  },
}
const columns: readonly Column[] = [
  { heading: 'Name', below: '/name' },
  { heading: 'Mass of one', below: '/mass/value' },
  { heading: 'Basis', below: '/mass/basis' },
]

function put(text: string, row = 0, column = 0): Pasted {
  const rows = rowsAt(document, { at: '/parts' })
  const drawn = columnsFor(fieldBelow(project, ['parts', 'hub'], document), columns, rows)
  return pasted(text, { document, at: '/parts', rows, columns: drawn, row, column })
}

function after(result: Pasted): unknown {
  if ('refused' in result) throw new Error(result.refused.join('\n'))
  const patched = applyPatch(document, result.patch)
  if ('problems' in patched) throw new Error(JSON.stringify(patched.problems))
  return patched.document
}

test('a block fills right and down from its cell, and makes what stands above a field where there is nothing', () => {
  const changed = after(put('41 t\tweighed\n907 kip\testimated', 0, 1))
  expect(at(changed, '/parts/hub/mass')).toEqual({ value: '41 t', basis: 'weighed' })
  expect(at(changed, '/parts/rim/mass')).toEqual({ value: '907 kip', basis: 'estimated' })
})

test('a first line of heads says which columns, ids say which rows, and a unit in a head goes to its bare numbers', () => {
  const changed = after(put('Basis\tId\tMass of one (t)\nweighed\trim\t9.7\nestimated\tnew\t1.2'))
  expect(at(changed, '/parts/rim/mass')).toEqual({ value: '9.7 t', basis: 'weighed' })
  expect(at(changed, '/parts/new')).toEqual({ mass: { value: '1.2 t', basis: 'estimated' } })
  expect(at(changed, '/parts/hub')).toBe(document.parts.hub)
})

test('every cell that is refused is named with its line, and nothing of the block is taken', () => {
  const result = put('41\tweighed\n9 t\tguessed\n1 t\tweighed\n2 t\tweighed', 0, 1)
  expect(result).toEqual({
    refused: [
      'Line 1, Mass of one, “41”: A mass needs its unit. Type 41 t or 90.4 kip.',
      expect.stringMatching(/^Line 2, Basis, “guessed”: One of these is due: weighed, calculated/),
      'Line 4: no row is left. Paste with the id column to make new ones.',
    ],
  })
})

test('a head that no column has is refused by name', () => {
  expect(put('Id\tBasis\tColour\nhub\tweighed\tgrey')).toMatchObject({ refused: [expect.stringContaining('“Colour”')] })
})

test('commas part cells where every line has as many; quotes hold tabs, lines and quotes', () => {
  expect(cellsOf('Id,Name\r\nhub,"Hub, ""old"""\r\n')).toEqual([
    ['Id', 'Name'],
    ['hub', 'Hub, "old"'],
  ])
  expect(cellsOf('a\t"two\nlines"\tc')).toEqual([['a', 'two\nlines', 'c']])
  expect(isBlock('2.95 m, 0.04 m, -29.42 m')).toBe(false)
  expect(isBlock('63 ft 4 in')).toBe(false)
  expect(isBlock('1 t\n2 t')).toBe(true)
})

test('what is copied from a table is what is read from a paste', () => {
  const cell = fc
    .string({ minLength: 1, maxLength: 8 })
    .map((s) => s.replace(/\r/g, '').trim())
    .filter((s) => s !== '' && !s.startsWith('"'))
  const block = fc
    .integer({ min: 2, max: 4 })
    .chain((n) => fc.array(fc.array(cell, { minLength: n, maxLength: n }), { minLength: 1, maxLength: 4 }))
  fc.assert(
    fc.property(block, (cells) => {
      expect(cellsOf(blockText(cells))).toEqual(cells)
    }),
  )
})
