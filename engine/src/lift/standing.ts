import type { MassResult } from '../mass/index.ts'
import type { Bay, Model } from '../model/index.ts'
import { dot, type Pose, place, type Vec3 } from '../numeric/vector.ts'
import { placesByStep, type Standing, type StepPlaces, type StripResult } from '../strip/index.ts'
import { type Answer, found, given, knownOr, missingUnder } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { APART, apart, boxReaches, isInPlan, type Reaches, reachesAt } from './apart.ts'
import { pieceHull } from './bodies.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import { type Hull, levelsOf } from './hull.ts'
import { standingClearance } from './kinds.ts'
import { landingOf, type Motion, motionsOf } from './motions.ts'
import { identityOf, type Pick } from './pick.ts'
import { posesOn, shadowsOf } from './swept.ts'

/** Something that stands on a bay while a lift goes past. */
export interface Thing {
  /** A piece by its id, anything else in words. */
  piece: string
  bay: string
  /** How far it reaches in each direction of `APART`, site frame, m; where its place on the bay is not said, the whole bay. */
  reach: Reaches
  /** Its lift says where on the bay it is set down. */
  placed: boolean
  /** Of the lift that set it down. */
  landingAt: string
  /** What its place is known from, site frame, by what each is: its landing, or the middle of its bay, and the level of that; of a pile its size too. */
  at: readonly Place[]
}

/** A figure of a place, and what it is. */
type Place = readonly [what: string, Answer<'m'>]

const placesOf = (at: readonly Answer<'m'>[]): Place[] => at.map((a, i) => ['xyz'[i] as string, a])

/** What every lift of a project goes past: what the steps before it left on the bays. */
export interface Surroundings {
  of(lift: string): readonly Thing[]
}

/** Things on the bays at every lift, from the order and where each lift sets its piece down. */
export function surroundingsOf(
  model: Model,
  mass: MassResult,
  strip: StripResult,
  picks: ReadonlyMap<string, Pick>,
  memory: Memory,
): Surroundings {
  const places = memory.once('lift-places', [model.project.pieces, model.project.lifts, ...strip.steps], () =>
    placesByStep(model, strip),
  )
  const thingOf = (bayId: string, standing: Standing, crowd: number): Thing | undefined => {
    const adopted = model.project.steps[standing.step]
    const pick = adopted?.lift === undefined ? undefined : picks.get(adopted.lift)
    const bay = model.project.bays[bayId]
    if (pick === undefined || bay === undefined) return undefined
    const hull = pieceHull(model, mass, standing.piece, memory)
    if (hull === undefined) return undefined
    const resting = memory.once(`lift-resting/${pick.id}/${bayId}`, [...identityOf(pick), hull, bay], () =>
      restingPose(pick, hull, bay),
    )
    if (resting === undefined) return undefined
    const placed = pick.lift.landing !== undefined
    const anywhere = crowd > 1 && !placed
    const key = `lift-thing/${pick.id}/${bayId}/${anywhere}`
    return memory.once(key, [hull, bay, ...resting.turn.flat(), ...resting.shift, pick.at], () => ({
      piece: standing.piece,
      bay: bayId,
      reach: reachOfThing(hull, resting, bay, anywhere),
      placed,
      landingAt: `${pick.at}/landing`,
      at: placesOf([...(pick.lift.landing ?? bay.centre).slice(0, 2), bay.level]),
    }))
  }
  // most stand there at many lifts: within one derivation each is looked up once
  const known = new Map<string, Thing | undefined>()
  const thingOnce = (bay: string, standing: Standing, crowd: number): Thing | undefined => {
    const key = `${bay}/${standing.step}/${standing.piece}/${crowd > 1}`
    if (!known.has(key)) known.set(key, thingOf(bay, standing, crowd))
    return known.get(key)
  }
  return {
    of: (id) => [
      ...standingAt(model, places, id).flatMap(([bay, standings]) =>
        standings.flatMap((s) => thingOnce(bay, s, standings.length) ?? []),
      ),
      ...storedFor(model, id, memory),
    ],
  }
}

/** What stands on each bay as a lift begins: outward what the steps before left, homeward what has not gone back yet. */
function standingAt(
  { project }: Model,
  places: readonly StepPlaces[],
  id: string,
): [bay: string, standings: readonly Standing[]][] {
  const out = places.findIndex(({ step }) => project.steps[step.step]?.lift === id)
  const back = places.findLastIndex(({ step }) => project.steps[step.step]?.back === id)
  const first = out >= 0 ? out : back
  const own = new Set(places[first]?.step.parts)
  // what the piece is parted from, or comes back to, touches it: that is meant
  const mates = new Set(
    Object.values(places[first - 1]?.after ?? {}).flatMap((standings) =>
      standings.filter(({ parts }) => parts.some((part) => own.has(part))).map(({ step }) => step),
    ),
  )
  const at = out >= 0 ? places[out - 1] : places[back]
  return Object.entries(at?.after ?? {}).map(([bay, standings]) => [
    bay,
    standings.filter(({ step, parts }) => !mates.has(step) && !parts.some((part) => own.has(part))),
  ])
}

/** What stands on the bays beside pieces and is not cleared away for a lift. */
export function storedFor({ project }: Model, lift: string | undefined, memory: Memory): Thing[] {
  return Object.entries(project.bays).flatMap(([bayId, bay]) =>
    Object.entries(bay.stored).flatMap(([id, stored]) =>
      lift !== undefined && stored.clearedFor.includes(lift)
        ? []
        : [memory.once(`lift-stored/${bayId}/${id}`, [bay], () => storedThing(bayId, bay, stored))],
    ),
  )
}

function storedThing(bayId: string, bay: Bay, { what, centre, size, height }: Bay['stored'][string]): Thing {
  const [x, y] = centre.map((a) => a.value as number) as [number, number]
  const [a, b] = size.map((s) => (s.value as number) / 2) as [number, number]
  const level = bay.level.value as number
  const half = (height.value as number) / 2
  const reach = boxReaches([x, y, level + half], [a, b, half])
  const at: Place[] = [
    ...placesOf([...centre, bay.level]),
    ['size along x', size[0]],
    ['size along y', size[1]],
    ['height', height],
  ]
  return { piece: what, bay: bayId, reach, placed: true, landingAt: '', at }
}

/** The piece as its lift sets it down: where its landing says, else in the middle of its bay, on the level of that; where a trailer takes it from there, on its bay. */
export function restingPose(pick: Pick, hull: Hull, bay: Bay): Pose | undefined {
  const motions = motionsOf(pick, hull)
  const last = (pick.homeward ? motions[0] : motions.at(-1))?.poses?.[pick.homeward ? 0 : 1]
  if (last === undefined) return undefined
  const [x, y] = place(last, pick.set.cogMachine)
  const [u, v] = (pick.lift.landing ?? bay.centre).map((a) => a.value as number) as [number, number]
  const { low } = levelsOf(hull, last)
  const { turn, shift } = last
  return { turn, shift: [shift[0] + u - x, shift[1] + v - y, shift[2] + (bay.level.value as number) - low] }
}

function reachOfThing(hull: Hull, resting: Pose, bay: Bay, anywhere: boolean): Reaches {
  const own = reachesAt(hull, resting)
  if (!anywhere) return own
  const [x, y] = bay.centre.map((a) => a.value as number) as [number, number]
  const [a, b] = bay.size.map((s) => (s.value as number) / 2) as [number, number]
  const whole = boxReaches([x, y, 0], [a, b, 0])
  return APART.map((_, k) => (isInPlan(k) ? whole : own)[k] as number)
}

/** The nearest that a lift comes to what stands on the bays, and where. */
export interface NearestStanding {
  gap: Answer<'m'>
  /** What stands there, in words. */
  what: string
  /** Beside or over which point of the way the gap lies, at the face of the piece, site frame, m; and towards what stands there. */
  from: Vec3
  along: Vec3
}

/** The check of what stands on the bays, and where the nearest of it is; nothing where nothing stands there. */
export interface Standings {
  checks: readonly Check[]
  nearestStanding?: NearestStanding
}

/**
 * Nearest that a lift comes to what stands on the bays. How far it reaches on its way is kept while the lift stays as it is, and
 * the check while the nearest does: what is moved elsewhere on the site leaves it alone.
 */
export function standingOf(
  pick: Pick,
  hull: Hull | undefined,
  things: readonly Thing[],
  names: (piece: string) => string,
  memory: Memory,
): Standings {
  if (things.length === 0) return NONE
  const way = memory.once(`lift-swept/${pick.id}`, [...identityOf(pick), hull], () => wayOf(pick, hull))
  const open = openInputs(pick, hull, way, things)
  const nearest = Object.keys(open).length > 0 ? undefined : nearestOf(way, things)
  const { gap, thing, stage } = nearest ?? {}
  const inputs = [way, gap, thing, stage, thing && names(thing.piece), ...Object.entries(open).flatMap(leafOf)]
  return memory.once(`lift-standing/${pick.id}`, inputs, () => standings(pick, nearest, open, names))
}

const NONE: Standings = { checks: [] }

/** What an open input is told apart by. */
const leafOf = ([label, answer]: [string, Answer]): string[] => [label, ...missingUnder(answer)]

function standings(
  pick: Pick,
  nearest: Nearest | undefined,
  open: Record<string, Answer>,
  names: (piece: string) => string,
): Standings {
  const gap = found({
    unit: 'm',
    value: nearest?.gap,
    method:
      'for every movement and everything that stands on a bay: the largest gap over 24 directions in plan, upward and downward; the least of them',
    inputs: { ...open, ...(nearest === undefined ? {} : measuredBetween(pick, nearest)) },
    residuals: [],
  })
  const checks = [nearestCheck(pick, nearest, gap, names)]
  if (nearest === undefined) return { checks }
  const { from, along, thing } = nearest
  return { checks, nearestStanding: { gap, what: names(thing.piece), from, along } }
}

function nearestCheck(
  pick: Pick,
  nearest: Nearest | undefined,
  gap: Answer<'m'>,
  names: (piece: string) => string,
): Check {
  return check({
    kind: standingClearance,
    subject: pick.subject,
    demand: knownOr(pick.settings.clearanceToStanding, 'm', '/settings/clearanceToStanding'),
    capacity: gap,
    near: pick.near,
    assumptions: [
      'Stockpiles and plant stand as the boxes about them, where the project places them, unless they are cleared away for this lift.',
      'Each piece stands whole, in the middle of its bay where its lift names no landing; of several on one bay without one, each may stand anywhere on it.',
      'Movements are straight; a piece that is turned sweeps the ball about its centre of gravity; no swing.',
      ...(nearest === undefined
        ? []
        : [`Nearest: ${names(nearest.thing.piece)} on bay ${nearest.thing.bay}, in the stage ${nearest.stage}.`]),
    ],
    cautions: LIFT_CAUTIONS,
    found:
      nearest === undefined
        ? []
        : [
            `${nearest.gap < 0 ? 'strikes' : 'passes too near to'} ${names(nearest.thing.piece)} on bay ${nearest.thing.bay} in the stage ${nearest.stage}: go higher, another way round, or set one of them down elsewhere`,
          ],
  })
}

/** A movement and how far the piece reaches over it; unknown where its way or its shape is. */
interface Way {
  motion: Motion
  swept: readonly number[] | undefined
}

const wayOf = (pick: Pick, hull: Hull | undefined): readonly Way[] =>
  motionsOf(pick, hull).map((motion) => ({
    motion,
    swept: hull === undefined || motion.poses === undefined ? undefined : sweptReach(pick, hull, motion),
  }))

/** What keeps the gaps from being known: the way, the shape, or where on one bay several pieces stand. */
function openInputs(
  pick: Pick,
  hull: Hull | undefined,
  way: readonly Way[],
  things: readonly Thing[],
): Record<string, Answer> {
  if (hull === undefined) return { 'shapes of its parts': given('m', `${pick.pieceAt}/parts`, undefined) }
  const onOwn = things.filter(({ bay }) => pick.bayAt === pointerOf('bays', bay))
  const unplaced = onOwn.filter(({ placed }) => !placed)
  const own = onOwn.length > 0 && pick.lift.landing === undefined && pick.trailer === undefined
  const landing = landingOf(pick).flatMap((a) => missingUnder(a))
  return Object.fromEntries([
    ...way.flatMap(({ motion: { name, poses } }, i): [string, Answer][] =>
      poses === undefined ? [[`stage ${i + 1}, ${name}`, given('m', landing[0] ?? '/steps', undefined)]] : [],
    ),
    ...unplaced.map(({ piece, landingAt }): [string, Answer] => [
      `where ${piece} stands`,
      given('m', landingAt, undefined),
    ]),
    ...(own ? [['where it stands itself', given('m', `${pick.at}/landing`, undefined)] as [string, Answer]] : []),
  ])
}

interface Nearest {
  gap: number
  thing: Thing
  stage: string
  from: Vec3
  along: Vec3
}

/** Where the nearest thing stands and where the piece itself is set down: what the gap is measured between. */
function measuredBetween(pick: Pick, { thing }: Nearest): Record<string, Answer> {
  const named = (what: string, at: readonly Place[]): [string, Answer][] =>
    at.map(([figure, answer]) => [`${what}, ${figure}`, answer])
  return Object.fromEntries([
    ...named(`${thing.piece} on bay ${thing.bay}`, thing.at),
    ...named('where it is set down', placesOf(landingOf(pick))),
  ])
}

function nearestOf(way: readonly Way[], things: readonly Thing[]): Nearest | undefined {
  let nearest: Nearest | undefined
  for (const { motion, swept } of way) {
    if (swept === undefined) continue
    for (const thing of things) {
      const { gap, along, from } = apart(swept, thing.reach)
      if (nearest !== undefined && gap >= nearest.gap) continue
      nearest = { gap, thing, stage: motion.name, along, from }
    }
  }
  return nearest
}

/** How far a piece reaches over a movement in each direction; where it turns, as the ball about its centre of gravity. */
function sweptReach(pick: Pick, hull: Hull, motion: Motion): number[] {
  const poses = posesOn(pick, motion)
  const shadows = shadowsOf(hull, poses, APART)
  const upright = APART.map((_, k) => Math.max(...shadows.map((shadow) => shadow[k] as number)))
  if (motion.turned === 0) return upright
  const centres = poses.map((pose) => place(pose, pick.set.cogMachine))
  const radius = Math.max(
    ...shadows.map((shadow, i) => Math.max(...shadow.map((r, k) => r - dot(centres[i] as Vec3, APART[k] as Vec3)))),
  )
  return APART.map((d) => Math.max(...centres.map((c) => dot(c, d))) + radius)
}
