import { expect, test } from 'vitest'
import { problemText } from '../working/problem.ts'
import { add, problemsAfter, replace } from './document.fixture.ts'

test.each([
  ['/parts/lug/material', 'steal', '"steal", expected the id of a material; did you mean "steel"?'],
  ['/joints/flange/between/1', 'ring-reer', '"ring-reer", expected the id of a part; did you mean "ring-rear"?'],
  [
    '/services/hose-1/from',
    'cabine',
    '"cabine", expected the id of a part or an end outside the machine; did you mean "cabin"?',
  ],
  ['/pieces/front/parts/1', 'lug-05', '"lug-05", expected the id of a part; did you mean "lug-01"?'],
  ['/pieces/front/bay', 'B2', '"B2", expected the id of a bay; did you mean "B1"?'],
  ['/lifts/front-out/piece', 'frnt', '"frnt", expected the id of a piece; did you mean "front"?'],
  ['/lifts/front-out/system', 'crene', '"crene", expected the id of a lifting system; did you mean "crane"?'],
  ['/lifts/front-out/hook', 'mian', '"mian", expected the id of a hook of crane; did you mean "main"?'],
  [
    '/lifts/front-out/rigging/legs/0/item',
    'slang',
    '"slang", expected the id of an item of stock; did you mean "sling"?',
  ],
  [
    '/lifts/front-out/rigging/legs/0/to',
    'tip',
    '"tip", expected the id of a lifting point of the piece or of gear bolted to it; did you mean "top"?',
  ],
  ['/steps/S1/lift', 'frontout', '"frontout", expected the id of a lift; did you mean "front-out"?'],
  ['/order/0', 'S2', '"S2", expected the id of a step; did you mean "S1"?'],
  ['/ground/water/one/layers/0', 'sond', '"sond", expected the id of a ground layer; did you mean "sand"?'],
  ['/tests/T2/after/0', 'T0', '"T0", expected the id of a test; did you mean "T1"?'],
  ['/programme/activities/A2/after/0/to', 'A3', '"A3", expected the id of an activity; did you mean "A1"?'],
  ['/programme/activities/A2/calendar', 'dey', '"dey", expected the id of a calendar; did you mean "day"?'],
])('%s naming "%s" is told with the nearest id that is there', (path, id, expected) => {
  expect(problemsAfter(replace(path, id)).map(problemText)).toEqual([`${path}: found ${expected}`])
})

test('an id like no other is told without a guess', () => {
  expect(problemsAfter(replace('/parts/lug/material', 'concrete'))).toEqual([
    { pointer: '/parts/lug/material', found: '"concrete"', expected: 'the id of a material' },
  ])
})

test('an entry, one of its pattern and an end outside the machine may all be named', () => {
  expect(
    problemsAfter(
      add('/machine', {
        pose: { origin: ['0 m', '0 m', '-15 m'], roll: '0 deg', pitch: '0 deg', yaw: '0 deg' },
        targets: ['lug', 'lug-02'],
      }),
      add('/services/hose-2', {
        kind: 'hose',
        medium: 'oil',
        from: 'lug-03',
        to: 'cabin',
        timeOff: '5 min',
        timeOn: '5 min',
      }),
    ),
  ).toEqual([])
})

test('an activity may follow a derived one, named by the step, change or test it comes from', () => {
  const after = (to: string) => replace('/programme/activities/A2/after/0/to', to)
  expect(problemsAfter(after('S1.out'))).toEqual([])
  expect(problemsAfter(after('test.T1'))).toEqual([])
  expect(problemsAfter(after('test.T9')).map((p) => p.found)).toEqual(['"T9"'])
})

test('a leg may hang from a node of its arrangement, and from no other', () => {
  const withNode = add('/lifts/front-out/rigging/nodes', { left: { gear: 'beam', offset: ['0 m', '1 m', '-1 m'] } })
  const beam = add('/gear', { beam: { name: 'Beam', kind: 'spreader', mass: '0.5 t' } })
  const from = (node: string) => add('/lifts/front-out/rigging/legs/0/from', node)
  expect(problemsAfter(beam, withNode, from('left'))).toEqual([])
  expect(problemsAfter(beam, withNode, from('right')).map((p) => p.pointer)).toEqual([
    '/lifts/front-out/rigging/legs/0/from',
  ])
})

test('a tail hook may hold points of the gear that the main hook carries', () => {
  const frame = add('/gear', {
    frame: { name: 'Frame', kind: 'turning frame', mass: '1 t', points: { low: { at: ['0 m', '0 m', '-1 m'] } } },
  })
  const main = add('/lifts/front-out/rigging/gear', ['frame'])
  const tail = add('/lifts/front-out/tail', { hook: 'main', rigging: { legs: [{ item: 'sling', to: 'low' }] } })
  expect(problemsAfter(frame, main, tail)).toEqual([])
})

test('a thousand ids that name nothing are all told', () => {
  const many = Array.from({ length: 1000 }, (_, i) => `missing-${i}`)
  expect(problemsAfter(replace('/pieces/rear/parts', many))).toHaveLength(1000)
})
