import { startDerivation } from '@shieldwright/engine'
import { emptyProject } from '@shieldwright/engine/model/empty.ts'
import { applyPatch } from '@shieldwright/engine/working/patch.ts'
import { expect, test } from 'vitest'
import { demoDocument } from '../../../engine/src/demo.fixture.ts'
import { isBeginning } from './beginning.ts'
import { faultOf, idOf, type Values } from './field.ts'
import { STEPS, stepsNow } from './steps.ts'

/** A step filled in with the examples of its fields, as someone would who follows them to the letter. */
function filled(document: unknown, id: string, chosen: Values = {}): unknown {
  const step = STEPS.find((s) => s.id === id)
  if (step === undefined) throw new Error(`no step ${id}`)
  const values = { ...Object.fromEntries(step.fields(chosen).map((f) => [f.name, f.example])), ...chosen }
  const patched = applyPatch(document, step.write(document, values))
  if ('problems' in patched) throw new Error(JSON.stringify(patched.problems))
  return patched.document
}

const whole = (chosen: Readonly<Record<string, Values>> = {}): unknown =>
  STEPS.reduce((document, { id }) => filled(document, id, chosen[id]), emptyProject() as unknown)

test('an empty project derives without a fault and everything it lacks is on the list, in the order of the stages', () => {
  const { derived } = startDerivation(emptyProject())
  expect(derived.problems).toEqual([])
  const steps = stepsNow(emptyProject())
  expect(steps.every((s) => s.missing.length > 0)).toBe(true)
  const order = ['project', 'model', 'mass', 'strip', 'lift']
  const at = steps.map((s) => order.indexOf(s.step.stage))
  expect(at).toEqual([...at].sort((a, b) => a - b))
})

test('a project filled in step by step is sound after every step, and ends with a lift that has its hook load', () => {
  let document: unknown = emptyProject()
  for (const { id } of STEPS) {
    expect(stepsNow(document).find((s) => s.step.id === id)?.waits).toBeUndefined()
    document = filled(document, id)
    expect([id, startDerivation(document).derived.problems]).toEqual([id, []])
    expect(stepsNow(document).find((s) => s.step.id === id)?.missing).toEqual([])
  }
  const { stages } = startDerivation(document).derived
  const [lift] = Object.values(stages?.lift.lifts ?? {})
  // 37.6 t and 3 % of it, 4 slings of 60 kg; no dynamics: the rating includes them.
  expect(lift?.hookLoad.value).toBeGreaterThan(37_600)
  expect(lift?.hookLoad.value).toBeLessThan(42_000)
  expect(lift?.legs.length).toBe(4)
})

for (const shape of ['box', 'cylinder', 'ring sector']) {
  test(`a part can be a ${shape}, and what was typed is read back to be changed`, () => {
    const document = filled(whole(), 'part', { shape })
    expect(startDerivation(document).derived.problems).toEqual([])
    const part = stepsNow(document).find((s) => s.step.id === 'part')
    expect(part?.values.shape).toBe(shape)
    expect(part?.missing).toEqual([])
  })
}

test('a step that is changed keeps what else stands there', () => {
  const document = whole() as { pieces: Record<string, object>; parts: Record<string, object> }
  const again = filled(document, 'piece', { retained: '200 kg' }) as typeof document
  expect(Object.keys(again.pieces)).toEqual(Object.keys(document.pieces))
  expect(Object.values(again.pieces)[0]).toMatchObject({ ...Object.values(document.pieces)[0], retained: '200 kg' })
  const mass = filled(document, 'mass', { value: '40 t' }) as typeof document
  expect(Object.values(mass.parts)[0]).toMatchObject({ mass: { value: '40 t', basis: 'weighed' } })
})

test('an example is a hint: what is not typed is not in the project', () => {
  const step = STEPS.find((s) => s.id === 'system')
  const typed = { name: 'Crane', kind: 'mobile crane', hook: 'Main', rated: '100 t' }
  const patched = applyPatch(emptyProject(), step?.write(emptyProject(), typed) ?? [])
  expect(JSON.stringify('document' in patched && patched.document)).not.toContain('18 t')
})

test('a figure without its unit is refused with an example, in words', () => {
  const mass = STEPS.find((s) => s.id === 'mass')
    ?.fields({})
    .find((f) => f.name === 'value')
  if (mass === undefined) throw new Error('no mass')
  expect(faultOf(mass, '37.6')).toContain('such as 37.6 t')
  expect(faultOf(mass, '')).toContain('Missing')
  expect(faultOf(mass, '82 900 lb')).toBeUndefined()
})

test('ids are words of the name, and no two alike', () => {
  expect(idOf('Cutting head hub')).toBe('cutting-head-hub')
  expect(idOf('Größe 3')).toMatch(/^[a-z0-9-]+$/)
  expect(idOf('…')).toBe('one')
  expect(idOf('Bay', { bay: {}, 'bay-2': {} })).toBe('bay-3')
})

test('the demo is past its beginning; an empty project is at it', () => {
  expect(isBeginning(demoDocument())).toBe(false)
  expect(isBeginning(emptyProject())).toBe(true)
})
