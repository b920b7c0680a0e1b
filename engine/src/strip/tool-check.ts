import type { Model } from '../model/index.ts'
import type { Body } from '../numeric/body.ts'
import { type Cell, cellOf } from '../numeric/cell.ts'
import { encounter } from '../numeric/encounter.ts'
import { extentGap } from '../numeric/hull.ts'
import { straightMotion } from '../numeric/motion.ts'
import { AT_REST, add, compose, inverse, type Pose, scale, type Vec3 } from '../numeric/vector.ts'
import { type Answer, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import { pointerOf } from '../working/pointer.ts'
import { givensIn } from './givens.ts'
import type { JointSides } from './joint.ts'
import { toolKind } from './kinds.ts'
import type { Surroundings } from './path.ts'
import { stepSubject } from './step-checks.ts'
import type { VerifiedStep } from './verify.ts'

/**
 * Whether the tool fits over every head of the bolted joints that a step opens, among all that stands there as they are
 * opened: before the piece moves. A joint whose heads or tool the file does not give is open. Undefined where nothing bolted
 * is opened.
 */
export function toolCheck(
  model: Model,
  step: VerifiedStep,
  around: Surroundings,
  shapes: Readonly<Record<string, Answer>>,
): Check | undefined {
  const bolted = step.release.joints.filter(({ joint }) => joint.bolts !== undefined)
  if (bolted.length === 0) return undefined
  const tight = bolted.flatMap((joint) => tightHeads(joint, step, around))
  const looked = bolted.filter(({ joint }) => joint.tool !== undefined && joint.fasteners !== undefined)
  const entries = new Set([...placesOf(step).keys()].map((id) => model.instances.byId.get(id)?.entry as string))
  return check({
    kind: toolKind,
    subject: stepSubject(model, step),
    demand: faultsFound(tight.length, 'heads over which the tool strikes something that stands', {
      ...Object.fromEntries(bolted.flatMap(missingOf)),
      ...(looked.length === 0
        ? {}
        : Object.fromEntries([...entries].map((entry) => [`shape of ${entry}`, shapes[entry] as Answer]))),
    }),
    capacity: NONE,
    near: model.near,
    assumptions: looked.length === 0 ? [] : ['hands, hoses and the one who holds the tool are not in the way'],
    found: tight.map(
      ({ id, head, by }) => `the tool at head ${head} of "${id}" strikes ${by.map((b) => `"${b}"`).join(', ')}`,
    ),
  })
}

function missingOf({ id, joint }: JointSides): [string, Answer][] {
  const at = (...field: string[]) => pointerOf('joints', id, ...field)
  const { tool, fasteners } = joint
  return [
    [
      `heads of ${id}`,
      fasteners === undefined
        ? given('m', at('fasteners'), undefined)
        : (givensIn(fasteners)[0] ?? given('m', at('fasteners', 'heads'), undefined)),
    ],
    [`length of the tool of ${id}`, knownOr(tool?.length, 'm', at('tool', 'length'))],
    [`swing of the tool of ${id}`, knownOr(tool?.swing, 'm', at('tool', 'swing'))],
  ]
}

interface TightHead {
  id: string
  /** Number of the head, from 1. */
  head: number
  by: readonly string[]
}

/** Where each part stands as the joints are opened. */
const placesOf = ({ placed }: VerifiedStep): ReadonlyMap<string, Pose> => new Map([...placed.staying, ...placed.moving])

function tightHeads({ id, joint, sides }: JointSides, step: VerifiedStep, around: Surroundings): TightHead[] {
  const { tool, fasteners } = joint
  if (tool === undefined || fasteners === undefined) return []
  const places = placesOf(step)
  const own = sides.flat().find((part) => places.has(part))
  const pose = own === undefined ? AT_REST : (places.get(own) as Pose)
  return headsOf(joint).flatMap((head, i) => {
    const room = cellOf(roomOver(head, joint), AT_REST) as Cell
    const by = [...places].filter(([part, place]) =>
      isStruck(room, part, seenFrom(place, pose, around.machine), around),
    )
    return by.length === 0 ? [] : [{ id, head: i + 1, by: by.map(([part]) => part) }]
  })
}

/** Where the joint stands, seen from a part in another place. */
const seenFrom = (place: Pose, joint: Pose, machine: Pose): Pose =>
  place === joint ? AT_REST : compose(inverse(compose(place, machine)), compose(joint, machine))

function isStruck(room: Cell, part: string, pose: Pose, { cells, tolerance }: Surroundings): boolean {
  const standing = cells.get(part)
  if (standing === undefined) return false
  const motion = straightMotion(pose, [0, 0, 0])
  if (extentGap(motion.extent(room), standing.extent) > 0) return false
  const own = standing.solids.map((s) => s.cell)
  return encounter([room], own, motion, { tolerance, reach: 0, resolution: tolerance }).verdict !== 'clear'
}

type Joint = JointSides['joint']

const WAYS: Readonly<Record<string, Vec3>> = {
  '+x': [1, 0, 0],
  '-x': [-1, 0, 0],
  '+y': [0, 1, 0],
  '-y': [0, -1, 0],
  '+z': [0, 0, 1],
  '-z': [0, 0, -1],
}

function roomOver(head: Vec3, { tool, fasteners }: Joint): Body {
  const [length, swing] = [tool?.length.value ?? 0, tool?.swing.value ?? 0]
  const way = WAYS[fasteners?.off ?? '+x'] as Vec3
  return { kind: 'frustum', from: head, to: add(head, scale(way, length)), radii: [swing, swing] }
}

/** Heads given one by one, and those of the circle. */
export function headsOf({ fasteners, bolts }: Joint): readonly Vec3[] {
  if (fasteners === undefined) return []
  const numbers = (p: readonly { value: number | undefined }[]): Vec3 => p.map((c) => c.value ?? 0) as unknown as Vec3
  const { heads, circle, off } = fasteners
  const given = heads.map(numbers)
  if (circle === undefined || bolts === undefined) return given
  const k = 'xyz'.indexOf(off[1] as string)
  const centre = numbers(circle.centre)
  const radius = (circle.diameter.value ?? 0) / 2
  const onCircle = Array.from({ length: bolts.count }, (_, i): Vec3 => {
    const angle = (circle.first?.value ?? 0) + (2 * Math.PI * i) / bolts.count
    const out: [number, number, number] = [0, 0, 0]
    out[(k + 1) % 3] = radius * Math.cos(angle)
    out[(k + 2) % 3] = radius * Math.sin(angle)
    return add(centre, out)
  })
  return [...given, ...onCircle]
}
