import {
  type CraneFeet,
  craneWeight,
  floatForce,
  type Hanging,
  hangings,
  largestFloat,
  trackLoad,
} from '../lift/index.ts'
import type { System } from '../model/index.ts'
import { type Point2, turned } from '../numeric/plan.ts'
import { type Answer, found, given, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { otherFeet, slewFrom, trackContact } from './crane.formulas.ts'
import { pressureField, together, type WallGrid } from './surcharge.ts'

/** One float or track of a crane as it presses on the ground. Frame: site plan. */
export interface CraneFoot {
  name: string
  at: Point2
  /** Along the carrier and across it, m. */
  size: Point2
  /** Of the carrier, from site x to the left, rad. */
  turn: number
  force: Answer<'N'>
}

/** Where the hook of a crane may be: its bearing from the slewing centre, from site x to the left, and how far out. */
export interface HookWay {
  bearing: number
  radius: Answer<'m'>
}

/** A crane that stands somewhere, with its hook loaded or empty. */
export interface StandingCrane {
  id: string
  system: System
  centre: Point2
  /** Of the carrier; undefined where the file does not say: then the worst of all is taken. */
  heading: Answer<'rad'> | undefined
  /** Under the head; undefined with the hook empty. */
  load: Answer<'kg'> | undefined
  /** All that the hook may point to; the one that presses most on the wall is taken. */
  ways: readonly HookWay[]
  /** Outer radius of the wall of the shaft, m; undefined where there is none. */
  wall: number | undefined
}

/** Heading and place of the hook at which the feet are asked for, with what hangs there. */
interface Posture {
  way: HookWay
  hung: Hanging
  heading: Answer<'rad'>
}

const EMPTY = stated('kg', 0, 'hook empty')
/** Over half a circle, for the feet of a carrier turned about are where they were. */
const HEADINGS = 12
const FLOATS = [
  { name: 'float ahead left', s_x: 1, s_y: 1 },
  { name: 'float ahead right', s_x: 1, s_y: -1 },
  { name: 'float behind right', s_x: -1, s_y: -1 },
  { name: 'float behind left', s_x: -1, s_y: 1 },
] as const

/**
 * The feet of a crane where they press most on the wall of the shaft: over every place that its hook may have, and over every
 * heading of the carrier where none is given.
 *
 * Postures are first sorted by the force of each foot over the square of its distance from the wall, summed, as the largest
 * pressure of a point load near the surface goes; of the first ones that which presses most, each foot in nine points, is taken. A posture in
 * which the crane would tip, and one that is not known, is taken before all others: its forces are open. So is a crane whose feet
 * would stand within the wall whichever way it is turned.
 *
 * Source: feet as in the lift stage (`lift.crane.float-force`, `lift.crane.track-load`). Limits: chosen for the wall; services and
 * bays beside it may have their own worst slew.
 */
export function craneFeet(c: StandingCrane): CraneFoot[] {
  const headings = headingsOf(c)
  const postures = c.ways.flatMap((way) => {
    const hung = hungAt(c, way)
    return headings.map((heading): Posture => ({ way, hung, heading }))
  })
  const all = postures.map((posture) => ({ feet: feetIn(c, posture), posture }))
  const clear = all.filter(({ feet }) => feet.every((foot) => isClear(c, foot)))
  if (clear.length === 0) return (all[0]?.feet ?? []).map((foot) => ({ ...foot, force: withinWall(c) }))
  const rough = clear.map(({ feet }) => ({ feet, by: roughly(c, feet) })).sort((a, b) => b.by - a.by)
  const first = rough[0] as (typeof rough)[number]
  if (c.wall === undefined || !Number.isFinite(first.by)) return first.feet
  const grid = gridBefore(c.centre, c.wall)
  const close = rough.slice(0, SHORT_LIST).map(({ feet }) => ({ feet, by: pressing(grid, feet) }))
  return close.reduce((a, b) => (b.by > a.by ? b : a)).feet
}

const SHORT_LIST = 24
const CUTS = 3

const at = (id: string, ...path: (string | number)[]) => pointerOf('systems', id, ...path)

function headingsOf({ heading, centre, wall }: StandingCrane): readonly Answer<'rad'>[] {
  if (heading !== undefined) return [heading]
  const most = wall === undefined ? 'any' : 'of every 15° the one that presses most on the wall'
  const across = Math.atan2(-centre[1], -centre[0])
  return Array.from({ length: wall === undefined ? 1 : HEADINGS }, (_, i) =>
    stated('rad', across + (i * Math.PI) / HEADINGS, `heading not given: ${most}`),
  )
}

const isClear = ({ wall }: StandingCrane, { at: [x, y] }: CraneFoot): boolean =>
  wall === undefined || Math.hypot(x, y) > wall

const withinWall = ({ id }: StandingCrane): Answer<'N'> => given('N', at(id, 'standings'), undefined)

/** How much the feet press on the wall, for comparison; a force that is not known comes before all. */
function roughly({ wall }: StandingCrane, feet: readonly CraneFoot[]): number {
  if (wall === undefined) return 0
  return feet.reduce(
    (sum, { force, at: [x, y] }) => sum + (force.value ?? Number.POSITIVE_INFINITY) / (Math.hypot(x, y) - wall) ** 2,
    0,
  )
}

/** The wall before a standing: point loads press most at half their distance below the surface. */
function gridBefore([x, y]: Point2, wall: number): WallGrid {
  const [away, towards] = [Math.max(Math.hypot(x, y) - wall, 1), Math.atan2(y, x)]
  return {
    radius: wall,
    levels: [0.1, 0.2, 0.3, 0.45, 0.65].map((share) => -share * away),
    bearings: [-45, -30, -15, 0, 15, 30, 45].map((turn) => towards + (turn * Math.PI) / 180),
  }
}

function pressing(grid: WallGrid, feet: readonly CraneFoot[]): number {
  const fields = feet.map(({ at: [x, y], size, turn, force }) => ({
    field: pressureField(grid, { force: 1, x, y, z: 0, size, turn }, CUTS),
    share: force.value as number,
  }))
  return Math.max(...together(fields, grid.levels.length * grid.bearings.length))
}

function feetIn(c: StandingCrane, posture: Posture): CraneFoot[] {
  const { tracks, outriggers } = c.system
  if (tracks !== undefined) return onTracks(c, posture, tracks)
  if (outriggers !== undefined) return onFloats(c, posture, outriggers)
  return [{ name: 'crane', at: c.centre, size: [0, 0], turn: 0, force: given('N', at(c.id, 'tracks'), undefined) }]
}

const onItsFeet = ({ id, system, load = EMPTY }: StandingCrane, { radius }: HookWay): CraneFeet => ({
  id,
  system,
  load,
  radius,
})

function hungAt(c: StandingCrane, way: HookWay): Hanging {
  const [loaded, empty] = hangings(onItsFeet(c, way))
  return (c.load === undefined ? empty : loaded) as Hanging
}

/** Weight of crane and load, how far it stands off the slewing centre, and at which slew. */
function leaning({ way, hung, heading }: Posture) {
  const beta = stated('rad', way.bearing, 'bearing of the hook from the slewing centre')
  return { W: hung.weight, e: hung.offset, theta: slewFrom.show({ beta, psi: heading }) }
}

type Tracks = NonNullable<System['tracks']>

/** Both tracks, each evenly over the length about what it bears. */
function onTracks(c: StandingCrane, posture: Posture, tracks: Tracks): CraneFoot[] {
  const { W, e, theta } = leaning(posture)
  const [L, b] = tracks.mat ?? [tracks.length, tracks.width]
  const near = trackLoad.show({ W, e, theta, gauge: tracks.gauge })
  const far = otherFeet.show({ W, F: near, n: stated('1', 1, 'the other track') })
  const contact = trackContact.show({ L, e, theta })
  const [off, slew, half] = [e.value ?? 0, theta.value ?? 0, (tracks.gauge.value as number) / 2]
  const side = off * Math.sin(slew) >= 0 ? 1 : -1
  const track = (s: number, force: Answer<'N'>): CraneFoot => ({
    name: s > 0 ? 'left track' : 'right track',
    ...placed(c, posture, [off * Math.cos(slew), s * half]),
    size: [contact.value ?? (L.value as number), b.value as number],
    force: found({
      unit: 'N',
      value: force.value,
      method: 'load of the track, evenly over the length of it that has its resultant in the middle',
      inputs: { 'load of the track': force, 'length that bears': contact },
      residuals: [],
    }),
  })
  return [track(side, near), track(-side, far)]
}

type Outriggers = NonNullable<System['outriggers']>

/** Four floats as a rigid frame; by the first guess of the trade for the float that is nearest where the crane's own balance is not given. */
function onFloats(c: StandingCrane, posture: Posture, { base: [L, B], mat }: Outriggers): CraneFoot[] {
  const size: Point2 = [mat[0].value as number, mat[1].value as number]
  const feet = FLOATS.map(({ name, s_x, s_y }) => {
    const on = placed(c, posture, [(s_x * (L.value as number)) / 2, (s_y * (B.value as number)) / 2])
    return { name, ...on, size, s_x, s_y }
  })
  if (c.system.ownOffset === undefined) return guessed(c, posture, feet)
  const { W, e, theta } = leaning(posture)
  return feet.map(({ s_x, s_y, ...foot }) => ({
    ...foot,
    force: floatForce.show({
      W,
      e,
      theta,
      L,
      B,
      s_x: stated('1', s_x, foot.name),
      s_y: stated('1', s_y, foot.name),
    }),
  }))
}

function guessed(c: StandingCrane, posture: Posture, feet: readonly Omit<CraneFoot, 'force'>[]): CraneFoot[] {
  const crane = onItsFeet(c, posture.way)
  const F = largestFloat(crane, c.system.outriggers as Outriggers)
  const rest = otherFeet.show({ W: craneWeight(crane), F, n: stated('1', 3, 'the other floats') })
  const away = feet.map(({ at: [x, y] }) => Math.hypot(x, y))
  const nearest = away.indexOf(Math.min(...away))
  return feet.map(({ name, at, size, turn }, i) => ({ name, at, size, turn, force: i === nearest ? F : rest }))
}

/** A place on the carrier, ahead and to the left of its slewing centre, on the site. */
function placed({ centre }: StandingCrane, { heading }: Posture, own: Point2): Pick<CraneFoot, 'at' | 'turn'> {
  const turn = heading.value ?? 0
  const [x, y] = turned(own, turn)
  return { at: [centre[0] + x, centre[1] + y], turn }
}
