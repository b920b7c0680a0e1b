import { floatForce, type Hanging, trackLoad } from '../lift/index.ts'
import type { Point2 } from '../numeric/plan.ts'
import type { Answer } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { otherFeet, trackContact } from './crane.formulas.ts'
import {
  FLOATS,
  guessedForces,
  type HookWay,
  nearestToShaft,
  onSite,
  type Posture,
  type StandingCrane,
} from './standingCrane.ts'
import { pressureField, together, type WallGrid } from './surcharge.ts'

/** A place of the hook, with what hangs there. */
interface HungWay {
  way: HookWay
  hung: Hanging
}

/** The feet at one heading: what one newton on each float, or on each piece of a track, does to the wall before the standing. */
interface Unit {
  heading: Answer<'rad'>
  fields: readonly Float64Array[]
}

/** What the feet bear in one posture: N on each of the same, and whether one of them stands within the wall. */
interface Borne {
  posture: Posture
  forces: readonly number[]
  isClear: boolean
}

/** Pieces of a track along its length, and of a float along each side. */
const PIECES = 8
const CUTS = 3
/** Places of the hook that are tried first: every one of them where there are no more. */
const FEW = 12

/**
 * The posture in which a crane presses most on the wall: of some places of its hook at every heading the worst, then of the places
 * between. What a newton does from a heading is kept, so that each posture is a sum. One that is not known, or in which the crane would
 * tip, comes before all others; undefined where the feet stand within the wall in all of them.
 */
export function worstPosture(
  c: StandingCrane,
  ways: readonly HungWay[],
  headings: readonly Answer<'rad'>[],
  memory: Memory,
): Posture | undefined {
  const [first] = postures(ways.slice(0, 1), headings)
  if (first === undefined) return undefined
  const open = openPosture(c, ways, headings)
  if (open !== undefined) return open
  const { wall } = c
  if (wall === undefined) return first
  const units = headings.map((heading, i) => unitAt(c, wall, heading, i, memory))
  const stride = Math.ceil(ways.length / FEW)
  const coarse = worstOf(
    c,
    ways.filter((_, i) => i % stride === 0),
    units,
  )
  if (coarse === undefined || stride === 1) return coarse?.posture
  const at = ways.findIndex(({ way }) => way === coarse.posture.way)
  const near = ways.filter((_, i) => Math.abs(i - at) < stride)
  return worstOf(c, near, units)?.posture
}

const postures = (ways: readonly HungWay[], headings: readonly Answer<'rad'>[]): Posture[] =>
  ways.flatMap((one) => headings.map((heading) => ({ ...one, heading })))

/** The first posture that is not known, or in which the crane would tip. */
function openPosture(
  c: StandingCrane,
  ways: readonly HungWay[],
  headings: readonly Answer<'rad'>[],
): Posture | undefined {
  const [first] = postures(ways.slice(0, 1), headings)
  const { tracks, outriggers } = c.system
  if (tracks === undefined && outriggers === undefined) return first
  if (tracks === undefined && c.system.ownOffset === undefined)
    return postures(ways, headings.slice(0, 1)).find(({ way }) => guessedForces(c, way).rest.value === undefined)
  const base = tracks === undefined ? outriggers?.base : [tracks.gauge, (tracks.mat ?? [tracks.length])[0]]
  const stable = Math.min(...(base ?? []).map((side) => side.value as number)) / 2
  // nearer to the slewing centre than any edge nothing tips, whatever the slew
  const doubtful = ways.filter(
    ({ hung: { weight, offset } }) => !(weight.value && Math.abs(offset.value ?? Number.NaN) < stable),
  )
  return postures(doubtful, headings).find((posture) => isOpen(c, posture))
}

function isOpen(c: StandingCrane, posture: Posture): boolean {
  const { tracks, outriggers } = c.system
  const [W, e] = [posture.hung.weight.value, posture.hung.offset.value]
  if (W === undefined || e === undefined) return true
  const theta = slewOf(posture)
  if (tracks !== undefined) {
    const L = (tracks.mat?.[0] ?? tracks.length).value as number
    const gauge = tracks.gauge.value as number
    return trackLoad.broken({ W, e, theta, gauge }).length + trackContact.broken({ L, e, theta }).length > 0
  }
  const [L, B] = (outriggers?.base ?? []).map((side) => side.value as number) as [number, number]
  return floatForce.broken({ W, e, theta, L, B, s_x: 1, s_y: 1 }).length > 0
}

const slewOf = ({ way, heading }: Posture): number => way.bearing - (heading.value ?? 0)

/** The worst of these postures; those with a foot within the wall are left out. */
function worstOf(c: StandingCrane, ways: readonly HungWay[], units: readonly Unit[]): Borne | undefined {
  let worst: Borne | undefined
  let most = Number.NEGATIVE_INFINITY
  for (const one of ways) {
    for (const { heading, fields } of units) {
      const borne = borneIn(c, { ...one, heading })
      const pressure = borne.isClear ? peakOf(fields, borne.forces) : Number.NEGATIVE_INFINITY
      if (pressure > most) [worst, most] = [borne, pressure]
    }
  }
  return worst
}

const peakOf = (fields: readonly Float64Array[], forces: readonly number[]): number =>
  Math.max(
    ...together(
      fields.map((field, i) => ({ field, share: forces[i] as number })),
      fields[0]?.length ?? 0,
    ),
  )

/** Fields of the feet of a crane at a heading: nothing in them hangs from what it lifts. */
function unitAt(c: StandingCrane, wall: number, heading: Answer<'rad'>, i: number, memory: Memory): Unit {
  const { tracks, outriggers } = c.system
  const inputs = [tracks, outriggers, ...c.centre, wall, heading.value]
  const fields = memory.once(`ground-crane-field/${c.id}/${c.centre.join()}/${i}`, inputs, () => {
    const grid = gridBefore(c.centre, wall)
    const turn = heading.value ?? 0
    return placesOf(c).map(({ own, size, cuts }) => {
      const [x, y] = onSite(c.centre, turn, own)
      return pressureField(grid, { force: 1, x, y, z: 0, size, turn }, cuts)
    })
  })
  return { heading, fields }
}

/** Middles of the floats, or of the pieces of both tracks, on the carrier, ahead and to the left, m. */
function placesOf({ system: { tracks, outriggers } }: StandingCrane): { own: Point2; size: Point2; cuts: number }[] {
  if (tracks !== undefined) {
    const [L, b] = (tracks.mat ?? [tracks.length, tracks.width]).map((side) => side.value as number) as [number, number]
    const half = (tracks.gauge.value as number) / 2
    return [1, -1].flatMap((s) =>
      Array.from({ length: PIECES }, (_, k) => {
        const own: Point2 = [((k + 0.5) / PIECES - 0.5) * L, s * half]
        return { own, size: [L / PIECES, b] as const, cuts: 1 }
      }),
    )
  }
  const { base, mat } = outriggers as NonNullable<typeof outriggers>
  const [L, B] = base.map((side) => side.value as number) as [number, number]
  const size: Point2 = [mat[0].value as number, mat[1].value as number]
  return FLOATS.map(({ s_x, s_y }) => ({ own: [(s_x * L) / 2, (s_y * B) / 2], size, cuts: CUTS }))
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

const borneIn = (c: StandingCrane, posture: Posture): Borne =>
  c.system.tracks !== undefined ? borneByTracks(c, posture, c.system.tracks) : borneByFloats(c, posture)

type Tracks = NonNullable<StandingCrane['system']['tracks']>

/** Each track evenly over the length about what it bears, as shares of its pieces. */
function borneByTracks(c: StandingCrane, posture: Posture, tracks: Tracks): Borne {
  const [W, e, theta] = [posture.hung.weight.value as number, posture.hung.offset.value as number, slewOf(posture)]
  const [L, gauge] = [(tracks.mat?.[0] ?? tracks.length).value as number, tracks.gauge.value as number]
  const near = trackLoad.value({ W, e, theta, gauge })
  const far = otherFeet.value({ W, F: near, n: 1 })
  const contact = trackContact.value({ L, e, theta })
  const middle = e * Math.cos(theta)
  const isLeft = e * Math.sin(theta) >= 0
  const forces = [isLeft ? near : far, isLeft ? far : near].flatMap((force) =>
    Array.from({ length: PIECES }, (_, k) => {
      const from = Math.max((k / PIECES - 0.5) * L, middle - contact / 2)
      const to = Math.min(((k + 1) / PIECES - 0.5) * L, middle + contact / 2)
      return (force * Math.max(0, to - from)) / contact
    }),
  )
  const tracksAt = [1, -1].map((s) => onSite(c.centre, posture.heading.value ?? 0, [middle, (s * gauge) / 2]))
  return { posture, forces, isClear: tracksAt.every((at) => isOutside(c, at)) }
}

function borneByFloats(c: StandingCrane, posture: Posture): Borne {
  const [L, B] = (c.system.outriggers?.base ?? []).map((side) => side.value as number) as [number, number]
  const floats = FLOATS.map(({ s_x, s_y }) =>
    onSite(c.centre, posture.heading.value ?? 0, [(s_x * L) / 2, (s_y * B) / 2]),
  )
  const isClear = floats.every((at) => isOutside(c, at))
  if (c.system.ownOffset === undefined) {
    const { F, rest } = guessedForces(c, posture.way)
    const nearest = nearestToShaft(floats)
    const forces = floats.map((_, i) => (i === nearest ? F.value : rest.value) as number)
    return { posture, forces, isClear }
  }
  const [W, e, theta] = [posture.hung.weight.value as number, posture.hung.offset.value as number, slewOf(posture)]
  const forces = FLOATS.map(({ s_x, s_y }) => floatForce.value({ W, e, theta, L, B, s_x, s_y }))
  return { posture, forces, isClear }
}

const isOutside = ({ wall }: StandingCrane, [x, y]: Point2): boolean => wall === undefined || Math.hypot(x, y) > wall
