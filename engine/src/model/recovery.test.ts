import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { freshMemory } from '../working/memory.ts'
import { applyPatch, type Patch } from '../working/patch.ts'
import { model } from './model.ts'
import { readText } from './text.ts'

const textOf = (name: string): string =>
  readFileSync(new URL(`../../../examples/recovery/${name}`, import.meta.url), 'utf8')
const { document } = readText(textOf('project.yaml'))
const { model: read, problems } = model(document, freshMemory())
const project = read?.project

test('the invented recovery is read without a problem', () => {
  expect(problems).toEqual([])
})

// Counts: README.md beside the file, and the notes it was made from.
test('it holds the machine it says it holds', () => {
  expect(Object.keys(project?.parts ?? {})).toHaveLength(61)
  expect(read?.instances.byId.size).toBe(196)
  const joints = Object.values(project?.joints ?? {})
  expect(joints).toHaveLength(287)
  expect(joints.reduce((sum, j) => sum + (j.bolts?.count ?? 0), 0)).toBe(2522)
  expect(Object.keys(project?.services ?? {})).toHaveLength(220)
  expect(Object.keys(project?.changes ?? {})).toHaveLength(22)
  expect(Object.keys(project?.tests ?? {})).toHaveLength(40)
  expect(Object.keys(project?.risks ?? {})).toHaveLength(27)
})

test('every step of the order has a lift out and a lift back, but for what is carried by hand', () => {
  const byHand = project?.order.filter((id) => project.steps[id]?.lift === undefined)
  expect(byHand).toEqual(['S01-deck', 'S02-material-lock-aside', 'S03-man-lock-aside'])
  for (const id of project?.order ?? []) {
    const step = project?.steps[id]
    if (step?.lift === undefined) continue
    expect(project?.lifts[step.lift]).toMatchObject({ piece: step.piece, as: 'found' })
    expect(project?.lifts[step.back ?? '']).toMatchObject({ piece: step.piece, as: 'returned' })
  }
})

test('no id of a piece can be read as a percentile', () => {
  for (const id of Object.keys(project?.pieces ?? {})) expect(id).not.toMatch(/^P\d+$/i)
})

test('every part says how its mass is known, and every piece what is left in it', () => {
  for (const [id, part] of Object.entries(project?.parts ?? {})) {
    expect(part.mass?.basis, id).toBeDefined()
    expect(part.mass?.uncertainty?.value, id).toBeGreaterThan(0)
    expect(part.mass?.date, id).toBeDefined()
    expect(part.mass?.source, id).toBeDefined()
  }
  for (const [id, piece] of Object.entries(project?.pieces ?? {})) expect(piece.retained?.value, id).toBeDefined()
})

test('the typed activities fit on as a patch, and leave a project that is read', () => {
  const { document: patch } = readText(textOf('typed-activities.yaml'), 'yaml')
  const patched = applyPatch(document, patch as Patch)
  if ('problems' in patched) throw new Error(JSON.stringify(patched.problems))
  expect(model(patched.document, freshMemory()).problems).toEqual([])
})

test('the same project as JSON is the same project', () => {
  const again = readText(JSON.stringify(document))
  expect(model(again.document, freshMemory()).model?.project).toEqual(project)
})
