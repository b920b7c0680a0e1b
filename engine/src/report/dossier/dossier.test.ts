import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { attachmentsNamed, model } from '../../model/index.ts'
import { readText } from '../../model/text.ts'
import { freshMemory } from '../../working/memory.ts'
import { primitivesOf, textsOf } from '../drawing.ts'
import { HAND_PAPERS } from '../paper/size.ts'
import { wordsAstray } from '../words.fixture.ts'
import type { AttachedFiles } from './attached.ts'
import { dossierStages, everyRecord, testOf } from './dossier.fixture.ts'
import { dossierPages } from './dossierPages.ts'
import { type DossierOptions, type DossierSheet, type DossierStages, dossierSheet } from './dossierSheet.ts'

const exampleOf = (name: string): DossierStages => {
  const file = new URL(`../../../../examples/${name}/project.yaml`, import.meta.url)
  return dossierStages(readText(readFileSync(file, 'utf8')).document)
}

const underWay = exampleOf('under-way')
const complete = dossierStages(everyRecord())

const wordsOf = (stages: DossierStages, options: DossierOptions = {}): string =>
  dossierPages(stages, options)
    .flatMap((page) => textsOf(page.marks))
    .map((t) => t.text)
    .join(' ')

/** What is due and what of it is open, by name. */
const openOf = ({ lines }: DossierSheet): Record<string, [due: number, open: number]> =>
  Object.fromEntries(lines.flatMap(({ name, due, open }) => (due === 0 ? [] : [[name, [due, open]]])))

const changed = (more: object) => dossierSheet(dossierStages(everyRecord(more as Record<string, unknown>)))

test('an empty project has one page, and it says that nothing is on record', () => {
  const empty = dossierStages({ schemaVersion: 1, about: { title: 'Small' } })
  expect(dossierSheet(empty).isEmpty).toBe(true)
  expect(dossierPages(empty)).toHaveLength(1)
  const words = wordsOf(empty)
  expect(words).toContain('Nothing is on record')
  for (const kind of ['No opened part', 'No weld', 'No bolt-up record', 'No weighing', 'No test', 'No punch item'])
    expect(words).toContain(kind)
  expect(dossierSheet(complete).isEmpty).toBe(false)
  expect(wordsOf(complete)).not.toContain('Nothing is on record')
})

test.each([
  ['a lid on a tub', complete],
  ['the example under way', underWay],
])('every record stands once, as data and on paper: %s', (_, stages) => {
  const { inspections, welds, boltRecords, weighings, services, tests, punchList } = stages.model.project
  const sheet = dossierSheet(stages)
  const ids = (all: readonly { id: string }[]): string[] => all.map(({ id }) => id).sort()
  const keys = (all: object): string[] => Object.keys(all).sort()
  expect(ids(sheet.parts)).toEqual(keys(inspections))
  expect(ids(sheet.welds)).toEqual(keys(welds))
  expect(ids(sheet.bolts)).toEqual(keys(boltRecords))
  expect(ids(sheet.weighings)).toEqual(keys(weighings))
  expect(ids(sheet.tests)).toEqual(keys(tests))
  expect(ids(sheet.punch)).toEqual(keys(punchList))
  expect(ids(sheet.services)).toEqual(
    keys(services).filter((id) => services[id]?.parted !== undefined || services[id]?.joined !== undefined),
  )
  const words = wordsOf(stages)
  const titles = [
    ...[...sheet.parts, ...sheet.welds].map(({ id, what }) => `${id} ${what}`),
    ...sheet.bolts.map(({ id, joint }) => `${id} bolts of ${joint}`),
    ...sheet.weighings.map(({ id, piece }) => `${id}: ${piece}`),
    ...sheet.services.map(({ id, kind, medium }) => `${id}: ${kind}, ${medium}`),
    ...sheet.tests.map((t) => `${t.id} ${t.system}: ${t.test}`),
    ...sheet.punch.map(({ id, what }) => `${id} ${what}`),
  ]
  expect(titles.length).toBeGreaterThan(4)
  for (const title of titles) expect([title, words.replace(/\s+/g, ' ').split(title).length - 1]).toEqual([title, 1])
})

test('every figure names checks that stand in the list, and every check of a record is named by a figure', () => {
  for (const stages of [complete, underWay, exampleOf('recovery')]) {
    const sheet = dossierSheet(stages)
    const listed = new Set(sheet.checks.map(({ id }) => id))
    const named = [
      ...sheet.parts.flatMap((p) => [p.checks, ...p.measures.map((m) => m.checks)]),
      ...sheet.welds.flatMap((w) => [
        ...Object.values(w.checks),
        ...[...w.examinations, ...w.measures].map((m) => m.checks),
      ]),
      ...sheet.bolts.flatMap((b) => Object.values(b.checks)),
      ...[...sheet.closings, ...sheet.weldedChanges, ...sheet.weighings, ...sheet.joinings, ...sheet.tests].map(
        (r) => r.checks,
      ),
      ...sheet.punch.map((p) => p.checks),
    ].flat()
    expect(named.filter((id) => !listed.has(id))).toEqual([])
    const unnamed = [...listed].filter((id) => !named.includes(id) && !id.startsWith('programme.punch.held/'))
    expect(unnamed).toEqual([])
    for (const part of sheet.parts) for (const { checks } of part.measures) expect(checks.length).toBeGreaterThan(0)
    for (const t of sheet.tests) expect(t.checks.length).toBeGreaterThan(0)
  }
})

describe('what is open is said open', () => {
  test('with every record complete only the pipe that nobody joined is', () => {
    expect(openOf(dossierSheet(complete))).toEqual({
      'Opened parts': [1, 0],
      Welds: [1, 0],
      'Bolt-up records': [1, 0],
      'Bolted joints of the return': [1, 0],
      Weighings: [1, 0],
      'Services joined again': [2, 1],
      Tests: [1, 0],
      'Punch list': [1, 0],
    })
    expect(dossierSheet(complete).joinings[0]?.open).toEqual(['H2'])
  })

  const raw = everyRecord() as Record<string, Record<string, Record<string, unknown>>>

  test('heat of a weld is printed in the units of the reader: 120 and 125 °C are 248 and 257 °F', () => {
    expect(wordsOf(complete)).toMatch(/at least 120.°C, lowest read 125.°C/)
    expect(wordsOf(complete, { units: 'US' })).toMatch(/at least 248.°F, lowest read 257.°F/)
  })

  test('a change that is welded is open until a weld names it, and that one is to be recorded is said', () => {
    const rib = { kind: 'stiffen', what: 'Rib under the lid', status: 'approved', parts: ['lid'], joining: 'welded' }
    const unnamed = dossierStages(everyRecord({ changes: { C1: rib } }))
    const named = { changes: { C1: rib }, welds: { rib: { ...raw.welds?.rib, change: 'C1' } } }
    expect(openOf(dossierSheet(unnamed))['Changes that are welded']).toEqual([1, 1])
    expect(wordsOf(unnamed)).toContain('none: to record')
    expect(openOf(dossierSheet(dossierStages(everyRecord(named))))['Changes that are welded']).toEqual([1, 0])
  })

  const without = (collection: string, id: string, field: string): object => {
    const { [field]: _left, ...rest } = raw[collection]?.[id] ?? {}
    return { [collection]: { ...raw[collection], [id]: rest } }
  }
  test.each([
    ['Opened parts', 'inspections', 'seat', 'decided'],
    ['Welds', 'welds', 'rib', 'finished'],
    ['Bolt-up records', 'boltRecords', 'B1', 'checkedBy'],
    ['Tests', 'tests', 'T1', 'readings'],
    ['Punch list', 'punchList', 'seep', 'closed'],
  ])('%s: %s/%s without its %s', (name, collection, id, field) => {
    const sheet = changed(without(collection, id, field))
    expect(openOf(sheet)[name]).toEqual([1, 1])
    expect(sheet.checks.some((c) => c.verdict === 'open' && c.why.includes(`/${collection}/${id}/`))).toBe(true)
  })

  test('a joint that no record names, and a service that nobody looked at', () => {
    expect(openOf(changed({ boltRecords: {} }))['Bolted joints of the return']).toEqual([1, 1])
    const { H1, H2 } = raw.services as Record<string, Record<string, object>>
    const joined = { ...H1?.joined, checkedBy: undefined }
    expect(openOf(changed({ services: { H1: { ...H1, joined }, H2 } }))['Services joined again']).toEqual([2, 2])
  })

  test('a service whose tags differ is wrong, and the difference is said', () => {
    const { H1, H2 } = raw.services as Record<string, Record<string, object>>
    const sheet = changed({ services: { H1: { ...H1, joined: { ...H1?.joined, port: 'H9' } }, H2 } })
    expect(sheet.services[0]).toMatchObject({ state: 'wrong', faults: ['H1: the port reads "H9"'] })
    expect(sheet.fails).toBe(true)
  })
})

describe('tests', () => {
  const statesOf = (tests: object, more: object = {}) =>
    changed({ tests, ...more }).tests.map(({ id, state, lacks }) => [id, state, lacks.join('; ')])

  test('stand after all that they rest on, however the file has them', () => {
    const tests = { T3: testOf(1, { after: ['T2'] }), T2: testOf(1, { after: ['T1'] }), T1: testOf(1) }
    expect(statesOf(tests).map(([id]) => id)).toEqual(['T1', 'T2', 'T3'])
    expect(statesOf(tests).map(([, state]) => state)).toEqual(['passed', 'passed', 'passed'])
  })

  test('one within its limit is not passed while what it rests on, at any remove, is not', () => {
    const tests = { T1: testOf(undefined), T2: testOf(1, { after: ['T1'] }), T3: testOf(1, { after: ['T2'] }) }
    const [first, second, third] = statesOf(tests)
    expect(first).toEqual(['T1', 'open', 'nothing is read'])
    expect(second?.[1]).not.toBe('passed')
    expect(second?.[2]).toContain('rests on T1, which is not passed')
    expect(third?.[1]).not.toBe('passed')
    expect(third?.[2]).toContain('rests on T2, which is not passed')
  })

  test('one within its limit is not passed while work before it is not on record as done', () => {
    const tests = { T1: testOf(1, { afterReturn: ['S1'] }) }
    expect(statesOf(tests)).toEqual([['T1', 'open', 'waits for S1, which is not on record as done']])
  })

  test('one within its limit is not passed while a punch item that blocks holds it', () => {
    const item = { what: 'Lid seeps', found: { by: 'fitter', on: '2033-02-01' }, blocks: 'restart', tests: ['T1'] }
    const held = { punchList: { seep: item } }
    expect(statesOf({ T1: testOf(1) }, held)).toEqual([['T1', 'open', 'held by punch item seep']])
    const later = { punchList: { seep: { ...item, blocks: 'nothing' } } }
    expect(statesOf({ T1: testOf(1) }, later)).toEqual([['T1', 'passed', '']])
  })

  test('one out of its limit fails; one without a limit, or without the witness of its hold point, is open', () => {
    const noLimit = testOf(1, { limit: undefined })
    expect(statesOf({ T1: testOf(1.1) })[0]?.[1]).toBe('failed')
    expect(statesOf({ T1: noLimit })[0]?.slice(1)).toEqual(['open', 'no limit is given'])
    expect(statesOf({ T1: testOf(1, { holdPoint: true }) })[0]?.slice(1)).toEqual(['open', 'a check is open'])
  })
})

test('on the punch list open items stand first, and of these what blocks energy, then the restart', () => {
  const item = (blocks: string, closed?: string) => ({
    what: 'Item',
    found: { by: 'fitter', on: '2033-01-21' },
    blocks,
    ...(closed === undefined ? {} : { closed: { by: 'foreman', on: closed } }),
  })
  const punchList = {
    a: item('energising', '2033-01-22'),
    b: item('nothing'),
    c: item('restart'),
    d: item('energising'),
  }
  expect(changed({ punchList }).punch.map(({ id }) => id)).toEqual(['d', 'c', 'b', 'a'])
})

test('a reading of what was replaced stands no more, and is printed as such', () => {
  const [swivel] = dossierSheet(underWay).parts
  expect(swivel?.measures[0]?.readings.map(({ value, standsNot }) => [value, standsNot])).toEqual([
    [1.4, 'of what was there before'],
    [0.1, undefined],
  ])
  expect(wordsOf(underWay)).toContain('of what was there before')
})

test('without a store it is said that signatures were not asked for; from one, what is overtaken', () => {
  expect(wordsOf(complete)).toContain('kept in the store')
  const signed = {
    id: 's1',
    kind: 'test',
    subject: '/tests/T1',
    role: 'owner',
    by: 'A. Signer',
    on: '2033-02-02',
    state: 'overtaken',
    statement: '',
  } as const
  const words = wordsOf(complete, { signatures: [signed] })
  expect(words).toContain('overtaken')
  expect(dossierSheet(complete, { signatures: [signed] }).tests[0]?.signatures).toEqual(['s1'])
  expect(wordsOf(complete, { signatures: [] })).toContain('Nothing is signed')
})

describe('files that records name', () => {
  const [seen, gone, table] = ['a', 'b', 'c'].map((digit) => digit.repeat(64)) as [string, string, string]
  const attached = (...hashes: string[]) => hashes.map((hash) => ({ hash, caption: `caption of ${hash.slice(0, 2)}` }))
  const record = (collection: string, id: string, hashes: string[]) => {
    const raw = everyRecord() as Record<string, Record<string, object>>
    return {
      [collection]: { ...raw[collection], [id]: { ...raw[collection]?.[id], attachments: attached(...hashes) } },
    }
  }
  const files: AttachedFiles = new Map([
    [seen, 'printed'],
    [table, 'not a JPEG or PNG that can be read'],
  ])
  const shownOn = (stages: DossierStages, options: DossierOptions) =>
    dossierPages(stages, options)
      .flatMap((page) => primitivesOf(page.marks))
      .flatMap((mark) => (mark.kind === 'photograph' ? [mark.hash] : []))

  test.each([
    ['inspections', 'seat'],
    ['welds', 'rib'],
    ['boltRecords', 'B1'],
    ['punchList', 'seep'],
    ['services', 'H2'],
    ['weighings', 'W1'],
  ])('of %s each is printed, or why not is said; none is dropped', (collection, id) => {
    const stages = dossierStages(everyRecord(record(collection, id, [seen, gone, table, seen])))
    expect(attachmentsNamed(stages.model.project)).toEqual([seen, gone, table])
    expect(shownOn(stages, { files })).toEqual([seen, seen])
    const words = wordsOf(stages, { files })
    expect(words).toContain('not in the store')
    expect(words).toContain('not a JPEG or PNG')
    expect(words.split('caption of').length - 1).toBe(4)
    // a page asks its workbench for every one of them
    expect(shownOn(stages, {})).toEqual([seen, gone, table, seen])
  })

  test('what is no hash is refused at its place', () => {
    const { problems } = model(everyRecord(record('welds', 'rib', ['A1'])), freshMemory())
    expect(problems.map(({ pointer }) => pointer)).toEqual(['/welds/rib/attachments/0/hash'])
    expect(problems[0]?.expected).toContain('SHA-256')
  })
})

test.each(HAND_PAPERS)('no word lies on another or leaves the paper, on %s', (paper) => {
  for (const stages of [complete, underWay])
    for (const page of dossierPages(stages, { paper, units: 'US' })) expect(wordsAstray(page)).toEqual([])
})
