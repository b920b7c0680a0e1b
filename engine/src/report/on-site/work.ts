import { idsMeant } from '../../model/index.ts'
import { type Activity, type ShiftWork, shiftsAt } from '../../programme/index.ts'
import { comesBack } from '../../strip/index.ts'
import { readPointer } from '../../working/pointer.ts'
import { lookFrom } from '../tables/programmeTables.ts'
import type { OnSiteStages } from './onSite.ts'

/** Joints of one step. */
export interface StepJoints {
  step: string
  joints: readonly string[]
}

/** What is to be done: ids of isolations, services, joints, lifts and tests, and the shifts where it is a shift's work. */
export interface SiteWork {
  words: string
  shifts: readonly ShiftWork[]
  isolations: readonly string[]
  /** Services to part, and to join again. */
  off: ReadonlySet<string>
  on: ReadonlySet<string>
  opened: readonly StepJoints[]
  closed: readonly StepJoints[]
  lifts: readonly string[]
  tests: readonly string[]
}

const NOTHING = { shifts: [], isolations: [], opened: [], closed: [], lifts: [], tests: [] } as const

/** Both ways of one step: what comes off, and what goes back on. */
export function workOfStep({ strip, model }: OnSiteStages, id: string): SiteWork | undefined {
  const { project } = model
  const step = strip.steps.find((s) => s.step === id)
  if (step === undefined) return undefined
  const back = project.steps[id]?.back
  return {
    ...NOTHING,
    words: `step ${id}, ${project.pieces[step.piece]?.name ?? step.piece}`,
    isolations: step.isolations,
    off: new Set(step.services),
    on: returning(model, step.services),
    opened: [{ step: id, joints: step.joints }],
    closed: back === undefined ? [] : [{ step: id, joints: step.joints }],
    lifts: [...(step.lift === undefined ? [] : [step.lift]), ...(back === undefined ? [] : [back])],
  }
}

/** What lifts ask for: on the way out what their steps let go, on the way back what is joined again. */
export function workOfLift({ strip, lift, model }: OnSiteStages, ids: readonly string[]): SiteWork | undefined {
  const { project } = model
  if (ids.some((id) => !Object.hasOwn(lift.lifts, id))) return undefined
  const wanted = new Set(ids)
  const out = strip.steps.filter((s) => s.lift !== undefined && wanted.has(s.lift))
  const back = strip.steps.filter((s) => wanted.has(project.steps[s.step]?.back ?? ''))
  return {
    ...NOTHING,
    words: ids.length === 1 ? `lift ${ids[0]}` : `lifts ${ids.join(', ')}`,
    isolations: distinct([...out, ...back].flatMap((s) => s.isolations)),
    off: new Set(out.flatMap((s) => s.services)),
    on: returning(
      model,
      back.flatMap((s) => s.services),
    ),
    opened: out.map(({ step, joints }) => ({ step, joints })),
    closed: [...back].reverse().map(({ step, joints }) => ({ step, joints })),
    lifts: ids,
  }
}

/**
 * The work of the shifts under way, calendar by calendar.
 *
 * @param at elapsed seconds; the data date, else today, where it is absent
 */
export function workOfShift(stages: OnSiteStages, at: number = lookFrom(stages)): SiteWork {
  const { programme } = stages.model.project
  const shifts = programme === undefined ? [] : shiftsAt(stages.programme, programme, at)
  const activities = shifts.flatMap(({ work }) => work.flatMap(({ id }) => stages.programme.activities[id] ?? []))
  const of = (...kinds: readonly Activity['kind'][]): Activity[] => activities.filter((a) => kinds.includes(a.kind))
  return {
    words: 'the shift',
    shifts,
    isolations: named('isolations', of('isolate', 'part')),
    off: new Set(named('services', of('part'))),
    on: new Set(named('services', of('reconnect'))),
    opened: byStep(of('open')),
    closed: byStep(of('close')),
    lifts: distinct(
      of('rig', 'lift', 'turn', 'land', 'rig back', 'turn back', 'lift back', 'release').flatMap((a) => a.lift ?? []),
    ),
    tests: named('tests', of('test')),
  }
}

/** Those of the services that are joined again. */
function returning(model: OnSiteStages['model'], ids: readonly string[]): ReadonlySet<string> {
  return new Set(
    ids.filter((id) => {
      const service = model.project.services[id]
      if (service === undefined) return false
      const [from, to] = [service.from, service.to].map((end) => idsMeant(model.instances, end)) as [string[], string[]]
      return comesBack(model, { from, to })
    }),
  )
}

const distinct = (ids: readonly string[]): string[] => [...new Set(ids)]

/** Ids of one section that activities come from. */
const named = (section: string, activities: readonly Activity[]): string[] =>
  distinct(
    activities.flatMap(({ from }) =>
      from.flatMap((pointer) => {
        const [of, id] = readPointer(pointer) ?? []
        return of === section && id !== undefined ? [id] : []
      }),
    ),
  )

function byStep(activities: readonly Activity[]): StepJoints[] {
  const steps = distinct(activities.flatMap((a) => a.step ?? []))
  return steps.map((step) => ({
    step,
    joints: named(
      'joints',
      activities.filter((a) => a.step === step),
    ),
  }))
}
