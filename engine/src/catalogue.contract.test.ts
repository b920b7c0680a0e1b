import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { fixtureFaults, kindFixtures, provenKinds } from './catalogue.fixture.ts'
import { catalogue, checkKinds } from './catalogue.ts'
import { practiceChecks } from './practice.ts'
import { stated } from './working/answer.ts'
import { type CheckKind, check } from './working/check.ts'

const fixtures = await kindFixtures()

describe.each(checkKinds)('$id', (kind) => {
  test('passes, fails and is open on the fixtures named so', () => {
    expect(fixtureFaults(kind.id, fixtures.get(kind.id))).toEqual([])
  })

  test('belongs to its stage, has a source, and answers checks of practice that exist', () => {
    expect(kind.id.startsWith(`${kind.stage}.`), `${kind.id} begins with its stage`).toBe(true)
    expect(kind.source.text).not.toBe('')
    expect(kind.decidedBy).not.toBe('')
    for (const number of kind.practice) expect(practiceChecks.map((c) => c.number)).toContain(number)
  })
})

test('no two kinds share an id, and no fixtures stand for a kind that is not in the catalogue', () => {
  const ids = checkKinds.map((kind) => kind.id)
  expect(new Set(ids).size).toBe(ids.length)
  expect([...fixtures.keys()].filter((id) => !ids.includes(id))).toEqual([])
})

test('the list of practice runs from 1 to 104 without a gap, and every check says who decides', () => {
  expect(practiceChecks.map((c) => c.number)).toEqual(Array.from({ length: 104 }, (_, i) => i + 1))
  for (const c of practiceChecks) expect(c.decidedBy, String(c.number)).not.toBe('')
})

test('every check of practice has its place in the catalogue', async () => {
  const numbers = new Set(catalogue(await provenKinds()).flatMap((entry) => entry.practice))
  expect(practiceChecks.filter((c) => !numbers.has(c.number))).toEqual([])
})

test('the document lists the same checks, with the same source and who decides', () => {
  const page = readFileSync(new URL('../../docs/checks.md', import.meta.url), 'utf8')
  for (const c of practiceChecks) {
    const row = page.split('\n').find((line) => line.startsWith(`| ${c.number} |`))
    const cells = row?.split('|').map((cell) => cell.trim())
    expect(cells?.slice(1, 8)).toEqual([
      String(c.number),
      c.title,
      c.passes,
      c.source.text,
      { read: 'R', memory: 'M', derived: 'D', 'common practice': 'C' }[c.source.basis],
      c.stage,
      c.decidedBy,
    ])
  }
})

test('a kind that cannot fail, or has no fixtures, does not count as computed', () => {
  const kind: CheckKind = {
    id: 'mass.test.kind',
    title: 'A kind',
    stage: 'mass',
    source: { basis: 'derived', text: 'made for this test' },
    practice: [1],
    decidedBy: 'nobody',
  }
  const made = (demand: number) => () =>
    check({
      kind,
      subject: { pointer: '', id: 'x', name: 'x' },
      demand: stated('1', demand, 'demand'),
      capacity: stated('1', 1, 'capacity'),
      near: 0.9,
    })
  const always = { pass: made(0.5), fail: made(0.5), open: made(2) }
  expect(fixtureFaults(kind.id, always)).toEqual(['its "fail" comes out pass', 'its "open" comes out fail'])
  expect(fixtureFaults('mass.other', { ...always, fail: made(2) })).toContain(
    'its "pass" is a check of kind mass.test.kind',
  )
  expect(catalogue(new Set(), [kind])[0]).toMatchObject({ state: 'open', practice: [1] })
  expect(catalogue(new Set([kind.id]), [kind])[0]).toMatchObject({ state: 'computed' })
})
