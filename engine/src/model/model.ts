import type { Mesh } from '../numeric/mesh.ts'
import type { Memory } from '../working/memory.ts'
import type { Problem } from '../working/problem.ts'
import { type Instances, instancesOf } from './instance.ts'
import { readProject } from './read.ts'
import { referenceProblems } from './references.ts'
import type { ReadProject } from './schema/project.ts'
import { solidProblems } from './solid.ts'
import { structureProblems } from './structure.ts'

/** The one model: what the file says, read, addressed and with its patterns written out. */
export interface Model {
  project: ReadProject
  instances: Instances
  /** Use from which a passing check is near. */
  near: number
  /** Closed meshes by the content hash that solids name. */
  meshes: ReadonlyMap<string, Mesh>
}

const NO_MESHES: ReadonlyMap<string, Mesh> = new Map()

export type ModelResult =
  | { model: Model; problems: readonly Problem[] }
  | { model?: undefined; problems: readonly Problem[] }

/**
 * The model of a project document, or every problem that keeps it from being one.
 *
 * @param document plain data, as parsed from JSON or YAML
 * @param meshes what lies beside the file: closed meshes by content hash, as `readStl` and other readers give them
 */
export function model(document: unknown, memory: Memory, meshes: ReadonlyMap<string, Mesh> = NO_MESHES): ModelResult {
  const { sound, mended, unread, problems: faults } = readProject(document, memory)
  const instances = instancesOf(sound.parts, memory)
  const known = mended.parts === sound.parts ? instances : instancesOf(mended.parts)
  const problems = [
    ...faults,
    ...referenceProblems(mended, known, memory, unread),
    ...structureProblems(sound, instances, memory),
    ...solidProblems(sound, meshes, memory),
  ]
  if (problems.length > 0) return { problems }
  return { model: { project: sound, instances, near: sound.settings.near.value as number, meshes }, problems }
}
