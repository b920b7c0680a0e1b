import type { Vec3 } from '../numeric/vector.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import type { Boom, BoomStanding } from './boom.ts'
import { boomChecks, boomOf } from './boomChecks.ts'
import { boomWaysOf } from './boomWay.ts'
import type { Hull } from './hull.ts'
import { type HungRigging, hungRigging } from './hungRigging.ts'
import type { Pick } from './pick.ts'
import { riggingChecks } from './riggingChecks.ts'
import type { TimedMotion } from './stages.ts'
import type { Suspension } from './suspension.ts'

/** Where what hangs over a piece, or the piece itself, comes nearest to something over its whole way. */
export interface NearestOverhead {
  /** Id of the check that it is the gap of. */
  check: string
  /** m; below zero it strikes. */
  gap: number
  /** What comes near, and to what, in words. */
  what: string
  to: string
  /** Where the gap begins, and the way from there to what is near; site frame, m. */
  from: Vec3
  along: Vec3
  /** The boom as it stands then, where it is to that, and how deep and wide it is, m. */
  boom?: BoomStanding & { depth: number; width: number }
}

/** Checks of it, and where the nearest is; nothing where there is nothing to come near to, or where it is open. */
export interface OverheadChecks {
  checks: Check[]
  nearest?: NearestOverhead
}

/** What is over a piece on its way: how its rigging hangs, the boom that it hangs from, and where either comes nearest. */
export interface Overhead {
  hung?: HungRigging
  boom?: Boom
  nearest: readonly NearestOverhead[]
}

/** What is over the piece of a lift, and its checks. */
export function overheadOf(
  pick: Pick,
  stages: readonly TimedMotion[],
  hull: Hull | undefined,
  suspension: Suspension,
  memory: Memory,
): { over: Overhead; checks: readonly Check[] } {
  const booms = boomChecks(pick, boomWaysOf(pick, hull, memory), { stages, hull, suspension })
  const all = [riggingChecks(pick, suspension, memory), ...booms]
  const [hung, boom] = [hungRigging(pick, suspension), boomOf(pick)]
  return {
    checks: all.flatMap(({ checks }) => checks),
    over: {
      ...(hung === undefined ? {} : { hung }),
      ...(boom === undefined ? {} : { boom }),
      nearest: all.flatMap(({ nearest }) => nearest ?? []),
    },
  }
}
