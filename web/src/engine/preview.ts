import type { Derivation, Stages } from '@shieldwright/engine'
import { checkChanges, tryChange } from '@shieldwright/engine'
import { leavesOf } from '@shieldwright/engine/working/answer.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Moved, Preview, Reach } from './protocol.ts'
import { checkView, summaryOf } from './view.ts'

export const STAGES = ['project', 'model', 'mass', 'strip', 'lift', 'ground', 'programme', 'risk', 'report'] as const

const NOTHING: Preview = {
  problems: [],
  moved: [],
  gone: [],
  restartBefore: undefined,
  restartAfter: undefined,
  reach: {},
  origin: undefined,
  milliseconds: 0,
}

/** What a change would do, worked out on a fork of the derivation and thrown away. */
export function previewOf(from: Derivation, patch: Patch): Preview {
  const began = performance.now()
  const tried = tryChange(from, patch)
  if (tried.derivation === undefined) return { ...NOTHING, problems: tried.problems }
  const [before, after] = [from.derived.stages, tried.derivation.derived.stages]
  if (before === undefined || after === undefined) return { ...NOTHING, problems: tried.derivation.derived.problems }
  return { ...consequences(before, after, patch), milliseconds: performance.now() - began }
}

function consequences(before: Stages, after: Stages, patch: Patch): Preview {
  const [earlier, later] = [checksById(before), checksById(after)]
  const changes = checkChanges(before.checks, after.checks)
  const moved = changes.flatMap(({ check }): Moved[] => {
    const now = later.get(check)
    return now === undefined ? [] : [{ check: checkView(now), before: viewOf(earlier.get(check)) }]
  })
  const reach = reachOf(before, after, moved, patch)
  return {
    ...NOTHING,
    moved,
    gone: changes.flatMap(({ check, after: still }) =>
      still === undefined ? [checkView(earlier.get(check) as Check)] : [],
    ),
    restartBefore: summaryOf(before).restart,
    restartAfter: summaryOf(after).restart,
    reach,
    origin: STAGES.find((stage) => reach[stage] === 'moved' || reach[stage] === 'read'),
  }
}

const checksById = ({ checks }: Stages): ReadonlyMap<string, Check> => new Map(checks.map((c) => [c.id, c]))

const viewOf = (check: Check | undefined) => (check === undefined ? undefined : checkView(check))

function reachOf(before: Stages, after: Stages, moved: readonly Moved[], patch: Patch): Record<string, Reach> {
  const movedStages = new Set(moved.map((m) => m.check.stage))
  if (before.programme.restart !== after.programme.restart) movedStages.add('programme')
  const readStages = new Set(after.checks.filter((c) => readsAny(c, patch)).map((c) => c.stage as string))
  return Object.fromEntries(
    STAGES.map((s): [string, Reach] => [s, movedStages.has(s) ? 'moved' : readStages.has(s) ? 'read' : 'none']),
  )
}

function readsAny(check: Check, patch: Patch): boolean {
  const leaves = [...leavesOf(check.demand), ...leavesOf(check.capacity)]
  return leaves.some((leaf) => patch.some((op) => leaf.pointer === op.path || leaf.pointer.startsWith(`${op.path}/`)))
}
