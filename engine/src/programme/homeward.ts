import { pointerOf } from '../working/pointer.ts'
import type { Activity } from './activity.ts'
import {
  bayOf,
  byHand,
  jointRule,
  lifted,
  liftRule,
  pointers,
  riggingRule,
  serviceGroups,
  serviceRule,
  timeOfJoint,
  timeOfService,
  windWait,
} from './outward.ts'
import type { Passage } from './passage.ts'
import { derived, finishToStart, productive, type Rules, standingFor, systemsOf } from './rules.ts'

const PHASE = { lifts: 'lifts back', close: 'close' } as const

/**
 * Activities of one step on the way back, the mirror of the way out: rig, turn, lower, close under load the joint that was
 * opened last, take the rigging off, close the others, reconnect.
 *
 * @param before what has to be done first: the return of the step that left after this one
 */
export function homeward(rules: Rules, passage: Passage, before: readonly string[]): Activity[] {
  if (passage.scrapped) return []
  const { id, jointsFree, jointsUnderLoad } = passage
  const rigging = riggingBack(rules, passage, before)
  const placed = placing(rules, passage, [...before, ...rigging.map((a) => a.id)])
  const last = placed.at(-1)?.id as string
  const plant = passage.back === undefined ? [] : standingFor(rules, systemsOf(passage.back.lift))
  const held = [...jointsUnderLoad].reverse().map((joint) => closing(rules, passage, joint, [last], plant))
  const release = releasing(rules, passage, [last, ...held.map((a) => a.id)])
  const free = [...jointsFree]
    .reverse()
    .map((joint) => closing(rules, passage, joint, [last, ...held.map((a) => a.id), ...release.map((a) => a.id)], []))
  const closed = [last, ...[...held, ...release, ...free].map((a) => a.id)]
  const done: Activity = {
    id: `${id}.home`,
    name: 'Piece back and closed',
    kind: 'milestone',
    phase: PHASE.close,
    calendar: rules.work.joints.calendar,
    work: [0, 0, 0],
    interruptible: true,
    after: finishToStart(closed),
    needs: {},
    from: [pointerOf('steps', id)],
    step: id,
    fixedCost: 0,
  }
  return [...rigging, ...placed, ...held, ...release, ...free, done, ...reconnecting(rules, passage)]
}

function riggingBack(rules: Rules, passage: Passage, before: readonly string[]): Activity[] {
  const { id, name, step, back, onBay, hangsAfter } = passage
  if (back === undefined || hangsAfter) return []
  const rule = riggingRule(rules, onBay)
  return [
    derived(
      { id: `${id}.rig-back`, name: `${name}: rig for the return`, kind: 'rig back', phase: PHASE.lifts },
      rule,
      productive(rules, rule.calendar, [rules.work.setUp]),
      {
        after: finishToStart(before),
        from: [pointerOf('lifts', back.id), pointerOf('steps', id)],
        step: id,
        piece: step.piece,
        lift: back.id,
        plant: [...standingFor(rules, systemsOf(back.lift)), ...bayOf(rules, back.lift)],
      },
    ),
  ]
}

function placing(rules: Rules, passage: Passage, after: readonly string[]): Activity[] {
  const { id, back, turnsBack } = passage
  if (back === undefined) return [byHand(rules, passage, 'back', after)]
  const turned: Activity[] = []
  for (const turn of turnsBack) {
    const first = turned.at(-1) === undefined ? after : [turned.at(-1)?.id as string]
    turned.push(
      lifted(rules, passage, turn, { id: `${id}.turn-back.${turn.id}`, after: first, phase: PHASE.lifts, back: true }),
    )
  }
  const ready = turned.length === 0 ? after : [turned.at(-1)?.id as string]
  const waiting = windWait(rules, passage, back, {
    id: `${id}.wind-back`,
    after: ready,
    phase: PHASE.lifts,
    back: true,
  })
  const last = [...ready, ...waiting.map((a) => a.id)]
  return [
    ...turned,
    ...waiting,
    lifted(rules, passage, back, { id: `${id}.back`, after: last, phase: PHASE.lifts, back: true }),
  ]
}

function closing(
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
      id: `${id}.close.${joint}`,
      name: `Close joint ${joint}${plant.length > 0 ? ', load held' : ''}`,
      kind: 'close',
      phase: PHASE.close,
    },
    rule,
    productive(rules, rule.calendar, [timeOfJoint(rules, joint, 'on')]),
    {
      after: finishToStart(after),
      from: [...pointers('joints', [joint]), pointerOf('steps', id)],
      step: id,
      piece: step.piece,
      plant,
    },
  )
}

function releasing(rules: Rules, passage: Passage, after: readonly string[]): Activity[] {
  const { id, name, step, back, onBay, hangsBefore } = passage
  if (back === undefined || hangsBefore) return []
  const rule = rules.work.landing ?? liftRule(rules, onBay)
  return [
    derived(
      { id: `${id}.release`, name: `${name}: load off, take off rigging`, kind: 'release', phase: PHASE.lifts },
      rule,
      productive(rules, rule.calendar, [rules.work.setDown ?? rules.work.setUp]),
      {
        after: finishToStart(after),
        from: [pointerOf('lifts', back.id), pointerOf('steps', id)],
        step: id,
        piece: step.piece,
        lift: back.id,
        plant: standingFor(rules, systemsOf(back.lift)),
      },
    ),
  ]
}

function reconnecting(rules: Rules, passage: Passage): Activity[] {
  const { id, name, step } = passage
  return serviceGroups(rules, passage).map(({ key, isolation, cables, services }) => {
    const rule = serviceRule(rules, cables)
    return derived(
      {
        id: `${id}.connect.${key}`,
        name: `${name}: reconnect ${services.length} ${cables ? 'cables' : 'hoses and pipes'}`,
        kind: 'reconnect',
        phase: PHASE.close,
      },
      rule,
      productive(
        rules,
        rule.calendar,
        services.map((s) => timeOfService(rules, s, 'on')),
      ),
      {
        after: finishToStart([`${id}.home`]),
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
