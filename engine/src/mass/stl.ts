import type { Vec3 } from '../numeric/vector.ts'
import { closedMesh, type MeshRead } from './closedMesh.ts'
import { asciiTriangles } from './stlText.ts'
import { type Corners, fileProblem, MOST_TRIANGLES, type Triangles, tooMany } from './triangles.ts'

const HEADER = 80
const PER_TRIANGLE = 50

/**
 * A closed, consistently wound mesh from an STL file, binary or text; or every reason why it is none.
 *
 * Normals in the file are not read: the winding says them.
 *
 * @param bytes the whole file
 * @param name what problems call the file
 * @returns a mesh whose every edge is used once in each direction and whose volume is positive, in the file's own unit
 */
export function readStl(bytes: Uint8Array, name: string): MeshRead {
  const read = isBinary(bytes) ? binaryTriangles(bytes, name) : asciiTriangles(bytes, name)
  return 'problems' in read ? read : closedMesh(read.triangles, name)
}

/** Text begins with "solid", yet some binary headers do as well: a length that fits the count settles it. */
function isBinary(bytes: Uint8Array): boolean {
  const due = bytes.length >= HEADER + 4 ? lengthDue(countIn(bytes)) : undefined
  return due === bytes.length || !beginsWithSolid(bytes)
}

const countIn = (bytes: Uint8Array): number => viewOf(bytes).getUint32(HEADER, true)
const lengthDue = (count: number): number => HEADER + 4 + PER_TRIANGLE * count
const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)

function beginsWithSolid(bytes: Uint8Array): boolean {
  return String.fromCharCode(...bytes.subarray(0, 256))
    .trimStart()
    .toLowerCase()
    .startsWith('solid')
}

function binaryTriangles(bytes: Uint8Array, name: string): Triangles {
  if (bytes.length < HEADER + 4)
    return fileProblem(
      name,
      bytes.length === 0 ? 'an empty file' : `${bytes.length} bytes`,
      'an STL file: text, or 84 bytes and more',
    )
  const count = countIn(bytes)
  if (count > MOST_TRIANGLES) return tooMany(name, count)
  if (bytes.length !== lengthDue(count)) {
    return fileProblem(
      name,
      `${bytes.length} bytes for ${count} triangles`,
      `${lengthDue(count)} bytes: the file is cut short or not STL`,
    )
  }
  const view = viewOf(bytes)
  const triangles = Array.from({ length: count }, (_, i): Corners => {
    const at = HEADER + 4 + PER_TRIANGLE * i + 12
    return [cornerAt(view, at), cornerAt(view, at + 12), cornerAt(view, at + 24)]
  })
  return { triangles }
}

const cornerAt = (view: DataView, at: number): Vec3 => [
  view.getFloat32(at, true),
  view.getFloat32(at + 4, true),
  view.getFloat32(at + 8, true),
]
