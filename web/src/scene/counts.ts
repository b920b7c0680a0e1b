import type { Scene } from './scene.ts'
import { shapeMesh } from './shapeMesh.ts'

/** What drawing a scene takes. */
export interface SceneCounts {
  items: number
  triangles: number
  lines: number
  /** With nothing seen through: faces, lines, and what is written anew. */
  draws: number
  /** With something seen through as well. */
  drawsMost: number
}

/** All faces are one drawing and all lines another, however many items there are: what moves is a row of a texture. */
export function sceneCounts(scene: Scene): SceneCounts {
  let [triangles, lines] = [0, 0]
  for (const item of scene.items) {
    const mesh = shapeMesh(item.solids)
    triangles += mesh.index.length / 3
    lines += mesh.lines.length / 6
  }
  const own = Number(triangles > 0) + Number(lines > 0)
  return { items: scene.items.length, triangles, lines, draws: own + 2, drawsMost: own + 3 }
}
