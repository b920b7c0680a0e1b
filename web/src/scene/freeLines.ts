import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { BufferAttribute, BufferGeometry, DynamicDrawUsage, LineSegments, type Plane, ShaderMaterial } from 'three'
import type { Ink } from './palette.ts'

/** Lines that are written anew for each drawing: hoist lines, paths, dimensions, cut outlines. The room grows when it must. */
export interface FreeLines {
  drawn: LineSegments
  clear: () => void
  add: (a: Vec3, b: Vec3, ink: Ink, seen?: number) => void
  /** Strokes and gaps of a length, m. */
  dashed: (a: Vec3, b: Vec3, ink: Ink, dash: number) => void
  send: () => void
  setCut: (plane: Plane | undefined) => void
  end: () => void
}

/** @param through drawn over everything that stands before it */
export function freeLines(through: boolean): FreeLines {
  let room = 512
  let used = 0
  let positions = new Float32Array(room * 6)
  let inks = new Float32Array(room * 8)
  const geometry = new BufferGeometry()
  const material = new ShaderMaterial({
    transparent: true,
    depthTest: !through,
    depthWrite: false,
    clipping: true,
    vertexShader: /* glsl */ `
      attribute vec4 ink;
      varying vec4 vInk;
      #include <clipping_planes_pars_vertex>
      void main() {
        vInk = ink;
        vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
        #include <clipping_planes_vertex>
        if (isOrthographic) mvPosition.z += 0.015;
        else mvPosition.xyz *= 0.9997;
        gl_Position = projectionMatrix * mvPosition;
      }
    `,
    fragmentShader: /* glsl */ `
      varying vec4 vInk;
      #include <clipping_planes_pars_fragment>
      void main() {
        #include <clipping_planes_fragment>
        gl_FragColor = vInk;
      }
    `,
  })
  const attach = (): void => {
    for (const [name, array, size] of [
      ['position', positions, 3],
      ['ink', inks, 4],
    ] as const) {
      const attribute = new BufferAttribute(array, size)
      attribute.setUsage(DynamicDrawUsage)
      geometry.setAttribute(name, attribute)
    }
  }
  attach()
  const grow = (): void => {
    room *= 2
    const [p, i] = [positions, inks]
    positions = new Float32Array(room * 6)
    inks = new Float32Array(room * 8)
    positions.set(p)
    inks.set(i)
    geometry.dispose()
    attach()
  }
  const drawn = new LineSegments(geometry, material)
  drawn.frustumCulled = false
  drawn.matrixAutoUpdate = false
  drawn.renderOrder = through ? 5 : 3
  const add: FreeLines['add'] = (a, b, ink, seen = 1) => {
    if (used >= room) grow()
    const p = used * 6
    positions[p] = a[0]
    positions[p + 1] = a[1]
    positions[p + 2] = a[2]
    positions[p + 3] = b[0]
    positions[p + 4] = b[1]
    positions[p + 5] = b[2]
    for (let k = 0; k < 2; k++) {
      const q = used * 8 + k * 4
      inks[q] = ink[0]
      inks[q + 1] = ink[1]
      inks[q + 2] = ink[2]
      inks[q + 3] = seen
    }
    used++
  }
  return {
    drawn,
    clear: () => {
      used = 0
    },
    add,
    dashed: (a, b, ink, dash) => {
      const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2])
      const at = (s: number): Vec3 => [a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s, a[2] + (b[2] - a[2]) * s]
      for (let d = 0; d < length; d += 2 * dash) add(at(d / length), at(Math.min(1, (d + dash) / length)), ink)
    },
    send: () => {
      geometry.setDrawRange(0, used * 2)
      drawn.visible = used > 0
      for (const name of ['position', 'ink']) (geometry.getAttribute(name) as BufferAttribute).needsUpdate = true
    },
    setCut: (plane) => {
      material.clippingPlanes = plane === undefined ? [] : [plane]
    },
    end: () => {
      geometry.dispose()
      material.dispose()
    },
  }
}
