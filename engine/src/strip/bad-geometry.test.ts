import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import type { Body } from '../numeric/body.ts'
import type { Mesh } from '../numeric/mesh.ts'
import { AT_REST, type Vec3 } from '../numeric/vector.ts'
import type { Check } from '../working/check.ts'
import { freshMemory } from '../working/memory.ts'
import { blockBetween } from './pair-block.ts'
import { cellsOf } from './shape.ts'
import { besideMesh, boxAt, cubeMesh, lidOnTub, modelOf, SETTINGS, stripOf } from './strip.fixture.ts'

const surfaceOf = (mesh: Mesh): Check =>
  stripOf(besideMesh(), freshMemory(), new Map([['cube', mesh]])).checks.find(
    ({ kind }) => kind === 'strip.part.surface',
  ) as Check

describe('a mesh that encloses no solid says why', () => {
  test('a hole shows by the edges of its rim', () => {
    const { verdict, reasons } = surfaceOf(cubeMesh((faces) => faces.slice(2)))
    expect(verdict).toBe('fail')
    expect(reasons.join()).toContain('4 edges with a triangle on one side only')
  })

  test('a face turned over shows by its edges, though the volume is still above zero', () => {
    const turned = cubeMesh((faces) => faces.map(([a, b, c], i) => (i === 5 ? [a, c, b] : [a, b, c])))
    expect(surfaceOf(turned).reasons).toEqual([
      '/parts/scan/solids/0: 3 edges passed twice the same way: a triangle beside them is turned over',
    ])
  })

  test('a sheet without thickness encloses nothing', () => {
    const sheet: Mesh = {
      vertices: [
        [0, 0, 0],
        [1, 0, 0],
        [0, 1, 0],
      ],
      triangles: [
        [0, 1, 2],
        [0, 2, 1],
      ],
    }
    expect(surfaceOf(sheet).reasons.join()).toContain('without thickness')
  })

  test('one that is inside out as a whole is named so', () => {
    const { reasons } = surfaceOf(cubeMesh((faces) => faces.map(([a, b, c]) => [a, c, b])))
    expect(reasons).toEqual(['/parts/scan/solids/0: 1 surface that is inside out as a whole'])
  })
})

test('eight copies in one place are one fault that names them all, and take no longer to find', () => {
  const half = (along: readonly [string, string]) => ({
    name: 'Half ring',
    material: 'steel',
    solids: [
      { shape: 'ring sector', inner: '2 m', outer: '3 m', along, angles: ['0 deg', '200 deg'] },
      { op: 'cut', shape: 'cylinder', radius: '0.2 m', from: ['-1 m', '2.5 m', '0 m'], to: ['2 m', '2.5 m', '0 m'] },
    ],
  })
  const ids = Array.from({ length: 8 }, (_, i) => `copy-${i + 1}`)
  const document = {
    schemaVersion: 1,
    about: { title: 'Copies' },
    settings: SETTINGS,
    materials: { steel: { density: '7850 kg/m3' } },
    parts: Object.fromEntries(ids.map((id) => [id, half(['0 m', '1 m'])])),
  }
  const memory = freshMemory()
  const { checks } = stripOf(document, memory)
  const faults = checks.filter(({ kind, verdict }) => kind === 'strip.part.overlap' && verdict !== 'pass')
  expect(faults).toHaveLength(1)
  expect(faults[0]?.reasons).toEqual([
    `${ids.map((id) => `"${id}"`).join(', ')} coincide: the same shape in the same place 8 times`,
  ])
  expect(memory.computed['strip-overlap']).toBeUndefined()
  const shifted = { ...document, parts: Object.fromEntries(ids.map((id, i) => [id, half([`${i} mm`, '1 m'])])) }
  const near = stripOf(shifted).checks.filter(({ kind }) => kind === 'strip.part.overlap')
  expect(near.every(({ verdict }) => verdict === 'fail')).toBe(true)
})

test('a part inside another is an overlap as deep as its own least side at least', () => {
  const { checks } = stripOf(
    lidOnTub({ parts: { lid: boxAt([0, 0, 0.5], [0.4, 0.5, 0.6]), tub: boxAt([0, 0, 0.5], [3, 3, 3]) } }),
  )
  const [fault] = checks.filter(({ kind, verdict }) => kind === 'strip.part.overlap' && verdict === 'fail')
  expect(fault?.demand.value).toBeGreaterThan(0.4)
})

test('a scan of two hundred thousand triangles is looked into only where something comes near', () => {
  const n = 316
  const at = (i: number, j: number): Vec3 => [i / n, j / n, 0.01 * Math.sin(i) * Math.cos(j)]
  const vertices = Array.from({ length: n * n }, (_, k) => at(k % n, Math.floor(k / n)))
  const triangles = Array.from({ length: (n - 1) * (n - 1) }, (_, k) => {
    const v = (k % (n - 1)) + Math.floor(k / (n - 1)) * n
    return [
      [v, v + 1, v + n],
      [v + 1, v + n + 1, v + n],
    ] as const
  }).flat()
  expect(triangles.length).toBeGreaterThan(198_000)
  const body: Body = { kind: 'mesh', mesh: { vertices, triangles }, scale: 10, at: [0, 0, 0] }
  const scan = cellsOf('scan', [{ op: 'add', body }], AT_REST)
  const ball = (z: number) =>
    cellsOf('ball', [{ op: 'add', body: { kind: 'ball', centre: [5, 5, z], radius: 0.2 } }], AT_REST)
  expect(blockBetween(ball(3), scan, 0.002)([0, 0, -1])).toBe('blocked')
  expect(blockBetween(ball(3), scan, 0.002)([0, 0, 1])).toBe('free')
  expect(blockBetween(ball(0.5), scan, 0.002)([1, 0, 0])).toBe('free')
})

test('what comes near to a mesh above the limit is open, never clear', () => {
  const mesh = cubeMesh((faces) => Array.from({ length: 500_001 }, () => faces[0] as [number, number, number]))
  const memory = freshMemory()
  const model = modelOf(besideMesh(), memory, new Map([['cube', mesh]]))
  const { shape } = mass(model, memory).parts.scan as { shape: { solids: Parameters<typeof cellsOf>[1] } }
  const scan = cellsOf('scan', shape.solids, AT_REST)
  const ball = cellsOf('ball', [{ op: 'add', body: { kind: 'ball', centre: [3, 0.5, 5], radius: 0.2 } }], AT_REST)
  expect(blockBetween(ball, scan, 0.002)([0, 0, -1])).toBe('open')
})
