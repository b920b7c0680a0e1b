import type { Model } from '../model/index.ts'
import type { Activity } from './activity.ts'

const LIFTS: ReadonlySet<Activity['kind']> = new Set(['lift', 'turn', 'lift back', 'turn back'])
/** Work of people on the machine or on a piece: in the shaft, or on the bay where the piece lies. */
export const HANDS: ReadonlySet<string> = new Set([
  'mark',
  'isolate',
  'part',
  'open',
  'rig',
  'change',
  'rig back',
  'release',
  'close',
  'reconnect',
  'energise',
])

export type Lifting = Activity & { lift: string }

export const isLifting = (activity: Activity): activity is Lifting =>
  LIFTS.has(activity.kind) && activity.lift !== undefined

/** Bay on which the work of a step is done; none in the shaft. */
export type BayOfStep = ReadonlyMap<string, string | undefined>

/** @param froms where the piece of each step comes from: the shaft, or an earlier step that laid it on a bay */
export const baysOfSteps = (model: Model, froms: Readonly<Record<string, string>>): BayOfStep =>
  new Map(Object.entries(froms).map(([step, from]) => [step, bayFrom(model, from)]))

function bayFrom({ project }: Model, from: string): string | undefined {
  const step = project.steps[from]
  const lift = step?.lift === undefined ? undefined : project.lifts[step.lift]
  return from === 'shaft' ? undefined : (lift?.bay ?? project.pieces[step?.piece ?? '']?.bay)
}

/** Whether its people are in the shaft: they hold its floor, or work by hand on what has not left it. */
export function isBelow({ needs, kind, step }: Activity, bayOfStep: BayOfStep, floor: string | undefined): boolean {
  if (floor !== undefined && (needs[floor] ?? 0) > 0) return true
  return HANDS.has(kind) && step !== undefined && bayOfStep.get(step) === undefined
}
