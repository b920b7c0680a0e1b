import { derive } from '@shieldwright/engine'
import { emptyProject } from '@shieldwright/engine/model/empty.ts'
import { applyPatch } from '@shieldwright/engine/working/patch.ts'
import { beforeAll, describe, expect, test } from 'vitest'
import { demoDocument } from '../../../engine/src/demo.fixture.ts'
import type { Summary } from '../engine/protocol.ts'
import { summaryOf } from '../engine/view.ts'
import type { Facts } from './facts.ts'
import { heavierBy } from './heavier.ts'
import { PEOPLE } from './questions.ts'

const all = PEOPLE.flatMap(({ questions }) => questions)

function factsOf(document: unknown): Facts {
  const { stages, problems } = derive(document)
  if (stages === undefined) throw new Error(problems.map((p) => `${p.pointer} ${p.expected}`).join())
  return { summary: summaryOf(stages), document, system: 'SI' }
}

let demo: Facts
const answer = (id: string, more: Partial<Facts> = {}): string =>
  all.find((q) => q.id === id)?.answer({ ...demo, ...more }) ?? 'no such question'

beforeAll(() => {
  demo = factsOf(demoDocument())
})

test('eight people ask at least five questions each, every one once', () => {
  expect(PEOPLE).toHaveLength(8)
  for (const { name, questions } of PEOPLE) expect(questions.length, name).toBeGreaterThanOrEqual(5)
  expect(new Set(all.map((q) => q.id)).size).toBe(all.length)
})

describe.each([
  ['the demo', () => demo],
  ['an empty project', () => factsOf(emptyProject())],
])('of %s', (_, facts) => {
  test.each(all.map((q) => [q.asks, q] as const))('%s', (_, question) => {
    const said = question.answer(facts())
    expect(said).toMatch(/\S.*[.!?…]$/)
    expect(said).not.toMatch(/undefined|NaN|Invalid|\[object/)
    expect(question.place(facts()).href).toMatch(/^#\w+/)
  })
})

test('the load on the hook is told with its rating, the selected lift before the heaviest', () => {
  expect(answer('mass')).toContain('of 660.0 t')
  expect(answer('mass', { selected: '/lifts/head-drive-out' })).toContain('628.0 t of 660.0 t')
})

test('the gusts, gaps and dates told are those of the project', () => {
  const { summary } = demo
  const crown = summary.lifts.find((l) => l.id === 'crown-out') as Summary['lifts'][number]
  expect(answer('wind', { selected: '/lifts/crown-out' })).toContain(`${crown.wind?.toFixed(1)} m/s`)
  expect(answer('fits', { selected: '/lifts/crown-out' })).toContain(crown.clearance?.to)
  expect(answer('late')).toMatch(/^Main bearing.*d too late at 80 %/)
})

test('of lifts that fail when all is 7 % heavier, each is told before it is tried', () => {
  const document = demoDocument()
  const changed = applyPatch(document, heavierBy(0.07, document)) as { document: unknown }
  const after = factsOf(changed.document)
  const over = (facts: Facts) =>
    facts.summary.checks.filter((c) => c.kind === 'lift.hook.use' && c.verdict === 'fail').map((c) => c.pointer)
  const newly = new Set(over(after).filter((p) => !over(demo).includes(p)))
  expect(newly).toContain('/lifts/head-drive-out')
  const told = Number(/about (\d+) lifts/.exec(answer('heavier'))?.[1])
  expect(told).toBeGreaterThanOrEqual(newly.size)
})

test('masses are made heavier in any unit, and what is no mass is left alone', () => {
  const parts = { a: { mass: { value: '10 t' } }, b: { mass: { value: 'heavy' } }, c: {} }
  expect(heavierBy(0.1, { parts })).toEqual([{ op: 'replace', path: '/parts/a/mass/value', value: '11000 kg' }])
})
