import type { Model } from '../model/index.ts'
import { type Answer, given, knownOr, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { roomNeeded } from './isolation.formulas.ts'
import { dischargedKind, drainedKind } from './kinds.ts'
import { stepSubject } from './step-checks.ts'
import type { VerifiedStep } from './verify.ts'

type Isolation = Model['project']['isolations'][string]
type Act = keyof NonNullable<Isolation['signed']>

/** Acts of an isolation in their order. */
const ACTS: readonly Act[] = ['isolated', 'locked', 'discharged', 'proved']
const CAUTION =
  'Every circuit in its order: switch off and isolate, lock and tag, let stored energy go, prove it dead on a tester that was proved before and after. Nobody removes another person’s lock. Local rules and the maker’s procedure govern.'

/** Acts that an isolation asks for, in their order. One without stored energy has none to let go. */
export const actsOf = ({ storedEnergy }: Isolation): readonly Act[] =>
  storedEnergy === undefined ? ACTS.filter((act) => act !== 'discharged') : ACTS

/** Check 18: behind each isolation that steps part services under, every act is signed, and in its order. */
export function dischargedChecks(model: Model, steps: readonly VerifiedStep[], memory: Memory): readonly Check[] {
  const first = new Map<string, VerifiedStep>()
  for (const step of steps) for (const id of step.step.isolations) if (!first.has(id)) first.set(id, step)
  return [...first].flatMap(([id, step]) => {
    const isolation = model.project.isolations[id]
    if (isolation === undefined) return []
    const name = stepSubject(model, step).name
    return [
      memory.once(`strip-discharged/${id}`, [isolation, name, step.step.step, model.near], () =>
        dischargedCheck(model, id, isolation, `${step.step.step}, ${name}`),
      ),
    ]
  })
}

function dischargedCheck(model: Model, id: string, isolation: Isolation, first: string): Check {
  const acts = actsOf(isolation)
  const signed = acts.flatMap((act) => {
    const on = isolation.signed?.[act]?.on
    return on === undefined ? [] : [{ act, on }]
  })
  const early = signed.flatMap((now, i) => {
    const before = signed.slice(0, i).find(({ on }) => on > now.on)
    return before === undefined ? [] : [`"${now.act}" is signed on ${now.on}, before "${before.act}" on ${before.on}`]
  })
  const missing = acts.filter((act) => isolation.signed?.[act] === undefined)
  return check({
    kind: dischargedKind,
    subject: { pointer: pointerOf('isolations', id), id, name: isolation.what },
    demand: faultsFound(
      early.length,
      'acts signed before one that comes first',
      Object.fromEntries(
        missing.map((act) => [act, given('1', pointerOf('isolations', id, 'signed', act), undefined)]),
      ),
    ),
    capacity: NONE,
    near: model.near,
    assumptions: [
      `the order is ${acts.join(', ')}`,
      `needed first for ${first}`,
      ...(isolation.storedEnergy === undefined ? [] : [`stored energy: ${isolation.storedEnergy}`]),
    ],
    cautions: [CAUTION],
    found: early,
  })
}

const RESERVE = stated('1', 1.1, 'a tenth over what is drained (common practice, no source)')

/** Check 74: what runs out at a step fits tray, tank and spill kit. Undefined where nothing is drained. */
export function drainedCheck(model: Model, step: VerifiedStep): Check | undefined {
  const drained = step.release.parted.filter(({ service }) => (service.drained?.value ?? 0) > 0)
  if (drained.length === 0) return undefined
  return check({
    kind: drainedKind,
    subject: stepSubject(model, step),
    demand: roomNeeded.show({
      k: RESERVE,
      V: sumOf(
        'drained from the services parted',
        'm3',
        drained.map(({ id, service }) => ({ label: id, answer: service.drained as Answer<'m3'> })),
      ),
    }),
    capacity: knownOr(model.project.settings.drainCapacity, 'm3', '/settings/drainCapacity'),
    near: model.near,
    assumptions: ['all that is drained at the step is caught at once, in the same tray, tank and kit'],
    cautions: ['Oil, grease and treated water are kept out of drains and ground; local rules govern.'],
    found: ['more runs out than is caught: a larger tank, or drain in two goes'],
  })
}
