import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import '../engine/src/index.ts'
import { allFormulas } from '../engine/src/working/formula.ts'
import { functions as ground } from './functions/ground.ts'
import { functions as lift } from './functions/lift.ts'
import { functions as mass } from './functions/mass.ts'
import { functions as programme } from './functions/programme.ts'
import { functions as risk } from './functions/risk.ts'
import { functions as strip } from './functions/strip.ts'
import { readCases } from './read.ts'
import type { Case } from './types.ts'
import { caseFiles } from './verify.ts'

const stages = { mass, strip, lift, ground, programme, risk }
const files = caseFiles().map(({ name, text }) => ({
  stage: name.split('-', 1)[0] as string,
  ...readCases(text),
  name,
}))

test.each(Object.keys(stages))('%s is verified from outside: some of its cases were read', (stage) => {
  const cases = files.filter((file) => file.stage === stage).flatMap((file) => file.cases)
  expect(cases.filter((c) => c.basis === 'read').length).toBeGreaterThan(0)
})

test('every case file belongs to a stage and can be read', () => {
  for (const { name, stage, problems } of files) {
    expect(Object.keys(stages), name).toContain(stage)
    expect(problems, name).toEqual([])
  }
})

test('no function stands under one name in two stages, and each is called by some case', () => {
  const names = Object.values(stages).flatMap((functions) => Object.keys(functions))
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([])
  const called = new Set(files.flatMap((file) => file.cases.map((c) => c.function)))
  expect(names.filter((name) => !called.has(name))).toEqual([])
})

/** Formulas of a stage of which no case holds a value; that it is open outside its limits is no value. */
function withoutCase(stage: string, cases: readonly Case[]): string[] {
  const held = new Set(
    cases.filter((c) => Object.values(c.expected ?? {}).some((value) => value !== null)).map((c) => c.function),
  )
  const ids = allFormulas().map(({ text }) => text.id)
  return ids.filter((id) => id.startsWith(`${stage}.`) && !held.has(id))
}

test('every formula of lifts is held by a case with a value from outside it', () => {
  const cases = files.flatMap((file) => file.cases)
  expect(allFormulas().filter(({ text }) => text.id.startsWith('lift.')).length).toBeGreaterThan(100)
  expect(withoutCase('lift', cases)).toEqual([])
  // one that loses its cases, or keeps none but an open one, is told
  const isValue = (c: Case): boolean => c.function === 'lift.beam.modulus' && c.expected?.W !== null
  const less = cases.filter((c) => !isValue(c))
  expect(less.some((c) => c.function === 'lift.beam.modulus')).toBe(true)
  expect(withoutCase('lift', less)).toEqual(['lift.beam.modulus'])
})

test('the readme shows a case that can be read', () => {
  const page = readFileSync(new URL('./README.md', import.meta.url), 'utf8')
  const [, shown = ''] = /```yaml\n([\s\S]*?)```/.exec(page) ?? []
  const { cases, problems } = readCases(shown)
  expect(problems).toEqual([])
  expect(cases).toHaveLength(1)
})
