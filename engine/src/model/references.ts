import type { Problem } from '../working/problem.ts'
import type { Instances } from './instance.ts'
import { liftingReferences } from './liftingReferences.ts'
import { machineReferences } from './machineReferences.ts'
import { programmeReferences } from './programmeReferences.ts'
import { dangling } from './reference.ts'
import type { ReadProject } from './schema/project.ts'

/**
 * Every id in the file that names something which is not there, with the nearest one that is.
 *
 * @param unread pointers of entities that stand in the file and could not be read: their ids are there
 */
export function referenceProblems(
  project: ReadProject,
  instances: Instances,
  unread: ReadonlySet<string> = NONE,
): Problem[] {
  const there = new Set([...unread].map((pointer) => pointer.slice(pointer.lastIndexOf('/') + 1)))
  const references = [
    ...machineReferences(project, instances),
    ...liftingReferences(project, instances),
    ...programmeReferences(project),
  ]
  return dangling(references.filter(({ id }) => !there.has(id) && !there.has(entryOf(id))))
}

const NONE: ReadonlySet<string> = new Set()

/** `CH-SPK-03` → `CH-SPK`: the entry a numbered part would belong to. */
const entryOf = (id: string): string => id.replace(/-\d+$/, '')
