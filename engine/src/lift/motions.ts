import { multiply, norm, type Pose, subtract, transpose, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Hull, levelsOf } from './hull.ts'
import { hookPlaces, posesAlong } from './path.ts'
import type { Pick } from './pick.ts'

/** What a stage of a lift is for. */
export type StageName = 'pick' | 'rise' | 'travel' | 'turn' | 'lower' | 'land'

/** One movement of a hanging piece, as it is carried out. */
export interface Motion {
  name: StageName
  /** Hook over the centre of gravity, site frame; undefined where the place is not known. */
  from: Vec3 | undefined
  to: Vec3 | undefined
  /** Pose of the piece, machine frame to site frame; undefined where it is not known. */
  poses: readonly [Pose, Pose] | undefined
  /** Upward, m; below zero it is lowered. */
  rise: Answer<'m'>
  /** Turned through, rad, and whether about a line that lies level. */
  turned: number
  tilts: boolean
}

/** Below this a shift in plan is drawn with the hook, and a turn is trimmed with tag lines: neither takes time of its own. */
const DRAWN = 0.1
const TRIMMED = Math.PI / 180
const TRIMMED_BY = 0.01

/**
 * A lift as movements in the order they come. Outward: out of the seat (pick), the great rise, then travel and turns as its
 * moves say; what the moves leave out, to the place where it is set down and onto it, is added. Homeward: the same from the end.
 * A piece that the next lift goes on with is not set down, one that the lift before leaves hanging is not picked up.
 */
export function motionsOf(pick: Pick, hull: Hull | undefined): Motion[] {
  const outward = [...movedAsPlanned(pick).filter(isMoved), ...setDown(pick, hull)]
  const all = outward.length > 0 || pick.lift.kind === 'turn' ? outward : [unplanned(pick)]
  const turns = pick.lift.turn === undefined || all.some((m) => m.tilts && m.turned > TRIMMED) ? [] : [turnAlone(pick)]
  const whole = [...turns, ...all]
  return pick.homeward ? whole.reverse().map(reversed) : whole
}

/** A move that only trims the piece is no stage. */
const isMoved = ({ from, to, turned }: Motion): boolean =>
  isTurned(turned) || from === undefined || to === undefined || norm(subtract(to, from)) > TRIMMED_BY

/** The moves of its steps. */
function movedAsPlanned(pick: Pick): Motion[] {
  const poses = posesAlong(pick)
  const places = hookPlaces(pick).map(({ at }) => at)
  const shifts = places.slice(1).map((at, i) => subtract(at, places[i] as Vec3))
  const most = Math.max(0, ...shifts.map((s) => s[2]))
  const great = most > DRAWN ? shifts.findIndex((s) => s[2] === most) : -1
  return shifts.map((shift, i) => {
    const [from, to] = [poses[i], poses[i + 1]] as [Pose, Pose]
    const { angle, tilts } = turnBetween(from, to)
    return {
      name: nameOf(shift, angle, i, great),
      from: places[i],
      to: places[i + 1],
      poses: [from, to],
      rise: found({
        unit: 'm',
        value: shift[2],
        method: 'rise of the centre of gravity in this move',
        inputs: riseInputs(pick, i),
        residuals: [],
      }),
      turned: angle,
      tilts,
    }
  })
}

function riseInputs({ moves }: Pick, i: number): Record<string, Answer> {
  const move = moves[i]
  return move !== undefined && 'by' in move ? { 'move upward': move.by[2] } : {}
}

function nameOf(shift: Vec3, angle: number, i: number, great: number): StageName {
  if (angle > TRIMMED) return 'turn'
  if (i < great) return 'pick'
  if (Math.abs(shift[2]) < Math.hypot(shift[0], shift[1])) return 'travel'
  return shift[2] > 0 ? 'rise' : 'land'
}

/** Angle between two poses, and whether its axis lies nearer level than plumb. */
function turnBetween(from: Pose, to: Pose): { angle: number; tilts: boolean } {
  const m = multiply(to.turn, transpose(from.turn))
  const angle = Math.acos(Math.min(1, Math.max(-1, (m[0][0] + m[1][1] + m[2][2] - 1) / 2)))
  return { angle, tilts: m[2][2] < Math.cos(angle) * 0.5 + 0.5 }
}

/** From where the moves end to the place it is set down on; none where they end by lowering it, or it hangs on. */
function setDown(pick: Pick, hull: Hull | undefined): Motion[] {
  const hangs = pick.homeward ? pick.takenHanging : pick.leftHanging
  const [end, at] = [posesAlong(pick).at(-1), hookPlaces(pick).at(-1)?.at]
  if (end === undefined || at === undefined || hangs || endsLowered(pick)) return []
  const down = landingOf(pick)
  const level = down[2].value
  const [x, y] = [down[0].value, down[1].value]
  const over: Vec3 | undefined = x === undefined || y === undefined ? undefined : [x, y, at[2]]
  const low = hull === undefined ? undefined : levelsOf(hull, end).low
  const drop = found({
    unit: 'm',
    value: low === undefined || level === undefined ? undefined : Math.min(0, level - low),
    method: 'from the lowest point of the piece, where its moves end, down to what it is set on',
    inputs: {
      'set down on': down[2],
      ...(hull === undefined ? { 'shapes of its parts': given('m', `${pick.pieceAt}/parts`, undefined) } : {}),
    },
    residuals: [],
  })
  const above = over === undefined ? undefined : shifted(end, subtract(over, at))
  const landed = above === undefined || drop.value === undefined ? undefined : shifted(above, [0, 0, drop.value])
  const travels = over === undefined || Math.hypot(over[0] - at[0], over[1] - at[1]) > DRAWN
  return [
    ...(travels ? [still({ name: 'travel', from: at, to: over, poses: pair(end, above), rise: LEVEL })] : []),
    still({
      name: 'land',
      from: over,
      to: over === undefined || drop.value === undefined ? undefined : [over[0], over[1], over[2] + drop.value],
      poses: pair(above, landed),
      rise: drop,
    }),
  ]
}

const LEVEL: Answer<'m'> = { kind: 'stated', unit: 'm', value: 0, text: 'at one height' }
const still = (motion: Omit<Motion, 'turned' | 'tilts'>): Motion => ({ ...motion, turned: 0, tilts: false })
const shifted = (pose: Pose, by: Vec3): Pose => ({
  turn: pose.turn,
  shift: pose.shift.map((s, i) => s + (by[i] as number)) as unknown as Vec3,
})
const pair = (a: Pose | undefined, b: Pose | undefined): Motion['poses'] =>
  a === undefined || b === undefined ? undefined : [a, b]

/** Moves that end by lowering the piece set it down. */
function endsLowered(pick: Pick): boolean {
  const [a, b] = hookPlaces(pick)
    .map(({ at }) => at)
    .slice(-2)
  return a !== undefined && b !== undefined && b[2] < a[2] - DRAWN
}

type Landing = readonly [Answer<'m'>, Answer<'m'>, Answer<'m'>]

/** Where it is set down: as the lift says, on the trailer that takes it, or in the middle of its bay. */
export function landingOf({ lift, trailer, bay, bayAt }: Pick): Landing {
  if (lift.landing !== undefined) return lift.landing
  if (trailer?.at !== undefined) return trailer.at
  return [
    knownOr(bay?.centre[0], 'm', `${bayAt}/centre/0`),
    knownOr(bay?.centre[1], 'm', `${bayAt}/centre/1`),
    knownOr(bay?.level, 'm', `${bayAt}/level`),
  ]
}

/** A lift that no step carries out has no way. */
const unplanned = (_: Pick): Motion =>
  still({ name: 'rise', from: undefined, to: undefined, poses: undefined, rise: given('m', '/steps', undefined) })

/** A turn whose moves are not planned: at its place, through the angle that the lift says. */
function turnAlone({ lift, bay }: Pick): Motion {
  const turn = lift.turn as NonNullable<Pick['lift']['turn']>
  const [x, y, z] = [bay?.centre[0].value, bay?.centre[1].value, bay?.level.value]
  const at: Vec3 | undefined = x === undefined || y === undefined || z === undefined ? undefined : [x, y, z]
  const angle = Math.abs((turn.to.value as number) - (turn.from.value as number))
  return { name: 'turn', from: at, to: at, poses: undefined, rise: LEVEL, turned: angle, tilts: true }
}

const MIRROR: Record<StageName, StageName> = {
  pick: 'land',
  land: 'pick',
  rise: 'lower',
  lower: 'rise',
  travel: 'travel',
  turn: 'turn',
}

/** The same movement the other way. */
export function reversed(motion: Motion): Motion {
  const { name, from, to, poses, rise } = motion
  return {
    ...motion,
    name: MIRROR[name],
    from: to,
    to: from,
    poses: poses === undefined ? undefined : [poses[1], poses[0]],
    rise: negated(rise),
  }
}

const negated = (rise: Answer<'m'>): Answer<'m'> =>
  found({
    unit: 'm',
    value: rise.value === undefined ? undefined : -rise.value,
    method: 'the same rise the other way',
    inputs: { rise },
    residuals: [],
  })

/** Length of the way of a lift's movements, m, along the straight lines between their ends. */
export const lengthOf = (motions: readonly Motion[]): number =>
  motions.reduce(
    (sum, { from, to }) =>
      from === undefined || to === undefined
        ? sum
        : sum + Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]),
    0,
  )

/** Whether a movement in plan is large enough to be travelled. */
export const isTravelled = (plan: number): boolean => plan > DRAWN
/** Whether an angle is large enough to be turned on purpose. */
export const isTurned = (angle: number): boolean => angle > TRIMMED
