import { neededBy } from '../../programme/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import type { Reading } from './campaign.ts'

/** Something ordered: when it was or will be, when the plan has it on site, and when it is first needed. */
export interface Supply {
  id: string
  pointer: string
  activity: string
  what: string
  ordered: number
  arrives: number
  /** Start of the first activity that cannot do without it. */
  needed: number | undefined
}

/** Deliveries of the programme in the order of their coming. */
export function suppliesOf({ model, programme, when }: Reading): Supply[] {
  const all = Object.values(programme.activities)
  const deliveries = Object.entries(model.project.programme?.deliveries ?? {})
  return deliveries
    .flatMap(([id, delivery]): Supply[] => {
      const planned = when(delivery.activity)
      if (planned === undefined) return []
      const needing = neededBy(delivery, all).flatMap((a) => when(a)?.start ?? [])
      return [
        {
          id,
          pointer: pointerOf('programme', 'deliveries', id),
          activity: delivery.activity,
          what: delivery.what,
          ordered: planned.start,
          arrives: planned.finish,
          needed: needing.length === 0 ? undefined : Math.min(...needing),
        },
      ]
    })
    .sort((a, b) => a.ordered - b.ordered || a.arrives - b.arrives)
}
