import type { Problem } from '../working/problem.ts'
import type { Instances } from './instance.ts'
import { liftingProblems } from './liftingStructure.ts'
import { machineProblems } from './machineStructure.ts'
import { programmeProblems } from './programmeStructure.ts'
import type { ReadProject } from './schema/project.ts'
import { siteProblems } from './siteStructure.ts'

/**
 * Faults that no single field shows: two things that cannot both be true. Only what is certainly a mistake; what a
 * competent person may mean is left to the checks.
 *
 * @param project what could be read; ids in it may still name nothing
 */
export function structureProblems(project: ReadProject, instances: Instances): Problem[] {
  return [
    ...machineProblems(project, instances),
    ...siteProblems(project),
    ...liftingProblems(project),
    ...programmeProblems(project),
  ]
}
