import { auditMesh, type Mesh, type MeshAudit, meshIntegrals, turnedInsideOut } from '../numeric/mesh.ts'
import type { Vec3 } from '../numeric/vector.ts'
import type { Problem } from '../working/problem.ts'
import { asciiTriangles } from './stlText.ts'
import { type Corners, fileProblem, MOST_TRIANGLES, type Triangles, tooMany } from './triangles.ts'

export type StlResult = { mesh: Mesh; notes: readonly string[] } | { problems: readonly Problem[] }

const HEADER = 80
const PER_TRIANGLE = 50

/**
 * A closed, consistently wound mesh from an STL file, binary or text; or every reason why it is none.
 *
 * Corners are joined where they agree exactly, for the format has no corners in common. Triangles of no area are left out and
 * a mesh that is inside out as a whole is turned; both are noted. Normals in the file are not read: the winding says them.
 *
 * @param bytes the whole file
 * @param name what problems call the file
 * @returns a mesh whose every edge is used once in each direction and whose volume is positive, in the file's own unit
 */
export function readStl(bytes: Uint8Array, name: string): StlResult {
  const read = isBinary(bytes) ? binaryTriangles(bytes, name) : asciiTriangles(bytes, name)
  if ('problems' in read) return read
  const faults = cornerProblems(read.triangles, name)
  if (faults.length > 0) return { problems: faults }
  return closedMesh(read.triangles, name)
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

const MOST_NAMED = 5

/** Corners that are no place at all. */
function cornerProblems(triangles: readonly Corners[], name: string): Problem[] {
  const bad: number[] = []
  for (const [i, corners] of triangles.entries()) {
    if (!corners.every((c) => c.every(Number.isFinite))) bad.push(i + 1)
  }
  if (bad.length === 0) return []
  const named = bad.slice(0, MOST_NAMED).join(', ')
  return fileProblem(
    name,
    `coordinates that are not finite numbers in ${bad.length} triangles: ${named}${bad.length > MOST_NAMED ? ', …' : ''}`,
    'finite coordinates',
  ).problems
}

function closedMesh(triangles: readonly Corners[], name: string): StlResult {
  const { mesh, dropped } = joined(triangles)
  if (mesh.triangles.length === 0) return fileProblem(name, 'no triangles with an area', 'a closed surface')
  const audit = auditMesh(mesh)
  if (!audit.closed) return { problems: auditProblems(audit, name) }
  const notes = dropped === 0 ? [] : [`${dropped} triangles of no area left out`]
  const { volume } = meshIntegrals(mesh)
  if (volume > 0) return { mesh, notes }
  if (volume === 0) return fileProblem(name, 'a surface that encloses nothing', 'a solid')
  return { mesh: turnedInsideOut(mesh), notes: [...notes, 'inside out as a whole: every triangle turned over'] }
}

/** Corners joined where they agree exactly; triangles that thereby lose their area are dropped. */
function joined(triangles: readonly Corners[]): { mesh: Mesh; dropped: number } {
  const index = new Map<string, number>()
  const vertices: Vec3[] = []
  const indexOf = (p: Vec3): number => {
    const key = `${p[0]} ${p[1]} ${p[2]}`
    const known = index.get(key)
    if (known !== undefined) return known
    index.set(key, vertices.length)
    return vertices.push(p) - 1
  }
  const all = triangles.map((corners) => corners.map(indexOf) as [number, number, number])
  const kept = all.filter(([a, b, c]) => a !== b && b !== c && c !== a)
  return { mesh: { vertices, triangles: kept }, dropped: all.length - kept.length }
}

function auditProblems({ boundaryEdges, clashingEdges, crowdedEdges }: MeshAudit, name: string): Problem[] {
  const of = (count: number, found: string, expected: string): Problem[] =>
    count === 0 ? [] : fileProblem(name, `${count} ${found}`, expected).problems
  return [
    ...of(boundaryEdges, 'edges with a triangle on one side only', 'a closed surface without holes'),
    ...of(clashingEdges, 'edges used twice in the same direction', 'triangles all wound the same way round'),
    ...of(crowdedEdges, 'edges shared by more than two triangles', 'every edge shared by two triangles'),
  ]
}
