import type { Reading } from './campaign.ts'

/** Things done one after another, each a tooth: width is time, density is pace. */
export interface Comb {
  count: number
  /** Instants in rising order; a long one is a hold point. */
  teeth: readonly { at: number; long: boolean }[]
}

/** Services parted or reconnected: each activity's services spread evenly over its time. */
export function servicesComb({ programme, when }: Reading, kind: 'part' | 'reconnect'): Comb {
  const teeth = Object.values(programme.activities).flatMap((a) => {
    const planned = when(a.id)
    if (a.kind !== kind || planned === undefined) return []
    const count = a.from.filter((p) => p.startsWith('/services/')).length
    const step = (planned.finish - planned.start) / Math.max(1, count)
    return Array.from({ length: count }, (_, k) => ({ at: planned.start + (k + 0.5) * step, long: false }))
  })
  return combOf(teeth)
}

/** Tests of the programme, at their starts. */
export function testsComb({ programme, when }: Reading): Comb {
  const teeth = Object.values(programme.activities).flatMap((a) => {
    const planned = when(a.id)
    return a.kind !== 'test' || planned === undefined ? [] : [{ at: planned.start, long: a.holdPoint !== undefined }]
  })
  return combOf(teeth)
}

const combOf = (teeth: Comb['teeth']): Comb => ({
  count: teeth.length,
  teeth: [...teeth].sort((a, b) => a.at - b.at),
})
