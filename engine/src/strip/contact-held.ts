import type { MassResult } from '../mass/index.ts'
import type { Instance, Model } from '../model/index.ts'
import { poseOfInstance } from '../model/index.ts'
import { type Extent, extentAround, extentGap, reachAlong } from '../numeric/hull.ts'
import { applyBack, compose, inverse, type Pose, place, scale, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, GRAVITY, given, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { steadyKind } from './kinds.ts'
import { contactGap } from './overlap.ts'
import { faceOf, touchPoints } from './press-points.ts'
import { cellsOf, type PartCells } from './shape.ts'
import { STANDING_CAUTION } from './stands.ts'
import {
  type HeldBody,
  type Holding,
  holding,
  leastFriction,
  type Pressed,
  type PressPoint,
  steadiness,
} from './statics.ts'

/** Where things stand once a step is done. */
export interface Standing {
  /** Groups of parts that closed joints tie together and no named support holds. */
  groups: readonly (readonly string[])[]
  /** Parts on a named support: they stand still, and others may rest on them. */
  propped: readonly string[]
  /** Of each part, from the pose as found, site frame. */
  poses: ReadonlyMap<string, Pose>
  /** Parts that rest on the bed of the cradle. */
  bearing: ReadonlySet<string>
  machine: Pose
  cells: ReadonlyMap<string, PartCells>
}

/** What contact holds after a step. */
export interface HeldByContact {
  held: boolean
  /** What each group would do, in words, with what would hold it. */
  falls: readonly string[]
  steady: Answer<'1'>
  inputs: Readonly<Record<string, Answer>>
  assumptions: readonly string[]
}

const NO_FRICTION = stated('1', 0, 'no contactFriction is set: friction is not counted')
/** BS 5975, temporary works: at least 2.5 % of the vertical load as a sideways one (from memory). */
const SIDEWAYS = stated('1', 0.025, 'no sidewaysShare is set: 2.5 % of the weight is taken (BS 5975, from memory)')

const METHOD =
  'equilibrium of rigid groups on contacts that only press, as a linear programme; friction counts at faces that carry from below and cannot lock a wedge'

/**
 * Groups of parts that contact alone must hold, with the bed, the base slab and what stands on named supports. Where no
 * friction is stated and the answer hangs on it, the answer is open.
 */
export function heldByContact(model: Model, mass: MassResult, standing: Standing): HeldByContact {
  const { contactFriction } = model.project.settings
  const mu = contactFriction?.value ?? 0
  const pressed = pressedBy(model, mass, standing)
  const held = holding(pressed, mu)
  const enough = held.held ? undefined : leastFriction(pressed)
  const steady = held.held ? steadiness(pressed, mu) : 0
  const share = sidewaysShare(model).value as number
  const hangs =
    contactFriction === undefined &&
    (held.held ? steady < share && steadiness(pressed, 1) >= share : enough !== undefined)
  const friction = hangs ? given('1', '/settings/contactFriction', undefined) : (contactFriction ?? NO_FRICTION)
  const inputs = inputsOf(mass, model, standing, friction)
  const falls = fallTexts(held, enough)
  return {
    held: held.held,
    falls: hangs ? [] : falls,
    steady: found({
      unit: '1',
      value: steady,
      method: `${METHOD}; least share of the weight sideways, in eight directions, that it no longer bears`,
      inputs,
      residuals: [],
    }),
    inputs,
    assumptions: [
      mu > 0 ? `friction of ${mu} may be counted on between faces and on the bed` : 'friction is not counted',
      'parts are rigid, faces as near as the contact gap touch, and a part near the bed is packed to it',
      ...(hangs ? falls.map((text) => `without friction ${text}`) : []),
    ],
  }
}

const sidewaysShare = ({ project }: Model): Answer<'1'> => project.settings.sidewaysShare ?? SIDEWAYS

/** Check 15: what contact alone holds bears a push sideways too. */
export function steadyCheck(model: Model, subject: Parameters<typeof check>[0]['subject'], held: HeldByContact): Check {
  return check({
    kind: steadyKind,
    subject,
    demand: sidewaysShare(model),
    capacity: held.steady,
    near: model.near,
    assumptions: [...held.assumptions, 'that equilibrium with friction is possible does not prove that it comes about'],
    cautions: [STANDING_CAUTION],
    found: ['what contact alone holds does not bear the push sideways: name a temporary support for it'],
  })
}

function inputsOf(
  mass: MassResult,
  model: Model,
  { groups }: Standing,
  friction: Answer<'1'>,
): Readonly<Record<string, Answer>> {
  const entries = new Set(groups.flat().map((id) => model.instances.byId.get(id)?.entry as string))
  const masses = [...entries].map(
    (entry) => [`mass of ${entry}`, (mass.parts[entry] as MassResult['parts'][string]).mass] as const,
  )
  return { friction, 'gap of a contact': contactGap(model), ...Object.fromEntries(masses) }
}

/** All in the machine frame as found; gravity leans as the machine does. */
function pressedBy(model: Model, mass: MassResult, standing: Standing): Pressed {
  const { groups, propped, machine } = standing
  const cells = new Map([...groups.flat(), ...propped].map((id) => [id, cellsNow(model, mass, standing, id)]))
  const bodies = groups.map((group) => bodyOf(model, mass, standing, group, cells))
  const owner = new Map(groups.flatMap((group, i) => group.map((id) => [id, (bodies[i] as HeldBody).id] as const)))
  const gap = contactGap(model).value as number
  return {
    bodies,
    points: [
      ...betweenParts(cells, owner, gap),
      ...groups
        .flat()
        .flatMap((id) => fromBelow(model, standing, cells.get(id) as PartCells, owner.get(id) as string, gap)),
    ],
    down: applyBack(machine.turn, [0, 0, -1]),
  }
}

/** Cells of a part where it stands now. */
function cellsNow(model: Model, mass: MassResult, { poses, machine, cells }: Standing, id: string): PartCells {
  const pose = poses.get(id)
  if (pose === undefined || isAtRest(pose)) return cells.get(id) as PartCells
  const instance = model.instances.byId.get(id) as Instance
  const { solids } = (mass.parts[instance.entry] as MassResult['parts'][string]).shape
  return cellsOf(id, solids, compose(movedInMachine(pose, machine), poseOfInstance(instance)))
}

const movedInMachine = (pose: Pose, machine: Pose): Pose => compose(inverse(machine), compose(pose, machine))

const isAtRest = ({ shift, turn }: Pose): boolean =>
  shift.every((x) => x === 0) && turn[0][0] === 1 && turn[1][1] === 1 && turn[2][2] === 1

/** A mass that is not known counts as a tonne here; the answer is open by its inputs. */
const UNKNOWN = 1000

function bodyOf(
  model: Model,
  mass: MassResult,
  { poses, machine }: Standing,
  group: readonly string[],
  cells: ReadonlyMap<string, PartCells>,
): HeldBody {
  const lumps = group.map((id) => {
    const instance = model.instances.byId.get(id) as Instance
    const { shape, mass: own } = mass.parts[instance.entry] as MassResult['parts'][string]
    const pose = poses.get(id)
    const found = place(poseOfInstance(instance), shape.centroid)
    const at = pose === undefined ? found : place(movedInMachine(pose, machine), found)
    const { value } = own
    // A bad surface has no volume and no centre; its own check fails, and the middle of its outline stands for it here.
    const whole = value !== undefined && value > 0 && at.every(Number.isFinite)
    return whole ? { m: value, at } : { m: UNKNOWN, at: middleOf((cells.get(id) as PartCells).extent) }
  })
  const total = lumps.reduce((sum, l) => sum + l.m, 0)
  const cog = [0, 1, 2].map((i) => lumps.reduce((sum, l) => sum + l.m * (l.at[i] as number), 0) / total)
  // A bad mesh may put its centre outside itself: the box for the props takes it in.
  const centre = [...cog, ...cog] as unknown as Extent
  const [x0, y0, z0, x1, y1, z1] = extentAround([centre, ...group.map((id) => (cells.get(id) as PartCells).extent)])
  return {
    id: group[0] as string,
    weight: total * GRAVITY.value,
    cog: cog as unknown as Vec3,
    corners: [x0, x1].flatMap((x) => [y0, y1].flatMap((y) => [z0, z1].map((z): Vec3 => [x, y, z]))),
  }
}

const middleOf = ([x0, y0, z0, x1, y1, z1]: Extent): Vec3 => [(x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2]

/** Where parts of different groups press on each other, and on what stands still. */
function betweenParts(
  cells: ReadonlyMap<string, PartCells>,
  owner: ReadonlyMap<string, string>,
  gap: number,
): PressPoint[] {
  const parts = [...cells.values()]
  return parts.flatMap((a, i) =>
    parts.slice(i + 1).flatMap((b) => {
      const [own, other] = [owner.get(a.id), owner.get(b.id)]
      if (own === other || extentGap(a.extent, b.extent) > gap) return []
      return touchPoints(a, b, gap).map(({ at, into }): PressPoint => {
        if (own === undefined) return { at, into: scale(into, -1), body: other as string }
        return { at, into, body: own, ...(other === undefined ? {} : { against: other }) }
      })
    }),
  )
}

const fromBelow = (model: Model, standing: Standing, part: PartCells, body: string, gap: number): PressPoint[] => [
  ...(standing.bearing.has(part.id) ? onBed(model, standing, part, body) : []),
  ...onSlab(model, standing, part, body, gap),
]

/** Shares of the half angle of the bed at which a part may press on it. */
const AROUND_BED = [-1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1]
/** A gap to the bed up to this is taken up by packing, m (common practice, no source). */
export const PACKING = 0.1
const INVERT = -Math.PI / 2

/** Ends of what each solid has on the bed, at angles around it; the bed presses towards the axis of the machine. */
function onBed({ project }: Model, { machine }: Standing, { solids }: PartCells, body: string): PressPoint[] {
  const { cradle, machine: placed } = project
  const radius = cradle?.radius?.value ?? (placed?.shieldDiameter?.value ?? 0) / 2
  if (cradle === undefined || radius === 0) return []
  const half = cradle.contactHalfAngle.value as number
  const toMachine = (x: number): number => (x - machine.shift[0]) / machine.turn[0][0]
  const [rear, front] = cradle.along.map((x) => toMachine(x.value as number)).sort((a, b) => a - b) as [number, number]
  return AROUND_BED.flatMap((share) => {
    const angle = INVERT + share * half
    const out: Vec3 = [0, Math.cos(angle), Math.sin(angle)]
    return solids
      .filter(({ cell }) => reachAlong(cell.outer, out) >= radius - PACKING)
      .flatMap(({ cell: { extent } }) => {
        const [low, high] = [Math.max(extent[0], rear), Math.min(extent[3], front)]
        return low > high
          ? []
          : [low, high].map(
              (x): PressPoint => ({ at: [x, radius * out[1], radius * out[2]], into: scale(out, -1), body }),
            )
      })
  })
}

/** Lowest points of a part that lie on the base slab. */
function onSlab(
  { project }: Model,
  { machine }: Standing,
  { solids }: PartCells,
  body: string,
  gap: number,
): PressPoint[] {
  const slab = project.shaft?.slabTop?.value
  if (slab === undefined) return []
  const down = applyBack(machine.turn, [0, 0, -1])
  return solids
    .flatMap(({ cell }) => faceOf(cell.inner ?? cell.outer, down))
    .filter((p) => Math.abs(place(machine, p)[2] - slab) <= gap)
    .map((at): PressPoint => ({ at, into: scale(down, -1), body }))
}

const KILO = 1000

function fallTexts({ held, moves, props }: Holding, enough: number | undefined): string[] {
  if (held) return []
  const force = props.map((p) => `${Math.ceil(p.force / KILO)} kN at "${p.body}"`).join(', ')
  const instead =
    enough === undefined ? '' : `, or count on a friction of ${hundredthsUp(enough)} (settings.contactFriction)`
  const cure = `name temporary supports that give upward at least ${force}${instead}`
  return moves.map(({ body, how }) => `the group of "${body}" ${how}: ${cure}`)
}

const hundredthsUp = (x: number): string => (Math.ceil(100 * x) / 100).toFixed(2)
