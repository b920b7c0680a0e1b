import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { across, boxCorners, type SolidShape, type Strip, turnedRings } from './solids.ts'

/** Triangles and lines of some solids in their own frame. */
export interface ShapeMesh {
  /** Corners with their normals, three numbers each. */
  positions: number[]
  normals: number[]
  /** Three corners a triangle, seen from outside anticlockwise. */
  index: number[]
  /** Ends of lines, six numbers each. */
  lines: number[]
}

/** A chord may stand off its arc by this much, m. */
const SAGITTA = 0.02
const LEAST = 8
const MOST = 72

/** Chords of a full turn. */
export const chordsOf = (radius: number): number =>
  Math.min(MOST, Math.max(LEAST, Math.ceil(Math.PI / Math.acos(Math.max(0, 1 - SAGITTA / Math.max(radius, SAGITTA))))))

/** Triangles and the lines where faces meet, of solids together. */
export function shapeMesh(solids: readonly SolidShape[]): ShapeMesh {
  const mesh: ShapeMesh = { positions: [], normals: [], index: [], lines: [] }
  for (const solid of solids) addSolid(mesh, solid)
  return mesh
}

function addSolid(mesh: ShapeMesh, solid: SolidShape): void {
  switch (solid.shape) {
    case 'ring sector':
      addRing(mesh, solid)
      return
    case 'cylinder':
      addCone(mesh, solid)
      return
    case 'sphere':
      addSphere(mesh, solid)
      return
    case 'box':
      addBox(mesh, boxCorners(solid))
      return
    case 'triangles':
      addTriangles(mesh, solid.corners)
      for (const p of solid.lines ?? []) mesh.lines.push(p[0], p[1], p[2])
      return
    case 'turned':
      addTurned(mesh, solid)
      return
    case 'lines':
      for (const p of solid.ends) mesh.lines.push(p[0], p[1], p[2])
      return
    case 'strip':
      addStrip(mesh, solid)
      return
    default:
      solid satisfies never
  }
}

function corner(mesh: ShapeMesh, p: Vec3, n: Vec3): number {
  mesh.positions.push(p[0], p[1], p[2])
  mesh.normals.push(n[0], n[1], n[2])
  return mesh.positions.length / 3 - 1
}

function normalOf(a: Vec3, b: Vec3, c: Vec3): Vec3 {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]]
  const [wx, wy, wz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]]
  const n: Vec3 = [uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx]
  const length = Math.hypot(...n) || 1
  return [n[0] / length, n[1] / length, n[2] / length]
}

/** A flat face of four corners, anticlockwise from outside; nothing where it has no area. */
function quad(mesh: ShapeMesh, a: Vec3, b: Vec3, c: Vec3, d: Vec3): void {
  const normal = normalOf(a, c, [c[0] + d[0] - b[0], c[1] + d[1] - b[1], c[2] + d[2] - b[2]])
  const [i, j, k, l] = [a, b, c, d].map((p) => corner(mesh, p, normal)) as [number, number, number, number]
  mesh.index.push(i, j, k, i, k, l)
}

const line = (mesh: ShapeMesh, a: Vec3, b: Vec3): void => {
  mesh.lines.push(a[0], a[1], a[2], b[0], b[1], b[2])
}

/** A band between two rows of corners, smooth along the rows: seen from outside, `b` lies left of the run of `a`. */
function band(mesh: ShapeMesh, a: readonly Vec3[], b: readonly Vec3[], normals: readonly Vec3[]): void {
  const ids = a.map((p, i) => [
    corner(mesh, p, normals[i] as Vec3),
    corner(mesh, b[i] as Vec3, normals[i] as Vec3),
  ]) as [number, number][]
  for (let i = 0; i + 1 < ids.length; i++) {
    const [[p, q], [r, s]] = [ids[i], ids[i + 1]] as [[number, number], [number, number]]
    mesh.index.push(p, r, s, p, s, q)
  }
}

const run = (mesh: ShapeMesh, points: readonly Vec3[]): void => {
  for (let i = 0; i + 1 < points.length; i++) line(mesh, points[i] as Vec3, points[i + 1] as Vec3)
}

function addRing(mesh: ShapeMesh, ring: Extract<SolidShape, { shape: 'ring sector' }>): void {
  const { inner, outer, angles } = ring
  const [rear, front] = ring.along
  const sweep = angles[1] - angles[0]
  const closed = sweep > 2 * Math.PI - 1e-6
  const count = Math.max(2, Math.ceil((chordsOf(outer) * sweep) / (2 * Math.PI)))
  const rays = Array.from({ length: count + 1 }, (_, i) => angles[0] + (sweep * i) / count)
  const row = (r: number, x: number): Vec3[] => rays.map((a) => [x, r * Math.cos(a), r * Math.sin(a)])
  const out = rays.map((a): Vec3 => [0, Math.cos(a), Math.sin(a)])
  const back = out.map(([x, y, z]): Vec3 => [x, -y, -z])
  const [or, of, ir, inf] = [row(outer, rear), row(outer, front), row(inner, rear), row(inner, front)]
  const flat = (x: number): Vec3[] => rays.map(() => [x, 0, 0])
  band(mesh, or, of, out)
  if (inner > 0) band(mesh, inf, ir, back)
  band(mesh, of, inf, flat(1))
  band(mesh, ir, or, flat(-1))
  for (const points of inner > 0 ? [or, of, ir, inf] : [or, of]) run(mesh, points)
  if (closed) return
  const n = count
  const ends = [
    [or[0], of[0], inf[0], ir[0]],
    [of[n], or[n], ir[n], inf[n]],
  ] as [Vec3, Vec3, Vec3, Vec3][]
  for (const [a, b, c, d] of ends) {
    quad(mesh, a, b, c, d)
    line(mesh, a, b)
    line(mesh, b, c)
    line(mesh, c, d)
    line(mesh, d, a)
  }
}

function addCone(mesh: ShapeMesh, { from, to, radii }: Extract<SolidShape, { shape: 'cylinder' }>): void {
  const axis: Vec3 = [to[0] - from[0], to[1] - from[1], to[2] - from[2]]
  const length = Math.hypot(...axis) || 1
  const [e, f] = across(axis)
  const count = chordsOf(Math.max(...radii))
  const rays = Array.from({ length: count + 1 }, (_, i): Vec3 => {
    const [c, s] = [Math.cos((2 * Math.PI * i) / count), Math.sin((2 * Math.PI * i) / count)]
    return [c * e[0] + s * f[0], c * e[1] + s * f[1], c * e[2] + s * f[2]]
  })
  const ring = (centre: Vec3, r: number): Vec3[] =>
    rays.map((n) => [centre[0] + r * n[0], centre[1] + r * n[1], centre[2] + r * n[2]])
  const [a, b] = [ring(from, radii[0]), ring(to, radii[1])]
  const lean = (radii[0] - radii[1]) / length
  const unit: Vec3 = [axis[0] / length, axis[1] / length, axis[2] / length]
  const normals = rays.map((n): Vec3 => [n[0] + lean * unit[0], n[1] + lean * unit[1], n[2] + lean * unit[2]])
  band(mesh, a, b, normals)
  disc(mesh, from, a, [-unit[0], -unit[1], -unit[2]], true)
  disc(mesh, to, b, unit, false)
  if (radii[0] > 0) run(mesh, a)
  if (radii[1] > 0) run(mesh, b)
}

function disc(mesh: ShapeMesh, centre: Vec3, rim: readonly Vec3[], normal: Vec3, turned: boolean): void {
  const middle = corner(mesh, centre, normal)
  const ids = rim.map((p) => corner(mesh, p, normal))
  for (let i = 0; i + 1 < ids.length; i++) {
    const [p, q] = [ids[i], ids[i + 1]] as [number, number]
    if (turned) mesh.index.push(middle, q, p)
    else mesh.index.push(middle, p, q)
  }
}

function addSphere(mesh: ShapeMesh, { centre, radius }: Extract<SolidShape, { shape: 'sphere' }>): void {
  const count = chordsOf(radius)
  const rows = Math.max(4, Math.ceil(count / 2))
  const parallel = (k: number): Vec3[] => {
    const [c, s] = [Math.cos(Math.PI * (k / rows - 0.5)), Math.sin(Math.PI * (k / rows - 0.5))]
    return Array.from({ length: count + 1 }, (_, i) => {
      const a = (2 * Math.PI * i) / count
      return [c * Math.cos(a), c * Math.sin(a), s]
    })
  }
  const placed = (row: readonly Vec3[]): Vec3[] =>
    row.map((n) => [centre[0] + radius * n[0], centre[1] + radius * n[1], centre[2] + radius * n[2]])
  for (let k = 0; k < rows; k++) {
    const [low, high] = [parallel(k), parallel(k + 1)]
    band(mesh, placed(low), placed(high), low)
  }
}

/** Faces of a box: its corners as `boxCorners` orders them. */
const FACES = [
  [0, 1, 3, 2],
  [4, 6, 7, 5],
  [0, 4, 5, 1],
  [2, 3, 7, 6],
  [0, 2, 6, 4],
  [1, 5, 7, 3],
] as const
const RIMS = [0, 1, 1, 3, 3, 2, 2, 0, 4, 5, 5, 7, 7, 6, 6, 4, 0, 4, 1, 5, 2, 6, 3, 7] as const

function addBox(mesh: ShapeMesh, c: readonly Vec3[]): void {
  for (const [i, j, k, l] of FACES) quad(mesh, c[i] as Vec3, c[j] as Vec3, c[k] as Vec3, c[l] as Vec3)
  for (let i = 0; i < RIMS.length; i += 2) line(mesh, c[RIMS[i] as number] as Vec3, c[RIMS[i + 1] as number] as Vec3)
}

function addTriangles(mesh: ShapeMesh, corners: readonly Vec3[]): void {
  for (let i = 0; i + 2 < corners.length; i += 3) {
    const [a, b, c] = [corners[i], corners[i + 1], corners[i + 2]] as [Vec3, Vec3, Vec3]
    const normal = normalOf(a, b, c)
    mesh.index.push(corner(mesh, a, normal), corner(mesh, b, normal), corner(mesh, c, normal))
  }
}

/** A profile's corner is an edge where its sides meet at more than this, rad. */
const EDGE = 0.35

function addTurned(mesh: ShapeMesh, turned: Extract<SolidShape, { shape: 'turned' }>): void {
  const area = turned.profile.reduce((sum, [a, r], i) => {
    const [b, q] = turned.profile[(i + 1) % turned.profile.length] as readonly [number, number]
    return sum + a * q - b * r
  }, 0)
  // Run so that, along the axis and away from it, the section lies to the right: bands then face outwards.
  const profile = area > 0 ? [...turned.profile].reverse() : turned.profile
  const rings = turnedRings({ ...turned, profile }, chordsOf(Math.max(...profile.map(([, r]) => r))))
  const n = rings.length
  const slopes = profile.map(([a, r], i) => {
    const [b, q] = profile[(i + 1) % n] as readonly [number, number]
    return Math.atan2(q - r, b - a)
  })
  rings.forEach((ring, i) => {
    const next = rings[(i + 1) % n] as Vec3[]
    const normals = ring.map((p, k) =>
      bandNormal(p, ring[k + 1] ?? (ring[1] as Vec3), next[k] as Vec3, next[(k + 1) % next.length] as Vec3),
    )
    band(mesh, ring, next, normals)
    const bend = Math.abs(
      (((slopes[i] as number) - (slopes[(i + n - 1) % n] as number) + 3 * Math.PI) % (2 * Math.PI)) - Math.PI,
    )
    if (bend > EDGE && (profile[i] as readonly [number, number])[1] > 0) run(mesh, ring)
  })
}

/** Of a facet whose one edge may be a point. */
function bandNormal(a: Vec3, b: Vec3, c: Vec3, d: Vec3): Vec3 {
  const first = normalOf(a, b, d)
  return Math.hypot(...first) > 0.5 ? first : normalOf(a, d, c)
}

function addStrip(mesh: ShapeMesh, { stations, lines, ends }: Strip): void {
  const last = stations.length - 1
  for (let i = 0; i < last; i++) {
    const [p, q] = [stations[i], stations[i + 1]] as [Strip['stations'][number], Strip['stations'][number]]
    for (let k = 0; k < 4; k++) {
      const next = (k + 1) % 4
      quad(mesh, p[k] as Vec3, p[next] as Vec3, q[next] as Vec3, q[k] as Vec3)
    }
    for (const k of lines) line(mesh, p[k], q[k])
  }
  const [first, end] = [stations[0], stations[last]] as [Strip['stations'][number], Strip['stations'][number]]
  quad(mesh, first[3], first[2], first[1], first[0])
  quad(mesh, end[0], end[1], end[2], end[3])
  if (ends.includes('first')) run(mesh, [...first, first[0]])
  if (ends.includes('last')) run(mesh, [...end, end[0]])
}
