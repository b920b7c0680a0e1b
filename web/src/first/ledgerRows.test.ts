import { expect, test } from 'vitest'
import type { CheckView } from '../engine/protocol.ts'
import { ledgerRows } from './ledgerRows.ts'

const finding = (id: string, more: Partial<CheckView> & { at?: number }): CheckView => ({
  id,
  kind: 'lift.hook.use',
  stage: 'lift',
  pointer: '/lifts/a',
  subject: 'a',
  subjectName: 'A',
  title: '',
  unit: 'kg',
  demand: 1,
  capacity: 1,
  utilisation: 1,
  verdict: 'near',
  reasons: [],
  decidedBy: '',
  cautions: [],
  assumptions: [],
  ...(more.at === undefined
    ? {}
    : {
        follows: {
          from: 'mass',
          reaches: 'risk',
          stops: { activity: 'x', name: '', lift: undefined, at: more.at },
        },
      }),
  ...more,
})

test('a failure comes before all that is near, and near before open, whatever the day', () => {
  const rows = ledgerRows([
    finding('open', { verdict: 'open', at: 1 }),
    finding('near', { at: 2 }),
    finding('fail', { verdict: 'fail', at: 3 }),
  ])
  expect(rows.map((r) => r.check.id)).toEqual(['fail', 'near', 'open'])
})

test('of two failures that which stops work first comes first, though the other is worse', () => {
  const rows = ledgerRows([
    finding('later', { verdict: 'fail', pointer: '/lifts/b', utilisation: 8, at: 20 }),
    finding('sooner', { verdict: 'fail', utilisation: 1.01, at: 10 }),
  ])
  expect(rows.map((r) => r.check.id)).toEqual(['sooner', 'later'])
})

test('what is near on one lift is one row, named by the worst; another lift has its own', () => {
  const rows = ledgerRows([
    finding('sling', { utilisation: 0.92 }),
    finding('hook', { utilisation: 0.98 }),
    finding('other', { pointer: '/lifts/b', utilisation: 0.95 }),
  ])
  expect(rows.map((r) => [r.check.id, r.others.map((o) => o.id)])).toEqual([
    ['hook', ['sling']],
    ['other', []],
  ])
})

test('two failures of one kind on different things are two rows, and no finding is lost', () => {
  const all = [
    finding('m1', { verdict: 'fail', stage: 'mass', kind: 'mass.set', pointer: '/pieces/a' }),
    finding('m2', { verdict: 'fail', stage: 'mass', kind: 'mass.set', pointer: '/pieces/b' }),
    finding('m3', { stage: 'mass', kind: 'mass.set', pointer: '/pieces/c' }),
    finding('m4', { stage: 'mass', kind: 'mass.set', pointer: '/pieces/d' }),
  ]
  const rows = ledgerRows(all)
  expect(rows.map((r) => 1 + r.others.length)).toEqual([1, 1, 2])
})

test('a row stops work on the earliest day of all that it speaks for', () => {
  const [row] = ledgerRows([finding('a', { utilisation: 0.99, at: 30 }), finding('b', { utilisation: 0.95, at: 10 })])
  expect(row?.check.id).toBe('a')
  expect(row?.at).toBe(10)
})
