import type { Programme } from '../model/index.ts'
import { type Answer, found, given, stated } from '../working/answer.ts'
import { type Check, check, type Subject } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activities } from './activity.ts'
import { networkHealth, restartAgainstBaseline } from './kinds.ts'
import { executionIndex, offendingShare } from './plan.formulas.ts'
import type { Progress } from './progress.ts'
import { missed, type Slippage } from './slippage.ts'

/** What progress and baseline are asked about. */
export interface Held {
  programme: Programme
  activities: Activities
  restart: number
  progress: Progress | undefined
  slippage: Slippage | undefined
  near: number
  /** Inputs without which durations are not known. */
  unknown: Record<string, Answer<'s'>>
}

const PLAN: Subject = { pointer: '/programme', id: 'plan', name: 'Plan' }
const DAY = 86_400

/** Questions to progress, and the forecast against the baseline; none where neither is given. */
export function progressChecks(held: Held): Check[] {
  const { progress, slippage } = held
  return [
    ...(progress === undefined ? [] : [sequenceCheck(held, progress), lostCheck(progress)]),
    ...(progress === undefined || slippage === undefined ? [] : executionChecks(held, progress, slippage)),
    ...(slippage?.restart === undefined ? [] : [restartCheck(held, slippage, slippage.restart)]),
  ]
}

function sequenceCheck({ programme, near }: Held, { outOfSequence, actual }: Progress): Check {
  const asked = outOfSequence.filter(({ activity }) => programme.explained[activity] === undefined)
  const answered = outOfSequence.filter(({ activity }) => programme.explained[activity] !== undefined)
  return check({
    kind: networkHealth,
    subject: PLAN,
    of: 'out-of-sequence',
    title: 'Progress out of sequence',
    demand: offendingShare.show({
      n: counted(new Set(asked.map((o) => o.activity)).size, 'activities that went ahead of a predecessor'),
      N: stated('1', Math.max(1, Object.keys(actual).length), 'activities begun'),
    }),
    capacity: stated('1', 0, 'none unexplained'),
    near,
    found: asked.map(({ text }) => text),
    assumptions: answered.map(({ activity, text }) => `${text}: ${programme.explained[activity]}`),
  })
}

const lostCheck = ({ lost }: Progress): Check =>
  check({
    kind: networkHealth,
    subject: PLAN,
    of: 'progress-lost',
    title: 'Progress of activities that are not in the network',
    demand: counted(lost.length, 'entries whose activity the order and the file no longer give'),
    capacity: stated('1', 0, 'none: what was done is not dropped'),
    near: 1,
    found: lost.map((id) => `${id} has progress and is no longer in the network`),
  })

function executionChecks({ activities, near, programme }: Held, progress: Progress, slippage: Slippage): Check[] {
  const { due, late } = missed(activities, slippage, progress)
  const done = Object.values(progress.actual).filter(({ finish }) => finish !== undefined).length
  const asked = late.filter((id) => programme.explained[id] === undefined)
  return [
    check({
      kind: networkHealth,
      subject: PLAN,
      of: 'missed',
      title: 'Activities due by the baseline and not done in time',
      demand: offendingShare.show({
        n: counted(asked.length, 'due at the data date, and late or not done'),
        N: stated('1', Math.max(1, due.length), 'due at the data date by the baseline'),
      }),
      capacity: stated('1', 0.05, 'largest share that is not asked about (threshold from memory)'),
      near,
      found: asked.map((id) => `${id}: ${((slippage.slips[id]?.finish ?? 0) / DAY).toFixed(1)} days later`),
      assumptions: late.filter((id) => !asked.includes(id)).map((id) => `${id}: ${programme.explained[id]}`),
    }),
    ...(due.length + slippage.added.length === 0
      ? []
      : [
          check({
            kind: networkHealth,
            subject: PLAN,
            of: 'execution-index',
            title: 'Baseline execution index',
            demand: stated('1', 0.95, 'least index that is not asked about (threshold read on public pages)'),
            capacity: executionIndex.show({
              C: counted(done, 'activities done at the data date'),
              B: counted(due.length, 'due at the data date by the baseline'),
              A: counted(slippage.added.length, 'activities that the baseline lacks'),
            }),
            near: 1,
          }),
        ]),
  ]
}

function restartCheck(
  { restart, unknown }: Held,
  { baseline, name, causes }: Slippage,
  { baseline: was }: NonNullable<Slippage['restart']>,
): Check {
  const pointer = pointerOf('programme', 'baselines', baseline)
  const largest = [...causes].sort((a, b) => b.seconds - a.seconds).slice(0, 5)
  return check({
    kind: restartAgainstBaseline,
    subject: { pointer, id: baseline, name },
    demand: found({
      unit: 's',
      value: restart,
      method: 'restart forecast from the data date: what has happened is fixed, the rest planned anew',
      inputs: unknown,
      residuals: [],
    }),
    capacity: given('s', `${pointer}/restart`, was),
    near: 1,
    found: largest.map(({ activity, kind, seconds }) => `${activity} ${kind}: ${(seconds / DAY).toFixed(1)} days`),
    cautions: ['A forecast is no promise: it moves with every remaining duration.'],
  })
}

const counted = (value: number, method: string): Answer<'1'> =>
  found({ unit: '1', value, method, inputs: {}, residuals: [] })
