import { type Answer, found, GRAVITY, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { LIFT_CAUTIONS, TURNING_CAUTIONS } from './caution.ts'
import { sharedLoad } from './hook.ts'
import { bothHooksCheck, NONE_ALLOWED } from './hookChecks.ts'
import { outOfPlumb, sharedWorst, turnReversal, turnShare } from './kinds.ts'
import type { TurnStage } from './lift.ts'
import type { LoadedRig } from './loadedRig.ts'
import type { Hooked, Pick } from './pick.ts'
import { allowedOf, ratedOf } from './rated.ts'
import { legOf } from './rig.ts'
import { lineLoad, turnLeg } from './turn.formulas.ts'
import type { TwoHooks } from './turning.ts'
import { type OpenTurn, type Turning, turnAnswer } from './turningOf.ts'

/** Stages of a turn for the sheet. */
export function turnStages(turning: Turning | OpenTurn): TurnStage[] {
  if ('open' in turning) return []
  return turning.stages.map(({ angle, held }) => ({
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
    plumbCheck(pick, turning),
    ...(pick.tail !== undefined && pick.tail.systemId === pick.main.systemId ? [togetherCheck(pick, turning)] : []),
  ]
}

type Side = 'main' | 'tail'

/** Largest over the course, and where. */
function largest(turning: Turning | OpenTurn, of: (held: TwoHooks) => number): TwoHooks | undefined {
  if ('open' in turning) return undefined
  const held = turning.course.flatMap((c) => (c.held === undefined ? [] : [c.held]))
  return held.sort((a, b) => of(b) - of(a))[0]
}

/** What a hook's rating is held against: the pull of its line as a load, its own rigging, and what the rating asks for. */
const hookDemand = (pick: Pick, hooked: Hooked, pull: Answer<'N'>): Answer<'kg'> =>
  sharedLoad(pick, hooked, { label: 'share of the piece', answer: lineLoad.show({ T: pull, g: GRAVITY }) }).demand

export const degrees = (rad: number): string => `${((rad * 180) / Math.PI).toFixed(1)}°`

function shareCheck(
  pick: Pick,
  turning: Turning | OpenTurn,
  side: Side,
  hooked: Hooked,
  critical: boolean | undefined,
): Check {
  const most = largest(turning, (h) => h[side])
  return check({
    kind: turnShare,
    subject: pick.subject,
    of: hooked.id,
    title: `${turnShare.title}: ${hooked.hook.name}`,
    demand: hookDemand(pick, hooked, turnAnswer('N', most?.[side], turning, most)),
    capacity: allowedOf(pick, hooked, ratedOf(pick, hooked), critical),
    near: pick.near,
    assumptions: [...(most === undefined ? [] : [`Largest at ${degrees(most.angle)}.`]), ...turnAssumptions(turning)],
    cautions: [...LIFT_CAUTIONS, ...TURNING_CAUTIONS],
  })
}

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

/** The same with the centre of gravity at any corner of its box. Plumb lines: shares are monotone, so the ends rule. */
function worstCheck(
  pick: Pick,
  turning: Turning | OpenTurn,
  side: Side,
  hooked: Hooked,
  critical: boolean | undefined,
): Check {
  const pull = 'open' in turning ? undefined : turning.worst?.[side]
  return check({
    kind: sharedWorst,
    subject: pick.subject,
    of: hooked.id,
    title: `${sharedWorst.title}: ${hooked.hook.name}`,
    demand: hookDemand(pick, hooked, turnAnswer('N', pull, turning)),
    capacity: allowedOf(pick, hooked, ratedOf(pick, hooked), critical),
    near: pick.near,
    assumptions: ['Out of level is an angle of the turn like any other; unequal speeds only shift the angle.'],
    cautions: TURNING_CAUTIONS,
  })
}

function reversalCheck(pick: Pick, turning: Turning | OpenTurn): Check {
  const lost = 'open' in turning ? [] : turning.course.filter((c) => c.held === undefined)
  const range =
    lost.length === 0 ? '' : `${degrees(lost[0]?.angle as number)} to ${degrees(lost.at(-1)?.angle as number)}`
  return check({
    kind: turnReversal,
    subject: pick.subject,
    demand: found({
      unit: '1',
      value: 'open' in turning ? undefined : lost.length,
      method: 'angles of the turn, one a degree, at which no pair of pulls of both hooks holds the piece',
      inputs: turning.inputs,
      residuals: [],
    }),
    capacity: NONE_ALLOWED,
    near: pick.near,
    cautions: TURNING_CAUTIONS,
    found: [`no pair of pulls holds the piece from ${range}: it would have to be pushed`],
  })
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
            `the hooks stand ${most.apart.toFixed(1)} m apart at ${degrees(most.angle)}: lines lean ${degrees(most.mainLean)} and ${degrees(most.tailLean)}, ${kN(most.main * Math.sin(most.mainLean))} across`,
          ],
  })
}

/** A line that carries next to nothing may lean as it likes. */
const NEXT_TO_NOTHING = 0.01

const leanOf = ({ main, tail, mainLean, tailLean }: TwoHooks): number => {
  const least = NEXT_TO_NOTHING * (main + tail)
  return Math.max(main > least ? mainLean : 0, tail > least ? tailLean : 0)
}
const kN = (newton: number): string => `${(newton / 1000).toFixed(0)} kN`
const PLUMB = 1e-6

function leaningRange({ course }: Turning): string {
  const leaning = course.filter((c) => c.held !== undefined && leanOf(c.held) > PLUMB).map((c) => Math.abs(c.angle))
  return leaning.length === 0
    ? 'Both lines hang plumb throughout.'
    : `Lines lean between ${degrees(Math.min(...leaning))} and ${degrees(Math.max(...leaning))} from upright; else plumb.`
}

/** Both hooks of one machine: what they share, and the rigging of each. */
function togetherCheck(pick: Pick, turning: Turning | OpenTurn): Check {
  const none = { label: 'share', answer: stated('kg', 0, 'counted once, below') }
  return bothHooksCheck(pick, [
    {
      label: 'piece with what is bolted to it',
      answer:
        'open' in turning ? lineLoad.show({ T: turnAnswer('N', undefined, turning), g: GRAVITY }) : turning.shared,
    },
    { label: 'rigging of the main hook', answer: sharedLoad(pick, pick.main, none).rigging },
    ...(pick.tail === undefined
      ? []
      : [{ label: 'rigging of the tail hook', answer: sharedLoad(pick, pick.tail, none).rigging }]),
  ])
}

/** The tail hook's arrangement at its largest pull, its legs side by side across the turn. */
export function tailRig(pick: Pick, turning: Turning | OpenTurn): LoadedRig | undefined {
  const { tail } = pick
  if (tail === undefined) return undefined
  const most = largest(turning, (h) => h.tail)
  const pull = turnAnswer('N', most?.tail, turning, most)
  const legs = (tail.rigging?.legs ?? []).map((_, i) => legOf(pick, tail, i))
  const below = legs.filter((leg) => !leg.above)
  const across = below.flatMap((leg) => (leg.lower === undefined ? [] : [leg.lower.at[1]]))
  const apart = across.length === 0 ? undefined : Math.max(...across) - Math.min(...across)
  const figure = (value: number | undefined, method: string): Answer<'m'> =>
    found({ unit: 'm', value, method, inputs: turning.inputs, residuals: [] })
  const offset = Math.abs(pick.set.cogMachine[1]) + (pick.settings.cogShift?.value ?? 0)
  const tension = turnLeg.show({
    F: pull,
    n: found({ unit: '1', value: below.length, method: 'legs of the tail hook', inputs: {}, residuals: [] }),
    e: figure(offset, 'offset of the centre of gravity across, and the shift allowed for'),
    b: figure(apart, 'distance of the outer tail points across'),
  })
  return {
    hooked: tail,
    legs: legs.map((leg) => ({ leg, tension })),
    load: pull,
    flattest: found({ unit: 'rad', value: 0, method: 'legs of the tail hang side by side', inputs: {}, residuals: [] }),
  }
}
