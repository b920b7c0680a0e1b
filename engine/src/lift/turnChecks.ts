import { type Answer, found, GRAVITY, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { showNumber } from '../working/quantity.ts'
import { LIFT_CAUTIONS, RESTRAINT_CAUTIONS, TURNING_CAUTIONS } from './caution.ts'
import { tooMuch } from './cure.ts'
import { sharedLoad, withDynamics } from './hook.ts'
import { bothHooksCheck, NONE_ALLOWED } from './hookChecks.ts'
import { outOfPlumb, overCentre, sharedWorst, turnBox, turnReversal, turnShare } from './kinds.ts'
import type { TurnStage } from './lift.ts'
import type { Hooked, Pick } from './pick.ts'
import { allowedOf, ratedOf } from './rated.ts'
import { peakOf } from './stretches.ts'
import { lineLoad, restraint } from './turn.formulas.ts'
import { type CornerTurn, holdsThroughout, isStable, type TurnCorner, worstCorner } from './turnBox.ts'
import type { TwoHooks } from './turning.ts'
import { type OpenTurn, type Turning, turnAnswer } from './turningOf.ts'

/** Stages of a turn for the sheet. */
export const turnStages = (turning: Turning | OpenTurn): TurnStage[] =>
  'open' in turning ? [] : stagesFrom(turning, turning.stages)

/** The same as near to each other as lugs have to be looked at. */
export const turnAttitudes = (turning: Turning | OpenTurn): TurnStage[] =>
  'open' in turning ? [] : stagesFrom(turning, turning.attitudes)

function stagesFrom(turning: Turning, stages: Turning['stages']): TurnStage[] {
  return stages.map(({ angle, held }) => ({
    angle,
    main: turnAnswer('N', held?.main, turning, held),
    tail: turnAnswer('N', held?.tail, turning, held),
    mainLean: held?.mainLean ?? 0,
    tailLean: held?.tailLean ?? 0,
    apart: held?.apart ?? 0,
    held: held !== undefined,
  }))
}

/** Shares, reversal, lean and worst shares of a turn. */
export function turnChecks(pick: Pick, turning: Turning | OpenTurn, critical: boolean | undefined): Check[] {
  const hooks: ['main' | 'tail', Hooked][] = [['main', pick.main]]
  if (pick.tail !== undefined) hooks.push(['tail', pick.tail])
  return [
    ...hooks.flatMap(([side, hooked]) => [
      shareCheck(pick, turning, side, hooked, critical),
      worstCheck(pick, turning, side, hooked, critical),
    ]),
    reversalCheck(pick, turning),
    overCentreCheck(pick, turning),
    boxCheck(pick, turning),
    plumbCheck(pick, turning),
    ...(pick.tail !== undefined && pick.tail.systemId === pick.main.systemId ? [togetherCheck(pick, turning)] : []),
  ]
}

type Side = 'main' | 'tail'

/** Largest over the turn, and where: exact, by closed form or between brackets. */
function largest(turning: Turning | OpenTurn, of: (held: TwoHooks) => number): TwoHooks | undefined {
  if ('open' in turning) return undefined
  return peakOf(turning.geometry, turning.planned.course, of)?.held
}

/** What a hook's rating is held against: the pull of its line as a load, its own rigging, and what the rating asks for. */
export const hookDemand = (pick: Pick, hooked: Hooked, pull: Answer<'N'>): Answer<'kg'> =>
  sharedLoad(pick, hooked, { label: 'share of the piece', answer: lineLoad.show({ T: pull, g: GRAVITY }) }).demand

/** An angle in words. */
export const degrees = (rad: number): string => `${showNumber((rad * 180) / Math.PI, 1)}°`

function shareCheck(
  pick: Pick,
  turning: Turning | OpenTurn,
  side: Side,
  hooked: Hooked,
  critical: boolean | undefined,
): Check {
  const most = largest(turning, (h) => h[side])
  const demand = hookDemand(pick, hooked, turnAnswer('N', most?.[side], turning, most))
  const capacity = allowedOf(pick, hooked, ratedOf(pick, hooked), critical)
  return check({
    kind: turnShare,
    subject: pick.subject,
    of: hooked.key,
    title: `${turnShare.title}: ${hooked.hook.name}`,
    demand,
    capacity,
    near: pick.near,
    found: tooMuch(demand, capacity, shareCure(most?.angle)),
    assumptions: [...(most === undefined ? [] : [`Largest at ${degrees(most.angle)}.`]), ...turnAssumptions(turning)],
    cautions: [...LIFT_CAUTIONS, ...TURNING_CAUTIONS],
  })
}

/** What would bring the share of a hook over a turn down. */
export const shareCure = (angle: number | undefined): string =>
  `${angle === undefined ? '' : `it is largest at ${degrees(angle)}; `}points that bring more of it on the other hook, a lighter piece or rigging, or a hook rated for it`

function turnAssumptions(turning: Turning | OpenTurn): string[] {
  if ('open' in turning) return []
  const { tailSlack, mainSlack, coincide } = turning.angles
  const list = (angles: readonly number[]): string => angles.map(degrees).join(', ')
  return [
    ...(tailSlack.length > 0 ? [`It hangs by itself from the main hook at ${list(tailSlack)}.`] : []),
    ...(mainSlack.length > 0 ? [`The main hook goes slack at ${list(mainSlack)}.`] : []),
    ...(coincide.length > 0 ? [`The points stand over one another at ${list(coincide)}.`] : []),
    'Rigid piece, straight lines, slow turning; the hooks follow the points where they can.',
  ]
}

/** The same with the centre of gravity at any corner of its box, by plan among them. */
function worstCheck(
  pick: Pick,
  turning: Turning | OpenTurn,
  side: Side,
  hooked: Hooked,
  critical: boolean | undefined,
): Check {
  const demand = hookDemand(pick, hooked, worstPull(pick, turning, side))
  const capacity = allowedOf(pick, hooked, ratedOf(pick, hooked), critical)
  return check({
    kind: sharedWorst,
    subject: pick.subject,
    of: hooked.key,
    title: `${sharedWorst.title}: ${hooked.hook.name}`,
    demand,
    capacity,
    near: pick.near,
    found: tooMuch(demand, capacity, WORST_CURE),
    assumptions: ['Out of level is an angle of the turn like any other; unequal speeds only shift the angle.'],
    cautions: TURNING_CAUTIONS,
  })
}

/** What would bring the share of a hook down where its place of the centre of gravity is the worst. */
export const WORST_CURE =
  'a place of the centre of gravity that is known better (weighed at its points), points farther apart, or a hook rated for it'

/** Largest pull of a hook over the turn, the centre of gravity anywhere in its box. */
export function worstPull(pick: Pick, turning: Turning | OpenTurn, side: Side): Answer<'N'> {
  const places = 'open' in turning ? [] : [turning.planned, ...turning.corners.map((c) => c.worked)]
  const pull = places.length === 0 ? undefined : Math.max(...places.map((c) => pullOf(pick, turning, c, side)))
  return turnAnswer('N', pull, turning)
}

/** Where a restraint holds the piece, its main hook carries all of it. */
function pullOf(pick: Pick, turning: Turning | OpenTurn, worked: CornerTurn, side: Side): number {
  const restrained = pick.lift.turn?.restraint !== undefined && worked.lost > 0 && side === 'main'
  return restrained && !('open' in turning) ? Math.max(worked.most[side], turning.geometry.weight) : worked.most[side]
}

function reversalCheck(pick: Pick, turning: Turning | OpenTurn): Check {
  const lost = 'open' in turning ? [] : turning.planned.course.stretches.filter((s) => s.holding === 'neither')
  const held = pick.lift.turn?.restraint !== undefined
  const ranges = lost.map(({ from, to }) => `${degrees(from)} to ${degrees(to)}`).join(' and from ')
  return check({
    kind: turnReversal,
    subject: pick.subject,
    demand: found({
      unit: '1',
      value: 'open' in turning ? undefined : held ? 0 : lost.length,
      method:
        'ranges of the turn in which no pair of pulls of both hooks holds the piece, and no restraint is planned: ends by closed form or root',
      inputs: turning.inputs,
      residuals: [],
    }),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: held && lost.length > 0 ? [`A restraint holds the piece from ${ranges}.`] : [],
    cautions: TURNING_CAUTIONS,
    found: [
      `no pair of pulls holds the piece from ${ranges}: it would have to be pushed; points on the other side of its centre of gravity, or a restraint rated for it and planned`,
    ],
  })
}

/** What must hold the piece where its centre of gravity has passed over, at the worst place of that centre. */
function overCentreCheck(pick: Pick, turning: Turning | OpenTurn): Check {
  const places = 'open' in turning ? [] : [turning.planned, ...turning.corners.map((c) => c.worked)]
  const worst = [...places].sort((a, b) => b.restraint.pull - a.restraint.pull)[0]
  const needed = worst !== undefined && worst.restraint.pull > 0
  return check({
    kind: overCentre,
    subject: pick.subject,
    demand:
      needed && !('open' in turning)
        ? restraint.show(restraintInputs(turning, worst.restraint))
        : turnAnswer('N', worst?.restraint.pull, turning),
    capacity: needed
      ? knownOr(pick.lift.turn?.restraint?.rated, 'N', `${pick.at}/turn/restraint/rated`)
      : (pick.lift.turn?.restraint?.rated ?? stated('N', 0, 'no restraint is needed')),
    near: pick.near,
    assumptions: [...passedOver(turning), ...lostOver(worst)],
    cautions: [...TURNING_CAUTIONS, ...(needed ? RESTRAINT_CAUTIONS : [])],
    found: needed
      ? [
          `it must be held with ${kN(worst.restraint.pull)} at the tail points at ${degrees(worst.restraint.angle)}: a restraint rated for that, or points over which its centre of gravity does not pass`,
        ]
      : [],
  })
}

/** W x / L: the offset is what the pull of the worst place comes to. */
function restraintInputs({ geometry, inputs }: Turning, { pull }: CornerTurn['restraint']) {
  const length = Math.hypot(geometry.main[0] - geometry.tail[0], geometry.main[1] - geometry.tail[1])
  const figure = (value: number, method: string): Answer<'m'> =>
    found({ unit: 'm', value, method, inputs, residuals: [] })
  return {
    W: inputs['load that both hooks share'] as Answer<'N'>,
    x: figure(
      (pull * length) / geometry.weight,
      'main point from the plumb line of the centre of gravity, the worst place of it',
    ),
    L: figure(length, 'distance of the main and the tail point in the plane of the turn'),
  }
}

function passedOver(turning: Turning | OpenTurn): string[] {
  if ('open' in turning) return []
  const { tailSlack, mainSlack } = turning.angles
  const at = (point: string, angles: readonly number[]): string[] =>
    angles.length === 0
      ? []
      : [
          `Over-centre angle: the centre of gravity passes the plumb line of the ${point} point at ${angles.map(degrees).join(', ')}.`,
        ]
  const said = [...at('main', tailSlack), ...at('tail', mainSlack)]
  return said.length === 0 ? ['The centre of gravity passes the plumb line of neither point within the turn.'] : said
}

const lostOver = (worst: CornerTurn | undefined): string[] =>
  (worst?.course.stretches ?? [])
    .filter((s) => s.holding === 'neither')
    .map(
      ({ from, to }) =>
        `At the worst place of the centre of gravity it must be held from ${degrees(from)} to ${degrees(to)}.`,
    )

/** Held and stable with the centre of gravity at each corner of its box, with the upper and the lower mass. */
function boxCheck(pick: Pick, turning: Turning | OpenTurn): Check {
  const corners = 'open' in turning ? [] : turning.corners
  const held = pick.lift.turn?.restraint !== undefined
  const bad = corners.filter((c) => !(held ? isStable(c.worked) : holdsThroughout(c)))
  const worst = worstCorner(corners)
  return check({
    kind: turnBox,
    subject: pick.subject,
    demand: found({
      unit: '1',
      value: 'open' in turning ? undefined : bad.length,
      method:
        'corners of the box of the centre of gravity, with the upper and the lower mass, at which a range of the turn is not held, or a push in the plane of the turn would grow',
      inputs: turning.inputs,
      residuals: [],
    }),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: worst === undefined ? [] : [`Worst corner of ${corners.length}: ${cornerText(worst)}.`],
    cautions: TURNING_CAUTIONS,
    found:
      worst === undefined
        ? []
        : [
            `${bad.length} of ${corners.length} corners; the worst: ${cornerText(worst)}; weigh it so that its centre of gravity is known better, move the points, or plan a restraint`,
          ],
  })
}

function cornerText({ shift: [x, z], mass, worked }: TurnCorner): string {
  const off = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value * 1000).toFixed(0)} mm`
  const lost = worked.course.stretches.filter((s) => s.holding === 'neither')
  const what =
    lost.length > 0
      ? `not held from ${lost.map(({ from, to }) => `${degrees(from)} to ${degrees(to)}`).join(' and from ')}`
      : worked.sway === undefined
        ? 'held nowhere'
        : `${worked.sway.stiffness > 0 ? 'a push is resisted by' : 'a push grows by'} ${(Math.abs(worked.sway.stiffness) / 1e6).toPrecision(3)} kN a millimetre at ${degrees(worked.sway.angle)}`
  return `centre of gravity ${off(x)} along and ${off(z)} up, ${mass} mass: ${what}`
}

function plumbCheck(pick: Pick, turning: Turning | OpenTurn): Check {
  const most = largest(turning, leanOf)
  const plumbFrom = 'open' in turning ? undefined : leaningRange(turning)
  return check({
    kind: outOfPlumb,
    subject: pick.subject,
    demand: turnAnswer('rad', most === undefined ? undefined : leanOf(most), turning, most),
    capacity: knownOr(pick.settings.outOfPlumb, 'rad', '/settings/outOfPlumb'),
    near: pick.near,
    assumptions: [
      pick.main.hook.head === undefined
        ? 'The head of the hoist lines is not given: the highest position of the hook stands in, which is the cautious side.'
        : 'The lines lean about the head of the hoist lines.',
      ...(plumbFrom === undefined ? [] : [plumbFrom]),
    ],
    cautions: TURNING_CAUTIONS,
    found:
      most === undefined
        ? []
        : [
            `the hooks stand ${most.apart.toFixed(1)} m apart at ${degrees(most.angle)}: lines lean ${degrees(most.mainLean)} and ${degrees(most.tailLean)}, ${kN(most.main * Math.sin(most.mainLean))} across; points farther apart, hooks that come closer, or a spreader between`,
          ],
  })
}

/** A line that carries next to nothing may lean as it likes. */
const NEXT_TO_NOTHING = 0.01

/** Greatest lean of a line that carries more than next to nothing, rad. */
export const leanOf = ({ main, tail, mainLean, tailLean }: TwoHooks): number => {
  const least = NEXT_TO_NOTHING * (main + tail)
  return Math.max(main > least ? mainLean : 0, tail > least ? tailLean : 0)
}
/** A force in words. */
export const kN = (newton: number): string => `${(newton / 1000).toFixed(0)}\u00a0kN`
const PLUMB = 1e-6

function leaningRange({ course }: Turning): string {
  const leaning = course.filter((c) => c.held !== undefined && leanOf(c.held) > PLUMB).map((c) => Math.abs(c.angle))
  return leaning.length === 0
    ? 'Both lines hang plumb throughout.'
    : `Lines lean between ${degrees(Math.min(...leaning))} and ${degrees(Math.max(...leaning))} from upright; else plumb.`
}

/** Both hooks of one machine: what they share, with the rigging of each and what else its rating counts. */
function togetherCheck(pick: Pick, turning: Turning | OpenTurn): Check {
  const none = { label: 'share', answer: stated('kg', 0, 'counted once, above') }
  const shared =
    'open' in turning ? lineLoad.show({ T: turnAnswer('N', undefined, turning), g: GRAVITY }) : turning.shared
  return bothHooksCheck(pick, [
    { label: 'piece with what is bolted to it', answer: withDynamics(pick.main, shared) },
    { label: 'rigging of the main hook', answer: sharedLoad(pick, pick.main, none).demand },
    ...(pick.tail === undefined
      ? []
      : [{ label: 'rigging of the tail hook', answer: sharedLoad(pick, pick.tail, none).demand }]),
  ])
}
