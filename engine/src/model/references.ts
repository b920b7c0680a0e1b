import { pointerOf } from '../working/pointer.ts'
import { nearestId, type Problem } from '../working/problem.ts'
import { type Instances, idsMeant } from './instance.ts'
import type { Arrangement, ReadProject } from './schema/project.ts'

interface Reference {
  pointer: string
  id: string
  /** What the id should name, and where such things stand. */
  what: string
  known: ReadonlySet<string>
}

/** Every id in the file that names something which is not there, with the nearest one that is. */
export function referenceProblems(project: ReadProject, instances: Instances): Problem[] {
  return referencesOf(project, instances)
    .filter(({ id, known }) => !known.has(id))
    .map(({ pointer, id, what, known }) => {
      const near = nearestId(id, known)
      return {
        pointer,
        found: `"${id}"`,
        expected: `the id of ${what}${near === undefined ? '' : `; did you mean "${near}"?`}`,
      }
    })
}

type Known = Record<'part' | 'end' | 'entry', ReadonlySet<string>>

function referencesOf(project: ReadProject, instances: Instances): Reference[] {
  const entries = new Set(instances.ofEntry.keys())
  const parts = new Set([...instances.byId.keys(), ...entries])
  const known: Known = { part: parts, entry: entries, end: new Set([...parts, ...Object.keys(project.ends)]) }
  return [...machineReferences(project, known), ...liftingReferences(project, known), ...programmeReferences(project)]
}

const keys = (collection: Readonly<Record<string, unknown>>): ReadonlySet<string> => new Set(Object.keys(collection))

function list(ids: readonly string[], pointer: string, what: string, known: ReadonlySet<string>): Reference[] {
  return ids.map((id, i) => ({ pointer: `${pointer}/${i}`, id, what, known }))
}

function one(id: string | undefined, pointer: string, what: string, known: ReadonlySet<string>): Reference[] {
  return id === undefined ? [] : [{ pointer, id, what, known }]
}

function machineReferences(project: ReadProject, known: Known): Reference[] {
  const of = <T>(
    collection: Readonly<Record<string, T>>,
    section: string,
    refs: (entity: T, pointer: string) => Reference[],
  ): Reference[] => Object.entries(collection).flatMap(([id, entity]) => refs(entity, pointerOf(section, id)))
  return [
    ...list(project.machine?.targets ?? [], '/machine/targets', 'a part', known.part),
    ...of(project.parts, 'parts', (p, at) => [
      ...one(p.material, `${at}/material`, 'a material', keys(project.materials)),
      ...list(
        p.overlapAccepted.map((o) => o.with),
        `${at}/overlapAccepted`,
        'a part',
        known.part,
      ),
    ]),
    ...of(project.joints, 'joints', (j, at) => [
      ...list(j.between, `${at}/between`, 'a part', known.part),
      ...list(j.hiddenBy, `${at}/hiddenBy`, 'a part', known.part),
    ]),
    ...of(project.services, 'services', (s, at) => [
      ...one(s.from, `${at}/from`, 'a part or an end outside the machine', known.end),
      ...one(s.to, `${at}/to`, 'a part or an end outside the machine', known.end),
      ...one(s.isolation, `${at}/isolation`, 'an isolation', keys(project.isolations)),
    ]),
    ...of(project.changes, 'changes', (c, at) => list(c.parts, `${at}/parts`, 'a part', known.part)),
    ...Object.entries(project.ground?.water ?? {}).flatMap(([id, w]) =>
      list(w.layers, `/ground/water/${id}/layers`, 'a ground layer', keys(project.ground?.layers ?? {})),
    ),
  ]
}

function liftingReferences(project: ReadProject, known: Known): Reference[] {
  const [gear, stock, bays, systems, pieces, lifts] = [
    project.gear,
    project.stock,
    project.bays,
    project.systems,
    project.pieces,
    project.lifts,
  ].map(keys) as ReadonlySet<string>[] as [
    ReadonlySet<string>,
    ReadonlySet<string>,
    ReadonlySet<string>,
    ReadonlySet<string>,
    ReadonlySet<string>,
    ReadonlySet<string>,
  ]
  const arrangement = (a: Arrangement | undefined, at: string): Reference[] =>
    a === undefined
      ? []
      : [
          ...list(a.gear, `${at}/gear`, 'gear', gear),
          ...Object.entries(a.nodes).flatMap(([id, n]) => one(n.gear, `${at}/nodes/${id}/gear`, 'gear', gear)),
          ...a.legs.flatMap((l, i) => [
            ...one(l.item, `${at}/legs/${i}/item`, 'an item of stock', stock),
            ...one(l.link, `${at}/legs/${i}/link`, 'an item of stock', stock),
          ]),
          ...a.others.flatMap((o, i) => one(o.item, `${at}/others/${i}/item`, 'an item of stock', stock)),
        ]
  return [
    ...Object.entries(project.pieces).flatMap(([id, p]) => [
      ...list(p.parts, `/pieces/${id}/parts`, 'a part', known.part),
      ...one(p.bay, `/pieces/${id}/bay`, 'a bay', bays),
    ]),
    ...Object.entries(project.lifts).flatMap(([id, l]) => {
      const at = `/lifts/${id}`
      const tailSystem = l.tail?.system ?? l.system
      return [
        ...one(l.piece, `${at}/piece`, 'a piece', pieces),
        ...one(l.system, `${at}/system`, 'a lifting system', systems),
        ...(systems.has(l.system)
          ? one(l.hook, `${at}/hook`, `a hook of ${l.system}`, keys(project.systems[l.system]?.hooks ?? {}))
          : []),
        ...one(l.tail?.system, `${at}/tail/system`, 'a lifting system', systems),
        ...(systems.has(tailSystem)
          ? one(
              l.tail?.hook,
              `${at}/tail/hook`,
              `a hook of ${tailSystem}`,
              keys(project.systems[tailSystem]?.hooks ?? {}),
            )
          : []),
        ...one(l.bay, `${at}/bay`, 'a bay', bays),
        ...arrangement(l.rigging, `${at}/rigging`),
        ...arrangement(l.tail?.rigging, `${at}/tail/rigging`),
      ]
    }),
    ...Object.entries(project.steps).flatMap(([id, s]) => [
      ...one(s.piece, `/steps/${id}/piece`, 'a piece', pieces),
      ...one(s.lift, `/steps/${id}/lift`, 'a lift', lifts),
    ]),
    ...list(project.order, '/order', 'a step', keys(project.steps)),
    ...Object.entries(project.gear).flatMap(([id, g]) =>
      list(g.boltedTo, `/gear/${id}/boltedTo`, 'a part', known.part),
    ),
    ...Object.entries(project.weighings).flatMap(([id, w]) => [
      ...one(w.piece, `/weighings/${id}/piece`, 'a piece', pieces),
      ...one(w.lift, `/weighings/${id}/lift`, 'a lift', lifts),
    ]),
    ...Object.entries(project.transports).flatMap(([id, t]) => [
      ...list(t.takes, `/transports/${id}/takes`, 'a piece', pieces),
      ...list(t.to, `/transports/${id}/to`, 'a bay', bays),
    ]),
  ]
}

function programmeReferences(project: ReadProject): Reference[] {
  const plan = project.programme
  const tests = Object.entries(project.tests).flatMap(([id, t]) =>
    list(t.after, `/tests/${id}/after`, 'a test', keys(project.tests)),
  )
  const correlations = Object.entries(project.correlations).flatMap(([id, c]) =>
    list(c.between, `/correlations/${id}/between`, 'a risk', keys(project.risks)),
  )
  if (plan === undefined) return [...tests, ...correlations]
  const [activities, calendars, resources] = [keys(plan.activities), keys(plan.calendars), keys(plan.resources)]
  const needs = (record: Readonly<Record<string, number>>, at: string): Reference[] =>
    Object.keys(record).flatMap((r) => one(r, `${at}/${r}`, 'a resource', resources))
  return [
    ...tests,
    ...correlations,
    ...one(plan.restart, '/programme/restart', 'an activity', activities),
    ...Object.entries(plan.activities).flatMap(([id, a]) => {
      const at = `/programme/activities/${id}`
      return [
        ...one(a.calendar, `${at}/calendar`, 'a calendar', calendars),
        ...a.after.flatMap((l, i) => [
          ...one(l.to, `${at}/after/${i}/to`, 'an activity', activities),
          ...one(l.calendar, `${at}/after/${i}/calendar`, 'a calendar', calendars),
        ]),
        ...needs(a.needs, `${at}/needs`),
      ]
    }),
    ...Object.entries(plan.deliveries).flatMap(([id, d]) => [
      ...one(d.activity, `/programme/deliveries/${id}/activity`, 'an activity', activities),
      ...list(d.neededBy, `/programme/deliveries/${id}/neededBy`, 'an activity', activities),
    ]),
  ]
}

/** Parts named twice in one piece, joints of a part with itself, cycles of predecessors. */
export function structureProblems(project: ReadProject, instances: Instances): Problem[] {
  return [...jointProblems(project), ...pieceProblems(project, instances), ...cycleProblems(project)]
}

function jointProblems(project: ReadProject): Problem[] {
  return Object.entries(project.joints)
    .filter(([, j]) => j.between[0] === j.between[1])
    .map(([id, j]) => ({
      pointer: `/joints/${id}/between/1`,
      found: `"${j.between[1]}" again`,
      expected: 'another part: a joint holds two parts together',
    }))
}

function pieceProblems(project: ReadProject, instances: Instances): Problem[] {
  return Object.entries(project.pieces).flatMap(([id, piece]) => {
    const seen = new Set<string>()
    return piece.parts.flatMap((named, i) =>
      idsMeant(instances, named).flatMap((part): Problem[] => {
        const again = seen.has(part)
        seen.add(part)
        return again
          ? [
              {
                pointer: `/pieces/${id}/parts/${i}`,
                found: `"${part}" a second time`,
                expected: 'each part once in a piece',
              },
            ]
          : []
      }),
    )
  })
}

/** A cycle in `after`, named by one way round it. */
function cycleProblems(project: ReadProject): Problem[] {
  const tests = Object.fromEntries(Object.entries(project.tests).map(([id, t]) => [id, t.after]))
  const activities = Object.fromEntries(
    Object.entries(project.programme?.activities ?? {}).map(([id, a]) => [
      id,
      a.after.filter((l) => l.type === 'FS').map((l) => l.to),
    ]),
  )
  return [
    ...cycleIn(tests).map((cycle) => cycleProblem('/tests', cycle)),
    ...cycleIn(activities).map((cycle) => cycleProblem('/programme/activities', cycle)),
  ]
}

const cycleProblem = (section: string, cycle: string[]): Problem => ({
  pointer: `${section}/${cycle[0]}/after`,
  found: `a circle: ${[...cycle, cycle[0]].join(' after ')}`,
  expected: 'predecessors that do not come back to where they began',
})

/** One cycle of a graph of predecessors, if there is any. Iterative: a file may hold a very long chain. */
export function cycleIn(after: Readonly<Record<string, readonly string[]>>): string[][] {
  const state = new Map<string, 'open' | 'done'>()
  for (const root of Object.keys(after)) {
    const path: { id: string; next: number }[] = state.has(root) ? [] : [{ id: root, next: 0 }]
    if (path.length > 0) state.set(root, 'open')
    while (path.length > 0) {
      const top = path[path.length - 1] as { id: string; next: number }
      const child = (after[top.id] ?? [])[top.next++]
      if (child === undefined) {
        state.set(top.id, 'done')
        path.pop()
      } else if (state.get(child) === 'open') {
        return [path.slice(path.findIndex((p) => p.id === child)).map((p) => p.id)]
      } else if (!state.has(child) && Object.hasOwn(after, child)) {
        state.set(child, 'open')
        path.push({ id: child, next: 0 })
      }
    }
  }
  return []
}
