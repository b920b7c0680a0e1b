import { dot, norm, type Vec3 } from '../numeric/vector.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Problem } from '../working/problem.ts'
import type { Gltf, GltfNode } from './gltfSchema.ts'

/** Nodes that hang in no tree, name what is not there, or do more than place, turn and size what hangs from them. */
export function nodeProblems(asset: Gltf): Problem[] {
  return [...asset.nodes.flatMap((node, i) => ownProblems(asset, node, pointerOf('nodes', i))), ...treeProblems(asset)]
}

function ownProblems({ meshes }: Gltf, node: GltfNode, at: string): Problem[] {
  const { mesh, skin, extensions = {} } = node
  return [
    ...(mesh === undefined || mesh < meshes.length
      ? []
      : [{ pointer: `${at}/mesh`, found: String(mesh), expected: `a number below ${meshes.length}` }]),
    ...(skin === undefined
      ? []
      : [{ pointer: `${at}/skin`, found: 'a shape bent by a skin', expected: 'a rigid one' }]),
    ...Object.keys(extensions)
      .filter((name) => /instancing/i.test(name))
      .map((name) => ({
        pointer: `${at}/extensions/${name}`,
        found: 'instances in a table',
        expected: 'a node for each of them',
      })),
    ...placementProblems(node, at),
  ]
}

const SKEW = 1e-5

/** A matrix must be made of a place, a turn and sizes along its own axes; a turn must be a unit quaternion. */
function placementProblems({ matrix, rotation, scale }: GltfNode, at: string): Problem[] {
  if (matrix !== undefined && !isUnsheared(matrix))
    return [{ pointer: `${at}/matrix`, found: 'a sheared or flattened frame', expected: 'place, turn and size only' }]
  if (rotation !== undefined && Math.abs(Math.hypot(...rotation) - 1) > SKEW)
    return [
      { pointer: `${at}/rotation`, found: `length ${Math.hypot(...rotation)}`, expected: 'a quaternion of length one' },
    ]
  return scale?.includes(0) ? [{ pointer: `${at}/scale`, found: 'zero', expected: 'a size' }] : []
}

function isUnsheared(m: readonly number[]): boolean {
  const column = (k: number): Vec3 => [m[4 * k] as number, m[4 * k + 1] as number, m[4 * k + 2] as number]
  const axes = [column(0), column(1), column(2)] as const
  const last = [m[3], m[7], m[11], m[15]]
  if (last.some((x, i) => x !== (i === 3 ? 1 : 0)) || axes.some((a) => norm(a) === 0)) return false
  const skew = (a: Vec3, b: Vec3): number => Math.abs(dot(a, b)) / (norm(a) * norm(b))
  return Math.max(skew(axes[0], axes[1]), skew(axes[1], axes[2]), skew(axes[2], axes[0])) < SKEW
}

function treeProblems({ nodes, scenes }: Gltf): Problem[] {
  const above = new Map<number, number>()
  const problems: Problem[] = []
  const missing = (pointer: string, found: number): Problem[] =>
    found < nodes.length ? [] : [{ pointer, found: String(found), expected: `a number below ${nodes.length}` }]
  for (const [i, { children }] of nodes.entries()) {
    for (const [k, child] of children.entries()) {
      const pointer = pointerOf('nodes', i, 'children', k)
      problems.push(...missing(pointer, child))
      if (above.has(child))
        problems.push({ pointer, found: `node ${child} a second time`, expected: 'one parent each' })
      above.set(child, i)
    }
  }
  for (const [s, scene] of scenes.entries()) {
    for (const [k, root] of scene.nodes.entries()) {
      const pointer = pointerOf('scenes', s, 'nodes', k)
      problems.push(...missing(pointer, root))
      if (above.has(root))
        problems.push({ pointer, found: `node ${root}, which hangs from another`, expected: 'a root' })
    }
  }
  return problems
}

/**
 * Meshes under a scene's nodes, each as often as it is placed. With one parent each and roots that have none, no walk goes
 * round in a circle.
 */
export function placedMeshes({ nodes, scenes }: Gltf, scene: number): readonly number[] {
  const meshes: number[] = []
  const seen = new Set<number>()
  const open = [...(scenes[scene]?.nodes ?? [])]
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (seen.has(at)) continue
    seen.add(at)
    const node = nodes[at]
    if (node?.mesh !== undefined) meshes.push(node.mesh)
    open.push(...(node?.children ?? []))
  }
  return meshes
}
