import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import {
  checkIn,
  liftsOf,
  modelOf,
  oneStep,
  programmeFor,
  programmeOf,
  stripOf,
  task,
  WORK,
} from '../programme/programme.fixture.ts'
import type { Check } from '../working/check.ts'
import { freshMemory } from '../working/memory.ts'
import type { SimulationResult } from './result.ts'
import { risk } from './risk.ts'
import { type SimulationOptions, simulate } from './simulation.ts'
import { simulationChecks } from './simulationChecks.ts'

type Raw = Readonly<Record<string, unknown>>

/** The same wind in every month: hourly means of Weibull scale 7 m/s and shape 2 at a mast of 10 m. */
export const climateOf = (more: Raw = {}): Raw => ({
  station: 'Mast',
  averaging: '1 h',
  height: '10 m',
  roughness: '0.03 m',
  gustFactor: 1.5,
  persistence: 0.9,
  months: Array.from({ length: 12 }, () => ({ scale: '7 m/s', shape: 2 })),
  ...more,
})

/** One piece, lifted out and back, with the wind that stops the lift; hook at the height of the mast. */
export const windyStep = (more: Raw = {}, programme: Raw = {}): Raw =>
  oneStep({
    systems: { tower: { name: 'Tower', kind: 'lift tower', hooks: { main: { name: 'Main', highest: '10 m' } } } },
    shaft: undefined,
    climate: climateOf(),
    programme: programmeOf({
      work: WORK,
      resources: { tower: { name: 'Tower', kind: 'plant', capacity: 1 } },
      activities: { A: task({ days: [1, 2, 4] }), Z: task({ days: [0, 0, 0] }) },
      restart: 'Z',
      ...programme,
      ...(programme.work === undefined ? { work: { ...WORK, resumeBefore: ['Z'] } } : {}),
    }),
    ...more,
  })

export interface Small {
  model: Model
  programme: ProgrammeResult
  lifts: LiftResult
}

/** A small project with its programme and its lifts. */
export function small(document: Raw, lifts = liftsOf({ 'crown-out': { hours: 5, wind: 9 } })): Small {
  const strip = document.steps === undefined ? undefined : stripOf([{ step: 'S1', piece: 'crown' }])
  return { model: modelOf(document), programme: programmeFor(document, strip, lifts), lifts }
}

/** Its simulation; it has one. */
export function simulated(
  { programme, lifts, model }: Small,
  options: Partial<SimulationOptions> = {},
): SimulationResult {
  const { result, reason } = simulate(programme, lifts, model, { runs: 500, seed: 1, ...options })
  if (result === undefined) throw new Error(reason)
  return result
}

const windowCheckOf = (document: Raw, lifts?: LiftResult): Check => {
  const { model, programme, lifts: known } = small(document, lifts)
  return checkIn(risk(model, known, programme, freshMemory()), 'risk.wind.window', 'S1.out')
}

const restartCheck = (kind: string, limits: Raw): Check => {
  const made = small({
    programme: programmeOf({ activities: { A: task({ calendar: 'always', days: [2, 5, 12] }) }, ...limits }),
  })
  return checkIn({ checks: simulationChecks(simulated(made), made.programme, made.model) }, kind)
}

/** For each kind: a check that passes, one that fails, one that is open. */
export const fixtures: Record<string, { pass: () => Check; fail: () => Check; open: () => Check }> = {
  'risk.wind.window': {
    pass: () => windowCheckOf(windyStep({}, { windowChance: 0.3 }), liftsOf({ 'crown-out': { hours: 3, wind: 15 } })),
    fail: () => windowCheckOf(windyStep({}, { windowChance: 0.9 }), liftsOf({ 'crown-out': { hours: 9, wind: 5 } })),
    open: () => windowCheckOf(windyStep({}, { windowChance: 0.3 }), liftsOf({ 'crown-out': { hours: 3 } })),
  },
  'risk.restart.band': {
    pass: () => restartCheck('risk.restart.band', { errorBand: '2 d' }),
    fail: () => restartCheck('risk.restart.band', { errorBand: '1 h' }),
    open: () => restartCheck('risk.restart.band', {}),
  },
  'risk.restart.promised': {
    pass: () => restartCheck('risk.restart.promised', { promised: '2031-12-01' }),
    fail: () => restartCheck('risk.restart.promised', { promised: '2031-11-05' }),
    open: () => restartCheck('risk.restart.promised', {}),
  },
}
