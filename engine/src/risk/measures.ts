import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import { type SimulationOptions, type SimulationResult, simulate } from './simulation.ts'

/** What one mitigation or acceleration buys. */
export interface MeasureResult {
  id: string
  kind: 'mitigation' | 'option'
  name: string
  /** What it costs to take. */
  price: number
  /** Days of the P50 and of the P80 restart that it saves. */
  savedP50: number
  savedP80: number
  /** Change of the mean cost, price included; negative when it pays. */
  costChange: number
}

const DAY = 86_400

/**
 * What each mitigation and each option buys by itself: the simulation run again with it taken, on the same random numbers, so
 * that the difference is the measure's and little else.
 */
export function measures(
  programme: ProgrammeResult,
  lifts: LiftResult,
  model: Model,
  options: SimulationOptions,
): { base: SimulationResult; measures: MeasureResult[] } | undefined {
  const base = simulate(programme, lifts, model, options).result
  if (base === undefined) return undefined
  const found: MeasureResult[] = []
  for (const measure of known(model)) {
    if (options.shouldContinue?.() === false) break
    const taken = measure.kind === 'mitigation' ? { mitigations: [measure.id] } : { options: [measure.id] }
    const result = simulate(programme, lifts, model, { ...options, ...taken }).result
    if (result !== undefined) found.push({ ...measure, ...difference(base, result) })
  }
  return { base, measures: found.sort((a, b) => b.savedP80 - a.savedP80) }
}

type Known = Pick<MeasureResult, 'id' | 'kind' | 'name' | 'price'>

const known = ({ project }: Model): Known[] => [
  ...Object.entries(project.risks).flatMap(([id, { mitigation }]): Known[] =>
    mitigation === undefined ? [] : [{ id, kind: 'mitigation', name: mitigation.what, price: mitigation.cost }],
  ),
  ...Object.entries(project.programme?.options ?? {}).map(
    ([id, { what, cost }]): Known => ({ id, kind: 'option', name: what, price: cost }),
  ),
]

const difference = (base: SimulationResult, taken: SimulationResult) => ({
  savedP50: (base.restart.p50 - taken.restart.p50) / DAY,
  savedP80: (base.restart.p80 - taken.restart.p80) / DAY,
  costChange: taken.cost.mean - base.cost.mean,
})
