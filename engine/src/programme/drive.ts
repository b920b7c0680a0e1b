import type { Programme } from '../model/index.ts'
import { type Answer, given, knownOr } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { averageLearning, ringAdvance, unitLearning } from './drive.formulas.ts'

export type Drive = NonNullable<Programme['drive']>

/** One reach of the drive, m from the shaft, with its mean advance at full rate. */
export interface Reach {
  from: number
  to: number
  advance: Answer<'m/s'>
  pointer: string
}

const RING = '/programme/drive/ring'

/** Reaches of the drive in their order; a mean advance is stated or follows from the ring cycle. */
export function reachesOf(drive: Drive): Reach[] {
  return drive.stages.map(({ to, rate, cycle }, i) => {
    const pointer = pointerOf('programme', 'drive', 'stages', i)
    const advance =
      cycle === undefined
        ? (rate ?? given('m/s', `${pointer}/rate`, undefined))
        : ringAdvance.show({
            L: knownOr(drive.ring, 'm', RING),
            p: cycle.speed,
            b: cycle.build,
            o: cycle.other,
            A: cycle.available,
          })
    return { from: i === 0 ? 0 : (drive.stages[i - 1]?.to.value as number), to: to.value as number, advance, pointer }
  })
}

/** How much longer than at full rate each ring of the first so many takes; undefined while the length of a ring is not given. */
export function learningOf({ learning, ring }: Drive, length: number): Float64Array | undefined {
  if (learning === undefined) return new Float64Array(0)
  if (ring?.value === undefined) return undefined
  const r = learning.rate.value as number
  const f1 = learning.first.value as number
  const curve = learning.model === 'unit' ? unitLearning : averageLearning
  return Float64Array.from({ length: Math.ceil(length / ring.value) }, (_, i) => curve.value({ f1, n: i + 1, r }))
}
