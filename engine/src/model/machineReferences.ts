import { pointerOf } from '../working/pointer.ts'
import type { Instances } from './instance.ts'
import { keys, list, one, type Reference } from './reference.ts'
import type { ReadProject } from './schema/project.ts'

/** Ids that name a part: entries and the instances of their patterns. */
export const partsKnown = (instances: Instances): ReadonlySet<string> =>
  new Set([...instances.byId.keys(), ...instances.ofEntry.keys()])

/** Ids in the machine, the shaft and the ground: parts, joints, services, changes, water, treated blocks. */
export function machineReferences(project: ReadProject, instances: Instances): Reference[] {
  const parts = partsKnown(instances)
  const ends = new Set([...parts, ...Object.keys(project.ends)])
  const [materials, isolations] = [keys(project.materials), keys(project.isolations)]
  const of = <T>(
    collection: Readonly<Record<string, T>>,
    section: string,
    refs: (entity: T, pointer: string) => Reference[],
  ): Reference[] => Object.entries(collection).flatMap(([id, entity]) => refs(entity, pointerOf(section, id)))
  return [
    ...list(project.machine?.targets ?? [], '/machine/targets', 'a part', parts),
    ...of(project.parts, 'parts', (p, at) => [
      ...one(p.material, `${at}/material`, 'a material', materials),
      ...p.overlapAccepted.flatMap((o, i) => one(o.with, `${at}/overlapAccepted/${i}/with`, 'a part', parts)),
    ]),
    ...of(project.joints, 'joints', (j, at) => [
      ...list(j.between, `${at}/between`, 'a part', parts),
      ...list(j.hiddenBy, `${at}/hiddenBy`, 'a part', parts),
    ]),
    ...of(project.services, 'services', (s, at) => [
      ...one(s.from, `${at}/from`, 'a part or an end outside the machine', ends),
      ...one(s.to, `${at}/to`, 'a part or an end outside the machine', ends),
      ...one(s.isolation, `${at}/isolation`, 'an isolation', isolations),
    ]),
    ...of(project.changes, 'changes', (c, at) => list(c.parts, `${at}/parts`, 'a part', parts)),
    ...Object.entries(project.ground?.water ?? {}).flatMap(([id, w]) =>
      list(w.layers, `/ground/water/${id}/layers`, 'a ground layer', keys(project.ground?.layers)),
    ),
    ...Object.entries(project.ground?.treatments ?? {}).flatMap(([id, t]) =>
      one(t.eye, `/ground/treatments/${id}/eye`, 'an eye of the shaft', keys(project.shaft?.eyes)),
    ),
    ...Object.entries(project.ground?.plant ?? {}).flatMap(([id, { during = [] }]) =>
      list(during, pointerOf('ground', 'plant', id, 'during'), 'a step', keys(project.steps)),
    ),
    ...Object.entries(project.ground?.instruments ?? {}).flatMap(([id, { inSteps }]) =>
      list(
        inSteps?.steps ?? [],
        pointerOf('ground', 'instruments', id, 'inSteps', 'steps'),
        'a step',
        keys(project.steps),
      ),
    ),
    ...one(project.cradle?.jacking?.before, '/cradle/jacking/before', 'a step', keys(project.steps)),
    ...Object.entries(project.shaft?.obstructions ?? {}).flatMap(([id, o]) =>
      one(o.removedBefore, `/shaft/obstructions/${id}/removedBefore`, 'a step', keys(project.steps)),
    ),
  ]
}
