import { projectJsonSchema } from '@shieldwright/engine/model/jsonSchema.ts'
import { applyPatch } from '@shieldwright/engine/working/patch.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { expect, test } from 'vitest'
import type { Column } from './collections/collection.ts'
import { fieldBelow, fieldOf, type SchemaNode } from './field.ts'
import { type Filled, filled } from './fill.ts'
import { columnsFor, filtered, rowsAt } from './grid.ts'

const project = fieldOf(projectJsonSchema() as SchemaNode)
const document = {
  parts: {
    hub: { name: 'Hub', material: 'steel', mass: { value: '40 t', basis: 'calculated' } },
    rim: { name: 'Rim', material: 'steel', mass: { value: '3 t', basis: 'weighed' } },
    seal: { name: 'Seal of the rim', material: 'rubber' },
  },
}
const columns: readonly Column[] = [
  { heading: 'Name', below: '/name' },
  { heading: 'Mass of one', below: '/mass/value' },
  { heading: 'Basis', below: '/mass/basis' },
]

function fill(heading: string, text: string, words = ''): Filled {
  const rows = rowsAt(document, { at: '/parts' })
  const drawn = columnsFor(fieldBelow(project, ['parts', 'hub'], document), columns, rows)
  const column = drawn.find((c) => c.heading === heading)
  if (column === undefined) throw new Error(`no column ${heading}`)
  return filled({ document, rows: filtered(rows, columns, words), column, text })
}

function after(result: Filled): unknown {
  if ('refused' in result) throw new Error(result.refused)
  const patched = applyPatch(document, result.patch)
  if ('problems' in patched) throw new Error(JSON.stringify(patched.problems))
  return patched.document
}

test('a value goes into its column of every row, and rows that have it already are counted apart', () => {
  const result = fill('Basis', 'weighed')
  expect(result).toMatchObject({ changes: 2, same: 1 })
  for (const id of ['hub', 'rim', 'seal']) expect(at(after(result), `/parts/${id}/mass/basis`)).toBe('weighed')
})

test('only the rows that are shown change', () => {
  const result = fill('Mass of one', '7 kip', 'rim')
  expect(result).toMatchObject({ changes: 2, same: 0 })
  expect(at(after(result), '/parts/hub/mass/value')).toBe('40 t')
  expect(at(after(result), '/parts/seal/mass/value')).toBe('7 kip')
})

test('an empty value takes away what is there, and where nothing is nothing changes', () => {
  const result = fill('Mass of one', '')
  expect(result).toMatchObject({ changes: 2, same: 1 })
  expect(at(after(result), '/parts/rim/mass/value')).toBeUndefined()
})

test('a value that a cell would refuse is refused once, in the same words, and nothing changes', () => {
  expect(fill('Mass of one', '7')).toEqual({ refused: expect.stringMatching(/Mass of one, “7”: .*needs its unit/) })
})
