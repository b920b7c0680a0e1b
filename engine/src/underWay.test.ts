import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { startDerivation } from './derivation.ts'
import type { Stages } from './derive.ts'
import { readText } from './model/text.ts'

const file = new URL('../../examples/under-way/project.yaml', import.meta.url)

test('the lifts of the example under way stand done and weighed, on the hook, and ahead; no check of them fails or is open', () => {
  const { derived } = startDerivation(readText(readFileSync(file, 'utf8')).document)
  const { programme, lift, mass, checks } = derived.stages as Stages
  const states = (end: string) => [1, 2, 3, 4].map((k) => programme.activities[`Y0${k}-casing-${k}.${end}`]?.state)
  expect(states('out')).toEqual(['done', 'done', 'under way', undefined])
  expect(states('back')).toEqual([undefined, undefined, undefined, undefined])
  expect([1, 2, 3, 4].map((k) => mass.pieces[`casing-${k}`]?.weighed !== undefined)).toEqual([true, true, false, false])
  const ids = new Set(Object.keys(lift.lifts))
  expect(ids.size).toBe(8)
  const verdicts = checks.filter(({ stage, subject }) => stage === 'lift' && ids.has(subject.id)).map((c) => c.verdict)
  expect(verdicts.length).toBeGreaterThan(300)
  expect(new Set(verdicts)).toEqual(new Set(['pass']))
})
