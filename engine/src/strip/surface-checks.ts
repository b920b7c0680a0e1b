import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { boundsOf, type MeshBody } from '../numeric/body.ts'
import { MOST_SWEPT } from '../numeric/cell-mesh.ts'
import { auditMesh, meshIntegrals } from '../numeric/mesh.ts'
import { AT_REST } from '../numeric/vector.ts'
import { found } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { surfaceKind } from './kinds.ts'

/** For each entry that holds a mesh: whether its surface encloses a solid, edge by edge and not by its volume alone. */
export function surfaceChecks(model: Model, mass: MassResult, memory: Memory): readonly Check[] {
  return Object.entries(model.project.parts).flatMap(([entry, part]) => {
    const { solids } = (mass.parts[entry] as MassResult['parts'][string]).shape
    const meshes = solids.flatMap(({ body }, i) => (body.kind === 'mesh' ? [{ body, solid: i }] : []))
    if (meshes.length === 0) return []
    return memory.once(`strip-surface/${entry}`, [solids, part.name, model.near], () =>
      surfaceCheck(model, entry, meshes),
    )
  })
}

function surfaceCheck(model: Model, entry: string, meshes: readonly { body: MeshBody; solid: number }[]): Check {
  const sizes = meshes.map(({ body }) => body.mesh.triangles.length)
  const faults = meshes.flatMap(({ body, solid }) =>
    body.mesh.triangles.length > MOST_SWEPT ? [] : surfaceFaults(body).map((fault) => ({ ...fault, solid })),
  )
  const sum = faults.reduce((total, { count }) => total + count, 0)
  return check({
    kind: surfaceKind,
    subject: { pointer: pointerOf('parts', entry), id: entry, name: model.project.parts[entry]?.name ?? entry },
    demand: found({
      unit: '1',
      value: sum,
      method: `edges of ${sizes.join(' and ')} triangles counted in each direction; volume, area and least side of what they enclose`,
      inputs: {},
      residuals:
        sum > 0
          ? []
          : sizes.map((size) => ({
              title: `triangles above the ${MOST_SWEPT} that are looked at: the box of the mesh stands in for it`,
              value: Math.max(0, size - MOST_SWEPT),
              unit: '1' as const,
              tolerance: 0,
            })),
    }),
    capacity: NONE,
    near: model.near,
    found: faults.map(({ solid, count, text }) => `${pointerOf('parts', entry, 'solids', solid)}: ${count} ${text}`),
  })
}

interface SurfaceFault {
  count: number
  text: string
}

/** A wall thinner than this is none, m. */
const THINNEST = 1e-6

function surfaceFaults(body: MeshBody): readonly SurfaceFault[] {
  const { boundaryEdges, clashingEdges, crowdedEdges, closed } = auditMesh(body.mesh)
  const { volume, area } = meshIntegrals(body.mesh)
  const { min, max } = boundsOf([body], AT_REST)
  const flat = Math.min(...max.map((x, i) => x - (min[i] as number))) < THINNEST
  const hollow = closed && Math.abs(volume) * body.scale < THINNEST * area
  return [
    { count: boundaryEdges, text: 'edges with a triangle on one side only: the surface has a hole' },
    { count: clashingEdges, text: 'edges passed twice the same way: a triangle beside them is turned over' },
    { count: crowdedEdges, text: 'edges with more than two triangles' },
    { count: Number(flat || hollow), text: 'surface without thickness: it encloses nothing' },
    { count: Number(closed && !hollow && volume < 0), text: 'surface that is inside out as a whole' },
  ].filter(({ count }) => count > 0)
}
