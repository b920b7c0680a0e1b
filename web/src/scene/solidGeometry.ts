import {
  BoxGeometry,
  BufferAttribute,
  BufferGeometry,
  CylinderGeometry,
  Matrix4,
  Quaternion,
  SphereGeometry,
  Vector3,
} from 'three'
import type { SolidShape } from './scene.ts'

/** Angle one facet spans; fine enough that a 6 m ring reads as round. */
const FACET = Math.PI / 36

/** Triangles of a solid in its entry's own frame. */
export function solidGeometry(solid: SolidShape): BufferGeometry {
  switch (solid.shape) {
    case 'ring sector':
      return ringSector(solid)
    case 'cylinder':
      return between(new CylinderGeometry(solid.radii[1], solid.radii[0], 1, 24), solid.from, solid.to)
    case 'sphere':
      return new SphereGeometry(solid.radius, 24, 16).translate(...solid.centre)
    case 'box':
      return new BoxGeometry(...solid.size).rotateX(solid.turn).translate(...solid.centre)
    default:
      return solid satisfies never
  }
}

type Point = readonly [number, number, number]

function between(unit: BufferGeometry, from: Point, to: Point): BufferGeometry {
  const [a, b] = [new Vector3(...from), new Vector3(...to)]
  const along = b.clone().sub(a)
  const turn = new Quaternion().setFromUnitVectors(new Vector3(0, 1, 0), along.clone().normalize())
  return unit.applyMatrix4(new Matrix4().compose(a.add(b).multiplyScalar(0.5), turn, new Vector3(1, along.length(), 1)))
}

function ringSector({ inner, outer, along, angles }: Extract<SolidShape, { shape: 'ring sector' }>): BufferGeometry {
  const steps = Math.max(2, Math.ceil((angles[1] - angles[0]) / FACET))
  const closed = angles[1] - angles[0] > 2 * Math.PI - 1e-6
  const corner = (i: number, r: number, x: number): Point => {
    const a = angles[0] + ((angles[1] - angles[0]) * i) / steps
    return [x, r * Math.cos(a), r * Math.sin(a)]
  }
  const positions: number[] = []
  const quad = (a: Point, b: Point, c: Point, d: Point): void => {
    positions.push(...a, ...b, ...c, ...a, ...c, ...d)
  }
  const [x0, x1] = along
  for (let i = 0; i < steps; i++) {
    quad(corner(i, outer, x0), corner(i, outer, x1), corner(i + 1, outer, x1), corner(i + 1, outer, x0))
    quad(corner(i, inner, x1), corner(i, inner, x0), corner(i + 1, inner, x0), corner(i + 1, inner, x1))
    quad(corner(i, inner, x1), corner(i + 1, inner, x1), corner(i + 1, outer, x1), corner(i, outer, x1))
    quad(corner(i, outer, x0), corner(i + 1, outer, x0), corner(i + 1, inner, x0), corner(i, inner, x0))
  }
  if (!closed) {
    quad(corner(0, inner, x0), corner(0, inner, x1), corner(0, outer, x1), corner(0, outer, x0))
    quad(corner(steps, outer, x0), corner(steps, outer, x1), corner(steps, inner, x1), corner(steps, inner, x0))
  }
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3))
  geometry.computeVertexNormals()
  return geometry
}
