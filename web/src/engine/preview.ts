import type { Derivation, Stages } from '@shieldwright/engine'
import { checkChanges, plannedRestart, type Tried, tryChange } from '@shieldwright/engine'
import type { Check } from '@shieldwright/engine/working/check.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { restingOn } from './addresses.ts'
import { NO_PREVIEW } from './noPreview.ts'
import type { FigureMoved, Moved, Preview, Reach, StartMoved } from './protocol.ts'
import { STAGES } from './stages.ts'
import { checkView } from './view.ts'

/** A change worked out on a fork of a derivation, for it to be thrown away or kept. */
export interface Trying {
  from: Derivation
  patch: Patch
  preview: Preview
  /** Undefined where the change makes no project. */
  tried: Tried | undefined
}

/** What a change would do. */
export function tryingOf(from: Derivation, patch: Patch): Trying {
  const began = performance.now()
  const { derivation, problems } = tryChange(from, patch)
  if (derivation === undefined) return { from, patch, preview: { ...NO_PREVIEW, problems }, tried: undefined }
  const tried = derivation.derived.stages === undefined ? undefined : derivation
  return { from, patch, preview: differenceOf(from, derivation, patch, began), tried }
}

/** What moved from one derivation to the next, and who read the patch between them without moving. */
export function differenceOf(from: Derivation, to: Derivation, patch: Patch, began: number): Preview {
  const [before, after] = [from.derived.stages, to.derived.stages]
  if (before === undefined || after === undefined) return { ...NO_PREVIEW, problems: to.derived.problems }
  const [earlier, later] = [checksById(before), checksById(after)]
  const changes = checkChanges(before.checks, after.checks)
  const moved = changes.flatMap(({ check }): Moved[] => {
    const now = later.get(check)
    return now === undefined ? [] : [{ check: checkView(now), before: viewOf(earlier.get(check)) }]
  })
  const [figures, starts] = [figuresMoved(before, after), startsMoved(before, after)]
  const read = readers(before, after, patch, moved)
  const reach = reachOf(moved, read, [...figures.map((f) => f.stage), ...(starts.length > 0 ? ['programme'] : [])])
  return {
    ...NO_PREVIEW,
    moved,
    gone: changes.flatMap(({ check, after: still }) =>
      still === undefined ? [checkView(earlier.get(check) as Check)] : [],
    ),
    restartBefore: restartOf(before),
    restartAfter: restartOf(after),
    figures,
    starts,
    read: read.map((check) => check.id),
    results: after.checks.length,
    reach,
    origin: STAGES.find((stage) => reach[stage] === 'moved' || reach[stage] === 'read'),
    milliseconds: performance.now() - began,
  }
}

const checksById = ({ checks }: Stages): ReadonlyMap<string, Check> => new Map(checks.map((c) => [c.id, c]))

const viewOf = (check: Check | undefined) => (check === undefined ? undefined : checkView(check))

function restartOf(stages: Stages): number | undefined {
  const planned = plannedRestart(stages)
  return planned === null ? undefined : Date.parse(planned)
}

function reachOf(moved: readonly Moved[], read: readonly Check[], alsoMoved: readonly string[]): Record<string, Reach> {
  const movedStages = new Set([...moved.map((m) => m.check.stage), ...alsoMoved])
  const readStages = new Set<string>(read.map((c) => c.stage))
  return Object.fromEntries(
    STAGES.map((s): [string, Reach] => [s, movedStages.has(s) ? 'moved' : readStages.has(s) ? 'read' : 'none']),
  )
}

/** Checks that read the patch and did not move: by the addresses they rest on, or by having been worked out again. */
function readers(before: Stages, after: Stages, patch: Patch, moved: readonly Moved[]): Check[] {
  const movedIds = new Set(moved.map((m) => m.check.id))
  const still = after.checks.filter((c) => !movedIds.has(c.id))
  const resting = still.filter(restingOn(patch))
  if (resting.length > 0 || moved.length > 0) return resting
  const earlier = new Set(before.checks)
  return still.filter((c) => !earlier.has(c))
}

const MOST_FIGURES = 24

function figuresMoved(before: Stages, after: Stages): FigureMoved[] {
  const all = [...pieceFigures(before, after), ...liftFigures(before, after)]
  const share = ({ before: was, after: is }: FigureMoved): number =>
    was === undefined || is === undefined ? Number.MAX_VALUE : Math.abs(is - was) / Math.max(Math.abs(was), 1e-9)
  return all.sort((a, b) => share(b) - share(a)).slice(0, MOST_FIGURES)
}

function pieceFigures(before: Stages, after: Stages): FigureMoved[] {
  return Object.entries(after.mass.pieces).flatMap(([id, masses]) => {
    const earlier = before.mass.pieces[id]
    if (earlier === masses) return []
    const name = after.model.project.pieces[id]?.name ?? id
    const figure = (what: string, was: number | undefined, is: number | undefined): FigureMoved[] =>
      was === is ? [] : [{ stage: 'mass', pointer: `/pieces/${id}`, name, what, unit: 'kg', before: was, after: is }]
    return [
      ...figure('as found', earlier?.found.net.value, masses.found.net.value),
      ...figure('as weighed', earlier?.weighed?.net.value, masses.weighed?.net.value),
      ...figure('as returned', earlier?.returned.net.value, masses.returned.net.value),
    ]
  })
}

function liftFigures(before: Stages, after: Stages): FigureMoved[] {
  return Object.values(after.lift.lifts).flatMap((lift): FigureMoved[] => {
    const [was, is] = [before.lift.lifts[lift.id]?.hookLoad.value, lift.hookLoad.value]
    if (was === is) return []
    const name = `${after.model.project.pieces[lift.piece]?.name ?? lift.piece}, ${lift.kind}`
    return [
      { stage: 'lift', pointer: `/lifts/${lift.id}`, name, what: 'under the hook', unit: 'kg', before: was, after: is },
    ]
  })
}

const MOST_STARTS = 12

function startsMoved(before: Stages, after: Stages): StartMoved[] {
  const [zeroBefore, zeroAfter] = [before, after].map((s) => Date.parse(s.programme.origin ?? '')) as [number, number]
  const instant = (zero: number, seconds: number | undefined) =>
    seconds === undefined || Number.isNaN(zero) ? undefined : zero + seconds * 1000
  const moves = Object.entries(after.programme.plan).flatMap(([id, when]): StartMoved[] => {
    const was = instant(zeroBefore, before.programme.plan[id]?.start)
    const is = instant(zeroAfter, when?.start)
    const name = after.programme.activities[id]?.name ?? id
    return was === is ? [] : [{ id, name, critical: when?.critical === true, before: was, after: is }]
  })
  const days = (m: StartMoved): number => Math.abs((m.after ?? 0) - (m.before ?? 0))
  return moves.sort((a, b) => Number(b.critical) - Number(a.critical) || days(b) - days(a)).slice(0, MOST_STARTS)
}
