import type { Stages } from '@shieldwright/engine'
import { clearanceNow, overheadNow, type StandingParts, siteNow } from '@shieldwright/engine/lift/index.ts'
import { goldenSection } from '@shieldwright/engine/numeric/golden.ts'
import type { Pose, Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import { nearNow } from '@shieldwright/engine/strip/index.ts'
import type { Memory } from '@shieldwright/engine/working/memory.ts'
import type { Clear, ClearMoment, StepClearances } from './clearance.ts'
import type { Scene, SceneStep } from './scene.ts'
import { type Leg, posePartly } from './way.ts'

/** The least clearance of a step's way, moment by moment, out and back: sampled once, beside the page. */
export function clearancesOf(stages: Stages, scene: Scene, index: number, memory: Memory): StepClearances | undefined {
  const step = scene.steps[index]
  if (step === undefined) return undefined
  const standing = standingWhile(scene, index)
  const parts = measuredOnce(nearNow(stages.model, stages.mass, index, memory))
  const along = (lift: string | undefined): ClearMoment[] => {
    const plan = lift === undefined ? undefined : clearanceNow(stages.model, stages.mass, stages.strip, lift, memory)
    const over = lift === undefined ? undefined : overheadNow(stages.model, stages.mass, stages.strip, lift, memory)
    const site = siteNow(stages.model, stages.mass, { piece: step.piece, lift, standing }, memory)
    const measured = (move: number, pose: Pose): Near[] => [
      ...parts(move, pose),
      ...(plan?.(pose) ?? []),
      ...(over?.(pose) ?? []),
      ...(site?.(pose) ?? []),
    ]
    return momentsOf(step, measured, (near) => namedNear(stages, step, lift, near))
  }
  return { out: along(step.lift), back: along(step.back) }
}

/** The way back goes through the poses of the way out: what is measured there to parts is the same. */
function measuredOnce(measure: ReturnType<typeof nearNow>): ReturnType<typeof nearNow> {
  const known = new Map<string, ReturnType<typeof measure>>()
  return (move, pose) => {
    const key = JSON.stringify([move, pose])
    const found = known.get(key) ?? measure(move, pose)
    known.set(key, found)
    return found
  }
}

/** What earlier steps have set down on the bays and is still there, as it is drawn; without what the piece itself is taken from. */
function standingWhile(scene: Scene, index: number): StandingParts[] {
  const own = new Set(scene.steps[index]?.parts)
  const taken = new Set<string>()
  const standing: StandingParts[] = []
  for (const { step, name, parts, passage } of scene.steps.slice(0, index).toReversed()) {
    const left = parts.filter((part) => !taken.has(part))
    for (const part of parts) taken.add(part)
    const isOwn = left.some((part) => own.has(part))
    if (passage.bay === undefined || isOwn || left.length === 0) continue
    standing.push({ id: step, name, parts: left, pose: passage.way.poses.at(-1) as Pose })
  }
  return standing
}

/** A gap as the stages give it. */
interface Near {
  gap: number
  to: string
  part: string
  name?: string
  as?: string
  check?: string
  from: Vec3
  at: Vec3
}

/** What is measured: the same thing is near the piece and near its rigging. */
const pairOf = ({ to, check }: Near): string => `${check ?? ''} ${to}`

/** Spacing of the samples: along the way, m, and over a turn, rad. */
const APART = 0.25
const TURNED = 0.06
const FEWEST = 6
const MOST = 120
/** Rounds in which the least is looked for between samples. */
const ROUNDS = 14

function momentsOf(
  {
    passage: {
      way,
      planned: [first],
    },
  }: SceneStep,
  measured: (move: number, pose: Pose) => Near[],
  named: (near: Near) => Clear,
): ClearMoment[] {
  const shares = new Map<number, Near[]>()
  for (const [k, leg] of way.legs.entries()) {
    const start = way.poses[k] as Pose
    const begun = way.until[k - 1] ?? 0
    const width = (way.until[k] as number) - begun
    const at = (part: number): Near[] => {
      const share = begun + width * part
      const known = shares.get(share) ?? measured(k - first, posePartly(start, leg, part))
      shares.set(share, known)
      return known
    }
    const count = Math.min(MOST, Math.max(FEWEST, Math.ceil(lengthOf(leg))))
    const sampled = Array.from({ length: count + 1 }, (_, i) => at(i / count))
    for (const pair of nearlyLeast(sampled)) lookCloser(pair, sampled, at)
  }
  return [...shares]
    .sort(([a], [b]) => a - b)
    .map(([share, near]) => {
      const least = leastOf(near)
      return { share, near: least === undefined ? undefined : named(least) }
    })
}

/** What is nearest at some sample, or so nearly that it may be nearest between two. */
const nearlyLeast = (sampled: readonly Near[][]): ReadonlySet<string> =>
  new Set(
    sampled.flatMap((near) => {
      const least = leastOf(near)?.gap ?? Infinity
      return near.filter(({ gap }) => gap < least + APART).map(pairOf)
    }),
  )

const lengthOf = (leg: Leg): number => ('by' in leg ? Math.hypot(...leg.by) / APART : Math.hypot(...leg.turn) / TURNED)

const leastOf = (near: readonly Near[]): Near | undefined =>
  near.reduce<Near | undefined>((best, n) => (best === undefined || n.gap < best.gap ? n : best), undefined)

/** The least gap to one thing, where it lies between two samples; at the ends of a leg it is known. */
function lookCloser(pair: string, sampled: readonly Near[][], at: (part: number) => Near[]): void {
  const gaps = sampled.map((near) => gapOf(near, pair))
  const least = gaps.indexOf(Math.min(...gaps))
  const count = sampled.length - 1
  if (least === 0 || least === count) return
  goldenSection(
    (part) => -gapOf(at(part), pair),
    (height) => height,
    { from: (least - 1) / count, to: (least + 1) / count, sections: ROUNDS },
  )
}

const gapOf = (near: readonly Near[], pair: string): number => near.find((n) => pairOf(n) === pair)?.gap ?? Infinity

function namedNear(stages: Stages, { step }: SceneStep, lift: string | undefined, near: Near): Clear {
  const { project } = stages.model
  const nameOf = (id: string): string =>
    stages.model.instances.byId.get(id)?.part.name ?? project.shaft?.obstructions[id]?.what ?? id
  const check = stages.checks.find(
    ({ subject, id }) =>
      id === near.check ||
      (near.check === undefined && (subject.id === step || subject.id === lift) && id.endsWith(`/${near.to}`)),
  )
  return {
    gap: near.gap,
    to: near.to,
    part: nameOf(near.part),
    name: near.name ?? (near.to === 'wall' ? 'wall of the shaft' : nameOf(near.to)),
    ...(near.as === undefined ? {} : { as: near.as }),
    ends: [near.from, near.at],
    ...(check === undefined ? {} : { check: check.id }),
    short: check?.verdict === 'fail',
  }
}
