import type { Solid } from '../model/index.ts'
import { type Mesh, turnedInsideOut } from '../numeric/mesh.ts'
import type { Vec3 } from '../numeric/vector.ts'
import { modelOf, projectOf } from './mass.fixture.ts'

type Raw = Readonly<Record<string, unknown>>

/** A solid as the model reads it. */
export function solidOf(raw: Raw, meshes?: ReadonlyMap<string, Mesh>): Solid {
  const parts = { part: { name: 'Part', material: 'steel', solids: [raw] } }
  const { project } = modelOf(projectOf({ parts }), undefined, meshes)
  return project.parts.part?.solids[0] as Solid
}

/** A ring sector about x, as the file writes it. */
export const ringSector = (inner: number, outer: number, along: [number, number], degrees: [number, number]): Raw => ({
  shape: 'ring sector',
  inner: `${inner} m`,
  outer: `${outer} m`,
  along: along.map((x) => `${x} m`),
  angles: degrees.map((a) => `${a} deg`),
})

/** A frustum between two points, as the file writes it. */
export const frustum = (r1: number, r2: number, from: Vec3, to: Vec3): Raw => ({
  shape: 'cone',
  radii: [`${r1} m`, `${r2} m`],
  from: from.map((x) => `${x} m`),
  to: to.map((x) => `${x} m`),
})

/** Half the outline of a body of revolution: points (along x, distance from x), both ends on the axis or closed on itself. */
export type Profile = readonly (readonly [x: number, r: number])[]

/**
 * A closed mesh of a profile turned about x in `steps` facets. A whole turn joins up; part of one gets flat ends.
 * The profile is closed, goes round once, and is convex.
 */
export function turnedProfile(profile: Profile, start: number, sweep: number, steps: number): Mesh {
  const whole = Math.abs(sweep - 2 * Math.PI) < 1e-12
  const rings = whole ? steps : steps + 1
  const n = profile.length
  const vertices: Vec3[] = []
  for (let k = 0; k < rings; k++) {
    const angle = start + (sweep * k) / steps
    for (const [x, r] of profile) vertices.push([x, r * Math.cos(angle), r * Math.sin(angle)])
  }
  const at = (k: number, i: number): number => (k % rings) * n + (i % n)
  const triangles: [number, number, number][] = []
  for (let k = 0; k < steps; k++) {
    for (let i = 0; i < n; i++) {
      triangles.push([at(k, i), at(k, i + 1), at(k + 1, i + 1)], [at(k, i), at(k + 1, i + 1), at(k + 1, i)])
    }
  }
  for (let i = 1; !whole && i < n - 1; i++) {
    triangles.push([at(0, 0), at(0, i + 1), at(0, i)], [at(steps, 0), at(steps, i), at(steps, i + 1)])
  }
  return { vertices, triangles }
}

/** The profile of a ring, the wrong way round or not: what encloses a positive volume is for the caller to see. */
export const ringProfile = (inner: number, outer: number, [rear, front]: [number, number]): Profile => [
  [rear, inner],
  [front, inner],
  [front, outer],
  [rear, outer],
]

/** A mesh whose volume is positive. */
export const outward = (mesh: Mesh, volume: number): Mesh => (volume < 0 ? turnedInsideOut(mesh) : mesh)

/** A box from its least to its greatest corner, twelve triangles. */
export function boxMesh(min: Vec3, max: Vec3): Mesh {
  const vertices = [0, 1, 2, 3, 4, 5, 6, 7].map(
    (i): Vec3 => [i & 1 ? max[0] : min[0], i & 2 ? max[1] : min[1], i & 4 ? max[2] : min[2]],
  )
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ] as const
  return { vertices, triangles: quads.flatMap(([a, b, c, d]) => [[a, b, c] as const, [a, c, d] as const]) }
}
