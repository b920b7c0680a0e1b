import type { Stages } from '@shieldwright/engine'
import { type PrecedencePiece, precedenceDrawing, svgOf } from '@shieldwright/engine/report/index.ts'
import {
  actsOf,
  type BoltUpJoint,
  type StepFailure,
  type StripStep,
  waitsOf,
} from '@shieldwright/engine/strip/index.ts'
import type { Check, Verdict } from '@shieldwright/engine/working/check.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { BoltUpView, FailureView, IsolationView, OrderStepView, OrderView, WorkView } from '../strip/orderView.ts'
import { PAGE_INKS } from './pageInks.ts'
import type { DrawnView } from './protocol.ts'

/** The order of these stages, verified: what each step opens, parts and meets. */
export function orderView(stages: Stages | undefined, problems: readonly Problem[] = []): OrderView {
  if (stages === undefined) return { adopted: false, feasible: false, steps: [], problems }
  const { strip } = stages
  const checks = checksByStep(stages.checks)
  return {
    adopted: strip.adopted,
    feasible: strip.feasible,
    problems: [],
    steps: strip.steps.map((step) => stepView(step, stages, checks.get(step.step) ?? [])),
  }
}

function checksByStep(checks: readonly Check[]): Map<string, Check[]> {
  const steps = new Map<string, Check[]>()
  for (const check of checks) {
    if (check.stage !== 'strip' || !check.subject.pointer.startsWith('/steps/')) continue
    steps.set(check.subject.id, [...(steps.get(check.subject.id) ?? []), check])
  }
  return steps
}

const WORST: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

function stepView(step: StripStep, stages: Stages, checks: readonly Check[]): OrderStepView {
  const { project } = stages.model
  const joints = step.joints.map((id) => jointView(id, stages))
  const services = step.services.map((id) => serviceView(id, stages))
  return {
    step: step.step,
    piece: step.piece,
    name: project.pieces[step.piece]?.name ?? step.piece,
    lift: step.lift,
    stays: project.steps[step.step]?.stays === true,
    parts: step.parts,
    joints,
    services,
    isolations: step.isolations.flatMap((id) => isolationView(id, stages)),
    drained: step.drained.reduce((sum, { volume }) => sum + volume, 0),
    boltUp: (stages.strip.boltUp.find((list) => list.step === step.step)?.joints ?? []).map(boltUpView),
    off: [...joints, ...services].reduce((sum, w) => sum + (w.off ?? 0), 0),
    gap: step.clearance?.gap,
    gapTo: step.clearance === undefined ? undefined : nameOf(step.clearance.to, stages),
    failures: step.failures.map((f) => failureView(f, stages)),
    verdict: WORST.find((v) => checks.some((c) => c.verdict === v)) ?? 'pass',
    failing:
      step.failures.length > 0
        ? []
        : checks.filter((c) => c.verdict === 'fail').map((c) => ({ title: c.title, reason: c.reasons.join('; ') })),
    open: checks.filter((c) => c.verdict === 'open').map((c) => `${c.reasons[0] ?? c.title}; ${c.decidedBy} decides`),
  }
}

function isolationView(id: string, { model }: Stages): IsolationView[] {
  const isolation = model.project.isolations[id]
  if (isolation === undefined) return []
  const { what, storedEnergy, signed } = isolation
  const acts = actsOf(isolation).map((act) => ({ act, on: signed?.[act]?.on }))
  return [{ id, what, acts, ...(storedEnergy === undefined ? {} : { storedEnergy }) }]
}

function jointView(id: string, { model, strip }: Stages): WorkView {
  const joint = model.project.joints[id]
  const work = strip.jointWork[id]
  const between = joint?.between.join(' to ') ?? ''
  return { id, name: between, off: work?.off.value, on: work?.on.value, note: joint?.kind ?? '' }
}

function serviceView(id: string, { model, strip }: Stages): WorkView {
  const service = model.project.services[id]
  const work = strip.serviceWork[id]
  const isolation = service?.isolation === undefined ? '' : `isolation ${service.isolation}`
  return { id, name: `${service?.from} to ${service?.to}`, off: work?.off.value, on: work?.on.value, note: isolation }
}

function boltUpView({
  joint,
  between,
  bolts,
  bolting,
  strokes,
  recheck,
  refused,
  cautions,
  missing,
}: BoltUpJoint): BoltUpView {
  return {
    joint,
    between: between.join(' to '),
    bolts: `${bolts.count} × ${bolts.thread} ${bolts.grade}${bolts.method === undefined ? '' : `, ${bolts.method}`}`,
    target: bolting.target.value,
    least: bolting.least.value,
    most: bolting.most.value,
    passes: bolting.passes.map(({ share, tension, torque, pressure }) => ({
      share,
      tension: tension.value,
      ...(torque === undefined ? {} : { torque: torque.value }),
      ...(pressure === undefined ? {} : { pressure: pressure.value }),
    })),
    strokes,
    recheck,
    notes: [
      ...(refused === undefined ? [] : [refused]),
      ...cautions,
      ...(missing.length === 0 ? [] : [`open: ${missing.join(', ')}`]),
    ],
  }
}

const failureView = ({ reason, part, blockers, direction }: StepFailure, stages: Stages): FailureView => ({
  reason,
  part,
  blockers: blockers.map((id) => ({ id, name: nameOf(id, stages) })),
  towards: direction === undefined ? undefined : towards(direction),
})

/** Which piece waits for which, as a drawing in the page's colours. */
export function precedenceView({ model, mass, strip }: Stages): DrawnView | undefined {
  const { project } = model
  if (Object.keys(project.pieces).length === 0 || strip.steps.length === 0) return undefined
  const order = strip.steps.map((s) => (project.steps[s.step]?.stays === true ? s.step : s.piece))
  const pieces = waitsOf(model, mass, order, freshMemory()).map((waiting): PrecedencePiece => {
    const piece = project.pieces[waiting.piece]
    const name = piece?.name ?? waiting.piece
    const aside = project.steps[waiting.id]?.stays === true
    return { ...waiting, name, short: piece?.short ?? name, place: order.indexOf(waiting.id) + 1, aside }
  })
  const title = 'Which piece waits for which'
  return { title, svg: svgOf(precedenceDrawing(title, pieces), PAGE_INKS) }
}

/** What a part, a joint or a thing fixed in the shaft is called. */
export function nameOf(id: string, { model }: Stages): string {
  return model.project.shaft?.obstructions[id]?.what ?? model.instances.byId.get(id)?.part.name ?? id
}

const WAYS = [
  [2, 'up', 'down'],
  [0, 'forward', 'back'],
  [1, 'left', 'right'],
] as const
/** A smaller share of a direction is not worth a word. */
const LEAST_SHARE = 0.2

function towards(direction: readonly [number, number, number]): string {
  const words = WAYS.flatMap(([axis, plus, minus]) => {
    const share = direction[axis]
    return Math.abs(share) < LEAST_SHARE ? [] : [share > 0 ? plus : minus]
  })
  return words.join(' and ')
}
