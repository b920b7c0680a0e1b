import type { Pose } from '@shieldwright/engine/numeric/vector.ts'
import {
  BufferAttribute,
  BufferGeometry,
  DataTexture,
  DoubleSide,
  FloatType,
  LineSegments,
  Mesh,
  NearestFilter,
  type Plane,
  RGBAFormat,
  ShaderMaterial,
  Vector3,
} from 'three'
import type { Ink } from './palette.ts'
import type { SceneItem } from './sceneItem.ts'
import { shapeMesh } from './shapeMesh.ts'

/** Texels of an item: three rows of its matrix, its face and its lines, each with how much of it is seen. */
const TEXELS = 5
const ROW = TEXELS * 4
/** Items in a row of the texture: no texture is wider or higher than any WebGL 2 must take. */
const ACROSS = 64

/** Where an item's triangles stand among all, and the sphere that holds it in its own frame. */
export interface ItemRange {
  from: number
  count: number
  centre: Vector3
  radius: number
}

/** Everything that is drawn, in two geometries: faces and lines. What moves or changes is a row of a texture. */
export interface Batch {
  solid: Mesh
  ghost: Mesh
  lines: LineSegments
  positions: Float32Array
  index: Uint32Array
  ranges: readonly ItemRange[]
  /** Rows of the texture, one an item. */
  rows: Float32Array
  setPose: (item: number, pose: Pose) => void
  /** A pose whose frame is stretched: the columns of its matrix are given. */
  setColumns: (item: number, x: Vector3, y: Vector3, z: Vector3, at: Vector3) => void
  setInk: (item: number, face: Ink, seen: number, line: Ink, lineSeen: number) => void
  /** Hands the rows to the next drawing. */
  send: () => void
  setCut: (plane: Plane | undefined, ink: Ink) => void
  end: () => void
}

export const seenOf = (batch: Batch, item: number): number => batch.rows[item * ROW + 15] as number
const lineSeenOf = (rows: Float32Array, item: number): number => rows[item * ROW + 19] as number

export function batchOf(items: readonly SceneItem[]): Batch {
  const parts = items.map((item) => shapeMesh(item.solids))
  const corners = parts.reduce((sum, p) => sum + p.positions.length / 3, 0)
  const triangles = parts.reduce((sum, p) => sum + p.index.length, 0)
  const lineEnds = parts.reduce((sum, p) => sum + p.lines.length / 3, 0)
  const positions = new Float32Array(corners * 3)
  const normals = new Float32Array(corners * 3)
  const own = new Float32Array(corners)
  const index = new Uint32Array(triangles)
  const lines = new Float32Array(lineEnds * 3)
  const lineOwn = new Float32Array(lineEnds)
  const ranges: ItemRange[] = []
  let [c, t, l] = [0, 0, 0]
  parts.forEach((p, i) => {
    positions.set(p.positions, c * 3)
    normals.set(p.normals, c * 3)
    own.fill(i, c, c + p.positions.length / 3)
    for (let k = 0; k < p.index.length; k++) index[t + k] = (p.index[k] as number) + c
    lines.set(p.lines, l * 3)
    lineOwn.fill(i, l, l + p.lines.length / 3)
    ranges.push({ from: t, count: p.index.length, ...sphereOf(p.positions.length > 0 ? p.positions : p.lines) })
    c += p.positions.length / 3
    t += p.index.length
    l += p.lines.length / 3
  })
  const high = Math.max(1, Math.ceil(items.length / ACROSS))
  const rows = new Float32Array(high * ACROSS * ROW)
  const states = new DataTexture(rows, TEXELS * ACROSS, high, RGBAFormat, FloatType)
  states.minFilter = NearestFilter
  states.magFilter = NearestFilter
  const faces = new BufferGeometry()
  faces.setAttribute('position', new BufferAttribute(positions, 3))
  faces.setAttribute('normal', new BufferAttribute(normals, 3))
  faces.setAttribute('item', new BufferAttribute(own, 1))
  faces.setIndex(new BufferAttribute(index, 1))
  const edges = new BufferGeometry()
  edges.setAttribute('position', new BufferAttribute(lines, 3))
  edges.setAttribute('item', new BufferAttribute(lineOwn, 1))
  const solid = still(new Mesh(faces, faceMaterial(states, false)))
  const ghost = still(new Mesh(faces, faceMaterial(states, true)))
  const drawn = still(new LineSegments(edges, lineMaterial(states)))
  ghost.renderOrder = 2
  drawn.renderOrder = 1
  const materials = [solid.material, ghost.material, drawn.material] as ShaderMaterial[]
  return {
    solid,
    ghost,
    lines: drawn,
    positions,
    index,
    ranges,
    rows,
    setPose: (item, { turn, shift }) => {
      const at = item * ROW
      for (let r = 0; r < 3; r++) {
        const row = turn[r as 0 | 1 | 2]
        rows[at + r * 4] = row[0]
        rows[at + r * 4 + 1] = row[1]
        rows[at + r * 4 + 2] = row[2]
        rows[at + r * 4 + 3] = shift[r as 0 | 1 | 2]
      }
    },
    setColumns: (item, x, y, z, p) => {
      rows.set([x.x, y.x, z.x, p.x, x.y, y.y, z.y, p.y, x.z, y.z, z.z, p.z], item * ROW)
    },
    setInk: (item, face, seen, line, lineSeen) => {
      const at = item * ROW + 12
      rows[at] = face[0]
      rows[at + 1] = face[1]
      rows[at + 2] = face[2]
      rows[at + 3] = seen
      rows[at + 4] = line[0]
      rows[at + 5] = line[1]
      rows[at + 6] = line[2]
      rows[at + 7] = lineSeen
    },
    send: () => {
      states.needsUpdate = true
      ghost.visible = ranges.some((_, i) => {
        const seen = rows[i * ROW + 15] as number
        return seen > 0 && seen < 1
      })
      drawn.visible = ranges.some((_, i) => lineSeenOf(rows, i) > 0)
    },
    setCut: (plane, ink) => {
      for (const material of materials) {
        material.clippingPlanes = plane === undefined ? [] : [plane]
        if ((plane !== undefined) !== 'CUT' in material.defines) {
          if (plane === undefined) delete material.defines.CUT
          else material.defines.CUT = ''
          material.needsUpdate = true
        }
        ;(material.uniforms.cutInk as { value: Vector3 }).value.set(...ink)
      }
    },
    end: () => {
      faces.dispose()
      edges.dispose()
      states.dispose()
      for (const material of materials) material.dispose()
    },
  }
}

function still<T extends Mesh | LineSegments>(thing: T): T {
  thing.matrixAutoUpdate = false
  thing.frustumCulled = false
  return thing
}

function sphereOf(p: ArrayLike<number>): { centre: Vector3; radius: number } {
  const min = new Vector3(Infinity, Infinity, Infinity)
  const max = new Vector3(-Infinity, -Infinity, -Infinity)
  const at = new Vector3()
  for (let i = 0; i + 2 < p.length; i += 3) {
    at.set(p[i] as number, p[i + 1] as number, p[i + 2] as number)
    min.min(at)
    max.max(at)
  }
  if (p.length === 0) return { centre: at, radius: 0 }
  const centre = min.add(max).multiplyScalar(0.5)
  let radius = 0
  for (let i = 0; i + 2 < p.length; i += 3)
    radius = Math.max(radius, at.set(p[i] as number, p[i + 1] as number, p[i + 2] as number).distanceTo(centre))
  return { centre: centre.clone(), radius }
}

/** Takes a corner to the site by the item's row, and its ink from there. */
const PLACED = /* glsl */ `
  attribute float item;
  uniform highp sampler2D states;
  varying vec4 vInk;
  vec4 stateOf(int texel) {
    int i = int(item + 0.5);
    return texelFetch(states, ivec2((i % ${ACROSS}) * ${TEXELS} + texel, i / ${ACROSS}), 0);
  }
  vec3 placed(vec3 p) {
    vec4 q = vec4(p, 1.0);
    return vec3(dot(stateOf(0), q), dot(stateOf(1), q), dot(stateOf(2), q));
  }
`

const uniforms = (states: DataTexture) => ({ states: { value: states }, cutInk: { value: new Vector3() } })

function faceMaterial(states: DataTexture, ghost: boolean): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: uniforms(states),
    side: DoubleSide,
    transparent: ghost,
    depthWrite: !ghost,
    clipping: true,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 2,
    vertexShader: /* glsl */ `
      ${PLACED}
      #include <clipping_planes_pars_vertex>
      varying vec3 vNormal;
      varying vec3 vSight;
      varying float vItem;
      void main() {
        vInk = stateOf(3);
        vItem = item;
        vNormal = vec3(dot(stateOf(0).xyz, normal), dot(stateOf(1).xyz, normal), dot(stateOf(2).xyz, normal));
        vec4 mvPosition = modelViewMatrix * vec4(placed(position), 1.0);
        #include <clipping_planes_vertex>
        vSight = isOrthographic ? vec3(0.0, 0.0, 1.0) : -mvPosition.xyz;
        gl_Position = projectionMatrix * mvPosition;
        bool drawn = ${ghost ? 'vInk.a > 0.0 && vInk.a < 1.0' : 'vInk.a >= 1.0'};
        if (!drawn) gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
      }
    `,
    fragmentShader: /* glsl */ `
      uniform vec3 cutInk;
      varying vec4 vInk;
      varying vec3 vNormal;
      varying vec3 vSight;
      varying float vItem;
      #include <clipping_planes_pars_fragment>
      void main() {
        #include <clipping_planes_fragment>
        vec3 n = normalize(vNormal);
        float light = 0.86 + 0.1 * dot(n, vec3(-0.42, -0.62, 0.66)) + 0.07 * n.z;
        vec3 ink = vInk.rgb * light;
        // Where a curved face turns away from the eye its contour is drawn, a pixel or two wide.
        float facing = abs(dot(normalize(mat3(viewMatrix) * n), normalize(vSight)));
        float bend = fwidth(facing);
        if (bend > 1e-4) ink = mix(mix(vInk.rgb, cutInk, 0.7), ink, smoothstep(0.4, 1.6, facing / bend));
        ${
          ghost
            ? ''
            : /* glsl */ `
        if (!gl_FrontFacing) {
          float lean = mod(floor(vItem + 0.5), 2.0) < 0.5 ? 1.0 : -1.0;
          float line = fract((gl_FragCoord.x + lean * gl_FragCoord.y) / 6.0);
          ink = line < 0.2 ? mix(vInk.rgb, cutInk, 0.55) : vInk.rgb;
        }`
        }
        gl_FragColor = vec4(ink, vInk.a);
        #ifdef CUT
        // The inside of what is cut lies on the outside of its neighbour: it is brought forward, the rest put back as offsets do.
        gl_FragDepth = gl_FrontFacing ? gl_FragCoord.z + 1e-6 : gl_FragCoord.z - 2e-5;
        #endif
      }
    `,
  })
}

function lineMaterial(states: DataTexture): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: uniforms(states),
    transparent: true,
    depthWrite: false,
    clipping: true,
    vertexShader: /* glsl */ `
      ${PLACED}
      #include <clipping_planes_pars_vertex>
      void main() {
        vInk = stateOf(4);
        vec4 mvPosition = modelViewMatrix * vec4(placed(position), 1.0);
        #include <clipping_planes_vertex>
        // A line lies on its faces: it is brought a little towards the eye.
        if (isOrthographic) mvPosition.z += 0.015;
        else mvPosition.xyz *= 0.9998;
        gl_Position = projectionMatrix * mvPosition;
        if (vInk.a <= 0.0) gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
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
}
