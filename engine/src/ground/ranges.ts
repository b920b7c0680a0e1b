import type { LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Ground, Model } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import type { Answer, Given } from '../working/answer.ts'
import type { Check, Verdict } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { ground } from './ground.ts'

/** How a check of the ground moves when a soil value or a water level moves from its best estimate to an end of its range. */
export interface RangedCheck {
  id: string
  kind: string
  title: string
  /** Id of what it is about. */
  subject: string
  /** At the best estimates. */
  best: Standing
  /** By value, the one that moves it most first; values that do not move it are left out. */
  moves: readonly Move[]
  /** Every value that moves it at its worse end at once. */
  worst: Standing
}

/** Where a check stands. */
export interface Standing {
  use: number | undefined
  verdict: Verdict
}

export interface Move {
  /** Address of the best estimate. */
  pointer: string
  low: Standing & { value: Answer }
  high: Standing & { value: Answer }
}

/** What the ground is worked from, beside the model. */
export interface GroundFrom {
  mass: MassResult
  strip: StripResult
  lift: LiftResult
}

type End = 'low' | 'high'

/** A value with a range. */
interface Ranged {
  pointer: string
  of: 'layers' | 'water'
  id: string
  field: string
  low: Given
  high: Given
}

/**
 * Every check of the ground that moves with the ranges the project gives, by working the ground again: with one value at an end
 * of its range and the rest at their best estimates, then with all at their worse ends at once. Exact for each, no slopes; that
 * the worse end of one value is the same whatever the others are is taken, not shown.
 *
 * @returns the checks that move, the one that comes nearest to its limit first; nothing where no range is given
 */
export function groundRanges(model: Model, from: GroundFrom, memory: Memory): RangedCheck[] {
  const { ground: soil } = model.project
  if (soil === undefined) return []
  const ranged = rangedOf(soil)
  const fork = memory.fork()
  const worked = (ends: ReadonlyMap<Ranged, End>): Map<string, Check> => {
    const moved = { ...model, project: { ...model.project, ground: movedTo(soil, ends) } }
    const { checks } = ground(moved, from.mass, from.strip, from.lift, fork)
    return new Map(checks.map((c) => [c.id, c]))
  }
  const best = worked(new Map())
  const at = ranged.map((r) => ({ r, low: worked(new Map([[r, 'low']])), high: worked(new Map([[r, 'high']])) }))
  const together = new Map<string, Map<string, Check>>()
  const worst = (ends: ReadonlyMap<Ranged, End>): Map<string, Check> => {
    const key = [...ends].map(([{ pointer }, end]) => `${pointer} ${end}`).join()
    const known = together.get(key) ?? worked(ends)
    together.set(key, known)
    return known
  }
  return [...best.values()]
    .flatMap((check): RangedCheck[] => {
      const moving = at
        .map(({ r, low, high }) => ({ r, low: standing(low.get(check.id)), high: standing(high.get(check.id)) }))
        .filter(({ low, high }) => isMoved(standing(check), low) || isMoved(standing(check), high))
      if (moving.length === 0) return []
      const ends = new Map(
        moving.map(({ r, low, high }) => [r, badness(low) > badness(high) ? 'low' : 'high'] as const),
      )
      const { id, kind, title, subject } = check
      const moves = moving
        .map(({ r, low, high }) => ({
          pointer: r.pointer,
          low: { value: r.low, ...low },
          high: { value: r.high, ...high },
        }))
        .sort((a, b) => reach(b) - reach(a))
      return [
        { id, kind, title, subject: subject.id, best: standing(check), moves, worst: standing(worst(ends).get(id)) },
      ]
    })
    .sort((a, b) => badness(b.worst) - badness(a.worst))
}

const standing = (check: Check | undefined): Standing => ({
  use: check?.utilisation,
  verdict: check?.verdict ?? 'open',
})

const isMoved = (a: Standing, b: Standing): boolean =>
  a.verdict !== b.verdict || Math.abs((a.use ?? 0) - (b.use ?? 0)) > 1e-9

/** Larger is worse; a failure without a figure is worse than any. */
const badness = ({ use, verdict }: Standing): number =>
  use ?? (verdict === 'fail' ? Number.POSITIVE_INFINITY : verdict === 'open' ? Number.MAX_VALUE : 0)

const reach = ({ low, high }: Move): number => Math.abs(badness(high) - badness(low))

function rangedOf({ layers, water }: Ground): Ranged[] {
  const under = (of: 'layers' | 'water', all: Readonly<Record<string, { range?: object | undefined }>>) =>
    Object.entries(all).flatMap(([id, { range = {} }]) =>
      Object.entries(range as Record<string, readonly [Given, Given] | undefined>).flatMap(([field, ends]) =>
        ends === undefined
          ? []
          : [{ pointer: `/ground/${of}/${id}/${field}`, of, id, field, low: ends[0], high: ends[1] }],
      ),
    )
  return [...under('layers', layers), ...under('water', water)]
}

/** The ground with some values at an end of their range; what does not move keeps its identity. */
function movedTo(soil: Ground, ends: ReadonlyMap<Ranged, End>): Ground {
  let moved = soil
  for (const [ranged, end] of ends) {
    const { of, id, field } = ranged
    const all = moved[of] as Readonly<Record<string, object>>
    moved = { ...moved, [of]: { ...all, [id]: { ...all[id], [field]: ranged[end] } } }
  }
  return moved
}
