import { type MassResult, solidShape } from '../mass/index.ts'
import { type Change, type Instance, idsMeant, type Model, poseOfInstance } from '../model/index.ts'
import { type Answer, given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { givensIn } from './givens.ts'
import { returnKind } from './kinds.ts'
import { legsOf } from './leg.ts'
import { type Meeting, type Mover, meetings } from './meet.ts'
import { fixedMeetings, moverOf, partStander, type Surroundings, surroundingsOf } from './path.ts'
import { cellsOf, type PartCells, shapeAnswers } from './shape.ts'
import { pathInputs, stepSubject } from './step-checks.ts'
import type { VerifiedStep } from './verify.ts'

/** A change in force, with the instances it reaches. */
interface Acting {
  id: string
  change: Change
  instances: readonly string[]
}

/** Check 17: each way out, reversed, with what the changes add to the piece and to what stands. */
export function returnChecks(
  model: Model,
  mass: MassResult,
  steps: readonly VerifiedStep[],
  memory: Memory,
): readonly Check[] {
  const acting = actingChanges(model, memory)
  const around = surroundingsOf(model, mass, memory)
  const shapes = shapeAnswers(model, mass, memory)
  const added = addedCells(model, acting, around.cells, memory)
  const orderIds = steps.map((s) => s.step.step)
  return steps.flatMap((step, index) => {
    if (!comesBack(model, step)) return []
    const inputs = [step, acting, around, shapes, added, model.near]
    return memory.once(`strip-return/${step.step.step}`, inputs, () =>
      returnCheck({ model, step, index, orderIds, acting, around, shapes, added, memory }),
    )
  })
}

const comesBack = ({ instances }: Model, { placed }: VerifiedStep): boolean =>
  [...placed.moving.keys()].some((id) => instances.byId.get(id)?.part.fate !== 'scrapped')

function actingChanges({ project, instances }: Model, memory: Memory): readonly Acting[] {
  const ids = memory.settled('strip/ids', [...instances.byId.keys()])
  return memory.once('strip-acting', [project.changes, ids], () =>
    Object.entries(project.changes)
      .filter(([, { status }]) => status === 'approved' || status === 'done')
      .map(([id, change]) => ({ id, change, instances: change.parts.flatMap((part) => idsMeant(instances, part)) })),
  )
}

/** What changes add, as cells, by the instance it is added to. */
function addedCells(
  model: Model,
  acting: readonly Acting[],
  cells: Surroundings['cells'],
  memory: Memory,
): ReadonlyMap<string, readonly PartCells[]> {
  return memory.once('strip-added', [acting, cells], () => {
    const grown = new Map<string, PartCells[]>()
    for (const { id, change, instances } of acting) {
      const shapes = (change.added?.solids ?? []).map((solid) => solidShape(solid, model.meshes))
      if (shapes.length === 0) continue
      for (const part of instances) {
        const pose = poseOfInstance(model.instances.byId.get(part) as Instance)
        grown.set(part, [...(grown.get(part) ?? []), cellsOf(`${part} with ${id}`, shapes, pose)])
      }
    }
    return grown
  })
}

interface Way {
  model: Model
  step: VerifiedStep
  index: number
  orderIds: readonly string[]
  acting: readonly Acting[]
  around: Surroundings
  shapes: Readonly<Record<string, Answer>>
  added: ReadonlyMap<string, readonly PartCells[]>
  memory: Memory
}

function returnCheck(way: Way): Check {
  const { model, step, acting, shapes } = way
  const blocks = [...step.path.blocks, ...newMeetings(way).filter((m) => m.verdict !== 'clear')]
  const struck = blocks.filter((b) => b.verdict === 'struck')
  const near = concerned(way)
  const shapeless = near.filter(({ change }) => needsShape(change))
  return check({
    kind: returnKind,
    subject: stepSubject(model, step),
    demand: faultsFound(
      struck.length + step.placed.missing.length,
      'the sweep of the way out, which the way back passes reversed, with what the changes add',
      {
        ...pathInputs(model, step, shapes),
        ...Object.fromEntries(shapeless.map(({ id }) => [`shape of ${id}`, given('m', shapePointer(id), undefined)])),
        ...Object.fromEntries(
          near.flatMap(({ change }) => givensIn(change.added?.solids).map((leaf) => [leaf.pointer, leaf])),
        ),
      },
      blocks
        .filter((b) => b.verdict === 'open')
        .map(({ part, with: other, depth }) => ({
          title: `inner and outer shapes of "${part}" and "${other}" agree`,
          value: depth,
          unit: 'm',
          tolerance: 0,
        })),
    ),
    capacity: NONE,
    near: model.near,
    assumptions: assumptionsOf(acting.filter((a) => near.includes(a))),
    found: struck.map(
      ({ part, with: other, move, at }) =>
        `"${part}" strikes "${other}" on move ${move + 1} reversed, at site ${at.map((x) => x.toFixed(2)).join(', ')} m`,
    ),
  })
}

const shapePointer = (id: string): string => pointerOf('changes', id, 'added', 'solids')

/** Steel added without a shape, and not said to lie within the outline. */
const needsShape = ({ kind, added }: Change): boolean =>
  kind !== 'replace' &&
  (added === undefined
    ? kind !== 'modify'
    : (added.mass.value as number) > 0 && added.solids === undefined && added.withinOutline !== true)

/** Changes to the piece, and to what it comes near on the way. */
function concerned({ acting, step }: Way): readonly Acting[] {
  const beside = new Set(step.path.gaps.filter((g) => g.kind === 'part').map((g) => g.with))
  return acting.filter(({ instances }) => instances.some((id) => step.placed.moving.has(id) || beside.has(id)))
}

function assumptionsOf(acting: readonly Acting[]): string[] {
  return acting.flatMap(({ id, change }) => {
    if (change.kind === 'replace') return [`${id}: the new part has the outline of the old`]
    if (change.added?.withinOutline === true && change.added.solids === undefined)
      return [`${id}: what is added is stated to lie within the outline of the part`]
    return []
  })
}

/** Meetings that only the changes bring: what is added to the piece against all that stands, the piece against what is added there. */
function newMeetings({ step: { placed }, index, orderIds, around, added, memory }: Way): readonly Meeting[] {
  const legs = legsOf(placed.order.moves, placed.poses)
  const onPiece = [...placed.moving.keys()].flatMap((id) => added.get(id) ?? [])
  const grown: Mover = { ...moverOf(placed, around, memory), parts: onPiece, legs, views: new Map() }
  const whole = moverOf(placed, around, memory)
  const standing = [...placed.staying]
  const plain =
    onPiece.length === 0
      ? []
      : standing.flatMap(([id, pose]) => meetings(grown, partStander(around.cells.get(id) as PartCells, pose, around)))
  const thicker = standing.flatMap(([id, pose]) =>
    (added.get(id) ?? []).flatMap((cells) => {
      const stander = partStander(cells, pose, around)
      return [...meetings(whole, stander), ...(onPiece.length === 0 ? [] : meetings(grown, stander))]
    }),
  )
  const fixed = onPiece.length === 0 ? [] : fixedMeetings(grown, placed, index, orderIds, around)
  return [...plain, ...thicker, ...fixed]
}
