import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Mesh, meshIntegrals, turnedInsideOut } from '../numeric/mesh.ts'
import type { Vec3 } from '../numeric/vector.ts'
import { boxMesh, ringProfile, turnedProfile } from './solid.fixture.ts'
import { readStl } from './stl.ts'

const corners = ({ vertices, triangles }: Mesh): Vec3[][] => triangles.map((t) => t.map((i) => vertices[i] as Vec3))

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)

function textOf(mesh: Mesh, number: (x: number) => string = String): string {
  const facets = corners(mesh).map(
    (t) =>
      `  facet normal 0 0 1\n    outer loop\n${t.map((p) => `      vertex ${p.map(number).join(' ')}\n`).join('')}    endloop\n  endfacet\n`,
  )
  return `solid a shape\n${facets.join('')}endsolid a shape\n`
}

function binaryOf(mesh: Mesh, header = ''): Uint8Array {
  const bytes = new Uint8Array(84 + 50 * mesh.triangles.length)
  bytes.set(bytesOf(header).subarray(0, 80))
  const view = new DataView(bytes.buffer)
  view.setUint32(80, mesh.triangles.length, true)
  for (const [i, triangle] of corners(mesh).entries()) {
    for (const [j, x] of triangle.flat().entries()) view.setFloat32(84 + 50 * i + 12 + 4 * j, x, true)
  }
  return bytes
}

function meshOf(bytes: Uint8Array): Mesh {
  const read = readStl(bytes, 'shape.stl')
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  return read.mesh
}

function problemsOf(bytes: Uint8Array): string[] {
  const read = readStl(bytes, 'shape.stl')
  return 'problems' in read ? read.problems.map((p) => `${p.pointer}: ${p.found}`) : []
}

const cube = boxMesh([0, 0, 0], [1, 2, 4])

describe('there and back', () => {
  const box = fc
    .tuple(
      fc.integer({ min: -99, max: 99 }),
      fc.integer({ min: -99, max: 99 }),
      fc.integer({ min: -99, max: 99 }),
      fc.integer({ min: 1, max: 40 }),
    )
    .map(([x, y, z, d]) => boxMesh([x, y, z], [x + d, y + 2 * d, z + d / 2]))

  test('a mesh keeps its corners, its triangles and its volume, as text and as binary', () => {
    fc.assert(
      fc.property(box, (mesh) => {
        for (const bytes of [bytesOf(textOf(mesh)), binaryOf(mesh), binaryOf(mesh, 'solid, or so it says')]) {
          const back = meshOf(bytes)
          expect(back.vertices.length).toBe(8)
          expect(corners(back)).toEqual(corners(mesh))
          expect(meshIntegrals(back).volume).toBeCloseTo(meshIntegrals(mesh).volume, 6)
        }
      }),
      { numRuns: 50 },
    )
  })

  test('a whole ring stays closed when its corners are joined again', () => {
    const raw = turnedProfile(ringProfile(2, 3, [0, 1]), 0, 2 * Math.PI, 48)
    const ring = meshIntegrals(raw).volume < 0 ? turnedInsideOut(raw) : raw
    expect(meshOf(binaryOf(ring)).vertices.length).toBe(ring.vertices.length)
    expect(meshOf(bytesOf(textOf(ring))).triangles.length).toBe(ring.triangles.length)
  })

  test('text may be in capitals, broken anywhere, with exponents and with carriage returns', () => {
    const shouted = textOf(cube, (x) => x.toExponential(3))
      .toUpperCase()
      .replaceAll('\n', '\r\n')
      .replaceAll('VERTEX ', 'VERTEX\r\n')
    expect(meshIntegrals(meshOf(bytesOf(shouted))).volume).toBeCloseTo(8, 9)
  })

  test('two solids in one file are one part of two bodies', () => {
    const two = textOf(cube) + textOf(boxMesh([9, 9, 9], [10, 10, 10]))
    expect(meshIntegrals(meshOf(bytesOf(two))).volume).toBeCloseTo(9, 9)
  })
})

describe('what is put right is noted', () => {
  const notesOf = (mesh: Mesh) => {
    const read = readStl(binaryOf(mesh), 'shape.stl')
    return 'problems' in read ? undefined : read.notes
  }
  test('a mesh inside out as a whole is turned', () => {
    expect(notesOf(turnedInsideOut(cube))).toEqual(['inside out as a whole: every triangle turned over'])
    expect(meshIntegrals(meshOf(binaryOf(turnedInsideOut(cube)))).volume).toBeCloseTo(8, 6)
  })
  test('a triangle without area is left out', () => {
    expect(notesOf({ ...cube, triangles: [...cube.triangles, [0, 1, 1]] })).toEqual(['1 triangles of no area left out'])
  })
  test('a sound mesh has no notes', () => expect(notesOf(cube)).toEqual([]))
})

describe('what is no solid is refused, with every reason', () => {
  const first = cube.triangles[0] as readonly [number, number, number]
  const rest = cube.triangles.slice(1)
  const cases: [string, Uint8Array, string][] = [
    ['an empty file', new Uint8Array(0), 'an empty file'],
    ['a few bytes', new Uint8Array(20), '20 bytes'],
    ['binary cut short', binaryOf(cube).subarray(0, 400), '400 bytes for 12 triangles'],
    ['binary with something behind it', new Uint8Array([...binaryOf(cube), 1, 2]), '686 bytes for 12 triangles'],
    ['text cut short', bytesOf(textOf(cube).slice(0, -30)), 'text that ends before "endsolid"'],
    ['text cut within a vertex', bytesOf(textOf(cube).slice(0, 95)), 'text that ends before "endsolid"'],
    ['text of something else', bytesOf('solid thing\n  cylinder 3 4\nendsolid'), 'line 2: "cylinder"'],
    [
      'a number that is none',
      bytesOf(textOf(cube).replace('vertex 0 0 0', 'vertex 0 zero 0')),
      'not finite numbers in 1 triangles: 1',
    ],
    [
      'a coordinate beyond all bounds',
      binaryOf({ ...cube, vertices: [[Infinity, 0, 0], ...cube.vertices.slice(1)] }),
      'not finite',
    ],
    ['a quadrilateral', bytesOf(textOf(cube).replace('endloop', 'vertex 1 1 1\n endloop')), '4 vertices'],
    ['nothing in it', bytesOf('solid nothing\nendsolid nothing\n'), 'no triangles with an area'],
    ['a missing triangle', binaryOf({ ...cube, triangles: rest }), '3 edges with a triangle on one side only'],
    [
      'a triangle turned over',
      binaryOf({ ...cube, triangles: [[first[0], first[2], first[1]], ...rest] }),
      '3 edges used twice in the same direction',
    ],
    [
      'a triangle twice',
      binaryOf({ ...cube, triangles: [first, ...cube.triangles] }),
      '3 edges shared by more than two triangles',
    ],
    [
      'a sheet with two sides and nothing between',
      binaryOf({
        vertices: [
          [0, 0, 0],
          [1, 0, 0],
          [0, 1, 0],
        ],
        triangles: [
          [0, 1, 2],
          [0, 2, 1],
        ],
      }),
      'encloses nothing',
    ],
  ]
  test.each(cases)('%s', (_, bytes, found) => expect(problemsOf(bytes).join('; ')).toContain(found))

  test('a count that no part has, before anything is read', () => {
    const bytes = binaryOf(cube)
    new DataView(bytes.buffer).setUint32(80, 4_000_000_000, true)
    expect(problemsOf(bytes)).toEqual(['shape.stl: 4000000000 triangles'])
  })

  test('any bytes at all give a mesh or problems, never an error', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => {
        const read = readStl(bytes, 'shape.stl')
        expect('mesh' in read || read.problems.length > 0).toBe(true)
      }),
      { numRuns: 300 },
    )
  })

  test('any text of its own words gives a mesh or problems, never an error', () => {
    const word = fc.constantFrom(
      'solid',
      'facet',
      'normal',
      'outer',
      'loop',
      'vertex',
      'endloop',
      'endfacet',
      'endsolid',
      '1',
      '-2e3',
      'constructor',
      '\n',
    )
    fc.assert(
      fc.property(fc.array(word, { maxLength: 60 }), (words) => {
        const read = readStl(bytesOf(`solid ${words.join(' ')}`), 'shape.stl')
        expect('mesh' in read || read.problems.length > 0).toBe(true)
      }),
      { numRuns: 300 },
    )
  })
})
