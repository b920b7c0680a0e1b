import type { Memory } from '../working/memory.ts'
import type { Problem } from '../working/problem.ts'
import type { Instances } from './instance.ts'
import { liftingReferences } from './liftingReferences.ts'
import { machineReferences } from './machineReferences.ts'
import { ofParts } from './ofParts.ts'
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
  memory: Memory,
  unread: ReadonlySet<string>,
): Problem[] {
  const there = new Set([...unread].map((pointer) => pointer.slice(pointer.lastIndexOf('/') + 1)))
  // Of a part only what names something counts here: a new mass is none of it.
  const named = ofParts(project.parts, memory, 'machine', ({ material, overlapAccepted }) => [
    material,
    overlapAccepted,
  ])
  const lifted = ofParts(project.parts, memory, 'lifting', ({ points }) => [points])
  const references = [
    ...memory.once('model/references/machine', [named, ...ofMachine(project)], () =>
      machineReferences(project, instances),
    ),
    ...memory.once('model/references/lifting', [lifted, ...ofLifting(project)], () =>
      liftingReferences(project, instances),
    ),
    ...memory.once('model/references/programme', planned(project, memory), () => programmeReferences(project)),
  ]
  return dangling(references.filter(({ id }) => !there.has(id) && !there.has(entryOf(id))))
}

/** All that references in the machine, the shaft and the ground are read from, beside parts. */
const ofMachine = ({ machine, ends, materials, isolations, joints, services, changes, ...site }: ReadProject) => [
  ...[machine, ends, materials, isolations, joints, services, changes],
  ...[site.ground, site.shaft, site.cradle, site.steps],
]

/** All that references in lifting are read from, beside parts. */
const ofLifting = ({ pieces, lifts, steps, order, gear, weighings, transports, ...others }: ReadProject) => [
  ...[pieces, lifts, steps, order, gear, weighings, transports],
  ...[others.bays, others.systems, others.stock, others.temporaryWorks],
]

/** All that references in the programme are read from. */
const planned = (
  {
    systems,
    shaft,
    services,
    tests,
    steps,
    changes,
    lifts,
    isolations,
    programme,
    belowGround,
    risks,
    correlations,
    diary,
    punchList,
    inspections,
    welds,
    boltRecords,
    liftLog,
    joints,
    parts,
  }: ReadProject,
  memory: Memory,
) => [
  ...[tests, steps, changes, lifts, isolations, programme, belowGround, risks, correlations, diary, punchList],
  ...[inspections, welds, boltRecords, liftLog],
  // Hoists and things in the shaft are named by people below ground alone. Of parts, joints and hoses, names are looked at.
  ...(belowGround === undefined ? [] : [systems, shaft]),
  [punchList, inspections, welds].every(isEmpty) ? undefined : namesOf('parts', parts, memory),
  [welds, boltRecords].every(isEmpty) ? undefined : namesOf('joints', joints, memory),
  belowGround === undefined && isEmpty(punchList) ? undefined : namesOf('services', services, memory),
]

/** The names of a section: the very same list as last time as long as none came or went. */
const namesOf = (section: string, collection: Readonly<Record<string, unknown>>, memory: Memory): readonly string[] =>
  memory.each(`model/names/${section}`, collection, [], (id) => id)

const isEmpty = (collection: object): boolean => Object.keys(collection).length === 0

/** `CH-SPK-03` → `CH-SPK`: the entry a numbered part would belong to. */
const entryOf = (id: string): string => id.replace(/-\d+$/, '')
