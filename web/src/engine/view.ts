import type { Stages } from '@shieldwright/engine'
import type { LiftOutcome } from '@shieldwright/engine/lift/index.ts'
import { type Answer, inputsOf } from '@shieldwright/engine/working/answer.ts'
import type { Check, Verdict } from '@shieldwright/engine/working/check.ts'
import { followsIn } from './follows.ts'
import { progressView } from './progressView.ts'
import type {
  ActivityView,
  ChainLine,
  CheckView,
  LiftView,
  OverviewView,
  PieceView,
  StepView,
  Summary,
} from './protocol.ts'

/** What the page shows of everything derived: plain data, small enough to cross from the worker. */
export function summaryOf(stages: Stages): Summary {
  const { about, programme } = stages.model.project
  const at = instantOf(stages.programme.origin)
  const { bound } = stages.programme
  return {
    title: about.title,
    invented: about.invented === true,
    date: about.date,
    near: stages.model.near,
    checks: checkViews(stages),
    lifts: liftsInOrder(stages).map((lift) => liftView(lift, stages)),
    steps: stages.strip.steps.map((step) => stepView(step, stages)),
    pieces: Object.keys(stages.model.project.pieces).map((id) => pieceView(id, stages)),
    activities: activityViews(stages, at),
    nearPaths: nearPaths(stages),
    progress: progressView(stages, at),
    restart: at(stages.programme.restart),
    restartUnlimited: at(stages.programme.restartUnlimited),
    bound: bound === undefined ? undefined : { at: at(bound.value) as number, reason: bound.reason },
    proven: stages.programme.proven,
    today: dayOf(programme?.today ?? about.date),
    overview: overviewOf(stages),
  }
}

const dayOf = (date: string | undefined): number | undefined => (date === undefined ? undefined : Date.parse(date))

/** Every check; with those that do not pass, what they follow from and what they stop. */
function checkViews(stages: Stages): CheckView[] {
  const follows = followsIn(stages)
  return stages.checks.map((check) =>
    check.verdict === 'pass' ? checkView(check) : { ...checkView(check), follows: follows(check) },
  )
}

function overviewOf({ model, lift, mass }: Stages): OverviewView {
  const { shaft, pieces } = model.project
  const collar = shaft?.collar?.value
  const loads = Object.values(lift.lifts).flatMap(({ id, piece, hookLoad }) =>
    hookLoad.value === undefined ? [] : [{ lift: id, name: pieces[piece]?.name ?? piece, load: hookLoad.value }],
  )
  return {
    bore: shaft?.clearDiameter.value,
    depth: shaft?.slabTop.value === undefined || collar === undefined ? undefined : collar - shaft.slabTop.value,
    parts: Object.keys(mass.parts).length,
    heaviest: loads.reduce<(typeof loads)[number] | undefined>(
      (h, l) => (h === undefined || l.load > h.load ? l : h),
      undefined,
    ),
  }
}

type At = (seconds: number | undefined) => number | undefined

const instantOf = (origin: string | undefined): At => {
  const zero = origin === undefined ? Number.NaN : Date.parse(origin)
  return (seconds) => (seconds === undefined || Number.isNaN(zero) ? undefined : zero + seconds * 1000)
}

/** A check that was not worked out again is shown by the very same object, which need not be compared. */
const viewed = new WeakMap<Check, CheckView>()

export function checkView(check: Check): CheckView {
  const view = viewed.get(check) ?? viewOf(check)
  viewed.set(check, view)
  return view
}

function viewOf(check: Check): CheckView {
  return {
    id: check.id,
    kind: check.kind,
    stage: check.stage,
    pointer: check.subject.pointer,
    subject: check.subject.id,
    subjectName: check.subject.name,
    title: check.title,
    unit: check.unit,
    demand: check.demand.value,
    capacity: check.capacity.value,
    utilisation: check.utilisation,
    verdict: check.verdict,
    reasons: check.reasons,
    decidedBy: check.decidedBy,
    cautions: check.cautions,
    assumptions: check.assumptions,
  }
}

const WORST: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

/** The worst verdict of several: one failure fails all. */
export const worstOf = (checks: readonly Pick<Check, 'verdict'>[]): Verdict =>
  WORST.find((verdict) => checks.some((c) => c.verdict === verdict)) ?? 'pass'

/** Out in the order of the steps, then back the other way; those that no step names last. */
function liftsInOrder({ strip, lift, model }: Stages): LiftOutcome[] {
  const out = strip.steps.flatMap((s) => s.lift ?? [])
  const back = strip.steps.flatMap((s) => model.project.steps[s.step]?.back ?? []).reverse()
  return [...new Set([...out, ...back, ...Object.keys(lift.lifts)])].flatMap((id) => lift.lifts[id] ?? [])
}

function liftView(lift: LiftOutcome, stages: Stages): LiftView {
  const piece = stages.model.project.pieces[lift.piece]
  const system = stages.model.project.systems[lift.system]
  return {
    id: lift.id,
    piece: lift.piece,
    name: piece?.name ?? lift.piece,
    short: piece?.short ?? piece?.name ?? lift.piece,
    kind: lift.kind,
    goesBack: Object.values(stages.model.project.steps).some((step) => step.back === lift.id),
    hook: `the ${system?.hooks[lift.hook]?.name ?? lift.hook} of ${lift.system}`,
    hookLoad: lift.hookLoad.value,
    rated: lift.rated.value,
    chain: chainOf(lift.hookLoad),
    legs: lift.legs.map((leg) => ({
      id: leg.id,
      tension: leg.tension.value,
      worst: leg.worst.value,
      angle: leg.angle.value,
      slack: leg.slack,
    })),
    tilt: lift.tilt.value,
    heightNeeded: lift.height.needed.value,
    heightAvailable: lift.height.available.value,
    clearance:
      lift.clearance === undefined
        ? undefined
        : { gap: lift.clearance.gap.value, to: thingName(lift.clearance.to, stages) },
    turning: lift.turning.map((t) => ({
      angle: t.angle,
      main: t.main.value,
      tail: t.tail.value,
      mainLean: t.mainLean,
      tailLean: t.tailLean,
    })),
    wind: lift.allowableWind.value,
    duration: lift.duration.value,
    critical: lift.critical,
    criteria: lift.criteria,
    verdict: worstOf(lift.checks),
  }
}

/** What a part or a thing fixed in the shaft is called. */
function thingName(id: string, { model }: Stages): string {
  return model.project.shaft?.obstructions[id]?.what ?? model.instances.byId.get(id)?.part.name ?? id
}

function chainOf(answer: Answer): ChainLine[] {
  return inputsOf(answer).map(([label, input]) => ({
    label,
    value: input.value,
    pointer: input.kind === 'given' ? input.pointer : undefined,
    basis: input.kind === 'given' ? input.basis : undefined,
  }))
}

function stepView(step: Stages['strip']['steps'][number], stages: Stages): StepView {
  return {
    step: step.step,
    piece: step.piece,
    name: stages.model.project.pieces[step.piece]?.name ?? step.piece,
    lift: step.lift,
    moves: step.moves.length,
    parts: step.parts.length,
    joints: step.joints.length,
    services: step.services.length,
    gap: step.clearance?.gap,
    gapTo: step.clearance === undefined ? undefined : thingName(step.clearance.to, stages),
    failures: step.failures.map((f) => `${f.reason}: ${f.blockers.join(', ')}`),
  }
}

function pieceView(id: string, stages: Stages): PieceView {
  const piece = stages.model.project.pieces[id]
  const masses = stages.mass.pieces[id]
  return {
    id,
    name: piece?.name ?? id,
    parts: masses?.found.parts.length ?? 0,
    found: masses?.found.net.value,
    uncertainty: masses?.found.uncertainty.value,
    weighed: masses?.weighed?.net.value,
    returned: masses?.returned.net.value,
    cog: masses?.found.cogSite ?? [0, 0, 0],
  }
}

function activityViews(stages: Stages, at: At): ActivityView[] {
  const { activities, plan } = stages.programme
  const asked = askedOf(stages)
  return Object.values(activities)
    .flatMap((a): ActivityView[] => {
      const when = plan[a.id]
      const [start, finish, earlyFinish] = [at(when?.start), at(when?.finish), at(when?.earlyFinish)]
      if (when === undefined || start === undefined || finish === undefined || earlyFinish === undefined) return []
      const needs = Object.entries(a.needs)
        .map(([r, n]) => (n === 1 ? r : `${n} ${r}`))
        .join(', ')
      return [
        {
          id: a.id,
          name: a.name,
          phase: a.phase,
          start,
          finish,
          earlyFinish,
          totalFloat: when.totalFloat,
          critical: when.critical,
          planFloat: when.planFloat,
          freeFloat: when.freeFloat,
          basis: a.basis,
          drives: when.planCritical,
          waitsFor:
            when.waitsFor === undefined
              ? undefined
              : { activity: when.waitsFor.activity, resource: when.waitsFor.resource },
          promised: at(a.finishBy),
          asked: asked.get(a.id) ?? [],
          needs,
          from: a.from,
          lift: a.lift,
          holdPoint: a.holdPoint,
        },
      ]
    })
    .sort((a, b) => a.start - b.start || a.finish - b.finish)
}

/** Every path beside the longest one that has little float, tightest first, with the work that it holds. */
function nearPaths({ programme: { nearCritical = [], activities } }: Stages): Summary['nearPaths'] {
  const work = (id: string): number => activities[id]?.work[1] ?? 0
  return nearCritical.map(({ float, tightest, activities: ids, leaves, joins }) => ({
    float,
    tightest,
    work: ids.reduce((sum, id) => sum + work(id), 0),
    activities: ids,
    leaves,
    joins,
  }))
}

/** What planners ask of each activity, in words. */
function askedOf({ programme }: Stages): ReadonlyMap<string, readonly string[]> {
  const asked = new Map<string, string[]>()
  for (const { title, offenders, listed } of programme.questions ?? [])
    for (const { activity, text } of listed ? [] : offenders)
      asked.set(activity, [...(asked.get(activity) ?? []), `${title}: ${text}`])
  return asked
}
