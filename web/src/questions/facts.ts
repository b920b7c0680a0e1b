import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import type { ActivityView, CheckView, LiftView, Summary } from '../engine/protocol.ts'
import { figureOf } from '../parts/figures.ts'
import type { Shown } from '../state.ts'

/** What short answers are made from: the project as it is derived, and what has been simulated of it. */
export type Facts = Pick<Shown, 'summary' | 'document' | 'system'> & {
  risk?: Shown['risk']
  measures?: Shown['measures']
  /** Address of what is selected: a lift of it is the one that is asked about. */
  selected?: string | undefined
}

/** A quantity in words: "12.4 t". */
export function text(value: number | undefined, unit: SiUnit, system: UnitSystem): string {
  const { number, unit: label } = figureOf(value, unit, system)
  return `${number} ${label}`.trim()
}

export const checksOf = ({ checks }: Summary, ...kinds: string[]): CheckView[] =>
  checks.filter((c) => kinds.includes(c.kind))

/** Of checks, the one with the largest use; without any use the first that does not pass, else the first. */
export function worst(checks: readonly CheckView[]): CheckView | undefined {
  const used = checks.filter((c) => c.utilisation !== undefined)
  if (used.length > 0) return used.reduce((a, b) => ((b.utilisation ?? 0) > (a.utilisation ?? 0) ? b : a))
  return checks.find((c) => c.verdict !== 'pass') ?? checks[0]
}

/** The lift that is asked about: the selected one, else the heaviest of those that only lift. */
export function liftAsked({ summary, selected }: Facts): LiftView | undefined {
  const { lifts } = summary
  return (
    lifts.find((l) => `/lifts/${l.id}` === selected) ??
    heaviest(lifts.filter((l) => l.turning.length === 0)) ??
    heaviest(lifts)
  )
}

const heaviest = (lifts: readonly LiftView[]): LiftView | undefined =>
  lifts.reduce<LiftView | undefined>((a, b) => ((b.hookLoad ?? 0) > (a?.hookLoad ?? -1) ? b : a), undefined)

/** The turn that is asked about: the selected lift where it turns its piece, else the heaviest that does. */
export function turnAsked(facts: Facts): LiftView | undefined {
  const asked = liftAsked(facts)
  return asked !== undefined && asked.turning.length > 0
    ? asked
    : heaviest(facts.summary.lifts.filter((l) => l.turning.length > 0))
}

/** Activities that are not over on the day the project stands at, by start. */
export function toCome({ activities, today = 0 }: Summary): ActivityView[] {
  return activities.filter((a) => a.finish > today).sort((a, b) => a.start - b.start)
}

/** Counted things in words: "3 lifts", "1 lift". */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`
