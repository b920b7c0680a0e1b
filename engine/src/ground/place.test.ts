import { expect, test } from 'vitest'
import { placesByStep } from '../strip/index.ts'
import type { Patch } from '../working/patch.ts'
import { plainStrip, siteModel } from './ground.fixture.ts'

/** Two blocks lifted as one onto B; there one is taken off to C. */
const parted: Patch = [
  {
    op: 'add',
    path: '/parts/lid',
    value: {
      name: 'Lid',
      material: 'steel',
      solids: [{ shape: 'box', centre: ['0 m', '0 m', '1 m'], size: ['2 m', '2 m', '0.5 m'] }],
    },
  },
  { op: 'replace', path: '/pieces/block/parts', value: ['block', 'lid'] },
  { op: 'add', path: '/pieces/lid', value: { name: 'Lid', parts: ['lid'], retained: '0 kg', bay: 'C' } },
  {
    op: 'add',
    path: '/bays/C',
    value: { centre: ['0 m', '40 m'], size: ['4 m', '4 m'], level: '0 m', allowable: '100 kPa' },
  },
  { op: 'add', path: '/steps/off', value: { piece: 'lid', moves: [{ by: ['0 m', '0 m', '2 m'] }] } },
  { op: 'replace', path: '/order', value: ['take', 'off'] },
]

const places = (patch: Patch) => {
  const m = siteModel(patch)
  return placesByStep(m, plainStrip(m))
}

test('a piece leaves the shaft for its bay, and what is then parted from it goes on to another', () => {
  const [take, off] = places(parted)
  expect(take?.bay).toBe('B')
  expect(take?.from).toBeUndefined()
  expect(take?.after.B?.map((s) => s.parts)).toEqual([['block', 'lid']])
  expect(off?.from).toBe('B')
  expect(off?.after.B?.map((s) => [s.parts, s.whole])).toEqual([[['block'], false]])
  expect(off?.after.C?.map((s) => s.parts)).toEqual([['lid']])
})

test('what is in the shaft before a step is what remained after the one before', () => {
  const [take, off] = places(parted)
  expect([...(take?.below ?? [])].sort()).toEqual(['block', 'lid', 'shield'])
  expect(off?.below).toEqual(['shield'])
})

test('a piece that only moves aside in the shaft is set down on no bay', () => {
  const [take] = places([{ op: 'add', path: '/steps/take/stays', value: true }])
  expect(take?.bay).toBeUndefined()
  expect(take?.after).toEqual({})
})

test('a piece that the next step takes on still hangs: it is set down once, at the end', () => {
  const [first, second] = places([
    { op: 'add', path: '/steps/turn', value: { piece: 'block', moves: [{ by: ['0 m', '0 m', '1 m'] }] } },
    { op: 'replace', path: '/order', value: ['take', 'turn'] },
  ])
  expect(first?.bay).toBeUndefined()
  expect(second?.bay).toBe('B')
})
