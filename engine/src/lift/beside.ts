import type { Utility } from '../model/index.ts'
import type { Point2 } from '../numeric/plan.ts'
import { place } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, largestOf, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { lineDistanceDue } from './beside.formulas.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import { tooLittle } from './cure.ts'
import { hookOver } from './hookCourse.ts'
import type { Hull } from './hull.ts'
import { legClearance, lineApproach } from './kinds.ts'
import { machinesOf } from './machines.ts'
import type { Hooked, Pick } from './pick.ts'
import type { TimedMotion } from './stages.ts'
import { fan, isCrane, outlinesAt, posesOn, shadowsOf, slewingCentre, standingAt } from './swept.ts'

/** What stands beside the way above the ground: live lines, and the legs of the machine that carries the piece. */
export function besideChecks(pick: Pick, stages: readonly TimedMotion[], hull: Hull | undefined): Check[] {
  const lines = Object.entries(pick.utilities).filter(([, u]) => isOverhead(u))
  return [...lines.map(([id, line]) => lineCheck(pick, stages, hull, id, line)), ...legChecks(pick, stages, hull)]
}

/** A line above the ground: it has a voltage between phases, or a height; roads and buried services have neither. */
const isOverhead = ({ voltage, height, line }: Utility): boolean =>
  voltage !== undefined || (height !== undefined && line !== undefined)

const CAUTION =
  'A line is live until it is proved dead and earthed. Keep the distance that the owner and local law set.'

function lineCheck(pick: Pick, stages: readonly TimedMotion[], hull: Hull | undefined, id: string, u: Utility): Check {
  const at = pointerOf('utilities', id)
  const due = distanceDue(u, at)
  const distance = found({
    unit: 'm',
    value: nearestToLine(pick, stages, hull, u),
    method:
      'least distance in plan from the piece, from the line between hook and slewing centre of each crane, and from what its counterweight sweeps, along the way; no height counts',
    inputs: {
      ...(u.line === undefined ? { 'where it runs': given('m', `${at}/line`, undefined) } : {}),
      ...Object.fromEntries(
        (u.line ?? []).flat().map((v, i) => [`${i % 2 === 0 ? 'x' : 'y'} of corner ${Math.floor(i / 2) + 1}`, v]),
      ),
      ...unknownStandings(pick),
      ...unknownWay(pick, stages, hull),
    },
    residuals: [],
  })
  return check({
    kind: lineApproach,
    subject: pick.subject,
    of: id,
    title: `${lineApproach.title}: ${u.what}`,
    demand: due,
    capacity: distance,
    near: pick.near,
    found: tooLittle(
      due,
      distance,
      'have its owner make it dead and earthed for the lift (deadOnLifts), or take another way, standing or slew',
    ),
    assumptions:
      u.deadOnLifts === undefined
        ? ['The line counts as live; swing, wind and tag lines come on top.']
        : [`Dead on lift days: ${u.deadOnLifts}. The distance along the way is shown all the same.`],
    cautions: [CAUTION],
  })
}

/** What the owner asks for and what the table says of the voltage, the greater; none while it is dead and earthed. */
function distanceDue(u: Utility, at: string): Answer<'m'> {
  if (u.deadOnLifts !== undefined) return stated('m', 0, `none while dead: ${u.deadOnLifts}`)
  const byVoltage = lineDistanceDue.show({
    U: knownOr(u.voltage, 'V', `${at}/voltage`),
    kV: stated('V', 1000, 'one kilovolt'),
    ft: stated('m', 0.3048, 'international foot'),
  })
  if (u.clearance === undefined) return byVoltage
  return largestOf('Distance to be kept to the line', 'm', [
    { label: 'by its voltage', answer: byVoltage },
    { label: 'as its owner asks', answer: u.clearance },
  ])
}

/** What is missing for the way to be known. */
export function unknownWay(pick: Pick, stages: readonly TimedMotion[], hull: Hull | undefined): Record<string, Answer> {
  if (hull === undefined) return { 'shapes of its parts': given('m', `${pick.pieceAt}/parts`, undefined) }
  const open = stages.filter(({ motion }) => motion.poses === undefined)
  return Object.fromEntries(
    open.map(({ name, motion: { rise } }, i): [string, Answer] => [
      `stage ${i + 1}, ${name}`,
      rise.value === undefined ? rise : given('m', '/steps', undefined),
    ]),
  )
}

function nearestToLine(
  pick: Pick,
  stages: readonly TimedMotion[],
  hull: Hull | undefined,
  { line }: Utility,
): number | undefined {
  if (hull === undefined || line === undefined) return undefined
  const corners = line.map(([x, y]): Point2 => [x.value as number, y.value as number])
  const poses = stages.flatMap(({ motion }) => posesOn(pick, motion))
  if (poses.length === 0) return undefined
  const outlines = outlinesAt(hull, poses)
  const booms = cranesOf(pick).flatMap(({ hooked, centre }) =>
    centre === undefined ? [] : [{ centre, over: hookOver(pick, hooked), tail: hooked.system.tailRadius?.value ?? 0 }],
  )
  const gaps = poses.flatMap((pose) =>
    booms.map(({ centre, over }) => between([centre, [over(pose)[0], over(pose)[1]]], corners)),
  )
  const tails = booms.map(({ centre, tail }) => Math.max(0, between([centre, centre], corners) - tail))
  return Math.min(leastBetween(outlines, corners), ...gaps, ...tails)
}

/** The cranes of a lift with their slewing centres, where their standings are named. */
const cranesOf = (pick: Pick): { hooked: Hooked; centre: Point2 | undefined }[] =>
  machinesOf(pick)
    .filter(({ system }) => isCrane(system))
    .map((hooked) => ({ hooked, centre: slewingCentre(pick, hooked) }))

const unknownStandings = (pick: Pick): Record<string, Answer> =>
  Object.fromEntries(
    cranesOf(pick).flatMap(({ hooked, centre }): [string, Answer][] =>
      centre === undefined
        ? [[`where ${hooked.system.name} stands`, given('m', standingAt(pick, hooked), undefined)]]
        : [],
    ),
  )

/** Least distance of many outlines from a line; one that is farther, as a circle about it is, is not looked into. */
function leastBetween(outlines: readonly (readonly Point2[])[], line: readonly Point2[]): number {
  let least = Number.POSITIVE_INFINITY
  for (const outline of outlines) {
    const centre = outline[0] as Point2
    const radius = Math.max(...outline.map((corner) => Math.hypot(corner[0] - centre[0], corner[1] - centre[1])))
    if (between([centre, centre], line) - radius < least) least = Math.min(least, between(closed(outline), line))
  }
  return least
}

const closed = (outline: readonly Point2[]): Point2[] => [...outline, outline[0] as Point2]

/** Least distance between two lines of straight pieces; 0 where they cross. */
export function between(a: readonly Point2[], b: readonly Point2[]): number {
  let least = Number.POSITIVE_INFINITY
  for (let i = 1; i < a.length; i++)
    for (let j = 1; j < b.length; j++)
      least = Math.min(least, ofPieces(a[i - 1] as Point2, a[i] as Point2, b[j - 1] as Point2, b[j] as Point2))
  return least
}

function ofPieces(a: Point2, b: Point2, c: Point2, d: Point2): number {
  if (sideOf(a, b, c) * sideOf(a, b, d) < 0 && sideOf(c, d, a) * sideOf(c, d, b) < 0) return 0
  return Math.min(fromPiece(a, c, d), fromPiece(b, c, d), fromPiece(c, a, b), fromPiece(d, a, b))
}

const sideOf = (a: Point2, b: Point2, p: Point2): number =>
  (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])

function fromPiece(p: Point2, a: Point2, b: Point2): number {
  const [x, y, dx, dy] = [p[0] - a[0], p[1] - a[1], b[0] - a[0], b[1] - a[1]]
  const square = dx * dx + dy * dy
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, (x * dx + y * dy) / square))
  const [ox, oy] = [x - share * dx, y - share * dy]
  return Math.sqrt(ox * ox + oy * oy)
}

/** Directions in plan in which the piece is held against a leg. */
const ABOUT = fan(48)

/** Gap of the piece to each leg of a tower or gantry: the legs travel along the runway with the hook, the piece crosses between. */
function legChecks(pick: Pick, stages: readonly TimedMotion[], hull: Hull | undefined): Check[] {
  const { system, systemAt } = pick.main
  const legs = Object.entries(system.legs)
  if (legs.length === 0) return []
  const half = system.legWidth?.value === undefined ? undefined : system.legWidth.value / 2
  const passing = hull === undefined ? undefined : passingOf(pick, stages, hull)
  const gaps = legs.map(([id, { x, offset }]) => ({
    id,
    gap:
      passing === undefined || half === undefined
        ? undefined
        : gapToLeg(passing, [x.value as number, offset.value as number, half]),
    inputs: { 'leg across': x, 'leg along': offset },
  }))
  const nearest = gaps.reduce((best, one) => ((one.gap ?? Infinity) < (best.gap ?? Infinity) ? one : best))
  const wanted = knownOr(pick.settings.clearanceInShaft, 'm', '/settings/clearanceInShaft')
  const gap = found({
    unit: 'm',
    value: nearest.gap,
    method: 'largest gap over all directions in plan between the outline of the piece and the leg, least along the way',
    inputs: {
      'width of a leg': knownOr(system.legWidth, 'm', `${systemAt}/legWidth`),
      ...nearest.inputs,
      ...unknownWay(pick, stages, hull),
    },
    residuals: [],
  })
  return [
    check({
      kind: legClearance,
      subject: pick.subject,
      of: nearest.id,
      demand: wanted,
      capacity: gap,
      near: pick.near,
      found: tooLittle(
        wanted,
        gap,
        `beside the leg ${nearest.id}: turn the piece, or carry it more in the middle between the rails`,
      ),
      assumptions: ['Legs as squares that stand plumb; the clearance is the one kept in the shaft; no swing.'],
      cautions: LIFT_CAUTIONS,
    }),
  ]
}

/** Where the piece strikes a leg of its own machine the gap is below zero. */
function gapToLeg(
  { shadows, hookAlong }: Passing,
  [x, offset, half]: readonly [across: number, along: number, half: number],
): number {
  const gaps = shadows.map((shadow, i) => {
    const along = (hookAlong[i] as number) + offset
    return Math.max(
      ...ABOUT.map(
        (d, k) => x * d[0] + along * d[1] - half * (Math.abs(d[0]) + Math.abs(d[1])) - (shadow[k] as number),
      ),
    )
  })
  return Math.min(...gaps)
}

/** A piece at every pose of its way: how far it reaches in each direction of the fan, and where its hook is along the runway. */
interface Passing {
  shadows: readonly (readonly number[])[]
  hookAlong: readonly number[]
}

function passingOf(pick: Pick, stages: readonly TimedMotion[], hull: Hull): Passing {
  const poses = stages.flatMap(({ motion }) => posesOn(pick, motion))
  return {
    shadows: shadowsOf(hull, poses, ABOUT),
    hookAlong: poses.map((pose) => place(pose, pick.set.cogMachine)[1]),
  }
}
