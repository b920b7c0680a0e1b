import { auditMesh, type Mesh, type MeshAudit, meshIntegrals, turnedInsideOut } from '../numeric/mesh.ts'
import type { Vec3 } from '../numeric/vector.ts'
import type { Problem } from '../working/problem.ts'
import { type Corners, fileProblem } from './triangles.ts'

/** A mesh read from a file, with what was put right on the way; or every reason why it is none. */
export type MeshRead = { mesh: Mesh; notes: readonly string[] } | { problems: readonly Problem[] }

/**
 * A closed, consistently wound mesh from loose triangles of any format; or every reason why they make none.
 *
 * Corners are joined where they agree exactly. Triangles of no area are left out and a mesh that is inside out as a whole is
 * turned; both are noted.
 *
 * @param name what problems call the file
 * @returns a mesh whose every edge is used once in each direction and whose volume is positive, in the file's own unit
 */
export function closedMesh(triangles: readonly Corners[], name: string): MeshRead {
  const faults = cornerProblems(triangles, name)
  return faults.length > 0 ? { problems: faults } : meshEnclosing(triangles, name)
}

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

function meshEnclosing(triangles: readonly Corners[], name: string): MeshRead {
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
