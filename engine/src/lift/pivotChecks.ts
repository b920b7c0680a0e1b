import { type Answer, found, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { LIFT_CAUTIONS, PIVOT_CAUTIONS, RESTRAINT_CAUTIONS } from './caution.ts'
import { tooMuch } from './cure.ts'
import { NONE_ALLOWED } from './hookChecks.ts'
import { overCentre, pivotGround, pivotSlide, sharedWorst, turnBox, turnReversal, turnShare } from './kinds.ts'
import type { Pick } from './pick.ts'
import { pivotFriction } from './pivot.formulas.ts'
import type { OnPivot, PivotStretch, PivotTurn } from './pivot.ts'
import { type Pivoting, pivotAnswer, pivotPlaces, pivotPoint } from './pivotOf.ts'
import { allowedOf, ratedOf } from './rated.ts'
import { degrees, hookDemand, kN, WORST_CURE } from './turnChecks.ts'

/** Hook, over-centre angle, sliding and box of a turn about a pivot on the ground. */
export function pivotChecks(pick: Pick, pivoting: Pivoting, critical: boolean | undefined): Check[] {
  return [
    ...hookChecks(pick, pivoting, critical),
    reversalCheck(pick, pivoting),
    overCentreCheck(pick, pivoting),
    slideCheck(pick, pivoting),
    groundCheck(pick, pivoting),
    boxCheck(pick, pivoting),
  ]
}

function hookChecks(pick: Pick, pivoting: Pivoting, critical: boolean | undefined): Check[] {
  const planned = pivoting.worked?.planned
  const worst = greatest(pivotPlaces(pivoting), (t) => t.hook.hook)
  return [
    {
      kind: turnShare,
      turn: planned,
      cure: 'points farther from the pivot, a lighter piece or rigging, or a hook rated for it',
    },
    { kind: sharedWorst, turn: worst, cure: WORST_CURE },
  ].map(({ kind, turn, cure }) => {
    const demand = hookDemand(pick, pick.main, pivotAnswer('N', turn?.hook.hook, pivoting))
    const capacity = allowedOf(pick, pick.main, ratedOf(pick, pick.main), critical)
    return check({
      kind,
      subject: pick.subject,
      of: pick.main.key,
      title: `${kind.title}: ${pick.main.hook.name}`,
      demand,
      capacity,
      near: pick.near,
      found: tooMuch(demand, capacity, cure),
      assumptions: [
        ...(turn === undefined ? [] : [`Largest at ${degrees(turn.hook.angle)}.`]),
        'Rigid piece, slow turning about a pivot that stays where it is.',
      ],
      cautions: [...LIFT_CAUTIONS, ...PIVOT_CAUTIONS],
    })
  })
}

function greatest(places: readonly PivotTurn[], of: (turn: PivotTurn) => number): PivotTurn | undefined {
  return [...places].sort((a, b) => of(b) - of(a))[0]
}

const lostOf = (turn: PivotTurn | undefined): PivotStretch[] =>
  (turn?.stretches ?? []).filter((s) => s.holding !== 'held')

const rangesText = (stretches: readonly PivotStretch[]): string =>
  stretches.map(({ from, to, holding }) => `${degrees(from)} to ${degrees(to)} (${holding})`).join(' and ')

function reversalCheck(pick: Pick, pivoting: Pivoting): Check {
  const lost = lostOf(pivoting.worked?.planned)
  const open = lost.filter((s) => s.holding !== 'over centre' || pick.lift.turn?.restraint === undefined)
  return check({
    kind: turnReversal,
    subject: pick.subject,
    title: 'Hook and pivot hold the piece over the whole turn',
    demand: pivotAnswer(
      '1',
      pivoting.worked === undefined ? undefined : open.length,
      pivoting,
      'ranges of the turn in which the hook would have to push or the pivot to pull, and no restraint is planned: ends by closed form',
    ),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: lost.length > open.length ? ['A restraint holds the piece beyond the over-centre angle.'] : [],
    cautions: PIVOT_CAUTIONS,
    found: [
      `hook and pivot do not hold the piece from ${rangesText(open)}: a pivot or points on the other side of its centre of gravity, or a restraint rated for it and planned`,
    ],
  })
}

function overCentreCheck(pick: Pick, pivoting: Pivoting): Check {
  const worst = greatest(pivotPlaces(pivoting), (t) => t.holdBack.pull)
  const needed = worst !== undefined && worst.holdBack.pull > 0
  const restraint = pick.lift.turn?.restraint?.rated
  const angles = pivoting.worked?.angles
  return check({
    kind: overCentre,
    subject: pick.subject,
    demand: pivotAnswer(
      'N',
      worst?.holdBack.pull,
      pivoting,
      'least force on the lifting points beyond the over-centre angle, W x / L about the pivot, at the worst place of the centre of gravity',
    ),
    capacity: needed
      ? knownOr(restraint, 'N', `${pick.at}/turn/restraint/rated`)
      : (restraint ?? stated('N', 0, 'no restraint is needed')),
    near: pick.near,
    assumptions: [
      ...((angles?.overCentre ?? []).length === 0
        ? ['The centre of gravity does not pass over the pivot within the turn.']
        : [
            `Over-centre angle: the centre of gravity passes over the pivot at ${(angles?.overCentre ?? []).map(degrees).join(', ')}.`,
          ]),
      ...((angles?.relieved ?? []).length === 0
        ? []
        : [
            `The pivot is relieved, and the piece leaves the ground, at ${(angles?.relieved ?? []).map(degrees).join(', ')}.`,
          ]),
    ],
    cautions: [...PIVOT_CAUTIONS, ...(needed ? RESTRAINT_CAUTIONS : [])],
    found: needed
      ? [
          `it must be held with ${kN(worst.holdBack.pull)} at the lifting points at ${degrees(worst.holdBack.angle)}: a restraint rated for that, or a pivot over which its centre of gravity does not pass`,
        ]
      : [],
  })
}

/** At the angle at which the pivot is most apt to slide. A stop takes the place of friction: both do not add. */
function slideCheck(pick: Pick, pivoting: Pivoting): Check {
  const pivot = pick.lift.turn?.pivot
  const at: OnPivot | undefined = greatest(
    pivotPlaces(pivoting),
    ({ sliding }) => Math.abs(sliding.across) / Math.max(sliding.up, Number.EPSILON),
  )?.sliding
  const up: Answer<'N'> = pivotAnswer('N', at === undefined ? undefined : Math.max(0, at.up), pivoting)
  return check({
    kind: pivotSlide,
    subject: pick.subject,
    demand: pivotAnswer('N', at === undefined ? undefined : Math.abs(at.across), pivoting),
    capacity:
      pivot?.stop ?? pivotFriction.show({ mu: knownOr(pivot?.friction, '1', `${pick.at}/turn/pivot/friction`), R: up }),
    near: pick.near,
    assumptions: [
      ...(at === undefined ? [] : [`Most apt to slide at ${degrees(at.angle)}.`]),
      pivot?.stop === undefined
        ? 'Friction alone holds the pivot; the coefficient is stated by the project.'
        : 'A stop holds the pivot; friction is not counted beside it.',
    ],
    cautions: PIVOT_CAUTIONS,
    found:
      at === undefined
        ? []
        : [
            `${kN(Math.abs(at.across))} across on ${kN(at.up)} upright: a stop rated for that, a rougher seat, or a hook that stays plumb over its points`,
          ],
  })
}

/** What a drawing gives of a rim is no better than this, m. */
const DRAWN = 0.001

/** A rim or edge that comes lower than the pivot would strike the bay, unless the pivot stands on something. */
function groundCheck(pick: Pick, pivoting: Pivoting): Check {
  const { inputs, deepest } = pivoting
  const depth = deepest && (deepest.depth < DRAWN ? 0 : deepest.depth)
  return check({
    kind: pivotGround,
    subject: pick.subject,
    demand: found({
      unit: 'm',
      value: depth,
      method:
        'farthest that any solid comes below the pivot, looked for every degree and closer in beside the deepest; less than 1 mm counts as none',
      inputs: {
        'start of the turn': inputs['start of the turn'] as Answer,
        'end of the turn': inputs['end of the turn'] as Answer,
        ...pivotPoint(pick),
        ...(deepest === undefined
          ? { 'solids of the piece': given('m', `/pieces/${pick.lift.piece}`, undefined) }
          : {}),
      },
      residuals: [],
    }),
    capacity: heightOf(pick),
    near: pick.near,
    assumptions: deepest === undefined ? [] : [`Deepest at ${degrees(deepest.angle)}: ${deepest.part}.`],
    cautions: PIVOT_CAUTIONS,
    found:
      deepest === undefined
        ? []
        : [
            `${deepest.part} comes ${deepest.depth.toFixed(2)} m below the pivot at ${degrees(deepest.angle)}: a trunnion higher up on a stand, or an edge that is lowest, would clear the bay`,
          ],
  })
}

/** What bears along an edge stands on the bay itself; of a trunnion, how high it stands is to be said. */
function heightOf({ lift, at }: Pick): Answer<'m'> {
  const { height, edge } = lift.turn?.pivot ?? {}
  if (height === undefined && edge !== undefined) return stated('m', 0, 'an edge that bears stands on the bay itself')
  return knownOr(height, 'm', `${at}/turn/pivot/height`)
}

function boxCheck(pick: Pick, pivoting: Pivoting): Check {
  const corners = pivoting.worked?.corners ?? []
  const restrained = pick.lift.turn?.restraint !== undefined
  const lost = (turn: PivotTurn): PivotStretch[] =>
    lostOf(turn).filter((s) => !(restrained && s.holding === 'over centre'))
  const bad = corners.filter((c) => lost(c.worked).length > 0)
  const worst = [...corners].sort((a, b) => b.worked.lost - a.worked.lost || b.worked.up.up - a.worked.up.up)[0]
  const mm = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value * 1000).toFixed(0)} mm`
  const text =
    worst === undefined
      ? []
      : [
          `centre of gravity ${mm(worst.shift[0])} along and ${mm(worst.shift[1])} up, ${worst.mass} mass: ${worst.worked.lost > 0 ? `not held from ${rangesText(lostOf(worst.worked))}` : `${kN(worst.worked.up.up)} on the pivot`}`,
        ]
  return check({
    kind: turnBox,
    subject: pick.subject,
    demand: pivotAnswer(
      '1',
      pivoting.worked === undefined ? undefined : bad.length,
      pivoting,
      'corners of the box of the centre of gravity, with the upper and the lower mass, at which hook and pivot do not hold the piece over the whole turn',
    ),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: text.map((t) => `Worst corner of ${corners.length}: ${t}.`),
    cautions: PIVOT_CAUTIONS,
    found: text.map(
      (t) =>
        `${bad.length} of ${corners.length} corners; the worst: ${t}; weigh it so that its centre of gravity is known better, move pivot or points, or plan a restraint`,
    ),
  })
}
