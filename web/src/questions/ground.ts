import { textOfUse } from '../parts/figures.ts'
import { routeTo } from '../state.ts'
import { checksOf, type Facts, text, toCome, worst } from './facts.ts'
import type { Place } from './questions.ts'

/** The working of the worst check of some kinds; without one the page of the ground. */
export const place =
  (...kinds: string[]) =>
  ({ summary }: Facts): Place => {
    const check = worst(checksOf(summary, ...kinds))
    return { href: check === undefined ? routeTo('ground') : routeTo('project', check.id) }
  }

const NOTHING = 'Nothing of it is in the project yet.'

export function wall({ summary, system }: Facts): string {
  const most = worst(checksOf(summary, 'ground.wall.surcharge'))
  if (most === undefined) return NOTHING
  return `${text(most.demand, 'Pa', system)} of ${text(most.capacity, 'Pa', system)}: ${most.title.split(': ').at(-1)}.`
}

export function wells({ summary }: Facts): string {
  const [time, number] = [
    worst(checksOf(summary, 'ground.wells.time')),
    worst(checksOf(summary, 'ground.wells.number')),
  ]
  if (time === undefined) return NOTHING
  const minutes = (s: number | undefined): string => (s === undefined ? 'open' : `${Math.round(s / 60)} min`)
  const spare =
    number === undefined
      ? ''
      : ` With one well lost ${number.capacity ?? '?'} remain of the ${number.demand ?? '?'} needed.`
  return `Pumps stopped, critical after ${minutes(time.capacity)}; what brings them back takes ${minutes(time.demand)}.${spare}`
}

export function uplift({ summary }: Facts): string {
  const checks = checksOf(summary, 'ground.base.uplift', 'ground.slab.uplift')
  if (checks.length === 0) return NOTHING
  return `${checks.map((c) => `${c.title.split(': ').at(-1)} ${textOfUse(c.utilisation)}${c.verdict === 'fail' ? ', fails' : ''}`).join('; ')}.`
}

export function bays({ summary, system }: Facts): string {
  const [pressure, tilt] = [
    worst(checksOf(summary, 'ground.bay.pressure')),
    worst(checksOf(summary, 'ground.bay.tilt')),
  ]
  if (pressure === undefined) return NOTHING
  return `${pressure.title.split(': ').at(-1)}: ${text(pressure.demand, 'Pa', system)} of ${text(pressure.capacity, 'Pa', system)}; tilt uses at most ${textOfUse(tilt?.utilisation)} of what is allowed.`
}

export function readings({ summary }: Facts): string {
  const checks = checksOf(summary, 'ground.neighbour.reading')
  const most = worst(checks)
  if (most === undefined) return 'No reading is in the project yet.'
  const over = checks.filter((c) => c.verdict === 'fail').length
  return `${over === 0 ? 'None of' : `${over} of`} ${checks.length} above its alert; nearest ${most.title.split(': ').at(-1)}, at ${textOfUse(most.utilisation)} of it.`
}

interface Landed {
  steps?: Readonly<Record<string, { lift?: string; landing?: string; bay?: string }>>
}

export function nextLanding({ summary, document }: Facts): string {
  const activity = toCome(summary).find((a) => a.lift !== undefined)
  const step = Object.entries((document as Landed).steps ?? {}).find(([, s]) => s.lift === activity?.lift)
  if (activity === undefined || step === undefined) return 'No lift sets a piece on a bay.'
  return `Next: ${activity.name}${step[1].bay === undefined ? '' : `, to bay ${step[1].bay}`}; the plan and table show what stands there after each step.`
}
