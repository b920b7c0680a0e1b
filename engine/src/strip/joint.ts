import { type Instances, idsMeant, type Joint, type Model } from '../model/index.ts'
import { type Answer, given, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { boltsTime, cuttingTime, layingTime, toolChangeTime, weldMetal } from './joint.formulas.ts'

/** Working time to open and to close a joint or to part and reconnect a service. */
export interface Work {
  off: Answer<'s'>
  on: Answer<'s'>
}

/** A joint with the instances on either side of it. */
export interface JointSides {
  id: string
  joint: Joint
  sides: readonly [readonly string[], readonly string[]]
  /** Instances that hide its fasteners from the tool. */
  hiddenBy: readonly string[]
}

/** Every joint with its instances, in the order of the file. */
export function jointSides(model: Model, memory: Memory): readonly JointSides[] {
  const { joints } = model.project
  const ids = memory.settled('strip/ids', [...model.instances.byId.keys()])
  return memory.once('strip/jointSides', [joints, ids], () =>
    Object.entries(joints).map(([id, joint]) => sidesOf(id, joint, model.instances)),
  )
}

function sidesOf(id: string, joint: Joint, instances: Instances): JointSides {
  const [a, b] = joint.between
  return {
    id,
    joint,
    sides: [idsMeant(instances, a), idsMeant(instances, b)],
    hiddenBy: joint.hiddenBy.flatMap((hider) => idsMeant(instances, hider)),
  }
}

/** Working time on every joint, by id. */
export function jointWork(model: Model, memory: Memory): Readonly<Record<string, Work>> {
  const { joints, settings } = model.project
  const { toolChange } = settings
  return memory.once('strip/jointWork', [joints, toolChange?.value], () =>
    Object.fromEntries(
      Object.entries(joints).map(([id, joint]) => [
        id,
        memory.once(`strip/work/${id}`, [joint, toolChange?.value], () => workOfJoint(id, joint, toolChange)),
      ]),
    ),
  )
}

const STEEL = stated('kg/m3', 7850, 'density of steel weld metal (common practice)')

/**
 * Working time to open and to close one joint: bolts × rate, weld length ÷ rate, tools set up, and what the file adds. A joint that is
 * neither bolted nor welded and gives no time is open, save a seat, which has nothing to release.
 */
export function workOfJoint(id: string, joint: Joint, toolChange?: Answer<'s'>): Work {
  const tools = toolTerms(id, joint, toolChange)
  return {
    off: sumOf('time to open the joint', 's', [...offTerms(id, joint), ...tools]),
    on: sumOf('time to close it', 's', [...onTerms(id, joint), ...tools]),
  }
}

/** Setting up and changing tools, where the file counts it. */
function toolTerms(id: string, { toolChanges }: Joint, toolChange?: Answer<'s'>): Term<'s'>[] {
  if (toolChanges === undefined) return []
  const n = given('1', pointerOf('joints', id, 'toolChanges'), toolChanges)
  const tau = knownOr(toolChange, 's', '/settings/toolChange')
  return [{ label: 'tools set up and changed', answer: toolChangeTime.show({ n, tau }) }]
}

function offTerms(id: string, { bolts, weld, timeOff, kind }: Joint): Term<'s'>[] {
  return [
    ...(bolts === undefined
      ? []
      : [{ label: 'bolts off', answer: boltsTime.show({ n: count(id, bolts.count), tau: bolts.timeOff }) }]),
    ...(weld === undefined
      ? []
      : [{ label: 'weld cut', answer: cuttingTime.show({ L: weld.length, v: weld.cutting }) }]),
    ...otherTerm(id, 'timeOff', timeOff, kind, bolts !== undefined || weld !== undefined),
  ]
}

function onTerms(id: string, { bolts, weld, timeOn, kind }: Joint): Term<'s'>[] {
  return [
    ...(bolts === undefined
      ? []
      : [{ label: 'bolts on', answer: boltsTime.show({ n: count(id, bolts.count), tau: bolts.timeOn }) }]),
    ...(weld === undefined
      ? []
      : [
          {
            label: 'weld laid',
            answer: layingTime.show({
              m: weldMetal.show({ a: weld.throat, L: weld.length, rho: STEEL }),
              q: weld.laying,
            }),
          },
        ]),
    ...otherTerm(id, 'timeOn', timeOn, kind, bolts !== undefined || weld !== undefined),
  ]
}

function otherTerm(
  id: string,
  field: 'timeOff' | 'timeOn',
  time: Answer<'s'> | undefined,
  kind: Joint['kind'],
  hasOther: boolean,
): Term<'s'>[] {
  if (time === undefined && hasOther) return []
  if (time === undefined && kind === 'seated')
    return [{ label: 'seat', answer: stated('s', 0, 'a seat has nothing to release') }]
  return [{ label: 'other work', answer: knownOr(time, 's', pointerOf('joints', id, field)) }]
}

const count = (id: string, bolts: number): Answer<'1'> => given('1', pointerOf('joints', id, 'bolts', 'count'), bolts)

/** Joints that hold the moving instances to others still standing with them and are not open yet. */
export function crossingJoints(
  joints: readonly JointSides[],
  moving: ReadonlySet<string>,
  staying: ReadonlySet<string>,
  open: ReadonlySet<string>,
): readonly JointSides[] {
  return joints.filter(
    ({ id, sides: [a, b] }) => !open.has(id) && (crosses(a, b, moving, staying) || crosses(b, a, moving, staying)),
  )
}

const crosses = (
  a: readonly string[],
  b: readonly string[],
  moving: ReadonlySet<string>,
  staying: ReadonlySet<string>,
) => a.some((id) => moving.has(id)) && b.some((id) => staying.has(id))
