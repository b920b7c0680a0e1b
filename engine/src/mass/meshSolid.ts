import { coordinates, type Solid } from '../model/index.ts'
import type { MeshBody } from '../numeric/body.ts'
import { auditMesh, type Mesh, meshIntegrals } from '../numeric/mesh.ts'
import { add, scale, scaleMatrix, ZERO } from '../numeric/vector.ts'
import { found } from '../working/answer.ts'

export type Meshes = ReadonlyMap<string, Mesh>
type MeshSolid = Extract<Solid, { shape: 'mesh' }>

/**
 * Volume, centroid and second moments of a mesh by signed tetrahedra.
 *
 * @returns a volume that is unknown when the mesh is not closed or not wound one way round
 * @throws when the mesh is not among those given: the model lets no such project through
 */
export function meshProperties(solid: MeshSolid, meshes: Meshes) {
  const mesh = meshes.get(solid.file)
  if (mesh === undefined) throw new Error(`mesh "${solid.file}" was not given with the project`)
  const k = solid.scale.value as number
  const at = solid.at === undefined ? ZERO : coordinates(solid.at)
  const body: MeshBody = { kind: 'mesh', mesh: inMachineAxes(mesh, solid.axes), scale: k, at }
  const { volume, centroid, spread, area, openArea } = meshIntegrals(body.mesh)
  return {
    body,
    volume: found({
      unit: 'm3',
      value: volume * k ** 3,
      method: `signed tetrahedra over ${mesh.triangles.length} triangles of the mesh ${solid.file}`,
      inputs: { 'length of one unit of the file': solid.scale },
      residuals: [
        { title: 'edges not used once in each direction', value: faultyEdges(mesh), unit: '1', tolerance: 0 },
        {
          title: 'area vectors of the closed surface',
          value: openArea * k ** 2,
          unit: 'm2',
          tolerance: 1e-9 * area * k ** 2,
        },
      ],
    }),
    centroid: add(at, scale(centroid, k)),
    spread: scaleMatrix(spread, k * k),
  }
}

/** The mesh turned into the machine's axes, where it lies in others: x from z, y from x, z from y. Nothing is mirrored by it. */
export function inMachineAxes(mesh: Mesh, axes: MeshSolid['axes']): Mesh {
  if (axes !== 'y up') return mesh
  return { vertices: mesh.vertices.map(([x, y, z]) => [z, x, y] as const), triangles: mesh.triangles }
}

function faultyEdges(mesh: Mesh): number {
  const { boundaryEdges, clashingEdges, crowdedEdges } = auditMesh(mesh)
  return boundaryEdges + clashingEdges + crowdedEdges
}
