import type { Point2 } from '../outline/convex.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { fromCentre } from './distances.ts'
import { planOf } from './planFrame.ts'

/** The farthest lift planned from one standing of a crane. */
export interface Reach {
  system: string
  /** From 0, as lifts name it. */
  standing: number
  at: Point2
  /** From the shaft's centre, m. */
  away: number
  /** Largest radius passed, m. */
  radius: number
  lift: string
  /** Rated at that radius, kg; undefined where open. */
  rated: number | undefined
}

/** Standings from which a lift is planned, each with its farthest. */
export function reachesOf({ model, lift }: SheetStages): Reach[] {
  const { lifts, systems } = model.project
  const farthest = new Map<string, Reach>()
  for (const [id, planned] of Object.entries(lifts)) {
    const radius = planned.radius?.value
    const at = planned.standing === undefined ? undefined : systems[planned.system]?.standings[planned.standing]
    if (radius === undefined || at === undefined || planned.standing === undefined) continue
    const key = `${planned.system}/${planned.standing}`
    if ((farthest.get(key)?.radius ?? 0) >= radius) continue
    const plan = planOf(at)
    farthest.set(key, {
      system: planned.system,
      standing: planned.standing,
      at: plan,
      away: fromCentre(plan),
      radius,
      lift: id,
      rated: lift.lifts[id]?.rated.value,
    })
  }
  return [...farthest.values()]
}
