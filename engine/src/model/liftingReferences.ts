import { pointerOf } from '../working/pointer.ts'
import { type Instances, idsMeant } from './instance.ts'
import { partsKnown } from './machineReferences.ts'
import { keys, list, one, type Reference } from './reference.ts'
import type { Arrangement, Lift, ReadProject } from './schema/project.ts'

/** Ids in pieces, lifts, steps, gear, weighings and transports. */
export function liftingReferences(project: ReadProject, instances: Instances): Reference[] {
  const parts = partsKnown(instances)
  const [bays, pieces, lifts] = [keys(project.bays), keys(project.pieces), keys(project.lifts)]
  return [
    ...each('pieces', project.pieces, (p, at) => [
      ...list(p.parts, `${at}/parts`, 'a part', parts),
      ...one(p.bay, `${at}/bay`, 'a bay', bays),
    ]),
    ...each('lifts', project.lifts, (l, at) => liftReferences(project, instances, l, at)),
    ...each('steps', project.steps, (s, at) => [
      ...one(s.piece, `${at}/piece`, 'a piece', pieces),
      ...one(s.lift, `${at}/lift`, 'a lift', lifts),
      ...one(s.back, `${at}/back`, 'a lift', lifts),
    ]),
    ...each('bays', project.bays, ({ stored }, at) =>
      Object.entries(stored).flatMap(([id, s]) =>
        list(s.clearedFor, `${at}${pointerOf('stored', id)}/clearedFor`, 'a lift', lifts),
      ),
    ),
    ...list(project.order, '/order', 'a step', keys(project.steps)),
    ...each('gear', project.gear, (g, at) => list(g.boltedTo, `${at}/boltedTo`, 'a part', parts)),
    ...each('temporaryWorks', project.temporaryWorks, ({ carries }, at) => [
      ...list(carries.systems, `${at}/carries/systems`, 'a lifting system', keys(project.systems)),
      ...list(carries.bays, `${at}/carries/bays`, 'a bay', bays),
      ...list(carries.lifts, `${at}/carries/lifts`, 'a lift', lifts),
    ]),
    ...each('weighings', project.weighings, (w, at) => [
      ...one(w.piece, `${at}/piece`, 'a piece', pieces),
      ...one(w.lift, `${at}/lift`, 'a lift', lifts),
    ]),
    ...each('transports', project.transports, (t, at) => [
      ...list(t.takes, `${at}/takes`, 'a piece', pieces),
      ...list(t.to, `${at}/to`, 'a bay', bays),
    ]),
  ]
}

const each = <T>(
  section: string,
  collection: Readonly<Record<string, T>>,
  references: (entity: T, at: string) => Reference[],
): Reference[] => Object.entries(collection).flatMap(([id, entity]) => references(entity, pointerOf(section, id)))

function liftReferences(project: ReadProject, instances: Instances, lift: Lift, at: string): Reference[] {
  const points = pointsOf(project, instances, lift)
  return [
    ...one(lift.piece, `${at}/piece`, 'a piece', keys(project.pieces)),
    ...hookReferences(project, lift.system, lift.hook, at),
    ...(lift.tail === undefined
      ? []
      : hookReferences(project, lift.tail.system ?? lift.system, lift.tail.hook, `${at}/tail`)),
    ...one(lift.bay, `${at}/bay`, 'a bay', keys(project.bays)),
    ...arrangementReferences(project, lift.rigging, `${at}/rigging`, points),
    ...arrangementReferences(project, lift.tail?.rigging, `${at}/tail/rigging`, points),
  ]
}

function hookReferences({ systems }: ReadProject, system: string, hook: string, at: string): Reference[] {
  const hooks = systems[system]?.hooks
  return [
    ...one(system, `${at}/system`, 'a lifting system', keys(systems)),
    ...(hooks === undefined ? [] : one(hook, `${at}/hook`, `a hook of ${system}`, keys(hooks))),
  ]
}

/** What a leg may be fixed to: points of the piece, of its parts, and of gear in either arrangement; undefined when unknown. */
function pointsOf(project: ReadProject, instances: Instances, lift: Lift): ReadonlySet<string> | undefined {
  const piece = project.pieces[lift.piece]
  if (piece === undefined) return undefined
  const parts = piece.parts
    .flatMap((id) => idsMeant(instances, id))
    .flatMap((id) => [...keys(instances.byId.get(id)?.part.points)])
  const gear = [lift.rigging, lift.tail?.rigging].flatMap((a) => (a === undefined ? [] : gearIn(a)))
  return new Set([...keys(piece.points), ...parts, ...gear.flatMap((g) => [...keys(project.gear[g]?.points)])])
}

const gearIn = ({ gear, nodes }: Arrangement): string[] => [...gear, ...Object.values(nodes).map((n) => n.gear)]

function arrangementReferences(
  project: ReadProject,
  arrangement: Arrangement | undefined,
  at: string,
  points: ReadonlySet<string> | undefined,
): Reference[] {
  if (arrangement === undefined) return []
  const [gear, stock, nodes] = [keys(project.gear), keys(project.stock), keys(arrangement.nodes)]
  const ends = points === undefined ? undefined : new Set([...points, ...nodes])
  return [
    ...list(arrangement.gear, `${at}/gear`, 'gear', gear),
    ...Object.entries(arrangement.nodes).flatMap(([id, n]) => one(n.gear, `${at}/nodes/${id}/gear`, 'gear', gear)),
    ...arrangement.legs.flatMap((l, i) => [
      ...one(l.item, `${at}/legs/${i}/item`, 'an item of stock', stock),
      ...one(l.link, `${at}/legs/${i}/link`, 'an item of stock', stock),
      ...l.fittings.flatMap((f, k) => one(f, `${at}/legs/${i}/fittings/${k}`, 'an item of stock', stock)),
      ...one(l.from, `${at}/legs/${i}/from`, 'a node of this arrangement', nodes),
      ...(ends === undefined
        ? []
        : one(l.to, `${at}/legs/${i}/to`, 'a lifting point of the piece or of gear bolted to it', ends)),
    ]),
    ...arrangement.others.flatMap((o, i) => one(o.item, `${at}/others/${i}/item`, 'an item of stock', stock)),
  ]
}
