import type { Model } from '../model/index.ts'
import { dayNumber, elapsedAt, type ProgrammeResult } from '../programme/index.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check, type Subject } from '../working/check.ts'
import { restartBand, restartPromised } from './kinds.ts'
import type { SimulationResult } from './result.ts'

const RESTART: Subject = { pointer: '/programme/restart', id: 'restart', name: 'Restart' }
const CAUTION = 'A forecast from stated assumptions; never a reason to shorten a hold point.'

/** Checks on a simulation: how sure its P80 is, and whether it keeps the date promised. */
export function simulationChecks(simulation: SimulationResult, programme: ProgrammeResult, model: Model): Check[] {
  const { runs, seed, band, restart, method, notes, lost } = simulation
  const typed = model.project.programme
  const inputs: Record<string, Answer<'s'>> = Object.fromEntries(
    simulation.open.map((p) => [p, given('s', p, undefined)]),
  )
  const p80 = (value: number) =>
    found({ unit: 's', value, method: `${runs} runs, seed ${seed}: ${method}`, inputs, residuals: [] })
  const assumptions = [
    `${runs} runs, seed ${seed}`,
    ...notes,
    ...(lost.length > 0 ? [`no activity of ${lost.join(', ')} is in the network: left out`] : []),
  ]
  const zone = programme.solved?.zone
  const promised =
    typed?.promised === undefined || zone === undefined ? undefined : elapsedAt(zone, dayNumber(typed.promised) + 1, 0)
  const common = { subject: RESTART, near: model.near, assumptions, cautions: [CAUTION] }
  return [
    check({
      kind: restartBand,
      ...common,
      demand: p80((band.p80[1] - band.p80[0]) / 2),
      capacity: knownOr(typed?.errorBand, 's', '/programme/errorBand'),
    }),
    check({
      kind: restartPromised,
      ...common,
      near: 1,
      demand: p80(restart.p80),
      capacity: given('s', '/programme/promised', promised),
    }),
  ]
}
