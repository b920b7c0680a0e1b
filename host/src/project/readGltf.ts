import { Logger, type mat4, type Node, type Primitive, Verbosity, WebIO } from '@gltf-transform/core'
import { type GltfTriangles, gltfTriangles } from '@shieldwright/engine/mass/gltf.ts'
import { type Corners, closedMesh, fileProblem, type MeshRead } from '@shieldwright/engine/mass/index.ts'
import { AT_REST, compose, cross, dot, type Pose, place, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { gltfFile } from './gltfFile.ts'

/**
 * A closed, consistently wound mesh from a glTF 2.0 file, GLB or JSON; or every reason why it is none. All triangles of the
 * scene are one surface, each node placed; a node that mirrors turns its triangles over, as the standard says.
 *
 * @param bytes the whole file; nothing beside it is read
 * @param name what problems call the file
 * @returns the mesh in the axes of the file, which glTF fixes: metres, y up, z forward, x to the left; it says so itself
 */
export async function readGltf(bytes: Uint8Array, name: string): Promise<MeshRead> {
  const file = gltfFile(bytes, name)
  if ('problems' in file) return file
  const found = gltfTriangles(file, name)
  if ('problems' in found) return found
  const { triangles, beyond } = await trianglesIn(found)
  if (beyond > 0)
    return fileProblem(
      name,
      `${beyond} indices beyond the corners they choose from`,
      'indices below the count of corners',
    )
  const read = closedMesh(triangles, name)
  return 'problems' in read ? read : { ...read, mesh: { ...read.mesh, axes: 'y up' } }
}

interface Read {
  triangles: Corners[]
  /** Indices that choose no corner. */
  beyond: number
}

async function trianglesIn({ asset, scene, buffers }: GltfTriangles): Promise<Read> {
  const names = buffers.map((_, i) => `buffer-${i}`)
  const document = await new WebIO().setLogger(new Logger(Verbosity.SILENT)).readJSON({
    json: bareAsset(asset, names) as never,
    resources: Object.fromEntries(buffers.map((bytes, i) => [names[i], bytes as Uint8Array<ArrayBuffer>])),
  })
  const read: Read = { triangles: [], beyond: 0 }
  const open = (document.getRoot().listScenes()[scene]?.listChildren() ?? []).map((node) => ({ node, above: AT_REST }))
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    const pose = compose(at.above, ownPose(at.node))
    for (const primitive of at.node.getMesh()?.listPrimitives() ?? []) addTriangles(read, primitive, pose)
    for (const node of at.node.listChildren()) open.push({ node, above: pose })
  }
  return read
}

/** The same file with nothing but places and corners: what else is in it is not looked at, sound or not. */
function bareAsset(
  { nodes, meshes, accessors, bufferViews, scenes, buffers }: GltfTriangles['asset'],
  names: string[],
) {
  const kept = new Map<number, number>()
  const keep = (accessor: number): number => {
    const number = kept.get(accessor) ?? kept.size
    kept.set(accessor, number)
    return number
  }
  const bareMeshes = meshes.map(({ primitives }) => ({
    primitives: primitives.map(({ attributes, indices }) => ({
      attributes: { POSITION: keep(attributes.POSITION as number) },
      ...(indices === undefined ? {} : { indices: keep(indices) }),
    })),
  }))
  return {
    asset: { version: '2.0' },
    scenes,
    nodes: nodes.map(({ extensions, ...node }) => node),
    meshes: bareMeshes,
    accessors: [...kept.keys()].map((i) => accessors[i]),
    bufferViews,
    buffers: buffers.map(({ byteLength }, i) => ({ byteLength, uri: names[i] })),
  }
}

/** The library keeps a matrix column by column. */
function ownPose(node: Node): Pose {
  const m: mat4 = node.getMatrix()
  return {
    turn: [
      [m[0], m[4], m[8]],
      [m[1], m[5], m[9]],
      [m[2], m[6], m[10]],
    ],
    shift: [m[12], m[13], m[14]],
  }
}

function addTriangles(read: Read, primitive: Primitive, pose: Pose): void {
  const positions = primitive.getAttribute('POSITION')
  if (positions === null) return
  const corners = Array.from({ length: positions.getCount() }, (_, i) =>
    place(pose, positions.getElement(i, [0, 0, 0]) as unknown as Vec3),
  )
  const indices = primitive.getIndices()?.getArray() ?? Uint32Array.from(corners.keys())
  const [a, b, c] = pose.turn
  const mirrored = dot(a, cross(b, c)) < 0
  for (let i = 0; i + 2 < indices.length; i += 3) {
    const [p, q, r] = [
      corners[indices[i] as number],
      corners[indices[i + 1] as number],
      corners[indices[i + 2] as number],
    ]
    if (p === undefined || q === undefined || r === undefined) read.beyond++
    else read.triangles.push(mirrored ? [p, r, q] : [p, q, r])
  }
}
