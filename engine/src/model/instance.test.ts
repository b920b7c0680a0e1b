import { expect, test } from 'vitest'
import { freshMemory } from '../working/memory.ts'
import { add, replace, smallDocument } from './document.fixture.ts'
import { idsMeant } from './instance.ts'
import { model } from './model.ts'

const instancesAfter = (...changes: Parameters<typeof smallDocument>) => {
  const { model: read, problems } = model(smallDocument(...changes), freshMemory())
  if (read === undefined) throw new Error(JSON.stringify(problems))
  return read.instances
}

test('motors around the axis stand a step apart, the first where it is drawn', () => {
  const { ofEntry } = instancesAfter()
  expect(ofEntry.get('lug')?.map((i) => [i.id, Math.round((i.turn * 180) / Math.PI)])).toEqual([
    ['lug-01', 0],
    ['lug-02', 90],
    ['lug-03', 180],
    ['lug-04', 270],
  ])
})

test('parts along a line are shifted, not turned', () => {
  const { byId } = instancesAfter(
    replace('/parts/lug/pattern', { kind: 'along a line', count: 3, step: ['0.5 m', '0 m', '-1 m'] }),
  )
  expect(byId.get('lug-03')).toMatchObject({ turn: 0, shift: [1, 0, -2] })
})

test('numbers have as many figures as the largest needs, and two at least', () => {
  const ids = (count: number) => [...instancesAfter(replace('/parts/lug/pattern/count', count)).byId.keys()].slice(2)
  expect(ids(1)).toEqual(['lug-01'])
  expect(ids(100).at(0)).toBe('lug-001')
  expect(ids(100).at(-1)).toBe('lug-100')
})

test('an id means all of an entry, or the one part named', () => {
  const instances = instancesAfter()
  expect(idsMeant(instances, 'lug')).toHaveLength(4)
  expect(idsMeant(instances, 'lug-02')).toEqual(['lug-02'])
  expect(idsMeant(instances, 'ring-front')).toEqual(['ring-front'])
  expect(idsMeant(instances, 'nothing')).toEqual([])
})

test('a part of its own is its entry', () => {
  const { byId } = instancesAfter(
    add('/parts/plate', {
      name: 'Plate',
      material: 'steel',
      solids: [{ shape: 'box', centre: ['0 m', '0 m', '5 m'], size: ['1 m', '1 m', '1 m'] }],
    }),
  )
  expect(byId.get('plate')).toMatchObject({ id: 'plate', entry: 'plate', index: 0, turn: 0, shift: [0, 0, 0] })
})
