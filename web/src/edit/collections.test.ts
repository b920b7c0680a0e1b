import { projectJsonSchema } from '@shieldwright/engine/model/jsonSchema.ts'
import { expect, test } from 'vitest'
import { isCollection } from './collections/collection.ts'
import { GROUPS } from './collections.ts'
import { fieldBelow, fieldOf, isCell, type SchemaNode } from './field.ts'

const project = fieldOf(projectJsonSchema() as SchemaNode)
const tables = GROUPS.flatMap((group) => group.of)
const path = (pointer: string) => pointer.split('/').slice(1)

test('every section of a project file is a table or a form, and every column stands for a field that fits a cell', () => {
  const sections = Object.keys(projectJsonSchema().properties as object).filter((s) => s !== 'schemaVersion')
  expect(sections.filter((section) => !tables.some((t) => t.at === `/${section}`))).toEqual([])
  const columns = tables.filter(isCollection).flatMap((t) => t.columns.map((c) => `${t.at}/0${c.below}`))
  const wrong = columns.filter((pointer) => {
    const field = fieldBelow(project, path(pointer), undefined)
    return field === undefined || !isCell(field)
  })
  expect(columns.length).toBeGreaterThan(150)
  expect(wrong).toEqual([])
})

test('what a form leaves out is a table of its own', () => {
  const left = tables.flatMap((t) => ('without' in t ? (t.without ?? []) : []))
  expect(left.filter((at) => !tables.some((t) => t.at === at && isCollection(t)))).toEqual([])
})
