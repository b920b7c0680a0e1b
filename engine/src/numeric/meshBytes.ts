import type { Mesh } from './mesh.ts'
import type { Vec3 } from './vector.ts'

const HEADER = 16

/** A mesh as bytes, to be sent from one side of the program to the other: counts, corners (64 bit), corners of triangles. */
export function meshBytes({ vertices, triangles, axes }: Mesh): Uint8Array<ArrayBuffer> {
  const bytes = new ArrayBuffer(HEADER + 24 * vertices.length + 12 * triangles.length)
  new Uint32Array(bytes, 0, 3).set([vertices.length, triangles.length, axes === 'y up' ? 1 : 0])
  const corners = new Float64Array(bytes, HEADER, 3 * vertices.length)
  for (const [i, v] of vertices.entries()) corners.set(v, 3 * i)
  const indices = new Uint32Array(bytes, HEADER + 24 * vertices.length, 3 * triangles.length)
  for (const [i, t] of triangles.entries()) indices.set(t, 3 * i)
  return new Uint8Array(bytes)
}

/** The mesh that such bytes hold. Both ends are this program on machines of one byte order, and nothing is checked. */
export function meshOfBytes(bytes: ArrayBuffer): Mesh {
  const [corners = 0, count = 0, yUp = 0] = new Uint32Array(bytes, 0, 3)
  const numbers = new Float64Array(bytes, HEADER, 3 * corners)
  const indices = new Uint32Array(bytes, HEADER + 24 * corners, 3 * count)
  const threeOf = (list: Float64Array | Uint32Array, i: number): Vec3 => [
    list[3 * i] as number,
    list[3 * i + 1] as number,
    list[3 * i + 2] as number,
  ]
  return {
    vertices: Array.from({ length: corners }, (_, i) => threeOf(numbers, i)),
    triangles: Array.from({ length: count }, (_, i) => threeOf(indices, i)),
    ...(yUp === 1 ? { axes: 'y up' as const } : {}),
  }
}
