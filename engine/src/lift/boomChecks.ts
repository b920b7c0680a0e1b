import { type Answer, found, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { unknownWay } from './beside.ts'
import { boomGap } from './boom.formulas.ts'
import { type Boom, type BoomNearest, boomStanding, nearestToBoom, outOfReach } from './boom.ts'
import { boomAngleAt, boomAnswers, boomFigures, hangingSizes, sizesOf } from './boomFigures.ts'
import type { BoomWay } from './boomWay.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import { type BodiesAt, type HangingPiece, hangingBodies, sharedBodies } from './hanging.ts'
import type { Hull } from './hull.ts'
import { boomClearance } from './kinds.ts'
import { ofMachine } from './machines.ts'
import type { NearestOverhead, OverheadChecks } from './overhead.ts'
import type { Hooked, Pick } from './pick.ts'
import { legOf } from './rig.ts'
import type { TimedMotion } from './stages.ts'
import type { Suspension } from './suspension.ts'
import { isCrane, slewingCentre } from './swept.ts'

/** What a lift is looked at with. */
export interface BoomLooked {
  stages: readonly TimedMotion[]
  hull: Hull | undefined
  suspension: Suspension
}

/**
 * What hangs from each crane of a lift against the boom of that crane: a wide piece at a steep boom strikes it. Towers, gantries
 * and hoists have none. A piece that is shared or turned is held against both booms, over all its stages.
 */
export const boomChecks = (pick: Pick, ways: readonly BoomWay[], looked: BoomLooked): OverheadChecks[] =>
  ways.map((way) => ownBoomCheck(pick, way, looked))

function ownBoomCheck(pick: Pick, way: BoomWay, looked: BoomLooked): OverheadChecks {
  const { hooked, figures, moments } = way
  const open = openInputs(pick, way, looked)
  const isKnown = looked.hull !== undefined && Object.values(open).every(({ value }) => value !== undefined)
  if (!isKnown || figures.boom === undefined || looked.hull === undefined)
    return { checks: [boomCheck(pick, hooked, gapOpen(open), [])] }
  const beyond = outOfReach(figures.boom, moments)
  if (beyond !== undefined) {
    const angle = boomAngleAt(pick, hooked, beyond.radius)
    return { checks: [boomCheck(pick, hooked, gapOpen({ 'angle of the boom': angle }), [])] }
  }
  const { hull, suspension } = looked
  const { centre } = figures.boom
  const nearest = nearestToBoom(figures.boom, moments, bodiesOf(pick, way, { hull, suspension, centre }))
  const [least] = nearest
  const said = nearest.map((one) => words(one, looked.stages))
  const made = boomCheck(pick, hooked, gapAnswer(pick, hooked, least, open), said)
  return {
    checks: [made],
    ...(least === undefined ? {} : { nearest: placeOf(made, figures.boom, least) }),
  }
}

function placeOf({ id }: Check, boom: Boom, least: BoomNearest): NearestOverhead {
  const { gap, from, along, hook } = least
  const { depth, width } = boom
  const standing = boomStanding(boom, [hook[0], hook[1]])
  return { check: id, gap, what: nameOf(least), to: 'the boom', from, along, boom: { ...standing, depth, width } }
}

/** A piece hangs still from one hook: its rigging is where the equilibrium has it. */
const hangsAlone = ({ tail, lift }: Pick): boolean => tail === undefined && lift.kind !== 'turn'

/** The boom over a piece that hangs still from one crane; undefined where it has none, or where a figure of it is missing. */
export const boomOf = (pick: Pick): Boom | undefined =>
  isCrane(pick.main.system) && hangsAlone(pick) ? boomFigures(pick, pick.main).boom : undefined

const tilts = ({ tilt, worstTilt }: Suspension): Record<string, Answer> => ({
  'tilt as it hangs': tilt,
  'worst tilt': worstTilt,
})

/** What the check holds against that boom in a moment; undefined where a size of it is not known. */
export function bodiesUnder(pick: Pick, hull: Hull, suspension: Suspension): BodiesAt | undefined {
  const known = [...Object.values(sizesOf(pick, pick.main)), ...Object.values(tilts(suspension))]
  const centre = slewingCentre(pick)
  if (centre === undefined || known.some(({ value }) => value === undefined)) return undefined
  return hangingBodies(pick, { hull, suspension, centre }, hangingSizes(pick, pick.main))
}

function openInputs(pick: Pick, { hooked, hooks, figures }: BoomWay, looked: BoomLooked): Record<string, Answer> {
  return {
    ...figures.answers,
    ...sizesOf(pick, hooked),
    ...unknownWay(pick, looked.stages, looked.hull),
    ...leanInputs(pick, looked.suspension),
    ...(hangsAlone(pick) ? {} : legLengths(pick, hooks)),
  }
}

/** What the piece leans by at rest, and rolls by under two hooks that turn it; on a pivot it does neither. */
function leanInputs({ lift, tail, settings }: Pick, suspension: Suspension): Record<string, Answer> {
  if (lift.kind !== 'turn') return tilts(suspension)
  return tail === undefined
    ? {}
    : { 'shift of the centre of gravity': knownOr(settings.cogShift, 'm', '/settings/cogShift') }
}

const legLengths = (pick: Pick, hooks: BoomWay['hooks']): Record<string, Answer> =>
  Object.fromEntries(
    hooks.flatMap(({ hooked }) =>
      (hooked.rigging?.legs ?? []).map((_, i): [string, Answer] => {
        const { id, length } = legOf(pick, hooked, i)
        return [`${hooked.hook.name}, ${id}: length`, length]
      }),
    ),
  )

function bodiesOf(pick: Pick, { hooked, hooks }: BoomWay, piece: HangingPiece): BodiesAt {
  if (hangsAlone(pick)) return hangingBodies(pick, piece, hangingSizes(pick, hooked))
  return sharedBodies(
    pick,
    piece,
    hooks.map((one) => ({ ...one, sizes: hangingSizes(pick, one.hooked) })),
  )
}

function boomCheck(pick: Pick, hooked: Hooked, gap: Answer<'m'>, nearest: readonly string[]): Check {
  const of = ofMachine(pick, hooked)
  return check({
    kind: boomClearance,
    subject: pick.subject,
    ...of,
    ...(of.of === undefined ? {} : { title: `${boomClearance.title}: ${hooked.system.name}` }),
    demand: knownOr(pick.settings.clearanceToBoom, 'm', '/settings/clearanceToBoom'),
    capacity: gap,
    near: pick.near,
    assumptions: [
      ...nearest,
      'A straight box from its pin to over the hook, which stays plumb under its head; no swing, and the boom does not give under the load.',
      hangsAlone(pick)
        ? 'The piece as found, as it hangs, at its worst tilt, and with as much tilt to the boom and from it; rigging as the hull of its legs and the hook, as it hangs by plan. A slew leaves its heading as it is.'
        : 'The piece as its moves have it; at rest as it hangs by plan, at its worst tilt and at the corners of levels and centre of gravity that lean most to the boom and from it; in a turn at every twelfth of it, on beyond its ends as far as an error of the heights lets it, and rolled either way under its hooks by the box of its centre of gravity; each hook over the middle of its points, in a turn by two hooks beside that as far as its line leans at any corner of that box, and no lower than its legs are long.',
    ],
    cautions: LIFT_CAUTIONS,
    found: [
      `${nearest[0] ?? 'what hangs from the hook'}: a larger radius, a longer boom, a shorter way up or another heading of the piece`,
    ],
  })
}

const METHOD =
  'at moments of the way no more than 5° of slew and 0.5 m of radius apart: for every convex body the largest gap over the directions square to the boom; the least of them'

const gapOpen = (inputs: Record<string, Answer>): Answer<'m'> =>
  found({ unit: 'm', value: undefined, method: METHOD, inputs, residuals: [] })

/** The gap of the nearest pair from its own figures; the rest of what it hangs from stands beside the nearest point. */
function gapAnswer(
  pick: Pick,
  hooked: Hooked,
  nearest: BoomNearest | undefined,
  rests: Record<string, Answer>,
): Answer<'m'> {
  if (nearest === undefined) return gapOpen(rests)
  const { ahead, level, depth, width } = boomAnswers(pick, hooked)
  const [rho, y, z] = nearest.at
  const whose = `nearest point of ${nameOf(nearest)}`
  const on = (value: number, along: string): Answer<'m'> =>
    found({ unit: 'm', value, method: `${whose}, ${along}: ${METHOD}`, inputs: rests, residuals: [] })
  return boomGap.show({
    rho: on(rho, 'along the radius'),
    y: on(y, 'beside the plane of the boom'),
    z: on(z, 'site z'),
    a: ahead,
    z_0: level,
    theta: boomAngleAt(pick, hooked, nearest.radius),
    phi: stated('rad', nearest.direction, 'direction about the boom in which the two are farthest apart'),
    h: depth,
    b: width,
  })
}

const nameOf = ({ body }: BoomNearest): string =>
  body.what === 'piece' ? `the piece, ${body.part}` : `the ${body.what}`

/** Which pair, how far apart, how it hangs, and when. */
function words(nearest: BoomNearest, stages: readonly TimedMotion[]): string {
  const stage = stages[nearest.stage] as TimedMotion
  const start = stage.start.value
  const took = stage.time.value
  const when =
    start === undefined || took === undefined
      ? ''
      : `, ${Math.round((start + nearest.share * took) / 60)} min after the load is taken`
  return `${nameOf(nearest)} and the boom: ${nearest.gap.toFixed(2)} m, ${nearest.body.as}, in the stage ${stage.name} at a radius of ${nearest.radius.toFixed(1)} m${when}`
}
