import type { Memory } from '../working/memory.ts'
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
  memory: Memory,
  unread: ReadonlySet<string>,
): Problem[] {
  const there = new Set([...unread].map((pointer) => pointer.slice(pointer.lastIndexOf('/') + 1)))
  const references = [
    ...memory.once('model/references/machine', ofMachine(project), () => machineReferences(project, instances)),
    ...memory.once('model/references/lifting', ofLifting(project), () => liftingReferences(project, instances)),
    ...memory.once('model/references/programme', planned(project), () => programmeReferences(project)),
  ]
  return dangling(references.filter(({ id }) => !there.has(id) && !there.has(entryOf(id))))
}

/** All that references in the machine, the shaft and the ground are read from: of parts nothing but what names something. */
const ofMachine = ({
  parts,
  machine,
  ends,
  materials,
  isolations,
  joints,
  services,
  changes,
  ...site
}: ReadProject) => [
  ...[machine, ends, materials, isolations, joints, services, changes, site.ground, site.shaft, site.steps],
  ...Object.entries(parts).flatMap(([id, p]) => [id, p.pattern, p.material, p.overlapAccepted]),
]

/** All that references in lifting are read from: of parts their names and points. */
const ofLifting = ({ parts, pieces, lifts, steps, order, gear, weighings, transports, ...others }: ReadProject) => [
  ...[
    pieces,
    lifts,
    steps,
    order,
    gear,
    weighings,
    transports,
    others.bays,
    others.systems,
    others.stock,
    others.temporaryWorks,
  ],
  ...Object.entries(parts).flatMap(([id, p]) => [id, p.pattern, p.points]),
]

/** All that references in the programme are read from. */
const planned = ({
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
}: ReadProject) => [
  ...[tests, steps, changes, lifts, isolations, programme, belowGround, risks, correlations, diary, punchList],
  ...[inspections, welds, boltRecords, liftLog],
  // hoists, things in the shaft and hoses are named by people below ground alone, parts and joints by what is on record
  ...(belowGround === undefined ? [] : [systems, shaft]),
  ...([punchList, inspections, welds].every(isEmpty) ? [] : [parts]),
  ...([welds, boltRecords].every(isEmpty) ? [] : [joints]),
  ...(belowGround === undefined && isEmpty(punchList) ? [] : [services]),
]

const isEmpty = (collection: object): boolean => Object.keys(collection).length === 0

/** `CH-SPK-03` → `CH-SPK`: the entry a numbered part would belong to. */
const entryOf = (id: string): string => id.replace(/-\d+$/, '')
