import { pointerOf } from '../working/pointer.ts'
import type { Problem } from '../working/problem.ts'
import type { Gltf, GltfPrimitive } from './gltfSchema.ts'

/** Bytes of a number, by the component type of its accessor. */
const BYTES: ReadonlyMap<number, number> = new Map([
  [5120, 1],
  [5121, 1],
  [5122, 2],
  [5123, 2],
  [5125, 4],
  [5126, 4],
])
const POSITION_TYPES: readonly number[] = [5120, 5121, 5122, 5123, 5126]
const INDEX_TYPES: readonly number[] = [5121, 5123, 5125]

const MODES = ['points', 'lines', 'a line loop', 'a line strip', 'triangles', 'a triangle strip', 'a triangle fan']

/** Buffers that are not there, views and accessors that reach beyond them, and primitives that are no plain triangles. */
export function rangeProblems(asset: Gltf, buffers: readonly (Uint8Array | undefined)[]): Problem[] {
  return [
    ...bufferProblems(asset, buffers),
    ...viewProblems(asset),
    ...asset.meshes.flatMap(({ primitives }, m) =>
      primitives.flatMap((primitive, p) =>
        primitiveProblems(asset, primitive, pointerOf('meshes', m, 'primitives', p)),
      ),
    ),
  ]
}

function bufferProblems(asset: Gltf, buffers: readonly (Uint8Array | undefined)[]): Problem[] {
  return asset.buffers.flatMap(({ uri, byteLength }, i) => {
    const bytes = buffers[i]
    const pointer = pointerOf('buffers', i)
    if (bytes === undefined && uri !== undefined && !uri.startsWith('data:'))
      return [
        {
          pointer: `${pointer}/uri`,
          found: `the file "${uri.slice(0, 60)}"`,
          expected: 'bytes in this file, as GLB or as a data URI: a hash of this file says nothing of another',
        },
      ]
    if (bytes === undefined) return [{ pointer, found: 'no bytes', expected: `${byteLength} bytes` }]
    if (bytes.length >= byteLength) return []
    return [{ pointer, found: `${bytes.length} bytes`, expected: `${byteLength} bytes: the file is cut short` }]
  })
}

function viewProblems({ bufferViews, buffers }: Gltf): Problem[] {
  return bufferViews.flatMap(({ buffer, byteOffset, byteLength }, i) => {
    const held = buffers[buffer]
    const pointer = pointerOf('bufferViews', i)
    if (held === undefined) return [outOf(`${pointer}/buffer`, buffer, buffers.length)]
    const end = byteOffset + byteLength
    return end <= held.byteLength
      ? []
      : [{ pointer, found: `bytes up to ${end}`, expected: `at most the ${held.byteLength} of its buffer` }]
  })
}

const outOf = (pointer: string, found: number, count: number): Problem => ({
  pointer,
  found: String(found),
  expected: count === 0 ? 'none, for there are none in the file' : `a number below ${count}`,
})

function primitiveProblems(asset: Gltf, primitive: GltfPrimitive, at: string): Problem[] {
  const { mode, targets, attributes, indices, extensions = {} } = primitive
  const refused = (field: string, found: string, expected: string): Problem => ({
    pointer: `${at}/${field}`,
    found,
    expected,
  })
  const whole = [
    ...(mode === 4 ? [] : [refused('mode', MODES[mode] ?? `mode ${mode}`, 'triangles, mode 4')]),
    ...(targets.length === 0 ? [] : [refused('targets', 'a shape that changes', 'a rigid one, without morph targets')]),
    ...Object.keys(extensions)
      .filter((name) => /compression/i.test(name))
      .map((name) => refused(`extensions/${name}`, 'compressed triangles', 'triangles as plain numbers')),
  ]
  const position = attributes.POSITION
  if (position === undefined) return [...whole, refused('attributes/POSITION', 'nothing', 'the corners')]
  const corners = [
    ...whole,
    ...accessorProblems(asset, position, { type: 'VEC3', allowed: POSITION_TYPES }, `${at}/attributes/POSITION`),
    ...(indices === undefined
      ? []
      : accessorProblems(asset, indices, { type: 'SCALAR', allowed: INDEX_TYPES }, `${at}/indices`)),
  ]
  const count = asset.accessors[indices ?? position]?.count ?? 0
  return count % 3 === 0 ? corners : [...corners, refused('indices', `${count} corners`, 'three for each triangle')]
}

interface Due {
  type: 'VEC3' | 'SCALAR'
  allowed: readonly number[]
}

function accessorProblems(
  { accessors, bufferViews }: Gltf,
  index: number,
  { type, allowed }: Due,
  at: string,
): Problem[] {
  const accessor = accessors[index]
  if (accessor === undefined) return [outOf(at, index, accessors.length)]
  const pointer = pointerOf('accessors', index)
  if (accessor.sparse !== undefined)
    return [{ pointer: `${pointer}/sparse`, found: 'a sparse accessor', expected: 'every corner written out' }]
  if (accessor.type !== type || !allowed.includes(accessor.componentType))
    return [
      {
        pointer,
        found: `${accessor.type} of component type ${accessor.componentType}`,
        expected: `${type} of one of ${allowed.join(', ')}`,
      },
    ]
  const { bufferView, byteOffset, componentType, count } = accessor
  const view = bufferView === undefined ? undefined : bufferViews[bufferView]
  if (view === undefined)
    return bufferView === undefined
      ? [{ pointer: `${pointer}/bufferView`, found: 'nothing', expected: 'the bytes of the numbers' }]
      : [outOf(`${pointer}/bufferView`, bufferView, bufferViews.length)]
  const size = (BYTES.get(componentType) as number) * (type === 'VEC3' ? 3 : 1)
  const stride = view.byteStride ?? size
  const end = byteOffset + (count - 1) * stride + size
  if (stride >= size && end <= view.byteLength) return []
  return [
    {
      pointer: `${pointer}/count`,
      found: `${count}, ${stride} bytes each, up to byte ${end}`,
      expected: `at most the ${view.byteLength} bytes of its view`,
    },
  ]
}
