import { waitsOf } from '../../strip/index.ts'
import { freshMemory } from '../../working/memory.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { DEFERRAL, INVENTED } from '../sheet/cautions.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import type { SheetStages } from '../sheet/subject.ts'

/** The order of taking apart, and what each step waits for, as plain data. */
export interface OrderSheet {
  project: string
  units: UnitSystem
  adopted: boolean
  feasible: boolean
  steps: readonly OrderStep[]
  deferral: string
  notice: string
}

/** One step of the order. */
export interface OrderStep {
  /** From 1. */
  place: number
  step: string
  piece: string
  lift: string | undefined
  /** The piece is only put aside. */
  aside: boolean
  /** Each is waited for; of several in one, any of them: the one that the order takes first, then what would do as well. */
  waits: readonly (readonly number[])[]
  joints: readonly string[]
  services: readonly string[]
  /** Least gap on the way, in words. */
  gap: string
  /** Why the step cannot be done as it stands, and what blocks it. */
  blocked: readonly string[]
}

/** The order as the file has it, or the quick default, with the and/or precedence under it; undefined where there are no steps. */
export function orderSheet({ model, mass, strip }: SheetStages, options: SheetOptions = {}): OrderSheet | undefined {
  const { about, pieces, settings, steps: planned } = model.project
  if (strip.steps.length === 0) return undefined
  const units = options.units ?? settings.units
  const ids = strip.steps.map((s) => (planned[s.step]?.stays === true ? s.step : s.piece))
  const waiting = new Map(waitsOf(model, mass, ids, freshMemory()).map((w) => [w.id, w]))
  const placeOf = (id: string): number[] => (ids.includes(id) ? [ids.indexOf(id) + 1] : [])
  const steps = strip.steps.map((s, i): OrderStep => {
    const own = waiting.get(ids[i] as string)
    return {
      place: i + 1,
      step: s.step,
      piece: pieces[s.piece]?.name ?? s.piece,
      lift: s.lift,
      aside: planned[s.step]?.stays === true,
      waits: (own?.after ?? [])
        .map((id) => [id, ...(own?.instead[id] ?? [])].flatMap(placeOf))
        .sort(([a = 0], [b = 0]) => a - b),
      joints: s.joints,
      services: s.services,
      gap: s.clearance === undefined ? '' : `${showQuantity(s.clearance.gap, 'm', units)} to ${s.clearance.to}`,
      blocked: s.failures.map(({ reason, blockers }) =>
        blockers.length === 0 ? reason : `${reason}: ${blockers.join(', ')}`,
      ),
    }
  })
  return {
    project: about.title,
    units,
    adopted: strip.adopted,
    feasible: strip.feasible,
    steps,
    deferral: DEFERRAL,
    notice: about.invented ? INVENTED : '',
  }
}

/** What a step waits for, in words: "2, 3 and one of 5, 6". */
export function waitsText({ waits }: Pick<OrderStep, 'waits'>): string {
  if (waits.length === 0) return 'waits for nothing'
  const sure = waits.flatMap((any) => (any.length === 1 ? any : []))
  const either = waits.filter((any) => any.length > 1).map((any) => `one of ${any.join(', ')}`)
  return `after ${[...(sure.length === 0 ? [] : [sure.join(', ')]), ...either].join(' and ')}`
}
