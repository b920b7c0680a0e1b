import type { LiftResult } from '../lift/index.ts'
import type { Model, Risk } from '../model/index.ts'
import { type Activity, type ProgrammeResult, triangularMean, triangularVariance } from '../programme/index.ts'
import { type Answer, given, sumOf } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { delayVariance, expectedDelay, meanExcess } from './event.formulas.ts'
import { riskPointer } from './events.ts'
import { type WindowResult, windowCheck, windowsOf } from './windows.ts'

/** What an event weighs before anything is simulated. */
export interface EventResult {
  id: string
  name: string
  chance: Answer<'1'>
  /** Chance times mean delay, calendar time; with what mitigation leaves of it. */
  meanDelay: Answer<'s'>
  mitigatedDelay?: Answer<'s'>
  variance: Answer<'s2'>
  meanCost: number
}

export interface RiskResult {
  checks: readonly Check[]
  events: readonly EventResult[]
  /** Wind windows of the lifts that wait for wind. */
  windows: readonly WindowResult[]
  /**
   * The plan takes most likely durations: by how much the means on its driving path are longer, in working time, and their
   * variance. A lower figure than any simulation gives: other paths, events and wind come on top.
   */
  path: { excess: Answer<'s'>; variance: Answer<'s2'> }
}

/** What can be said of risk at once: what each event weighs, and how often the wind lets each lift go. */
export function risk(model: Model, lift: LiftResult, programme: ProgrammeResult, memory: Memory): RiskResult {
  const { project } = model
  const windows = memory.once(
    'risk/windows',
    [
      programme.activities,
      programme.plan,
      lift.lifts,
      project.climate,
      project.systems,
      project.shaft,
      project.programme,
    ],
    () => windowsOf(model, lift, programme, memory),
  )
  const checks = memory.once('risk/checks', [windows, project.programme, project.settings, programme.activities], () =>
    windows.map((w) => {
      const name = programme.activities[w.activity]?.name ?? w.lift
      return memory.once(`risk/window-check/${w.activity}`, [w, name, project.programme, project.settings], () =>
        windowCheck(model, w, name),
      )
    }),
  )
  const events = memory.once('risk/events', [project.risks], () =>
    Object.entries(project.risks).map(([id, r]) => eventOf(id, r)),
  )
  const path = memory.once('risk/path', [programme.activities, programme.plan], () => pathOf(programme))
  return { checks, events, windows, path }
}

/** Mean less most likely, and variance, of each activity on the plan's driving path. */
function pathOf({ activities, plan }: ProgrammeResult): RiskResult['path'] {
  const driving = Object.values(activities).filter(
    ({ id, work }) => plan[id]?.planCritical === true && work[2] > work[0],
  )
  const of = ({ id, from, work }: Activity) => {
    const [a, m, b] = work.map((w, i) => given('s', `${from[0]}/${['least', 'likely', 'greatest'][i]}`, w)) as [
      Answer<'s'>,
      Answer<'s'>,
      Answer<'s'>,
    ]
    return {
      label: id,
      excess: meanExcess.show({ mu: triangularMean.show({ a, m, b }), m }),
      variance: triangularVariance.show({ a, m, b }),
    }
  }
  const terms = driving.map(of)
  return {
    excess: sumOf(
      'Means over most likely durations on the driving path',
      's',
      terms.map(({ label, excess }) => ({ label, answer: excess })),
    ),
    variance: sumOf(
      'Variance of the driving path, durations apart',
      's2',
      terms.map(({ label, variance }) => ({ label, answer: variance })),
    ),
  }
}

const DAY = 86_400

function eventOf(id: string, { risk: name, probability, delayDays, cost, mitigation }: Risk): EventResult {
  const at = riskPointer(id)
  const [a, m, b] = delayDays.map((d, i) => given('s', `${at}/delayDays/${i}`, d * DAY)) as [
    Answer<'s'>,
    Answer<'s'>,
    Answer<'s'>,
  ]
  const left = mitigation?.probabilityAfter
  return {
    id,
    name,
    chance: probability,
    meanDelay: expectedDelay.show({ p: probability, a, m, b }),
    variance: delayVariance.show({ p: probability, a, m, b }),
    ...(left === undefined ? {} : { mitigatedDelay: expectedDelay.show({ p: left, a, m, b }) }),
    meanCost: (probability.value as number) * cost,
  }
}
