import type { MassResult } from '../mass/index.ts'
import { type Model, poseOfMachine } from '../model/index.ts'
import { add, compose, type Pose, place, scale, type Vec3 } from '../numeric/vector.ts'
import type { Memory } from '../working/memory.ts'
import { apart, boxReaches, heightsOf, type Reaches, reachesAt } from './apart.ts'
import { partsHull, pieceHull } from './bodies.ts'
import type { ClearanceNow } from './clearanceNow.ts'
import { type Hull, reachOf } from './hull.ts'
import { storedFor } from './standing.ts'
import { standingIn } from './swept.ts'
import { underNow } from './underNow.ts'

/** Parts that stand on the site while a piece goes by, and how they have moved from as found, site frame. */
export interface StandingParts {
  id: string
  name: string
  parts: readonly string[]
  pose: Pose
}

/** A piece on its way: by which lift it goes, and what stands on the bays meanwhile. */
export interface OnSite {
  piece: string
  lift: string | undefined
  standing: readonly StandingParts[]
}

interface Thing {
  to: string
  name: string
  reach: Reaches
}

/**
 * How near a piece is, moment by moment, to what is under it and to what stands on the site: pieces, stockpiles and plant on the
 * bays, cranes at their standings, and the legs of the machine that carries it. To what stands it is the largest gap over 24
 * directions in plan, upward and downward, as the lift's own checks have it: never more than it is.
 *
 * @returns from the pose of the piece (from as found, site frame) to what is near; undefined where its shape is not known
 */
export function siteNow(
  model: Model,
  mass: MassResult,
  { piece, lift, standing }: OnSite,
  memory: Memory,
): ((pose: Pose) => ClearanceNow[]) | undefined {
  const hull = pieceHull(model, mass, piece, memory)
  const { machine } = model.project
  if (hull === undefined || machine === undefined) return undefined
  const found = poseOfMachine(machine)
  const under = underNow(model, hull)
  const things = [
    ...standing.flatMap((s) => standingThing(model, mass, s, found, memory)),
    ...storedThings(model, lift, memory),
    ...cranes(model.project, lift),
  ]
  const legs = legsOf(model, lift)
  const cog = mass.pieces[piece]?.found.cogMachine
  return (pose) => {
    const own = compose(pose, found)
    const reach = reachesAt(hull, own)
    const along = cog === undefined ? undefined : place(own, cog)[1]
    const beside = [...things, ...(along === undefined ? [] : legs(along))].map((thing) =>
      nearTo(hull, own, reach, thing),
    )
    return [...under(own), ...beside].sort((a, b) => a.gap - b.gap)
  }
}

function nearTo(hull: Hull, own: Pose, reach: Reaches, { to, name, reach: thing }: Thing): ClearanceNow {
  const { gap, from, along } = apart(reach, thing)
  const { part } = reachOf(hull, own, along)
  const start: Vec3 = along[2] === 0 ? [from[0], from[1], levelWith(reach, thing)] : from
  return { gap, to, name, part, from: start, at: add(start, scale(along, gap)) }
}

/** Level at which two things beside each other are seen to be apart: as near the middle of the one as the other reaches. */
function levelWith(piece: Reaches, thing: Reaches): number {
  const [[low, high], [bottom, top]] = [heightsOf(piece), heightsOf(thing)]
  return Math.min(top, Math.max(bottom, (low + high) / 2))
}

function standingThing(
  model: Model,
  mass: MassResult,
  { id, name, parts, pose }: StandingParts,
  found: Pose,
  memory: Memory,
): Thing[] {
  const hull = partsHull(model, mass, parts, { key: `standing/${id}`, memory })
  return hull === undefined ? [] : [{ to: id, name, reach: reachesAt(hull, compose(pose, found)) }]
}

const storedThings = (model: Model, lift: string | undefined, memory: Memory): Thing[] =>
  storedFor(model, lift, memory).map(({ piece, bay, reach }) => ({
    to: `stored/${bay}/${piece}`,
    name: `${piece} on ${model.project.bays[bay]?.name ?? bay}`,
    reach,
  }))

/** Half the height of what is held apart in plan alone: the model does not say how high it is, m. */
const TALL = 500

/** Cranes as what they stand on: at the standing of the lift, the others where they are parked, else at their first. */
function cranes({ systems, lifts }: Model['project'], lift: string | undefined): Thing[] {
  const own = lift === undefined ? undefined : lifts[lift]
  return Object.entries(systems).flatMap(([id, system]): Thing[] => {
    const { parked, standings, name } = system
    const [isLifting, said] =
      own?.system === id ? [true, own.standing] : [own?.tail?.system === id, own?.tail?.standing]
    if (!isLifting && parked?.away === true) return []
    const at = standings[standingIn(system, isLifting ? said : parked?.standing) ?? 0]
    const half = baseOf(system)
    if (at === undefined || half === undefined) return []
    const [x, y] = at.map((c) => c.value as number) as [number, number]
    return [{ to: `crane/${id}`, name, reach: boxReaches([x, y, 0], [...half, TALL]) }]
  })
}

type System = Model['project']['systems'][string]

/** Half of what a crane stands on, along site x and y, m: its tracks along x, or from float to float. */
function baseOf({ tracks, outriggers }: System): [number, number] | undefined {
  if (tracks !== undefined) {
    const across = (tracks.gauge.value as number) + (tracks.width.value as number)
    return [(tracks.length.value as number) / 2, across / 2]
  }
  if (outriggers === undefined) return undefined
  const [a, b] = outriggers.base.map((c, i) => ((c.value as number) + (outriggers.mat[i]?.value as number)) / 2)
  return [a as number, b as number]
}

/** Legs of the tower or gantry that carries the piece: they go along the runway with the hook. */
function legsOf({ project }: Model, lift: string | undefined): (hookAlong: number) => Thing[] {
  const system = project.systems[project.lifts[lift ?? '']?.system ?? '']
  const half = system?.legWidth?.value === undefined ? undefined : system.legWidth.value / 2
  if (system === undefined || half === undefined) return () => []
  const legs = Object.entries(system.legs)
  return (hookAlong) =>
    legs.map(([id, { x, offset }]) => ({
      to: `leg/${id}`,
      name: `leg ${id}, ${system.name}`,
      reach: boxReaches([x.value as number, hookAlong + (offset.value as number), 0], [half, half, TALL]),
    }))
}
