import { expect, test } from 'vitest'
import { freshMemory } from '../working/memory.ts'
import { applyPatch, type Patch } from '../working/patch.ts'
import { block, cubeAt, known, modelOf, POSE, projectOf } from './mass.fixture.ts'
import { type MassResult, mass } from './mass.ts'
import { boxMesh } from './solid.fixture.ts'

/** A row of blocks, every two of them a piece; the first weighed, the second stiffened. */
function row(count: number) {
  const ids = Array.from({ length: count }, (_, i) => `b${i}`)
  const parts = Object.fromEntries(ids.map((id, i) => [id, block({ solids: [cubeAt(2 * i, 0, 0)], group: 'row' })]))
  const pairs = ids.filter((_, i) => i % 2 === 0)
  const pieces = Object.fromEntries(
    pairs.map((id, i) => [`p${i}`, { name: `Piece ${i}`, parts: [id, `b${2 * i + 1}`], retained: '10 kg' }]),
  )
  return projectOf({
    parts,
    pieces,
    machine: { pose: POSE, groupTotals: { row: { mass: `${7850 * count} kg`, uncertainty: 0.03 } } },
    changes: {
      plate: {
        kind: 'stiffen',
        what: 'Plate',
        status: 'approved',
        parts: ['b2'],
        added: { mass: '200 kg', basis: 'calculated', uncertainty: 0.05, at: ['4 m', '0 m', '0.5 m'] },
      },
    },
    weighings: { first: { piece: 'p0', measured: '16 t', accuracy: 0.01 } },
  })
}

const SETS = [['b0', 'b1', 'b2'], ['b3']]

function resultOf(document: unknown, memory = freshMemory()): MassResult {
  const result = mass(modelOf(document, memory), memory)
  for (const set of SETS) result.ofSet(set, 'returned')
  return result
}

/** All that can be compared of a result. */
const shown = ({ ofSet, ...plain }: MassResult) => ({ ...plain, sets: SETS.map((set) => ofSet(set, 'returned')) })

const edited = (document: unknown, patch: Patch): unknown => {
  const patched = applyPatch(document, patch)
  if ('problems' in patched) throw new Error(JSON.stringify(patched.problems))
  return patched.document
}

const edits: [string, Patch][] = [
  ['a mass', [{ op: 'replace', path: '/parts/b1/mass/value', value: '8 t' }]],
  ['an uncertainty', [{ op: 'replace', path: '/parts/b1/mass/uncertainty', value: 0.05 }]],
  ['a dimension', [{ op: 'replace', path: '/parts/b2/solids/0/size/0', value: '1.02 m' }]],
  ['a name', [{ op: 'replace', path: '/parts/b2/name', value: 'Another name' }]],
  [
    'a pattern',
    [{ op: 'add', path: '/parts/b5/pattern', value: { kind: 'along a line', count: 1, step: ['1 m', '0 m', '0 m'] } }],
  ],
  ['a density', [{ op: 'replace', path: '/materials/steel/density', value: '7800 kg/m3' }]],
  ['a piece', [{ op: 'replace', path: '/pieces/p1/parts', value: ['b3'] }]],
  ['what is retained', [{ op: 'replace', path: '/pieces/p2/retained', value: '50 kg' }]],
  ['a change', [{ op: 'replace', path: '/changes/plate/added/mass', value: '300 kg' }]],
  ['a change withdrawn', [{ op: 'replace', path: '/changes/plate/status', value: 'rejected' }]],
  ['a fate', [{ op: 'add', path: '/parts/b3/fate', value: 'scrapped' }]],
  [
    'a weighing',
    [{ op: 'add', path: '/weighings/second', value: { piece: 'p1', measured: '15.9 t', accuracy: 0.01 } }],
  ],
  ['the pose', [{ op: 'replace', path: '/machine/pose/roll', value: '2 deg' }]],
  ['the allowance', [{ op: 'replace', path: '/settings/allowance/calculated', value: 0.08 }]],
  ['the rule of uncertainty', [{ op: 'add', path: '/settings/uncertainty', value: 'correlated' }]],
  ['a total', [{ op: 'replace', path: '/machine/groupTotals/row/mass', value: '60 t' }]],
]

test.each(edits)('after %s is edited, step by step equals afresh', (_, patch) => {
  const before = row(8)
  const memory = freshMemory()
  resultOf(before, memory)
  const after = edited(before, patch)
  expect(shown(resultOf(after, memory))).toEqual(shown(resultOf(after)))
})

test('the edits are seen: each but the name and a pattern of one changes something', () => {
  const before = JSON.stringify(shown(resultOf(row(8))))
  const unseen = edits.filter(([, patch]) => JSON.stringify(shown(resultOf(edited(row(8), patch)))) === before)
  expect(unseen.map(([what]) => what)).toEqual([])
})

test('the same project gives the same masses, and is left as it was', () => {
  const document = row(8)
  const kept = structuredClone(document)
  expect(shown(resultOf(document))).toEqual(shown(resultOf(document)))
  expect(document).toEqual(kept)
})

/** What an edit of one mass computes again, by family. */
function again(count: number): Record<string, number> {
  const before = row(count)
  const memory = freshMemory()
  const first = resultOf(before, memory)
  const start = { ...memory.computed }
  const after = resultOf(edited(before, [{ op: 'replace', path: '/parts/b4/mass/value', value: '8 t' }]), memory)
  expect(after.pieces.p0).toBe(first.pieces.p0)
  return Object.fromEntries(
    Object.entries(memory.computed)
      .map(([family, n]) => [family, n - (start[family] ?? 0)] as const)
      .filter(([family, n]) => family.startsWith('mass') && n > 0),
  )
}

test('one edited mass computes one part again, and only the sets that hold it', () => {
  expect(again(8)).toEqual({
    'mass-part': 1,
    'mass-parts': 1,
    'mass-piece': 1,
    'mass-pieces': 1,
    'mass-set': 1,
    'mass-part-checks': 1,
    'mass-group-check': 1,
    'mass-piece-checks': 1,
  })
})

test('as many parts again cost an edit no more', () => expect(again(32)).toEqual(again(8)))

test('twice the parts are twice the results, no more', () => {
  const counts = [20, 40].map((n) => {
    const memory = freshMemory()
    resultOf(row(n), memory)
    return Object.entries(memory.computed)
      .filter(([family]) => family.startsWith('mass'))
      .reduce((sum, [, k]) => sum + k, 0)
  }) as [number, number]
  expect(counts[1] / counts[0]).toBeLessThanOrEqual(2)
})

test('a mesh given anew under the same name is read anew', () => {
  const document = projectOf({
    parts: {
      it: block({ mass: known('7.85 t', { uncertainty: 2 }), solids: [{ shape: 'mesh', file: 'abc', scale: '1 m' }] }),
    },
  })
  const memory = freshMemory()
  const of = (side: number): number => {
    const meshes = new Map([['abc', boxMesh([0, 0, 0], [1, 1, side])]])
    return mass(modelOf(document, memory, meshes), memory).machine.cogMachine[2]
  }
  expect(of(1)).toBeCloseTo(0.5, 12)
  expect(of(1.2)).toBeCloseTo(0.6, 12)
})
