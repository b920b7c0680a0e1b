import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { functions as ground } from './functions/ground.ts'
import { functions as lift } from './functions/lift.ts'
import { functions as mass } from './functions/mass.ts'
import { functions as programme } from './functions/programme.ts'
import { functions as risk } from './functions/risk.ts'
import { functions as strip } from './functions/strip.ts'
import { readCases } from './read.ts'
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

test('the readme shows a case that can be read', () => {
  const page = readFileSync(new URL('./README.md', import.meta.url), 'utf8')
  const [, shown = ''] = /```yaml\n([\s\S]*?)```/.exec(page) ?? []
  const { cases, problems } = readCases(shown)
  expect(problems).toEqual([])
  expect(cases).toHaveLength(1)
})
