import type { Move } from '../model/index.ts'
import { AT_REST, type Pose } from '../numeric/vector.ts'
import { sameContent } from '../working/memory.ts'
import { posesAlong } from './motion.ts'

/** Instances that stand together, each with the pose it has now from the one as found, site frame. */
export interface Group {
  /** `shaft` for the machine as it rests in the shaft; otherwise the step that brought the piece out. */
  id: string
  parts: ReadonlyMap<string, Pose>
}

/** One step of an order, its parts written out as instances. */
export interface OrderStep {
  step: string
  /** Where the step stands in the project file. */
  pointer: string
  piece: string
  parts: readonly string[]
  moves: readonly Move[]
  lift?: string
  stays: boolean
  /** What holds a piece that stays, or what the step leaves loose. */
  support?: string
}

/** A step put in its place: what moves, among what. */
export interface PlacedStep {
  order: OrderStep
  group: string
  moving: ReadonlyMap<string, Pose>
  staying: ReadonlyMap<string, Pose>
  poses: readonly Pose[]
  /** Instances in the shaft once it is done. */
  remaining: readonly string[]
  /** Parts that are not where the step would find them, with the reason. */
  missing: readonly { part: string; reason: string }[]
}

export const SHAFT = 'shaft'

/**
 * Follows an order from step to step: which parts move, what stands with them, and from where. A piece whose parts all
 * lie in a piece brought out before is taken apart there, among the parts of that piece only.
 */
export function placeSteps(order: readonly OrderStep[], instances: Iterable<string>): readonly PlacedStep[] {
  let groups: readonly Group[] = [{ id: SHAFT, parts: new Map([...instances].map((id) => [id, AT_REST])) }]
  return order.map((step) => {
    const { placed, after } = place(step, groups)
    groups = after
    return placed
  })
}

function place(order: OrderStep, groups: readonly Group[]): { placed: PlacedStep; after: readonly Group[] } {
  const group = groupOf(order.parts, groups)
  const moving = new Map<string, Pose>()
  for (const part of order.parts) {
    const pose = group.parts.get(part)
    if (pose !== undefined) moving.set(part, pose)
  }
  const staying = new Map([...group.parts].filter(([id]) => !moving.has(id)))
  const poses = posesAlong(moving.values().next().value ?? AT_REST, order.moves)
  const after = groupsAfter(order, group, moving, staying, poses[poses.length - 1] as Pose, groups)
  const missing = order.parts.flatMap((part) => apartReason(part, group, moving, groups))
  const remaining = [...(after.find((g) => g.id === SHAFT)?.parts.keys() ?? [])]
  return { placed: { order, group: group.id, moving, staying, poses, remaining, missing }, after }
}

/** The group with most of the parts; the first of equals. */
function groupOf(parts: readonly string[], groups: readonly Group[]): Group {
  const held = (g: Group) => parts.filter((part) => g.parts.has(part)).length
  return groups.reduce((best, g) => (held(g) > held(best) ? g : best))
}

function apartReason(part: string, group: Group, moving: ReadonlyMap<string, Pose>, groups: readonly Group[]) {
  const pose = moving.get(part)
  if (pose === undefined) {
    const elsewhere = groups.find((g) => g.parts.has(part))
    const reason =
      elsewhere === undefined ? 'is no part of the machine' : `is no longer with the others: ${placeText(elsewhere.id)}`
    return [{ part, reason }]
  }
  const first = moving.values().next().value as Pose
  return pose === first || sameContent(pose, first)
    ? []
    : [{ part, reason: `stands apart from the rest of the piece, moved before (${placeText(group.id)})` }]
}

const placeText = (group: string): string =>
  group === SHAFT ? 'it is still in the shaft' : `it went out with step ${group}`

function groupsAfter(
  { step, stays }: OrderStep,
  group: Group,
  moving: ReadonlyMap<string, Pose>,
  staying: ReadonlyMap<string, Pose>,
  end: Pose,
  groups: readonly Group[],
): readonly Group[] {
  const moved = new Map([...moving.keys()].map((id) => [id, end]))
  if (stays) return groups.map((g) => (g === group ? { id: g.id, parts: new Map([...staying, ...moved]) } : g))
  const others = groups.flatMap((g) =>
    g !== group ? [g] : staying.size > 0 || g.id === SHAFT ? [{ id: g.id, parts: staying }] : [],
  )
  return moved.size === 0 ? others : [...others, { id: step, parts: moved }]
}
