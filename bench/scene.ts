import { derive } from '../engine/src/index.ts'
import { sceneCounts } from '../web/src/scene/counts.ts'
import { sceneOf } from '../web/src/scene/scene.ts'
import { grownProject } from './grown.ts'
import { atMost, type Line, reported } from './line.ts'
import { timed } from './timed.ts'

/** A drawing of the scene takes no more calls than this, whatever it holds. */
const MOST_DRAWS = 5
/** Triangles of a thousand part entries: what software drawing still turns. */
const MOST_TRIANGLES = 500_000

/** Draw calls and triangles of the demo's scene, and of one with a thousand part entries. */
export function sceneLines(demo: { parts: Record<string, unknown> }): Line[] {
  return [
    ...linesOf('demo in space', demo),
    ...linesOf('1000 part entries in space', withMachine(demo, grownProject(demo, 1000) as object)),
  ]
}

/** Parts stand in the site only with a machine to belong to. */
const withMachine = (demo: object, grown: object): object => {
  const { pose } = (demo as { machine: { pose: unknown } }).machine
  return { ...grown, machine: { pose } }
}

function linesOf(what: string, document: object): Line[] {
  const { stages, problems } = derive(document)
  if (stages === undefined) throw new Error(problems.map((p) => `${p.pointer}: ${p.expected}`).join('; '))
  const { value: scene, milliseconds } = timed(1, () => sceneOf(stages))
  const { items, triangles, lines, drawsMost } = sceneCounts(scene)
  return [
    reported(`${what}: things`, items, ''),
    atMost(`${what}: draw calls`, drawsMost, '', MOST_DRAWS),
    atMost(`${what}: triangles`, triangles, '', MOST_TRIANGLES),
    reported(`${what}: lines`, lines, ''),
    reported(`${what}: laid out`, milliseconds, 'ms'),
  ]
}
