import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { type Encounter, encounter } from '../numeric/encounter.ts'
import { straightMotion } from '../numeric/motion.ts'
import { AT_REST } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { type JointSides, jointSides } from './joint.ts'
import { joinedKind, overlapKind, touchKind } from './kinds.ts'
import { coincidentParts, type Overlap, overlapsAsFound } from './overlap.ts'
import { allCells, type PartCells, shapeAnswers } from './shape.ts'
import { surfaceChecks } from './surface-checks.ts'

/** Overlaps of each entry, surfaces of meshes, joints across gaps, and whether all of the machine hangs together. */
export function partChecks(model: Model, mass: MassResult, memory: Memory): readonly Check[] {
  return [
    ...overlapChecks(model, mass, memory),
    ...surfaceChecks(model, mass, memory),
    joinedCheck(model, memory),
    ...touchChecks(model, mass, memory),
  ]
}

function overlapChecks(model: Model, mass: MassResult, memory: Memory): readonly Check[] {
  const overlaps = overlapsAsFound(model, mass, memory)
  const shapes = shapeAnswers(model, mass, memory)
  const cells = allCells(model, mass, memory)
  const tolerance = knownOr(model.project.settings.overlapTolerance, 'm', '/settings/overlapTolerance')
  return memory.once('strip-overlapChecks', [overlaps, cells, shapes, tolerance.value, model.near], () => {
    const copies = coincidentParts(cells.values()).map((ids) => ({
      ids,
      width: leastSide(cells.get(ids[0] as string)),
    }))
    const found = { overlaps, copies, shapes, tolerance }
    return Object.keys(model.project.parts).map((entry) => overlapCheck(model, entry, found))
  })
}

/** Parts that coincide, and the least side of what they are. */
interface Copies {
  ids: readonly string[]
  width: number
}

interface OverlapsFound {
  overlaps: readonly Overlap[]
  copies: readonly Copies[]
  shapes: Readonly<Record<string, Answer>>
  tolerance: Answer<'m'>
}

function leastSide(cells: PartCells | undefined): number {
  const e = (cells as PartCells).extent
  return Math.min(e[3] - e[0], e[4] - e[1], e[5] - e[2])
}

function overlapCheck(model: Model, entry: string, { overlaps, copies, shapes, tolerance }: OverlapsFound): Check {
  const ids = new Set(model.instances.ofEntry.get(entry)?.map((i) => i.id))
  const own = overlaps.filter(({ parts }) => parts.some((id) => ids.has(id)))
  const isAccepted = ({ accepted, depth }: Overlap) => accepted !== undefined && depth <= accepted
  const faults = own.filter((o) => !isAccepted(o))
  const undecided = faults.filter((o) => o.verdict === 'open')
  const sure = faults.filter((o) => o.verdict === 'struck')
  const others = new Set(own.flatMap(({ parts }) => parts.map((id) => model.instances.byId.get(id)?.entry as string)))
  // Copies are one slip: it is counted where the first of them stands, with all of them named.
  const first = copies.filter((c) => ids.has(c.ids[0] as string))
  const later = copies.filter((c) => !first.includes(c) && c.ids.some((id) => ids.has(id)))
  return check({
    kind: overlapKind,
    subject: partSubject(model, entry),
    demand: found({
      unit: 'm',
      value: Math.max(0, ...sure.map((o) => o.depth), ...first.map((c) => c.width)),
      method:
        'deepest overlap that the file does not accept, by separating translation of convex cells; of copies that coincide, the least side of their outline',
      inputs: Object.fromEntries([entry, ...others].map((id) => [`shape of ${id}`, shapes[id] as Answer])),
      residuals: sure.length + first.length > 0 ? [] : undecided.map(disagreement),
    }),
    capacity: tolerance,
    near: 1,
    assumptions: [
      ...acceptedTexts(own.filter(isAccepted)),
      ...later.map((c) => `it coincides with "${c.ids[0]}", and is counted there`),
    ],
    found: [
      ...first.map(
        (c) =>
          `${c.ids.map((id) => `"${id}"`).join(', ')} coincide: the same shape in the same place ${c.ids.length} times`,
      ),
      ...faults.map(
        ({ parts, depth }) => `"${parts[0]}" and "${parts[1]}" overlap by ${(1000 * depth).toFixed(1)} mm or more`,
      ),
    ],
  })
}

const disagreement = ({ parts, depth }: Overlap) => ({
  title: `inner and outer shapes of "${parts[0]}" and "${parts[1]}" agree`,
  value: depth,
  unit: 'm' as const,
  tolerance: 0,
})

const acceptedTexts = (accepted: readonly Overlap[]): string[] =>
  accepted.map(
    ({ parts, depth, accepted: limit }) =>
      `the overlap of "${parts[0]}" and "${parts[1]}", ${depth.toFixed(3)} m, is accepted in the file to ${limit} m`,
  )

const partSubject = (model: Model, entry: string) => ({
  pointer: pointerOf('parts', entry),
  id: entry,
  name: model.project.parts[entry]?.name ?? entry,
})

function joinedCheck(model: Model, memory: Memory): Check {
  const joints = jointSides(model, memory)
  return memory.once('strip-joined', [joints, model.near], () => {
    const groups = groupsOf([...model.instances.byId.keys()], joints)
    const loose = groups.slice(1)
    const known = joints.length > 0 || groups.length < 2
    return check({
      kind: joinedKind,
      subject: { pointer: '/joints', id: 'machine', name: 'Machine' },
      demand: known
        ? found({
            unit: '1',
            value: loose.length,
            method: 'groups of parts that no joint ties to the largest one',
            inputs: {},
            residuals: [],
          })
        : given('1', '/joints', undefined),
      capacity: NONE,
      near: model.near,
      found: loose.map((group) => `no joint ties ${group.map((id) => `"${id}"`).join(', ')} to the rest`),
    })
  })
}

/** Parts tied together by joints, the largest group first. */
export function groupsOf(ids: readonly string[], joints: readonly Pick<JointSides, 'sides'>[]): string[][] {
  const leader = new Map(ids.map((id) => [id, id]))
  const find = (id: string): string => {
    let at = id
    for (let next = leader.get(at) as string; next !== at; next = leader.get(at) as string) {
      // each looked at hangs from the one after next, so that chains stay short
      leader.set(at, leader.get(next) as string)
      at = next
    }
    return at
  }
  for (const { sides } of joints) {
    const present = sides.flat().filter((id) => leader.has(id))
    for (const id of present) leader.set(find(id), find(present[0] as string))
  }
  const groups = new Map<string, string[]>()
  for (const id of ids) {
    const group = groups.get(find(id))
    if (group === undefined) groups.set(find(id), [id])
    else group.push(id)
  }
  return [...groups.values()].sort((a, b) => b.length - a.length)
}

function touchChecks(model: Model, mass: MassResult, memory: Memory): readonly Check[] {
  const cells = allCells(model, mass, memory)
  const shapes = shapeAnswers(model, mass, memory)
  const joints = jointSides(model, memory)
  const limit = knownOr(model.project.settings.contactGap, 'm', '/settings/contactGap')
  const inputs = [cells, shapes, joints, limit.value, model.near]
  return memory.once('strip-touches', inputs, () => touchChecksOf(model, joints, cells, shapes, limit, memory))
}

function touchChecksOf(
  model: Model,
  joints: readonly JointSides[],
  cells: ReadonlyMap<string, PartCells>,
  shapes: Readonly<Record<string, Answer>>,
  limit: Answer<'m'>,
  memory: Memory,
): readonly Check[] {
  return joints.flatMap((joint) => {
    if (joint.joint.throughBracket) return []
    const parts = joint.sides.flat().map((id) => cells.get(id) as PartCells)
    const entries = [...new Set(joint.sides.flat().map((id) => model.instances.byId.get(id)?.entry as string))]
    const own = entries.map((entry) => shapes[entry] as Answer)
    return memory.once(`strip-touch/${joint.id}`, [joint.joint, limit.value, model.near, ...parts, ...own], () =>
      touchCheck(joint, cells, entries, own, limit, model.near),
    )
  })
}

function touchCheck(
  { id, sides: [a, b], joint }: JointSides,
  cells: ReadonlyMap<string, PartCells>,
  entries: readonly string[],
  shapes: readonly Answer[],
  limit: Answer<'m'>,
  near: number,
): Check {
  const [many, few] = a.length >= b.length ? [a, b] : [b, a]
  const gaps = many.map((p) =>
    Math.min(...few.map((q) => gapOf(cells.get(p) as PartCells, cells.get(q) as PartCells).gap)),
  )
  const gap = Math.max(...gaps)
  return check({
    kind: touchKind,
    subject: { pointer: pointerOf('joints', id), id, name: `${joint.kind} joint of ${joint.between.join(' and ')}` },
    demand: found({
      unit: 'm',
      value: gap,
      method: 'least distance of the solids of the two sides, as found',
      inputs: Object.fromEntries(entries.map((entry, i) => [`shape of ${entry}`, shapes[i] as Answer])),
      residuals: [],
    }),
    capacity: limit,
    near,
    found: [
      `the joint acts across a gap of ${gap >= FAR ? 'more than ' : ''}${gap.toFixed(3)} m: a part, a shape or a place is wrong`,
    ],
  })
}

/** Farther than this a gap is not measured. */
const FAR = 1

const gapOf = (a: PartCells, b: PartCells): Encounter =>
  encounter(
    a.solids.map((s) => s.cell),
    b.solids.map((s) => s.cell),
    straightMotion(AT_REST, [0, 0, 0]),
    { tolerance: FAR, reach: FAR, resolution: 0.0005 },
  )
