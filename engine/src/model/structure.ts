import type { Memory } from '../working/memory.ts'
import type { Problem } from '../working/problem.ts'
import type { Instances } from './instance.ts'
import { liftingProblems } from './liftingStructure.ts'
import { machineProblems } from './machineStructure.ts'
import { programmeProblems } from './programmeStructure.ts'
import { recordProblems } from './recordStructure.ts'
import type { ReadProject } from './schema/project.ts'
import { siteProblems } from './siteStructure.ts'

/**
 * Faults that no single field shows: two things that cannot both be true. Only what is certainly a mistake; what a
 * competent person may mean is left to the checks.
 *
 * @param project what could be read; ids in it may still name nothing
 */
export function structureProblems(project: ReadProject, instances: Instances, memory: Memory): Problem[] {
  const { shaft, ground, cradle, bays, systems, lifts, pieces, gear, steps, order, programme, tests, correlations } =
    project
  return [
    ...machineProblems(project, instances, memory),
    ...memory.once('model/structure/site', [shaft, ground, cradle, bays], () => siteProblems(project)),
    ...memory.once('model/structure/lifting', [systems, lifts, pieces, gear, steps, order], () =>
      liftingProblems(project),
    ),
    ...memory.once(
      'model/structure/records',
      [project.diary, project.punchList, project.boltRecords, project.joints, project.issuedBooks],
      () => recordProblems(project),
    ),
    ...memory.once('model/structure/programme', [programme, tests, correlations], () => programmeProblems(project)),
  ]
}
