import type { Lift } from '../model/index.ts'
import { given, knownOr, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activity } from './activity.ts'
import type { Passage } from './passage.ts'
import {
  byTheClock,
  type Duration,
  derived,
  finishToStart,
  productive,
  type Rule,
  type Rules,
  standingFor,
  systemsOf,
} from './rules.ts'

export const BEGIN = 'order.begin'
const PHASE = { strip: 'strip', lifts: 'lifts out', bay: 'strip on the bay' } as const

/** Activities of one step on the way out: mark, part services, open joints, rig, lift, turn, set down. */
export function outward(rules: Rules, passage: Passage, earlier: readonly Passage[]): Activity[] {
  const marking = markingOf(rules, passage)
  const parting = partingOf(rules, passage, idsOf(marking))
  const ready = [...waitsFor(passage, earlier.at(-1)), ...idsOf(marking), ...idsOf(parting)]
  const free = passage.jointsFree.map((joint) => opening(rules, passage, joint, ready, []))
  const rigging = riggingOf(rules, passage, [...ready, ...idsOf(free)], earlier)
  const system = passage.out === undefined ? [] : systemsOf(passage.out.lift)
  const held = passage.jointsUnderLoad.map((joint) =>
    opening(rules, passage, joint, [...ready, ...idsOf(rigging), ...idsOf(free)], standingFor(rules, system)),
  )
  const moved = leaving(rules, passage, [...ready, ...idsOf(free), ...idsOf(rigging), ...idsOf(held)])
  return [...marking, ...parting, ...free, ...rigging, ...held, ...moved]
}

const idsOf = (activities: readonly Activity[]): string[] => activities.map(({ id }) => id)

/** The piece before has left; what this one is taken off has been set down. */
function waitsFor({ step, onBay }: Passage, previous: Passage | undefined): string[] {
  return [BEGIN, ...(previous === undefined ? [] : [`${previous.id}.out`]), ...(onBay ? [`${step.from}.land`] : [])]
}

function markingOf(rules: Rules, { id, name, step }: Passage): Activity[] {
  const { marking } = rules.work
  const count = step.joints.length + step.services.length
  if (marking === undefined || count === 0) return []
  const each = { ...marking.each, value: (marking.each.value as number) * count }
  return [
    derived(
      {
        id: `${id}.mark`,
        name: `${name}: mark and photograph ${count} joints and services`,
        kind: 'mark',
        phase: PHASE.strip,
      },
      marking,
      productive(rules, marking.calendar, [each]),
      {
        after: finishToStart([BEGIN]),
        from: [...pointers('joints', step.joints), ...pointers('services', step.services)],
        step: id,
        piece: step.piece,
      },
    ),
  ]
}

export const pointers = (section: string, ids: readonly string[]): string[] => ids.map((id) => pointerOf(section, id))

/** Services of a step by isolation and trade, in the order they come. */
export function serviceGroups(
  rules: Rules,
  { step }: Passage,
): { key: string; isolation?: string; cables: boolean; services: string[] }[] {
  const groups = new Map<string, { key: string; isolation?: string; cables: boolean; services: string[] }>()
  for (const id of step.services) {
    const service = rules.project.services[id]
    if (service === undefined) continue
    const cables = service.kind === 'cable'
    const key = `${service.isolation ?? 'none'}.${cables ? 'cables' : 'lines'}`
    const group = groups.get(key) ?? {
      key,
      ...(service.isolation === undefined ? {} : { isolation: service.isolation }),
      cables,
      services: [],
    }
    group.services.push(id)
    groups.set(key, group)
  }
  return [...groups.values()]
}

export const serviceRule = ({ work }: Rules, cables: boolean): Rule =>
  cables ? (work.cables ?? work.services) : work.services

function partingOf(rules: Rules, passage: Passage, marked: readonly string[]): Activity[] {
  const { id, name, step, onBay } = passage
  return serviceGroups(rules, passage).map(({ key, isolation, cables, services }) => {
    const rule = serviceRule(rules, cables)
    const what = `${services.length} ${cables ? 'cables' : 'hoses and pipes'}${isolation === undefined ? '' : `, ${isolation}`}`
    const proved = isolation === undefined || rules.work.isolations === undefined ? [] : [`isolate.${isolation}`]
    return derived(
      { id: `${id}.part.${key}`, name: `${name}: part ${what}`, kind: 'part', phase: PHASE.strip },
      rule,
      productive(
        rules,
        rule.calendar,
        services.map((s) => timeOfService(rules, s, 'off')),
      ),
      {
        after: finishToStart([BEGIN, ...proved, ...marked, ...(onBay ? [`${step.from}.land`] : [])]),
        from: [
          ...pointers('services', services),
          ...(isolation === undefined ? [] : pointers('isolations', [isolation])),
        ],
        step: id,
        piece: step.piece,
      },
    )
  })
}

/** Time on one service or joint as the strip has it; open at the entity's address where it has none. */
export const timeOfService = ({ times }: Rules, id: string, way: 'off' | 'on') =>
  times.serviceWork[id]?.[way] ?? given('s', pointerOf('services', id), times.serviceTimes[id]?.[way])
export const timeOfJoint = ({ times }: Rules, id: string, way: 'off' | 'on') =>
  times.jointWork[id]?.[way] ?? given('s', pointerOf('joints', id), times.jointTimes[id]?.[way])

/** Crew for a joint: welders for a weld, and on the bay those of the bay. */
export function jointRule({ project, work }: Rules, joint: string, onBay: boolean): Rule {
  if (project.joints[joint]?.kind === 'welded' && work.welds !== undefined) return work.welds
  return onBay ? (work.jointsOnBay ?? work.joints) : work.joints
}

function opening(
  rules: Rules,
  passage: Passage,
  joint: string,
  after: readonly string[],
  plant: readonly string[],
): Activity {
  const { id, step, onBay } = passage
  const rule = jointRule(rules, joint, onBay)
  return derived(
    {
      id: `${id}.open.${joint}`,
      name: `Open joint ${joint}${plant.length > 0 ? ', load taken' : ''}`,
      kind: 'open',
      phase: onBay ? PHASE.bay : PHASE.strip,
    },
    rule,
    productive(rules, rule.calendar, [timeOfJoint(rules, joint, 'off')]),
    {
      after: finishToStart(after),
      from: [...pointers('joints', [joint]), pointerOf('steps', id)],
      step: id,
      piece: step.piece,
      plant,
    },
  )
}

/** Rules for hanging a piece on the hook, moving it and taking it off again. */
export const liftRule = ({ work }: Rules, onBay: boolean): Rule => (onBay ? (work.bayLifts ?? work.lifts) : work.lifts)
export const riggingRule = (rules: Rules, onBay: boolean): Rule => rules.work.rigging ?? liftRule(rules, onBay)

/** Resource of the bay a lift sets down on. */
export const bayOf = (rules: Rules, lift: Lift): string[] =>
  standingFor(rules, [lift.bay ?? rules.project.pieces[lift.piece]?.bay])

function riggingOf(rules: Rules, passage: Passage, after: readonly string[], earlier: readonly Passage[]): Activity[] {
  const { id, name, step, out, onBay, hangsBefore } = passage
  if (out === undefined || hangsBefore) return []
  const rule = riggingRule(rules, onBay)
  return [
    derived(
      { id: `${id}.rig`, name: `${name}: rig and take the load`, kind: 'rig', phase: PHASE.lifts },
      rule,
      productive(rules, rule.calendar, [rules.work.setUp]),
      {
        after: finishToStart([...after, ...hooksFree(out.lift, earlier)]),
        from: [pointerOf('lifts', out.id), pointerOf('steps', id)],
        step: id,
        piece: step.piece,
        lift: out.id,
        plant: standingFor(rules, systemsOf(out.lift)),
      },
    ),
  ]
}

/** What hung last from each machine of a lift has been set down: nothing else is rigged to it while a piece hangs there. */
function hooksFree(lift: Lift, earlier: readonly Passage[]): string[] {
  const last = systemsOf(lift).flatMap(
    (system) => earlier.findLast(({ out }) => out !== undefined && systemsOf(out.lift).includes(system))?.id ?? [],
  )
  return [...new Set(last)].map((id) => `${id}.land`)
}

/** Lift or hand work that takes the piece away, turns that belong to it, and setting down. */
function leaving(rules: Rules, passage: Passage, after: readonly string[]): Activity[] {
  const { id, name, step, out, hangsAfter, turns } = passage
  if (out === undefined) return [byHand(rules, passage, 'out', after), landed(id, rules)]
  const waiting = windWait(rules, passage, out, { id: `${id}.wind`, after, phase: PHASE.lifts })
  const ready = [...after, ...idsOf(waiting)]
  const lifting = lifted(rules, passage, out, { id: `${id}.out`, after: ready, phase: PHASE.lifts })
  const turned: Activity[] = []
  for (const turn of turns) {
    const before = turned.at(-1)?.id ?? lifting.id
    turned.push(lifted(rules, passage, turn, { id: `${id}.turn.${turn.id}`, after: [before], phase: PHASE.lifts }))
  }
  const last = turned.at(-1)?.id ?? lifting.id
  if (hangsAfter) return [...waiting, lifting, ...turned, { ...landed(id, rules), after: finishToStart([last]) }]
  const rule = rules.work.landing ?? liftRule(rules, passage.onBay)
  const landing = derived(
    { id: `${id}.land`, name: `${name}: set down, pack, take off rigging`, kind: 'land', phase: PHASE.lifts },
    rule,
    productive(rules, rule.calendar, [rules.work.setDown ?? rules.work.setUp]),
    {
      after: finishToStart([last]),
      from: [pointerOf('lifts', out.id), pointerOf('steps', id)],
      step: id,
      piece: step.piece,
      lift: out.id,
      plant: [...standingFor(rules, systemsOf(out.lift)), ...bayOf(rules, out.lift)],
    },
  )
  return [...waiting, lifting, ...turned, landing]
}

/** Where nothing is set down, the point at which the step is done. */
const landed = (id: string, rules: Rules): Activity => ({
  id: `${id}.land`,
  name: 'Step done',
  kind: 'milestone',
  phase: PHASE.lifts,
  calendar: rules.work.lifts.calendar,
  work: [0, 0, 0],
  interruptible: true,
  after: finishToStart([`${id}.out`]),
  needs: {},
  from: [pointerOf('steps', id)],
  step: id,
  fixedCost: 0,
})

interface Hoisting {
  id: string
  after: readonly string[]
  phase: string
  back?: boolean
}

/** The lift itself: in one piece, on the lifts' calendar, as long as its hook time less the rigging planned apart. */
export function lifted(
  rules: Rules,
  passage: Passage,
  { id: liftId, lift }: { id: string; lift: Lift },
  hoisting: Hoisting,
): Activity {
  const { step, name, onBay } = passage
  const turn = lift.kind === 'turn'
  const way = turn ? 'turn' : hoisting.back ? (onBay ? 'put back' : 'lower') : onBay ? 'lift off' : 'lift out'
  const kind = turn ? (hoisting.back ? 'turn back' : 'turn') : hoisting.back ? 'lift back' : 'lift'
  return derived(
    { id: hoisting.id, name: `${name}: ${way}`, kind, phase: hoisting.phase },
    liftRule(rules, onBay),
    hookTime(rules, liftId),
    {
      after: finishToStart(hoisting.after),
      from: [pointerOf('lifts', liftId), pointerOf('steps', step.step)],
      step: step.step,
      piece: step.piece,
      lift: liftId,
      plant: [...standingFor(rules, systemsOf(lift)), ...(onBay || turn ? bayOf(rules, lift) : [])],
      interruptible: false,
      holdPoint: turn ? 'permit to turn' : 'permit to lift',
    },
  )
}

/** What the plan allows for waiting for wind with the piece on the hook. */
export function windWait(
  rules: Rules,
  { step, name, onBay }: Passage,
  { id: liftId, lift }: { id: string; lift: Lift },
  { id, after, phase, back }: Hoisting,
): Activity[] {
  const { windAllowance } = rules.work
  const { calendar } = liftRule(rules, onBay)
  if (windAllowance === undefined || rules.programme.calendars[calendar]?.windLimited !== true) return []
  return [
    derived(
      { id, name: `${name}: allowance for wind`, kind: back ? 'wait back' : 'wait', phase },
      { calendar, needs: {} },
      byTheClock(rules, [windAllowance]),
      {
        after: finishToStart(after),
        from: ['/programme/work/windAllowance', pointerOf('lifts', liftId)],
        step: step.step,
        piece: step.piece,
        lift: liftId,
        plant: standingFor(rules, systemsOf(lift)),
      },
    ),
  ]
}

/** Hook time of a lift; its rigging is an activity of its own and is taken off. */
function hookTime(rules: Rules, lift: string): Duration {
  const { value, missing } = rules.hookTimes[lift] ?? { value: undefined, missing: [] }
  const setUp = rules.work.setUp.value as number
  if (value !== undefined) return byTheClock(rules, [stated('s', Math.max(0, value - setUp), 'hook time less rigging')])
  return { work: [0, 0, 0], unknown: missing.length > 0 ? missing : [pointerOf('lifts', lift)] }
}

/** A step that no lift carries out: drawn aside, carried, taken apart by hand. */
export function byHand(rules: Rules, passage: Passage, way: 'out' | 'back', after: readonly string[]): Activity {
  const { id, name, step, onBay } = passage
  const rule = riggingRule(rules, onBay)
  return derived(
    {
      id: `${id}.${way}`,
      name: way === 'out' ? `${name}: moved by hand` : `${name}: brought back by hand`,
      kind: way === 'out' ? 'lift' : 'lift back',
      phase: way === 'out' ? PHASE.strip : 'lifts back',
    },
    rule,
    productive(rules, rule.calendar, [knownOr(rules.work.byHand, 's', '/programme/work/byHand')]),
    { after: finishToStart(after), from: [pointerOf('steps', id)], step: id, piece: step.piece },
  )
}
