import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import { meanOf, quantileOf } from '../numeric/statistics.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import type { Measures } from './measure.ts'
import type { SimulationResult } from './result.ts'
import { type SimulationOptions, simulatedRuns } from './simulation.ts'

/** Days of the P50 and of the P80 restart that a what-if saves, with the standard error of each. */
export interface Saved {
  savedP50: number
  savedP80: number
  errorP50: number
  errorP80: number
}

/** What one mitigation or acceleration buys. */
export interface MeasureResult extends Saved {
  id: string
  kind: 'mitigation' | 'option'
  name: string
  /** What it costs to take. */
  price: number
  /** Price of one day of the P80 restart; absent where none is saved. */
  perDay?: number
  /** Change of the mean cost, price included; negative when it pays. */
  costChange: number
}

/** What the restart would gain if one source stood still at its most likely, or did not happen: what a manager asks of a driver. */
export interface StillResult extends Saved {
  id: string
  name: string
}

export interface WhatIfs {
  base: SimulationResult
  measures: MeasureResult[]
  still: StillResult[]
}

const DAY = 86_400
/** Drivers that are held still, one by one. */
const MOST_STILL = 8
/** Groups of runs from whose differences the error of a gain is taken. */
const GROUPS = 20

/** How many simulations {@link measures} makes at most. */
export const simulationsFor = (model: Model): number => 1 + known(model).length + MOST_STILL

/**
 * What each mitigation and each option buys by itself, and what each of the largest drivers costs: the simulation run again
 * with one thing changed, on the same random numbers, so that the difference is that thing's and little else.
 */
export function measures(
  programme: ProgrammeResult,
  lifts: LiftResult,
  model: Model,
  options: SimulationOptions,
): WhatIfs | undefined {
  const base = simulatedRuns(programme, lifts, model, options)
  if ('reason' in base) return undefined
  const goesOn = (): boolean => options.shouldContinue?.() !== false
  const whatIf = (changed: Measures) => {
    const taken = goesOn() ? simulatedRuns(programme, lifts, model, { ...options, ...changed }) : undefined
    // what was cancelled half way says nothing beside runs that were all made
    if (taken === undefined || 'reason' in taken || taken.runs.restart.length < base.runs.restart.length)
      return undefined
    return {
      saved: savedBy(base.runs.restart, taken.runs.restart),
      cost: taken.result.cost.mean - base.result.cost.mean,
    }
  }
  const bought = known(model).flatMap((measure): MeasureResult[] => {
    const made = whatIf(measure.kind === 'mitigation' ? { mitigations: [measure.id] } : { options: [measure.id] })
    return made === undefined
      ? []
      : [{ ...measure, ...made.saved, ...priceOfDay(measure, made.saved), costChange: made.cost }]
  })
  const still = standing(base.result).flatMap(({ id, name }): StillResult[] => {
    const made = whatIf({ frozen: [id] })
    return made === undefined ? [] : [{ id, name, ...made.saved }]
  })
  return {
    base: base.result,
    measures: bought.sort((a, b) => b.savedP80 - a.savedP80),
    still: still.sort((a, b) => b.savedP80 - a.savedP80),
  }
}

const SUMS: ReadonlySet<string> = new Set(['other activities', 'rest'])

const standing = ({ drivers }: SimulationResult) =>
  drivers.filter(({ id, share }) => share > 0 && !SUMS.has(id)).slice(0, MOST_STILL)

type Known = Pick<MeasureResult, 'id' | 'kind' | 'name' | 'price'>

const known = ({ project }: Model): Known[] => [
  ...Object.entries(project.risks).flatMap(([id, { mitigation }]): Known[] =>
    mitigation === undefined ? [] : [{ id, kind: 'mitigation', name: mitigation.what, price: mitigation.cost }],
  ),
  ...Object.entries(project.programme?.options ?? {}).map(
    ([id, { what, cost }]): Known => ({ id, kind: 'option', name: what, price: cost }),
  ),
]

const priceOfDay = ({ price }: Known, { savedP80 }: Saved): { perDay?: number } =>
  savedP80 > 0 && price > 0 ? { perDay: price / savedP80 } : {}

/**
 * Days saved, and their errors from groups of runs: run by run both simulations met the same numbers, so a group's difference
 * holds little but the change.
 */
export function savedBy(base: Float64Array, taken: Float64Array): Saved {
  const at = (values: Float64Array, p: number): number => quantileOf(values.slice().sort(), p) / DAY
  const size = Math.floor(base.length / GROUPS)
  const error = (p: number): number => {
    if (size < 2) return Number.NaN
    const gains = Float64Array.from({ length: GROUPS }, (_, g) => {
      const [from, to] = [g * size, (g + 1) * size]
      return at(base.subarray(from, to), p) - at(taken.subarray(from, to), p)
    })
    const mean = meanOf(gains)
    return Math.sqrt(gains.reduce((sum, gain) => sum + (gain - mean) ** 2, 0) / (GROUPS - 1) / GROUPS)
  }
  return {
    savedP50: at(base, 0.5) - at(taken, 0.5),
    savedP80: at(base, 0.8) - at(taken, 0.8),
    errorP50: error(0.5),
    errorP80: error(0.8),
  }
}
