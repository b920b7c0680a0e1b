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
      ...one(s.back, `/steps/${id}/back`, 'a lift', lifts),
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
  const [calendars, resources] = [keys(plan.calendars), keys(plan.resources)]
  const needs = (record: Readonly<Record<string, number>> | undefined, at: string): Reference[] =>
    Object.keys(record ?? {}).flatMap((r) => one(r, `${at}/${r}`, 'a resource', resources))
  const rule = (r: { calendar: string; needs: Readonly<Record<string, number>> } | undefined, at: string) =>
    r === undefined
      ? []
      : [...one(r.calendar, `${at}/calendar`, 'a calendar', calendars), ...needs(r.needs, `${at}/needs`)]
  const [steps, changes, lifts] = [keys(project.steps), keys(project.changes), keys(project.lifts)]
  const activity = (id: string | undefined, at: string) => activityReference(project, id, at)
  const links = (after: readonly { to: string; calendar?: string | undefined }[], at: string): Reference[] =>
    after.flatMap((l, i) => [
      ...activity(l.to, `${at}/${i}/to`),
      ...one(l.calendar, `${at}/${i}/calendar`, 'a calendar', calendars),
    ])
  const work = plan.work
  return [
    ...tests,
    ...Object.entries(project.tests).flatMap(([id, t]) =>
      list(t.afterReturn, `/tests/${id}/afterReturn`, 'a step', steps),
    ),
    ...correlations,
    ...Object.entries(project.risks).flatMap(([id, r]) =>
      r.activities.flatMap((a, i) => activity(a, `/risks/${id}/activities/${i}`)),
    ),
    ...activity(plan.restart, '/programme/restart'),
    ...Object.entries(plan.resources).flatMap(([id, r]) =>
      one(r.calendar, `/programme/resources/${id}/calendar`, 'a calendar', calendars),
    ),
    ...Object.entries(plan.activities).flatMap(([id, a]) => {
      const at = `/programme/activities/${id}`
      return [
        ...one(a.calendar, `${at}/calendar`, 'a calendar', calendars),
        ...links(a.after, `${at}/after`),
        ...list(a.afterSteps, `${at}/afterSteps`, 'a step', steps),
        ...list(a.beforeSteps, `${at}/beforeSteps`, 'a step', steps),
        ...list(a.afterReturn, `${at}/afterReturn`, 'a step', steps),
        ...list(a.beforeReturn, `${at}/beforeReturn`, 'a step', steps),
        ...list(a.afterChanges, `${at}/afterChanges`, 'a change', changes),
        ...list(a.beforeChanges, `${at}/beforeChanges`, 'a change', changes),
        ...list(a.afterTests, `${at}/afterTests`, 'a test', keys(project.tests)),
        ...list(a.beforeTests, `${at}/beforeTests`, 'a test', keys(project.tests)),
        ...needs(a.needs, `${at}/needs`),
      ]
    }),
    ...Object.entries(plan.deliveries).flatMap(([id, d]) => {
      const at = `/programme/deliveries/${id}`
      return [
        ...activity(d.activity, `${at}/activity`),
        ...d.neededBy.flatMap((a, i) => activity(a, `${at}/neededBy/${i}`)),
        ...list(d.neededByChanges, `${at}/neededByChanges`, 'a change', changes),
        ...list(d.neededByReturn, `${at}/neededByReturn`, 'a step', steps),
      ]
    }),
    ...Object.entries(plan.changeWork).flatMap(([id, c]) => {
      const at = `/programme/changeWork/${id}`
      return [
        ...one(id, at, 'a change', changes),
        ...one(c.calendar, `${at}/calendar`, 'a calendar', calendars),
        ...one(c.afterStep, `${at}/afterStep`, 'a step', steps),
        ...one(c.beforeReturn, `${at}/beforeReturn`, 'a step', steps),
        ...needs(c.needs, `${at}/needs`),
        ...links(c.after, `${at}/after`),
      ]
    }),
    ...Object.entries(plan.options).flatMap(([id, o]) => activity(o.activity, `/programme/options/${id}/activity`)),
    ...WORK_RULES.flatMap((kind) => rule(work?.[kind], `/programme/work/${kind}`)),
    ...list(work?.stripAfter ?? [], '/programme/work/stripAfter', 'an activity', keys(plan.activities)),
    ...list(work?.resumeBefore ?? [], '/programme/work/resumeBefore', 'an activity', keys(plan.activities)),
    ...Object.entries(work?.liftAfter ?? {}).flatMap(([lift, step]) => [
      ...one(lift, `/programme/work/liftAfter/${lift}`, 'a lift', lifts),
      ...one(step, `/programme/work/liftAfter/${lift}`, 'a step', steps),
    ]),
  ]
}

const WORK_RULES = [
  'joints',
  'welds',
  'jointsOnBay',
  'services',
  'cables',
  'isolations',
  'marking',
  'rigging',
  'lifts',
  'bayLifts',
  'landing',
  'changes',
  'changesInShaft',
  'tests',
  'drive',
] as const

/** A typed activity, or a derived one named by what it comes from: `S04.out`, `change.CHG-05`, `test.T01`. */
function activityReference(project: ReadProject, id: string | undefined, at: string): Reference[] {
  const typed = keys(project.programme?.activities ?? {})
  if (id === undefined || typed.has(id)) return []
  const dot = id.indexOf('.')
  const [first, rest] = [id.slice(0, Math.max(0, dot)), id.slice(dot + 1)]
  if (first === 'change') return one(rest, at, 'a change', keys(project.changes))
  if (first === 'test') return one(rest, at, 'a test', keys(project.tests))
  if (first === 'isolate' || first === 'energise') return one(rest, at, 'an isolation', keys(project.isolations))
  if (first === 'order' || first === 'drive' || Object.hasOwn(project.steps, first)) return []
  return one(id, at, 'an activity', typed)
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
