import { floatForce, trackLoad } from '../lift/index.ts'
import type { System } from '../model/index.ts'
import type { Point2 } from '../numeric/plan.ts'
import { type Answer, found, given, stated } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { otherFeet, slewFrom, trackContact } from './crane.formulas.ts'
import {
  FLOATS,
  guessedForces,
  hungAt,
  nearestToShaft,
  onSite,
  type Posture,
  type StandingCrane,
} from './standingCrane.ts'
import { worstPosture } from './worstPosture.ts'

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

/** Over half a circle, for the feet of a carrier turned about are where they were. */
const HEADINGS = 12

/**
 * The feet of a crane where they press most on the wall of the shaft: over every place that its hook may have, and over every
 * heading of the carrier where none is given. A posture that is not known, or in which the crane would tip, is taken before all
 * others: its forces are open. So is a crane whose feet would stand within the wall whichever way it is turned.
 *
 * Source: feet as in the lift stage (`lift.crane.float-force`, `lift.crane.track-load`). Limits: chosen for the wall; services and
 * bays beside it may have their own worst slew.
 */
export function craneFeet(c: StandingCrane, memory: Memory): CraneFoot[] {
  const hungs = c.ways.map((way) => ({ way, hung: hungAt(c, way) }))
  const headings = headingsOf(c)
  const worst = worstPosture(c, hungs, headings, memory)
  if (worst !== undefined) return feetIn(c, worst)
  const [first] = hungs
  const [heading] = headings
  if (first === undefined || heading === undefined) return []
  return feetIn(c, { ...first, heading }).map((foot) => ({ ...foot, force: withinWall(c) }))
}

const at = (id: string, ...path: (string | number)[]) => pointerOf('systems', id, ...path)

function headingsOf({ heading, centre, wall }: StandingCrane): readonly Answer<'rad'>[] {
  if (heading !== undefined) return [heading]
  const most = wall === undefined ? 'any' : 'of every 15° the one that presses most on the wall'
  const across = Math.atan2(-centre[1], -centre[0])
  return Array.from({ length: wall === undefined ? 1 : HEADINGS }, (_, i) =>
    stated('rad', across + (i * Math.PI) / HEADINGS, `heading not given: ${most}`),
  )
}

const withinWall = ({ id }: StandingCrane): Answer<'N'> => given('N', at(id, 'standings'), undefined)

function feetIn(c: StandingCrane, posture: Posture): CraneFoot[] {
  const { tracks, outriggers } = c.system
  if (tracks !== undefined) return onTracks(c, posture, tracks)
  if (outriggers !== undefined) return onFloats(c, posture, outriggers)
  return [{ name: 'crane', at: c.centre, size: [0, 0], turn: 0, force: given('N', at(c.id, 'tracks'), undefined) }]
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
  const { F, rest } = guessedForces(c, posture.way)
  const nearest = nearestToShaft(feet.map(({ at }) => at))
  return feet.map(({ name, at, size, turn }, i) => ({ name, at, size, turn, force: i === nearest ? F : rest }))
}

/** A place on the carrier, ahead and to the left of its slewing centre, on the site. */
function placed({ centre }: StandingCrane, { heading }: Posture, own: Point2): Pick<CraneFoot, 'at' | 'turn'> {
  const turn = heading.value ?? 0
  return { at: onSite(centre, turn, own), turn }
}
