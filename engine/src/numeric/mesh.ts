import { add, cross, dot, type Mat3, norm, scale, subtract, type Vec3, ZERO } from './vector.ts'

/** A triangle mesh: corners, and three indices per triangle, seen counter-clockwise from outside. */
export interface Mesh {
  vertices: readonly Vec3[]
  triangles: readonly (readonly [number, number, number])[]
  /** Which way it lies, where its format fixes that: y up, z forward, x to the left. */
  axes?: 'y up'
}

/** What an edge count says of a mesh. Closed and consistently wound: every edge used once in each direction. */
export interface MeshAudit {
  /** Edges used in one direction only: the rim of a hole, or of an open surface. */
  boundaryEdges: number
  /** Edges used twice in the same direction: a triangle next to them is turned over. */
  clashingEdges: number
  /** Edges shared by more than two triangles. */
  crowdedEdges: number
  closed: boolean
}

/**
 * Counts how often each edge is used in each direction. A positive volume does not prove consistent winding (a turned-over
 * triangle in a plane through the origin leaves the signed sum as it is); this does.
 */
export function auditMesh({ vertices, triangles }: Mesh): MeshAudit {
  const uses = new Map<number, [forward: number, backward: number]>()
  const n = vertices.length
  for (const [a, b, c] of triangles) {
    countEdge(uses, a, b, n)
    countEdge(uses, b, c, n)
    countEdge(uses, c, a, n)
  }
  let [boundaryEdges, clashingEdges, crowdedEdges] = [0, 0, 0]
  for (const [forward, backward] of uses.values()) {
    if (forward + backward > 2) crowdedEdges++
    else if (forward + backward === 1) boundaryEdges++
    else if (forward !== backward) clashingEdges++
  }
  return { boundaryEdges, clashingEdges, crowdedEdges, closed: boundaryEdges + clashingEdges + crowdedEdges === 0 }
}

function countEdge(uses: Map<number, [number, number]>, from: number, to: number, n: number): void {
  const forward = from < to
  const key = forward ? from * n + to : to * n + from
  let count = uses.get(key)
  if (count === undefined) {
    count = [0, 0]
    uses.set(key, count)
  }
  count[forward ? 0 : 1]++
}

/** The same mesh with every triangle turned over. */
export const turnedInsideOut = (mesh: Mesh): Mesh => ({
  ...mesh,
  triangles: mesh.triangles.map(([a, b, c]) => [a, c, b] as const),
})

/** Volume, centroid, and mean of (p − centroid)(p − centroid)ᵀ over the volume, in the mesh's own unit of length. */
export interface MeshIntegrals {
  volume: number
  centroid: Vec3
  spread: Mat3
  area: number
  /** |∮ dA|, zero for a closed surface: a second road that does not use the volume. */
  openArea: number
}

/**
 * Volume integrals of a closed mesh by signed tetrahedra about a local origin: V = Σ det/6, centroid Σ det·(a+b+c)/24/V,
 * second moments Σ det·A K Aᵀ with K = (ones + identity)/120.
 *
 * The mesh must be closed and consistently wound (`auditMesh`); an inside-out mesh has a negative volume.
 */
export function meshIntegrals({ vertices, triangles }: Mesh): MeshIntegrals {
  const origin = vertices[0] ?? ZERO
  const first: [number, number, number] = [0, 0, 0]
  const second = [0, 0, 0, 0, 0, 0] // xx yy zz xy yz zx
  let [six, area, open] = [0, 0, ZERO]
  for (const [ia, ib, ic] of triangles) {
    const [a, b, c] = [ia, ib, ic].map((i) => subtract(vertices[i] as Vec3, origin)) as [Vec3, Vec3, Vec3]
    const normal = cross(subtract(b, a), subtract(c, a))
    const det = dot(a, cross(b, c))
    const sum = add(add(a, b), c)
    six += det
    area += norm(normal) / 2
    open = add(open, scale(normal, 0.5))
    for (let i = 0; i < 3; i++) {
      const j = (i + 1) % 3
      const [ai, bi, ci, si] = [a[i], b[i], c[i], sum[i]] as [number, number, number, number]
      const [aj, bj, cj, sj] = [a[j], b[j], c[j], sum[j]] as [number, number, number, number]
      first[i] = (first[i] as number) + det * si
      second[i] = (second[i] as number) + det * (si * si + ai * ai + bi * bi + ci * ci)
      second[i + 3] = (second[i + 3] as number) + det * (si * sj + ai * aj + bi * bj + ci * cj)
    }
  }
  const volume = six / 6
  const local = scale(first, 1 / (24 * volume))
  const [xx, yy, zz, xy, yz, zx] = second.map((s) => s / (120 * volume)) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  const mean = (s: number, i: number, j: number): number => s - (local[i] as number) * (local[j] as number)
  return {
    volume,
    area,
    openArea: norm(open),
    centroid: add(origin, local),
    spread: [
      [mean(xx, 0, 0), mean(xy, 0, 1), mean(zx, 2, 0)],
      [mean(xy, 0, 1), mean(yy, 1, 1), mean(yz, 1, 2)],
      [mean(zx, 2, 0), mean(yz, 1, 2), mean(zz, 2, 2)],
    ],
  }
}
