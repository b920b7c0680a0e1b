import { pointerOf } from '../working/pointer.ts'
import { foundText, type Problem } from '../working/problem.ts'
import { nodeProblems, placedMeshes } from './gltfNodes.ts'
import { rangeProblems } from './gltfRanges.ts'
import { type Gltf, gltf } from './gltfSchema.ts'
import { MOST_TRIANGLES, tooMany } from './triangles.ts'

/** A glTF file taken apart: its JSON, and the bytes that go with it. */
export interface GltfFile {
  json: unknown
  /** The binary chunk of a GLB. */
  bin: Uint8Array | undefined
  /** Bytes of a `data:` URI; undefined when it holds none. */
  dataOf(uri: string): Uint8Array | undefined
}

/** What a reader needs to find the triangles, and nothing else: every index is in range and every byte is there. */
export interface GltfTriangles {
  asset: Gltf
  /** Number of the scene that the file shows. */
  scene: number
  /** Bytes of each buffer. */
  buffers: readonly Uint8Array[]
}

/**
 * Looks through a glTF 2.0 file before anything is read from it, so that no reader follows an index out of its list, an
 * address out of the file or a count beyond its bytes.
 *
 * Refused, each by name: buffers outside the file (what a content hash does not cover), compressed, sparse and instanced
 * geometry, modes other than triangles, morph targets, skins, sheared or mirrored-to-nothing nodes, no scene or several of
 * which none is the default, more triangles than a part has.
 *
 * @param name what problems call the file
 * Source: Khronos glTF 2.0 specification, sections 3.5 to 3.7 and 4 (from memory).
 */
export function gltfTriangles(file: GltfFile, name: string): GltfTriangles | { problems: readonly Problem[] } {
  const read = gltf.safeParse(file.json)
  if (!read.success)
    return {
      problems: read.error.issues.map(({ path, message }) => ({
        pointer: `${name}, ${pointerOf(...(path as (string | number)[]))}`,
        found: foundText(valueAt(file.json, path)),
        expected: `glTF 2.0: ${message}`,
      })),
    }
  const asset = read.data
  const buffers = asset.buffers.map(({ uri }) => (uri === undefined ? file.bin : file.dataOf(uri)))
  const problems = [
    ...versionProblems(asset),
    ...extensionProblems(asset),
    ...rangeProblems(asset, buffers),
    ...nodeProblems(asset),
    ...sceneProblems(asset),
  ].map((p) => ({ ...p, pointer: `${name}, ${p.pointer}` }))
  if (problems.length > 0) return { problems }
  const count = trianglesIn(asset)
  if (count > MOST_TRIANGLES) return tooMany(name, count)
  return { asset, scene: sceneOf(asset) as number, buffers: buffers as Uint8Array[] }
}

const valueAt = (json: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined,
    json,
  )

function versionProblems({ asset: { version, minVersion } }: Gltf): Problem[] {
  const due = minVersion ?? version
  if (due === '2.0' || (minVersion === undefined && /^2\.\d+$/.test(version))) return []
  return [{ pointer: '/asset/version', found: `"${due}"`, expected: 'glTF version 2.0' }]
}

/** Extensions that change what is seen of a surface and not where it is, and one that only widens the types of numbers. */
const HARMLESS = /^(?:KHR_mesh_quantization|(?:KHR|EXT)_(?:materials|texture|lights|xmp)_\w+)$/

function extensionProblems({ extensionsRequired }: Gltf): Problem[] {
  return extensionsRequired.flatMap((extension, i) =>
    HARMLESS.test(extension)
      ? []
      : [
          {
            pointer: pointerOf('extensionsRequired', i),
            found: `"${extension}"`,
            expected: 'triangles as plain numbers: write the file without compression or instancing',
          },
        ],
  )
}

function sceneOf({ scene, scenes }: Gltf): number | undefined {
  return scene ?? (scenes.length === 1 ? 0 : undefined)
}

function sceneProblems(asset: Gltf): Problem[] {
  const scene = sceneOf(asset)
  if (scene === undefined)
    return [
      {
        pointer: '/scene',
        found: `${asset.scenes.length === 0 ? 'no scene' : `${asset.scenes.length} scenes, and none that is shown first`}`,
        expected: 'one scene, or the number of the one that is meant',
      },
    ]
  if (asset.scenes[scene] === undefined)
    return [{ pointer: '/scene', found: String(scene), expected: `a number below ${asset.scenes.length}` }]
  if (placedMeshes(asset, scene).length > 0) return []
  return [{ pointer: pointerOf('scenes', scene), found: 'an empty scene', expected: 'at least one mesh in it' }]
}

/** Triangles of the scene by the counts in the file, each mesh as often as it is placed. */
function trianglesIn(asset: Gltf): number {
  const placed = placedMeshes(asset, sceneOf(asset) as number)
  const corners = placed.flatMap((mesh) =>
    (asset.meshes[mesh]?.primitives ?? []).map(
      ({ attributes, indices }) => asset.accessors[indices ?? (attributes.POSITION as number)]?.count ?? 0,
    ),
  )
  return corners.reduce((sum, count) => sum + count / 3, 0)
}
