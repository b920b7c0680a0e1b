import { describe, expect, test } from 'vitest'
import { restsOn } from '../working/answer.ts'
import { freshMemory } from '../working/memory.ts'
import { block, cubeAt, known, massOf, modelOf, projectOf } from './mass.fixture.ts'
import { mass } from './mass.ts'
import { boxMesh, ringSector } from './solid.fixture.ts'

const partOf = (part: Readonly<Record<string, unknown>>) => {
  const result = massOf({ parts: { it: part } })
  const own = result.parts.it
  if (own === undefined) throw new Error('no part')
  return { ...own, machine: result.machine }
}

test('a part without a stated mass weighs density × volume × solid fraction', () => {
  const part = partOf(block({ mass: undefined, solids: [{ ...cubeAt(0, 0, 0), fill: 0.3 }] }))
  expect(part.mass.value).toBeCloseTo(0.3 * 7850, 9)
  expect(part.basis).toBe('calculated')
  expect(part.uncertainty.value).toBeUndefined()
})

test('a stated mass stands, and the shape keeps its centroid; its inertia follows the stated mass', () => {
  const shape = { solids: [cubeAt(2, 0, 0)] }
  const light = partOf(block({ ...shape, mass: known('1 t') })).machine
  const heavy = partOf(block({ ...shape, mass: known('3 t') })).machine
  expect(heavy.net.value).toBe(3000)
  expect(heavy.cogMachine).toEqual([2, 0, 0])
  for (const i of [0, 1, 2] as const) expect(heavy.inertia[i][i]).toBeCloseTo(3 * light.inertia[i][i], 9)
  expect((light.inertia[0] as readonly number[])[0]).toBeCloseTo(1000 / 6, 9)
})

test('a cut takes mass away and moves the centroid to the other side', () => {
  const cut = { ...cubeAt(0.25, 0, 0), op: 'cut', size: ['0.5 m', '1 m', '1 m'] }
  const part = partOf(block({ mass: undefined, solids: [cubeAt(0, 0, 0), cut] }))
  expect(part.mass.value).toBeCloseTo(7850 / 2, 9)
  expect(part.machine.cogMachine[0]).toBeCloseTo(-0.25, 12)
  expect((part.machine.inertia[0] as readonly number[])[0]).toBeCloseTo((7850 / 2 / 12) * 2, 8)
})

test('a cut with the whole ring left by filling less says the same as a narrower ring', () => {
  const bored = partOf(
    block({
      mass: undefined,
      solids: [ringSector(0, 3, [0, 1], [0, 360]), { ...ringSector(0, 2, [0, 1], [0, 360]), op: 'cut' }],
    }),
  )
  const ring = partOf(block({ mass: undefined, solids: [ringSector(2, 3, [0, 1], [0, 360])] }))
  expect(bored.mass.value).toBeCloseTo(ring.mass.value as number, 8)
  for (const [i, row] of bored.machine.inertia.entries())
    for (const [j, x] of row.entries())
      expect(x).toBeCloseTo((ring.machine.inertia[i] as readonly number[])[j] as number, 6)
})

test('US and SI text of the same part give the same mass', () => {
  const si = partOf(
    block({ mass: undefined, solids: [{ ...cubeAt(0, 0, 0), size: ['0.3048 m', '0.6096 m', '25.4 mm'] }] }),
  )
  const us = partOf(block({ mass: undefined, solids: [{ ...cubeAt(0, 0, 0), size: ['1 ft', '2 ft', '1 in'] }] }))
  expect(us.mass.value).toBeCloseTo(si.mass.value as number, 9)
})

test('a computed mass rests on the density and on every dimension', () => {
  const part = partOf(block({ mass: undefined }))
  expect(restsOn(part.mass).sort()).toEqual([
    '/materials/steel/density',
    '/parts/it/solids/0/size/0',
    '/parts/it/solids/0/size/1',
    '/parts/it/solids/0/size/2',
  ])
})

test('a centroid rests on where its solids are', () => {
  expect(restsOn(partOf(block()).centroid[0])).toContain('/parts/it/solids/0/centre/0')
})

describe('what encloses nothing is refused with its address', () => {
  const cases: [string, Readonly<Record<string, unknown>>, string][] = [
    ['a ring inside out', ringSector(3, 2, [0, 1], [0, 90]), '/parts/it/solids/0/outer'],
    ['a ring of no length', ringSector(2, 3, [1, 1], [0, 90]), '/parts/it/solids/0/along'],
    ['a ring of no angle', ringSector(2, 3, [0, 1], [30, 30]), '/parts/it/solids/0/angles'],
    ['a ring of more than a turn', ringSector(2, 3, [0, 1], [0, 400]), '/parts/it/solids/0/angles'],
    ['a flat box', { ...cubeAt(0, 0, 0), size: ['1 m', '0 m', '1 m'] }, '/parts/it/solids/0/size/1'],
    [
      'a cylinder of no length',
      { shape: 'cylinder', radius: '1 m', from: ['1 m', '0 m', '0 m'], to: ['1 m', '0 m', '0 m'] },
      '/parts/it/solids/0/to',
    ],
    [
      'a point for a sphere',
      { shape: 'sphere', radius: '0 m', centre: ['0 m', '0 m', '0 m'] },
      '/parts/it/solids/0/radius',
    ],
    ['a mesh that is not there', { shape: 'mesh', file: 'abc', scale: '1 m' }, '/parts/it/solids/0/file'],
  ]
  test.each(cases)('%s', (_, solid, pointer) => {
    expect(() => modelOf(projectOf({ parts: { it: block({ solids: [solid] }) } }))).toThrow(pointer)
  })

  test('and a sector across 360 deg is not', () => {
    const across = partOf(block({ mass: undefined, solids: [ringSector(2, 3, [0, 1], [350, 10])] }))
    expect(across.mass.value).toBeCloseTo(7850 * Math.PI * 5 * (20 / 360), 6)
    expect(across.machine.cogMachine[2]).toBeCloseTo(0, 12)
  })
})

test('a mesh that is not closed leaves mass and centroid open, and no number that is none', () => {
  const whole = boxMesh([0, 0, 0], [1, 1, 1])
  const meshes = new Map([['open', { ...whole, triangles: whole.triangles.slice(1) }]])
  const solids = [{ shape: 'mesh', file: 'open', scale: '1 m' }]
  const memory = freshMemory()
  const document = projectOf({ parts: { it: block({ mass: undefined, solids }) } })
  const { machine } = mass(modelOf(document, memory, meshes), memory)
  expect(machine.net.value).toBeUndefined()
  expect(machine.cogMachineWorking.map((c) => c.value)).toEqual([undefined, undefined, undefined])
  expect([...machine.cogMachine, ...machine.inertia.flat()].every(Number.isFinite)).toBe(true)
})
