import type { Segment } from '../numeric/segment.ts'
import type { Memory } from '../working/memory.ts'
import { lineOf, type Moment, momentsOf } from './boom.ts'
import { type BoomFigures, boomFigures } from './boomFigures.ts'
import { type HookOver, hookOver } from './hookCourse.ts'
import type { Hull } from './hull.ts'
import { machinesOf } from './machines.ts'
import { type Hooked, identityOf, type Pick } from './pick.ts'
import { stagesOf, type TimedMotion } from './stages.ts'
import { isCrane } from './swept.ts'
import { type OpenTurn, type Turning, turningOf } from './turningOf.ts'
import { worstOfTurn } from './worstOfTurn.ts'

/** A crane of a lift with its boom, moment by moment. */
export interface BoomWay {
  hooked: Hooked
  /** All its hooks in this lift, and where each stands; the boom goes over the first. */
  hooks: readonly { hooked: Hooked; hookOver: HookOver }[]
  figures: BoomFigures
  stages: readonly TimedMotion[]
  /** Empty while its boom or standing is not known. */
  moments: readonly Moment[]
  /** The line of its boom in each of them. */
  lines: readonly Segment[]
}

/** The same, kept while nothing in the lift and its piece changed; asked for only of a lift that a crane carries. */
export function boomWaysOf(pick: Pick, hull: Hull | undefined, memory: Memory): readonly BoomWay[] {
  if (!machinesOf(pick).some(({ system }) => isCrane(system))) return []
  return memory.once(`lift-boom-way/${pick.id}`, [...identityOf(pick), hull], () =>
    boomWays(
      pick,
      stagesOf(pick, hull),
      pick.lift.turn !== undefined && pick.tail !== undefined ? turningOf(pick, hull) : undefined,
    ),
  )
}

/** Every crane that carries a lift; none where it hangs from towers, gantries or hoists. */
function boomWays(pick: Pick, stages: readonly TimedMotion[], turning: Turning | OpenTurn | undefined): BoomWay[] {
  return machinesOf(pick)
    .filter(({ system }) => isCrane(system))
    .map((hooked) => {
      const own = pick.tail === undefined ? [pick.main] : [pick.main, pick.tail]
      const hooks = own
        .filter(({ systemId }) => systemId === hooked.systemId)
        .map((one) => ({ hooked: one, hookOver: hookOver(pick, one, turning) }))
      const figures = boomFigures(pick, hooked)
      const over = hookOver(pick, hooked, turning)
      const { boom } = figures
      const planned = boom === undefined ? [] : momentsOf(pick, stages, boom.centre, over)
      const moments =
        boom === undefined || turning === undefined || 'open' in turning
          ? planned
          : [...planned, ...worstOfTurn(pick, hooked, { stages, moments: planned, centre: boom.centre, turning })]
      const lines = boom === undefined ? [] : moments.map((moment) => lineOf(boom, moment))
      return { hooked, hooks, figures, stages, moments, lines }
    })
}
