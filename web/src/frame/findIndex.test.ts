import { expect, test } from 'vitest'
import type { Summary } from '../engine/protocol.ts'
import { indexOf, search } from './findIndex.ts'

const nothing = { lifts: [], activities: [], checks: [] } as unknown as Summary

const named = (prefix: string, n: number, name: (i: number) => string): Record<string, { name: string }> =>
  Object.fromEntries(Array.from({ length: n }, (_, i) => [`${prefix}-${i}`, { name: name(i) }]))

const ids = (typed: string, document: unknown): string[] =>
  search(indexOf(document, nothing, []), typed).flatMap((g) => g.hits.map((h) => h.id))

test('an id typed whole comes before every name that holds it', () => {
  const document = {
    parts: { 'B-1': { name: 'Spare for B' }, B: { name: 'Bulkhead' } },
    joints: { J: { name: 'b to bulkhead' } },
  }
  expect(ids('b', document)[0]).toBe('B')
  expect(ids('bulkhead', document)[0]).toBe('B')
})

test('every word has to be there, in any order', () => {
  const document = { services: { H1: { name: 'Hose, return, oil' }, H2: { name: 'Hose, return, water' } } }
  expect(ids('oil hose', document)).toEqual(['H1'])
  expect(ids('oil water', document)).toEqual([])
})

test('what is found opens where it stands, selected', () => {
  const document = { bays: { B3: { name: 'Bay 3' } }, ground: { layers: { G2: { name: 'Marl' } } } }
  const [bay] = search(indexOf(document, nothing, []), 'bay 3')
  expect(bay?.hits[0]).toMatchObject({ href: '#ground', select: '/bays/B3', kind: 'bay' })
  const [marl] = search(indexOf(document, nothing, []), 'marl')
  expect(marl?.hits[0]?.select).toBe('/ground/layers/G2')
})

test('hits stand together by kind, and what is left out is counted', () => {
  const document = { parts: named('P', 20, (i) => `Bolt ${i}`), joints: named('J', 3, (i) => `Bolt circle ${i}`) }
  const groups = search(indexOf(document, nothing, []), 'bolt')
  expect(groups.map((g) => g.kind)).toEqual(['part', 'joint'])
  expect((groups[0]?.hits.length ?? 0) + (groups[0]?.more ?? 0)).toBe(20)
})

test('of ten thousand entities a few are shown of each kind, and the rest is counted', () => {
  const document = {
    parts: named('P', 5000, (i) => `Ring segment ${i} of the front shield`),
    services: named('S', 5000, (i) => `Hydraulic hose ${i} to the main drive`),
  }
  const index = indexOf(document, nothing, [])
  expect(index.entries.length).toBeGreaterThan(10_000)
  for (const typed of ['s', 'se', 'segment', 'the main']) {
    const groups = search(index, typed)
    expect(groups.length).toBeGreaterThan(0)
    for (const { hits } of groups) expect(hits.length).toBeLessThanOrEqual(20)
  }
  const [parts] = search(index, 'segment')
  expect((parts?.hits.length ?? 0) + (parts?.more ?? 0)).toBe(5000)
  expect(search(index, 'P-4999')[0]?.hits[0]?.id).toBe('P-4999')
})
