import type { Stages } from '@shieldwright/engine'
import { inMachineAxes } from '@shieldwright/engine/mass/meshSolid.ts'
import type { Mesh } from '@shieldwright/engine/numeric/mesh.ts'
import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { domeProfile, extrudedShape } from './swept.ts'

/** A solid in numbers (m, rad), its own frame being the machine frame of its entry, or the site. */
export type SolidShape =
  | {
      shape: 'ring sector'
      inner: number
      outer: number
      along: readonly [number, number]
      angles: readonly [number, number]
    }
  | { shape: 'cylinder'; radii: readonly [number, number]; from: Vec3; to: Vec3 }
  | { shape: 'sphere'; radius: number; centre: Vec3 }
  | { shape: 'box'; centre: Vec3; size: Vec3; turn: number }
  | { shape: 'triangles'; corners: readonly Vec3[]; lines?: readonly Vec3[] }
  /** A section turned about an axis: along it from its first point, and away from it. */
  | { shape: 'turned'; from: Vec3; to: Vec3; profile: readonly (readonly [number, number])[] }
  /** Lines alone: two ends each. */
  | { shape: 'lines'; ends: readonly Vec3[] }
  | Strip

/** A bar of four-cornered section that runs through stations, such as ground beside a round shaft. */
export interface Strip {
  shape: 'strip'
  /** At each station the section, with the run going away from the reader: low right, low left, high left, high right. */
  stations: readonly (readonly [Vec3, Vec3, Vec3, Vec3])[]
  /** Corners of the section whose run is drawn as a line, and whether the two ends are outlined. */
  lines: readonly (0 | 1 | 2 | 3)[]
  ends: readonly ('first' | 'last')[]
}

type Given = { value: number | undefined }
export const v = (g: Given): number => g.value ?? 0
export const v3 = (p: readonly [Given, Given, Given]): Vec3 => [v(p[0]), v(p[1]), v(p[2])]
export const v2 = (p: readonly [Given, Given]): readonly [number, number] => [v(p[0]), v(p[1])]

type Solid = Stages['model']['project']['parts'][string]['solids'][number]

/** Solids that add to a part; what is cut away is not drawn. */
export function solidShapes(solids: readonly Solid[], meshes: ReadonlyMap<string, Mesh>): SolidShape[] {
  return solids.filter((s) => s.op === 'add').flatMap((s) => solidShape(s, meshes))
}

function solidShape(solid: Solid, meshes: ReadonlyMap<string, Mesh>): SolidShape[] {
  switch (solid.shape) {
    case 'ring sector': {
      const [inner, outer] = [v(solid.inner), v(solid.outer)]
      return [{ shape: 'ring sector', inner, outer, along: v2(solid.along), angles: v2(solid.angles) }]
    }
    case 'cylinder':
      return [{ shape: 'cylinder', radii: [v(solid.radius), v(solid.radius)], from: v3(solid.from), to: v3(solid.to) }]
    case 'cone':
      return [{ shape: 'cylinder', radii: v2(solid.radii), from: v3(solid.from), to: v3(solid.to) }]
    case 'sphere':
      return [{ shape: 'sphere', radius: v(solid.radius), centre: v3(solid.centre) }]
    case 'box':
      return [{ shape: 'box', centre: v3(solid.centre), size: v3(solid.size), turn: 0 }]
    case 'radial box':
      return [radialBox(solid)]
    case 'revolution':
      return [{ shape: 'turned', from: v3(solid.from), to: v3(solid.to), profile: solid.profile.map(v2) }]
    case 'extrusion':
      return [extrudedShape(solid.outline.map(v2), solid.axis, v2(solid.between), v(solid.turn ?? { value: 0 }))]
    case 'spherical cap': {
      const [from, to] = [v3(solid.from), v3(solid.to)]
      const height = Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2])
      return [{ shape: 'turned', from, to, profile: domeProfile(v(solid.radius), height) }]
    }
    case 'mesh':
      return meshShape(solid, meshes.get(solid.file))
    default:
      return solid satisfies never
  }
}

function radialBox(solid: Extract<Solid, { shape: 'radial box' }>): SolidShape {
  const [from, to] = v2(solid.along)
  const angle = v(solid.angle)
  const centre: Vec3 = [(from + to) / 2, v(solid.radius) * Math.cos(angle), v(solid.radius) * Math.sin(angle)]
  return { shape: 'box', centre, size: [to - from, v(solid.radial), v(solid.across)], turn: angle }
}

function meshShape(solid: Extract<Solid, { shape: 'mesh' }>, mesh: Mesh | undefined): SolidShape[] {
  if (mesh === undefined) return []
  const [x, y, z] = solid.at === undefined ? ([0, 0, 0] as const) : v3(solid.at)
  const unit = v(solid.scale)
  const turned = inMachineAxes(mesh, solid.axes)
  const corner = (i: number): Vec3 => {
    const p = turned.vertices[i] as Vec3
    return [x + p[0] * unit, y + p[1] * unit, z + p[2] * unit]
  }
  return [{ shape: 'triangles', corners: mesh.triangles.flatMap((t) => t.map(corner)) }]
}

const SAMPLES = 24

/** Points of a solid that hold its bounds in any pose, to within the sagitta of a fifteenth of a turn. */
export function shapePoints(solid: SolidShape): Vec3[] {
  switch (solid.shape) {
    case 'ring sector': {
      const [from, to] = solid.angles
      const angles = Array.from({ length: SAMPLES + 1 }, (_, i) => from + ((to - from) * i) / SAMPLES)
      return angles.flatMap((a) =>
        solid.along.flatMap((x) => [solid.inner, solid.outer].map((r): Vec3 => [x, r * Math.cos(a), r * Math.sin(a)])),
      )
    }
    case 'cylinder':
      return [...circlePoints(solid, 0), ...circlePoints(solid, 1)]
    case 'sphere': {
      const [x, y, z] = solid.centre
      const r = solid.radius
      return [-r, r].flatMap((d): Vec3[] => [
        [x + d, y, z],
        [x, y + d, z],
        [x, y, z + d],
      ])
    }
    case 'box':
      return boxCorners(solid)
    case 'triangles':
      return [...solid.corners]
    case 'turned':
      return turnedRings(solid, SAMPLES).flat()
    case 'lines':
      return [...solid.ends]
    case 'strip':
      return solid.stations.flat()
    default:
      return solid satisfies never
  }
}

/** Two directions across an axis, with it a right-handed frame. */
export function across([x, y, z]: Vec3): readonly [Vec3, Vec3] {
  const length = Math.hypot(x, y, z) || 1
  const a: Vec3 = [x / length, y / length, z / length]
  const h: Vec3 = Math.abs(a[2]) < 0.9 ? [0, 0, 1] : [0, 1, 0]
  const u: Vec3 = [h[1] * a[2] - h[2] * a[1], h[2] * a[0] - h[0] * a[2], h[0] * a[1] - h[1] * a[0]]
  const n = Math.hypot(...u)
  const e: Vec3 = [u[0] / n, u[1] / n, u[2] / n]
  return [e, [a[1] * e[2] - a[2] * e[1], a[2] * e[0] - a[0] * e[2], a[0] * e[1] - a[1] * e[0]]]
}

/** Circles that the corners of a turned section run on; the last point is the first. */
export function turnedRings({ from, to, profile }: Extract<SolidShape, { shape: 'turned' }>, count: number): Vec3[][] {
  const axis: Vec3 = [to[0] - from[0], to[1] - from[1], to[2] - from[2]]
  const length = Math.hypot(axis[0], axis[1], axis[2]) || 1
  const [e, f] = across(axis)
  return profile.map(([along, r]) =>
    Array.from({ length: count + 1 }, (_, i): Vec3 => {
      const [c, s] = [Math.cos((2 * Math.PI * i) / count), Math.sin((2 * Math.PI * i) / count)]
      const at = (k: 0 | 1 | 2): number => from[k] + (axis[k] * along) / length + r * (c * e[k] + s * f[k])
      return [at(0), at(1), at(2)]
    }),
  )
}

function circlePoints({ from, to, radii }: Extract<SolidShape, { shape: 'cylinder' }>, end: 0 | 1): Vec3[] {
  const [e, f] = across([to[0] - from[0], to[1] - from[1], to[2] - from[2]])
  const at = end === 0 ? from : to
  return Array.from({ length: SAMPLES }, (_, i): Vec3 => {
    const [c, s] = [Math.cos((2 * Math.PI * i) / SAMPLES), Math.sin((2 * Math.PI * i) / SAMPLES)]
    const r = radii[end]
    return [at[0] + r * (c * e[0] + s * f[0]), at[1] + r * (c * e[1] + s * f[1]), at[2] + r * (c * e[2] + s * f[2])]
  })
}

/** Corners of a box turned about x: −−−, −−+, −+−, −++, +−−, +−+, ++−, +++. */
export function boxCorners({ centre, size, turn }: Extract<SolidShape, { shape: 'box' }>): Vec3[] {
  const [c, s] = [Math.cos(turn), Math.sin(turn)]
  const signs = [-0.5, 0.5]
  return signs.flatMap((i) =>
    signs.flatMap((j) =>
      signs.map((k): Vec3 => {
        const [x, y, z] = [size[0] * i, size[1] * j, size[2] * k]
        return [centre[0] + x, centre[1] + y * c - z * s, centre[2] + y * s + z * c]
      }),
    ),
  )
}
