import { type Pose, place } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { unknownWay } from './beside.ts'
import { boomAngle, boomGap } from './boom.formulas.ts'
import { type Boom, type BoomNearest, boomStanding, momentsOf, nearestToBoom, outOfReach } from './boom.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import { type HangingBody, type HangingSizes, hangingBodies } from './hanging.ts'
import type { Hull } from './hull.ts'
import { boomClearance } from './kinds.ts'
import type { NearestOverhead, OverheadChecks } from './overhead.ts'
import type { Pick } from './pick.ts'
import { fittedOf } from './rated.ts'
import { halfOfSpreader, spreaderSections } from './riggingHull.ts'
import type { TimedMotion } from './stages.ts'
import type { Suspension } from './suspension.ts'
import { isCrane, slewingCentre } from './swept.ts'

/**
 * What hangs from a crane by one hook against its boom: a wide piece at a steep boom strikes it. Towers, gantries and hoists have
 * none. Of a turn, and of a piece on two hooks, the hooks do not stand over the centre of gravity: no check is made.
 */
export function boomChecks(
  pick: Pick,
  stages: readonly TimedMotion[],
  hull: Hull | undefined,
  suspension: Suspension,
): OverheadChecks {
  if (!hangsFromBoom(pick)) return { checks: [] }
  const figures = figuresOf(pick)
  const open = {
    ...figures.answers,
    ...sizesOf(pick),
    ...unknownWay(pick, stages, hull),
    'tilt as it hangs': suspension.tilt,
  }
  const isKnown = hull !== undefined && Object.values(open).every(({ value }) => value !== undefined)
  if (!isKnown || figures.boom === undefined) return { checks: [boomCheck(pick, gapOpen(open), [])] }
  const moments = momentsOf(pick, stages, figures.boom.centre)
  const beyond = outOfReach(figures.boom, moments)
  if (beyond !== undefined)
    return { checks: [boomCheck(pick, gapOpen({ 'angle of the boom': angleAt(pick, beyond.radius) }), [])] }
  const bodiesAt = hangingBodies(pick, hull, suspension, hangingSizes(pick))
  const nearest = nearestToBoom(pick, figures.boom, moments, bodiesAt)
  const said = nearest.map((one) => words(one, stages))
  const [least] = nearest
  return {
    checks: [boomCheck(pick, gapAnswer(pick, least, open), said)],
    ...(least === undefined ? {} : { nearest: placeOf(pick, figures.boom, least) }),
  }
}

function placeOf(pick: Pick, boom: Boom, least: BoomNearest): NearestOverhead {
  const { gap, from, along, pose } = least
  const [x, y] = place(pose, pick.set.cogMachine)
  return {
    kind: boomClearance.id,
    gap,
    what: nameOf(least),
    to: 'the boom',
    from,
    along,
    boom: boomStanding(boom, [x, y]),
  }
}

/** Turns, and pieces on two hooks, are held to no boom. */
const hangsFromBoom = (pick: Pick): boolean =>
  isCrane(pick.main.system) && pick.tail === undefined && pick.lift.kind !== 'turn'

/** The boom of a lift as the check takes it; undefined where it has none, or where a figure of it is missing. */
export const boomOf = (pick: Pick): Boom | undefined => (hangsFromBoom(pick) ? figuresOf(pick).boom : undefined)

/** What the check holds against the boom with the piece at a pose; undefined where a size of it is not known. */
export function bodiesUnder(
  pick: Pick,
  hull: Hull,
  suspension: Suspension,
): ((pose: Pose) => HangingBody[]) | undefined {
  const sizes = [...Object.values(sizesOf(pick)), suspension.tilt]
  if (sizes.some(({ value }) => value === undefined)) return undefined
  return hangingBodies(pick, hull, suspension, hangingSizes(pick))
}

function boomCheck(pick: Pick, gap: Answer<'m'>, nearest: readonly string[]): Check {
  return check({
    kind: boomClearance,
    subject: pick.subject,
    demand: knownOr(pick.settings.clearanceToBoom, 'm', '/settings/clearanceToBoom'),
    capacity: gap,
    near: pick.near,
    assumptions: [
      ...nearest,
      'A straight box from its pin to over the hook, which stays plumb under its head; no swing, and the boom does not give under the load.',
      'The piece as found, as it hangs and at its worst tilt; rigging as the hull of its legs and the hook, as it hangs by plan. A slew leaves its heading as it is.',
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

interface Figures {
  answers: Record<string, Answer>
  boom: Boom | undefined
}

/** The boom as the file has it, and what of it is missing. */
function figuresOf(pick: Pick): Figures {
  const answers = boomAnswers(pick)
  const centre = slewingCentre(pick)
  const { ahead, level, length, depth, width } = answers
  const values = [ahead, level, length, depth, width].map(({ value }) => value)
  const standing: Record<string, Answer> =
    centre === undefined ? { 'where the crane stands': given('m', standingAt(pick), undefined) } : {}
  return {
    answers: {
      'length of the boom': length,
      'its pin ahead of the slewing centre, by its maker': ahead,
      'its pin, site z': level,
      'its depth, by its maker': depth,
      'its width, by its maker': width,
      ...standing,
    },
    boom:
      centre === undefined || values.includes(undefined)
        ? undefined
        : {
            centre,
            length: length.value as number,
            ahead: ahead.value as number,
            level: level.value as number,
            depth: depth.value as number,
            width: width.value as number,
          },
  }
}

function boomAnswers(pick: Pick) {
  const { system, systemAt } = pick.main
  const own = (field: 'ahead' | 'level' | 'depth' | 'width'): Answer<'m'> =>
    knownOr(system.boom?.[field], 'm', `${systemAt}/boom/${field}`)
  return {
    length: knownOr(fittedOf(pick, pick.main).boom, 'm', `${systemAt}/setUp/boom`),
    ahead: own('ahead'),
    level: own('level'),
    depth: own('depth'),
    width: own('width'),
  }
}

const standingAt = ({ at, lift, main }: Pick): string =>
  lift.standing === undefined ? `${at}/standing` : `${main.systemAt}${pointerOf('standings', lift.standing)}`

/** Sizes of block and spreaders that the gap is measured to. */
function sizesOf(pick: Pick): Record<string, Answer> {
  const { hook, hookAt } = pick.main
  const at = (field: 'width' | 'height'): Answer<'m'> =>
    knownOr(hook.blockSize?.[field], 'm', `${hookAt}/blockSize/${field}`)
  return {
    'width of the block, by its maker': at('width'),
    'height of the block, by its maker': at('height'),
    ...spreaderSections(pick),
  }
}

function hangingSizes(pick: Pick): HangingSizes {
  const { blockSize } = pick.main.hook
  return {
    spreader: halfOfSpreader(pick),
    block: blockSize && { width: blockSize.width.value as number, height: blockSize.height.value as number },
  }
}

const angleAt = (pick: Pick, radius: number): Answer<'rad'> => {
  const { ahead, length } = boomAnswers(pick)
  return boomAngle.show({
    r: stated('m', radius, 'from the slewing centre to the hook in that moment'),
    a: ahead,
    L: length,
  })
}

/** The gap of the nearest pair from its own figures; the rest of what it hangs from stands beside the nearest point. */
function gapAnswer(pick: Pick, nearest: BoomNearest | undefined, rests: Record<string, Answer>): Answer<'m'> {
  if (nearest === undefined) return gapOpen(rests)
  const { ahead, level, depth, width } = boomAnswers(pick)
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
    theta: angleAt(pick, nearest.radius),
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
