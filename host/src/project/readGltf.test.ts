import type { mat4, vec4 } from '@gltf-transform/core'
import { type Mesh, meshIntegrals } from '@shieldwright/engine/numeric/mesh.ts'
import { rotationBy, scale, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { boxCorners, boxGlb, gltfText, type V3, Written } from './gltf.fixture.ts'
import { readGltf } from './readGltf.ts'

// What glTF 2.0 means is taken from the Khronos specification (from memory); files are written by an independent library.

async function meshOf(bytes: Uint8Array): Promise<Mesh> {
  const read = await readGltf(bytes, 'shape.glb')
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  return read.mesh
}

async function foundIn(bytes: Uint8Array): Promise<string> {
  const read = await readGltf(bytes, 'shape.glb')
  return 'problems' in read ? read.problems.map((p) => `${p.pointer}: ${p.found}`).join('; ') : 'a mesh'
}

const MIN: V3 = [0, 0, 0]
const MAX: V3 = [1, 2, 4]

describe('there and back', () => {
  test('a box written as loose triangles comes back with eight corners, twelve triangles and its volume', async () => {
    const mesh = await meshOf(await boxGlb(MIN, MAX))
    expect([mesh.vertices.length, mesh.triangles.length]).toEqual([8, 12])
    expect(meshIntegrals(mesh).volume).toBeCloseTo(8, 12)
  })

  test.each([
    ['bytes', Uint8Array],
    ['short numbers', Uint16Array],
    ['long numbers', Uint32Array],
  ] as const)('indices may be %s', async (_, Indices) => {
    const written = new Written()
    const corners = boxCorners(MIN, MAX)
    written.scene.addChild(written.node(written.primitive(corners, Indices.from(corners.keys()))))
    expect(meshIntegrals(await meshOf(await written.glb())).volume).toBeCloseTo(8, 12)
  })

  test('sides in primitives and meshes of their own close into one surface', async () => {
    const written = new Written()
    const corners = boxCorners(MIN, MAX)
    const side = (i: number) => written.primitive(corners.slice(6 * i, 6 * i + 6))
    written.scene.addChild(written.node(side(0), side(1), side(2)))
    written.scene.addChild(written.node(side(3), side(4), side(5)))
    expect((await meshOf(await written.glb())).vertices.length).toBe(8)
  })

  test('JSON with its bytes in a data URI says the same as GLB', async () => {
    const glb = await boxGlb(MIN, MAX)
    expect(await meshOf(await gltfText(glb))).toEqual(await meshOf(glb))
  })

  test('coordinates quantised to a share of a normalised integer are read as that share', async () => {
    const written = new Written()
    const primitive = written.primitive(boxCorners(MIN, [1, 1, 1]))
    const position = primitive.getAttribute('POSITION')
    position?.setArray(Uint16Array.from([...(position.getArray() ?? [])], (x) => 65535 * x)).setNormalized(true)
    written.scene.addChild(written.node(primitive).setScale([1, 2, 4]))
    expect(meshIntegrals(await meshOf(await written.glb())).volume).toBeCloseTo(8, 9)
  })
})

describe('nodes place what hangs from them', () => {
  const quaternion = (turn: Vec3): vec4 => {
    const angle = Math.hypot(...turn)
    const [x, y, z] = scale(turn, angle === 0 ? 0 : Math.sin(angle / 2) / angle)
    return [x, y, z, Math.cos(angle / 2)]
  }

  test('a child is sized, turned and moved by itself, and then by the node above', async () => {
    const written = new Written()
    const child = written.node(written.primitive(boxCorners(MIN, MAX))).setTranslation([1, 0, 0])
    const quarter = quaternion([0, 0, Math.PI / 2])
    written.scene.addChild(
      written.document.createNode().setTranslation([0, 0, 5]).setRotation(quarter).setScale([2, 2, 2]).addChild(child),
    )
    const { volume, centroid } = meshIntegrals(await meshOf(await written.glb()))
    expect(volume).toBeCloseTo(64, 5)
    // By hand: the child's middle (1.5, 1, 2), doubled (3, 2, 4), a quarter turn about z (−2, 3, 4), up by 5.
    for (const [i, x] of [-2, 3, 9].entries()) expect(centroid[i]).toBeCloseTo(x, 5)
  })

  test('a matrix says the same as place, turn and size', async () => {
    const turn = rotationBy([0.3, -0.2, 0.5])
    const columns = [0, 1, 2].flatMap((k) => [...turn.map((row) => (row[k] as number) * (k + 1)), 0])
    const matrix = [...columns, 7, 8, 9, 1] as unknown as mat4
    const whole = meshIntegrals(
      await meshOf(
        await gltfText(await boxGlb(MIN, MAX), (json) =>
          Object.assign((json.nodes as unknown as object[])[0] as object, { matrix }),
        ),
      ),
    )
    const parts = meshIntegrals(
      await meshOf(
        await boxGlb(MIN, MAX, (node) =>
          node
            .setTranslation([7, 8, 9])
            .setRotation(quaternion([0.3, -0.2, 0.5]))
            .setScale([1, 2, 3]),
        ),
      ),
    )
    expect(whole.volume).toBeCloseTo(parts.volume, 9)
    for (const i of [0, 1, 2]) expect(whole.centroid[i]).toBeCloseTo(parts.centroid[i] as number, 6)
  })

  test('a node that mirrors turns its triangles over, so that the solid is not inside out', async () => {
    const read = await readGltf(await boxGlb(MIN, MAX, (node) => node.setScale([-1, 1, 1])), 'shape.glb')
    expect(read).toMatchObject({ notes: [] })
    expect('mesh' in read && meshIntegrals(read.mesh).volume).toBeCloseTo(8, 12)
  })

  test('one mesh under two nodes is two bodies', async () => {
    const written = new Written()
    const node = written.node(written.primitive(boxCorners(MIN, MAX)))
    written.scene.addChild(node)
    written.scene.addChild(written.document.createNode().setMesh(node.getMesh()).setTranslation([9, 0, 0]))
    expect(meshIntegrals(await meshOf(await written.glb())).volume).toBeCloseTo(16, 9)
  })

  test('a rigid node changes place and turn, never the volume', async () => {
    const number = fc.double({ min: -3, max: 3, noNaN: true })
    const vector = fc.tuple(number, number, number)
    await fc.assert(
      fc.asyncProperty(vector, vector, async (shift, turn) => {
        const glb = await boxGlb(MIN, MAX, (node) => node.setTranslation(shift).setRotation(quaternion(turn)))
        const { volume, centroid } = meshIntegrals(await meshOf(glb))
        expect(volume).toBeCloseTo(8, 5)
        const turned = rotationBy(turn).map((row) => row[0] * 0.5 + row[1] + row[2] * 2)
        // The writer leaves out places and turns below 1e-5.
        for (const i of [0, 1, 2]) expect(centroid[i]).toBeCloseTo((turned[i] as number) + (shift[i] as number), 3)
      }),
      { numRuns: 40 },
    )
  })
})

describe('what is no rigid solid of plain triangles is refused, by the place where it stands', () => {
  type Loose = Record<string, never>
  const at = (json: Loose, ...keys: (string | number)[]): Record<string, unknown> =>
    keys.reduce<unknown>((value, key) => (value as Record<string, unknown>)[key], json) as Record<string, unknown>
  const cases: [string, (json: Loose) => unknown, string][] = [
    [
      'bytes in another file',
      (j) => Object.assign(at(j, 'buffers', 0), { uri: '../../secret.bin' }),
      '/buffers/0/uri: the file "../../secret.bin"',
    ],
    [
      'bytes at an address',
      (j) => Object.assign(at(j, 'buffers', 0), { uri: 'https://example.invalid/a.bin' }),
      '/buffers/0/uri: the file',
    ],
    [
      'a data URI that is none',
      (j) => Object.assign(at(j, 'buffers', 0), { uri: 'data:text/html,<b>' }),
      '/buffers/0: no bytes',
    ],
    ['fewer bytes than said', (j) => Object.assign(at(j, 'buffers', 0), { byteLength: 1e9 }), '/buffers/0: '],
    [
      'a view beyond its buffer',
      (j) => Object.assign(at(j, 'bufferViews', 0), { byteOffset: 400 }),
      '/bufferViews/0: bytes up to',
    ],
    ['a view of no buffer', (j) => Object.assign(at(j, 'bufferViews', 0), { buffer: 7 }), '/bufferViews/0/buffer: 7'],
    [
      'a count beyond all bytes',
      (j) => Object.assign(at(j, 'accessors', 0), { count: 3_000_000_000 }),
      '/accessors/0/count: 3000000000',
    ],
    [
      'a count that is no number',
      (j) => Object.assign(at(j, 'accessors', 0), { count: 'many' }),
      '/accessors/0/count: "many"',
    ],
    [
      'a sparse accessor',
      (j) => Object.assign(at(j, 'accessors', 0), { sparse: { count: 1 } }),
      '/accessors/0/sparse: a sparse accessor',
    ],
    [
      'corners without bytes',
      (j) => Reflect.deleteProperty(at(j, 'accessors', 0), 'bufferView'),
      '/accessors/0/bufferView: nothing',
    ],
    ['corners of two numbers', (j) => Object.assign(at(j, 'accessors', 0), { type: 'VEC2' }), '/accessors/0: VEC2'],
    [
      'an accessor that is not there',
      (j) => Object.assign(at(j, 'meshes', 0, 'primitives', 0, 'attributes'), { POSITION: 9 }),
      '/meshes/0/primitives/0/attributes/POSITION: 9',
    ],
    [
      'no corners',
      (j) => Object.assign(at(j, 'meshes', 0, 'primitives', 0), { attributes: {} }),
      'attributes/POSITION: nothing',
    ],
    [
      'lines',
      (j) => Object.assign(at(j, 'meshes', 0, 'primitives', 0), { mode: 1 }),
      '/meshes/0/primitives/0/mode: lines',
    ],
    [
      'a strip',
      (j) => Object.assign(at(j, 'meshes', 0, 'primitives', 0), { mode: 5 }),
      '/meshes/0/primitives/0/mode: a triangle strip',
    ],
    [
      'morph targets',
      (j) => Object.assign(at(j, 'meshes', 0, 'primitives', 0), { targets: [{}] }),
      'primitives/0/targets: a shape that changes',
    ],
    [
      'compressed triangles',
      (j) => Object.assign(at(j, 'meshes', 0, 'primitives', 0), { extensions: { KHR_draco_mesh_compression: {} } }),
      'extensions/KHR_draco_mesh_compression: compressed triangles',
    ],
    [
      'an extension that it needs and that moves corners',
      (j) => Object.assign(j, { extensionsRequired: ['EXT_meshopt_compression'] }),
      '/extensionsRequired/0: "EXT_meshopt_compression"',
    ],
    ['a skin', (j) => Object.assign(at(j, 'nodes', 0), { skin: 0 }), '/nodes/0/skin: a shape bent by a skin'],
    [
      'instances in a table',
      (j) => Object.assign(at(j, 'nodes', 0), { extensions: { EXT_mesh_gpu_instancing: {} } }),
      '/nodes/0/extensions/EXT_mesh_gpu_instancing: instances in a table',
    ],
    [
      'a sheared node',
      (j) => Object.assign(at(j, 'nodes', 0), { matrix: [1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1] }),
      '/nodes/0/matrix: a sheared',
    ],
    [
      'a turn that is none',
      (j) => Object.assign(at(j, 'nodes', 0), { rotation: [0, 0, 0, 2] }),
      '/nodes/0/rotation: length 2',
    ],
    ['a node in itself', (j) => Object.assign(at(j, 'nodes', 0), { children: [0] }), 'which hangs from another'],
    [
      'a node twice',
      (j) => Object.assign(j, { nodes: [{ children: [1, 1] }, { mesh: 0 }] }),
      '/nodes/0/children/1: node 1 a second time',
    ],
    ['a mesh that is not there', (j) => Object.assign(at(j, 'nodes', 0), { mesh: 4 }), '/nodes/0/mesh: 4'],
    ['an empty scene', (j) => Object.assign(at(j, 'scenes', 0), { nodes: [] }), '/scenes/0: an empty scene'],
    ['no scene', (j) => Object.assign(j, { scenes: [] }) && Reflect.deleteProperty(j, 'scene'), '/scene: no scene'],
    ['a scene that is not there', (j) => Object.assign(j, { scene: 3 }), '/scene: 3'],
    ['an older version', (j) => Object.assign(j, { asset: { version: '1.0' } }), '/asset/version: "1.0"'],
    [
      'a version to come',
      (j) => Object.assign(j, { asset: { version: '2.1', minVersion: '2.1' } }),
      '/asset/version: "2.1"',
    ],
  ]
  test.each(cases)('%s', async (_, change, found) => {
    expect(await foundIn(await gltfText(await boxGlb(MIN, MAX), change as never))).toContain(found)
  })

  test('every fault is named, not the first alone', async () => {
    const text = await gltfText(await boxGlb(MIN, MAX), (json) => {
      Object.assign(at(json as Loose, 'meshes', 0, 'primitives', 0), { mode: 0 })
      Object.assign(at(json as Loose, 'nodes', 0), { skin: 0 })
    })
    expect(await foundIn(text)).toMatch(/points.*skin/)
  })

  test('a hole, a turned triangle and a coordinate that is no number are seen as in any mesh', async () => {
    const holed = new Written()
    holed.scene.addChild(holed.node(holed.primitive(boxCorners(MIN, MAX).slice(3))))
    expect(await foundIn(await holed.glb())).toContain('3 edges with a triangle on one side only')
    const [a, b, c, ...rest] = boxCorners(MIN, MAX) as [V3, V3, V3, ...V3[]]
    const turned = new Written()
    turned.scene.addChild(turned.node(turned.primitive([a, c, b, ...rest])))
    expect(await foundIn(await turned.glb())).toContain('3 edges used twice in the same direction')
    expect(await foundIn(await boxGlb([Number.NaN, 0, 0], MAX))).toContain('not finite numbers')
    expect(await foundIn(await boxGlb(MIN, [1, 2, 0]))).toContain('shared by more than two triangles')
    const sheet = new Written()
    sheet.scene.addChild(sheet.node(sheet.primitive([a, b, c, a, c, b])))
    expect(await foundIn(await sheet.glb())).toContain('encloses nothing')
  })

  test('indices beyond the corners', async () => {
    const written = new Written()
    const corners = boxCorners(MIN, MAX)
    written.scene.addChild(
      written.node(
        written.primitive(
          corners,
          Uint16Array.from(corners.keys(), (i) => i + 1),
        ),
      ),
    )
    expect(await foundIn(await written.glb())).toContain('1 indices beyond the corners')
  })

  test('corners that are no threes', async () => {
    const written = new Written()
    written.scene.addChild(written.node(written.primitive(boxCorners(MIN, MAX).slice(1))))
    expect(await foundIn(await written.glb())).toContain('35 corners')
  })

  test('points and lines of the library are refused by their mode', async () => {
    const written = new Written()
    written.scene.addChild(written.node(written.primitive(boxCorners(MIN, MAX)).setMode(6)))
    expect(await foundIn(await written.glb())).toContain('mode: a triangle fan')
  })

  test('more triangles than a part has, by their count and before they are read', async () => {
    const one = 700_000
    const text = await gltfText(await boxGlb(MIN, MAX), (json) => {
      const j = json as Loose
      Object.assign(j, { nodes: Array.from({ length: one }, () => ({ mesh: 0 })) })
      Object.assign(at(j, 'scenes', 0), { nodes: Array.from({ length: one }, (_, i) => i) })
    })
    const before = process.cpuUsage()
    expect(await foundIn(text)).toBe(`shape.glb: ${12 * one} triangles`)
    expect(process.cpuUsage(before).user / 1e6).toBeLessThan(20)
  })
})

describe('bytes that are no glTF', () => {
  test('every way of cutting a file short is told, and none is read', async () => {
    const glb = await boxGlb(MIN, MAX)
    for (let length = 0; length < glb.length; length += 7)
      expect(await foundIn(glb.subarray(0, length)), `${length} bytes`).toMatch(/^shape\.glb: /)
  })

  test.each([
    ['nothing', new Uint8Array(0), 'an empty file'],
    ['text', new TextEncoder().encode('solid thing'), 'no JSON'],
    ['bytes that are no text', Uint8Array.from([0x7b, 0xff, 0xfe]), 'no JSON'],
    ['a list', new TextEncoder().encode('[1, 2]'), 'a list of 2'],
    [
      'GLB of the first version',
      Uint8Array.from([0x67, 0x6c, 0x54, 0x46, 1, 0, 0, 0, ...Array(16).fill(0)]),
      'GLB version 1',
    ],
  ])('%s', async (_, bytes, found) => expect(await foundIn(bytes)).toContain(found))

  test('any byte of a file changed gives a mesh or problems, never an error', async () => {
    const glb = await boxGlb(MIN, MAX)
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 0, max: glb.length - 1 }),
        fc.integer({ min: 0, max: 255 }),
        async (at, byte) => {
          const bytes = glb.slice()
          bytes[at] = byte
          const read = await readGltf(bytes, 'shape.glb')
          expect('mesh' in read || read.problems.length > 0).toBe(true)
        },
      ),
      { numRuns: 400 },
    )
  })

  test('any bytes at all give problems, never an error', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 200 }), async (bytes) => {
        expect(await readGltf(bytes, 'shape.glb')).toHaveProperty('problems')
      }),
      { numRuns: 200 },
    )
  })
})
