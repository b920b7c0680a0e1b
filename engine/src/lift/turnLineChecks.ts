import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { TURNING_CAUTIONS } from './caution.ts'
import { tooMuch } from './cure.ts'
import type { Hull } from './hull.ts'
import { heightError, lineClash } from './kinds.ts'
import { pieceCells, type TurnGap, turnGap } from './lineClash.ts'
import { bodyTurn } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { allowedOf, ratedOf } from './rated.ts'
import { moved } from './turnBox.ts'
import { degrees, hookDemand, kN } from './turnChecks.ts'
import { beyondEnd, type HeightError, heightRange, type LineStiffness, sensitivityAt } from './turnHeights.ts'
import { heldAt, type TurnGeometry } from './turning.ts'
import type { OpenTurn, Turning } from './turningOf.ts'

/** Shares with the heights of the hooks out, and lines against the piece. */
export function turnLineChecks(
  pick: Pick,
  turning: Turning | OpenTurn,
  critical: boolean | undefined,
  { hull, memory }: { hull: Hull | undefined; memory: Memory },
): Check[] {
  return [...heightChecks(pick, turning, critical), clashCheck(pick, turning, hull, memory)]
}

function heightChecks(pick: Pick, turning: Turning | OpenTurn, critical: boolean | undefined): Check[] {
  const inputs = { ...turning.inputs, ...heightInputs(pick) }
  const [error, main, tail] = Object.values(heightInputs(pick)).map((a) => a.value)
  const known = !('open' in turning) && error !== undefined && main !== undefined && tail !== undefined
  const stiffness: LineStiffness = { main: main ?? 0, tail: tail ?? 0 }
  const ends = known ? endsOf(pick, turning, { error, stiffness }) : []
  const hooks: ['main' | 'tail', Hooked][] = [['main', pick.main]]
  if (pick.tail !== undefined) hooks.push(['tail', pick.tail])
  return hooks.map(([side, hooked]) => {
    const worst = [...ends].sort((a, b) => b.most[side] - a.most[side])[0]
    const demand = hookDemand(pick, hooked, pullAnswer(worst?.most[side], inputs))
    const capacity = allowedOf(pick, hooked, ratedOf(pick, hooked), critical)
    return check({
      kind: heightError,
      subject: pick.subject,
      of: hooked.key,
      title: `${heightError.title}: ${hooked.hook.name}`,
      demand,
      capacity,
      found: tooMuch(
        demand,
        capacity,
        'hooks levelled closer (heightError), softer lines near the ends of the turn, or a hook rated for it',
      ),
      near: pick.near,
      assumptions: known ? heightWords(turning, stiffness, worst) : [],
      cautions: [
        ...TURNING_CAUTIONS,
        'Near upright the shares follow the heights of the hooks, not the angle: watch both load readings.',
      ],
    })
  })
}

/** Angles that the turn may get to beyond its start and its end with the heights of its hooks out; undefined where that is not known. */
export function beyondTurn(pick: Pick, turning: Turning): { start: number; end: number } | undefined {
  const [error, main, tail] = Object.values(heightInputs(pick)).map((a) => a.value)
  if (error === undefined || main === undefined || tail === undefined) return undefined
  const angles = endsOf(pick, turning, { error, stiffness: { main, tail } }).map(({ angle }) => angle)
  const [starts, ends] = [0, 1].map((k) => angles.filter((_, i) => i % 2 === k)) as [number[], number[]]
  const rises = (ends[0] as number) > (starts[0] as number)
  const [low, high] = rises ? [starts, ends] : [ends, starts]
  const [least, most] = [Math.min(...low), Math.max(...high)]
  return rises ? { start: least, end: most } : { start: most, end: least }
}

const heightInputs = ({ lift, at, main, tail }: Pick): Record<'error' | 'main line' | 'tail line', Answer> => ({
  error: knownOr(lift.turn?.heightError, 'm', `${at}/turn/heightError`),
  'main line': knownOr(main.hook.stiffness, 'N', `${main.hookAt}/stiffness`),
  'tail line':
    tail === undefined
      ? given('N', `${at}/tail`, undefined)
      : knownOr(tail.hook.stiffness, 'N', `${tail.hookAt}/stiffness`),
})

const pullAnswer = (value: number | undefined, inputs: Readonly<Record<string, Answer>>): Answer<'N'> =>
  found({
    unit: 'N',
    value,
    method:
      'from each end of the turn, by plan and with the centre of gravity at each corner of its box, the piece turns on until its lines, stretched by their pulls, have let out the error of height, or hangs from one hook alone',
    inputs,
    residuals: [],
  })

/** Both ends of the turn, by plan and at the corners of the box in its plane. */
function endsOf(
  { settings }: Pick,
  { geometry, course }: Turning,
  given: { error: number; stiffness: LineStiffness },
): HeightError[] {
  const shift = settings.cogShift?.value ?? 0
  const [from, to] = [course[0]?.angle as number, course.at(-1)?.angle as number]
  const on = to > from ? 1 : -1
  const corners = [-shift, shift].flatMap((x) => [-shift, shift].map((z) => moved(geometry, [x, z])))
  return [geometry, ...corners].flatMap((g) => [
    beyondEnd(g, from, on === 1 ? -1 : 1, given),
    beyondEnd(g, to, on, given),
  ])
}

/** Sensitivity where the lines hang plumb at an end, and the range of heights near upright. */
function heightWords(
  { geometry, course }: Turning,
  stiffness: LineStiffness,
  worst: HeightError | undefined,
): string[] {
  const plumb = [course[0], course.at(-1)].flatMap((end) => {
    const held = end?.held
    if (held === undefined || held.tail === 0 || held.mainLean > PLUMB || held.tailLean > PLUMB) return []
    const shift = sensitivityAt(geometry, held, stiffness) / 1e6
    return [`At ${degrees(held.angle)} the main hook, raised by a millimetre, gains ${shift.toPrecision(3)} kN.`]
  })
  const length = geometry.heads.main - geometry.level(0)
  return [
    ...plumb,
    `Upright on plumb lines, from all of the load on the tail hook to all of it on the main one are ${(heightRange(geometry, length, stiffness) * 1000).toFixed(0)} mm of hook height: ${rangeWords(geometry, stiffness, length)}.`,
    ...(worst === undefined ? [] : [`Worst at ${degrees(worst.angle)}.`]),
    'The give of slings and spreaders is left out: the lines alone share more sharply.',
  ]
}

function rangeWords(geometry: TurnGeometry, stiffness: LineStiffness, length: number): string {
  const range = heightRange(geometry, length, stiffness)
  return range > 0
    ? `${kN(geometry.weight / (range * 1000))} a millimetre on average`
    : 'the piece runs over between them'
}

const PLUMB = 1e-6

function clashCheck(pick: Pick, turning: Turning | OpenTurn, hull: Hull | undefined, memory: Memory): Check {
  const wanted = knownOr(pick.settings.lineClearance, 'm', '/settings/lineClearance')
  const gap = gapOf(pick, turning, hull, memory, wanted.value)
  const near = gap?.least.part === '' ? undefined : gap?.least
  return check({
    kind: lineClash,
    subject: pick.subject,
    demand: wanted,
    capacity: found({
      unit: 'm',
      value: gap?.least.gap,
      method:
        'distance of each line, straight up from its point along its hoist line, to every solid of the piece, over the angles that are held; from twice the clearance above the point on',
      inputs: { ...turning.inputs, 'clearance wanted': wanted },
      residuals: [],
      ...(hull === undefined ? { note: 'the piece has no solids' } : {}),
    }),
    near: pick.near,
    assumptions: [
      ...(near === undefined ? [] : [`Least at ${degrees(near.angle)}: ${near.side} line to ${near.part}.`]),
      ...(gap?.least.part === '' ? [`No line comes nearer than ${gap.least.gap.toFixed(2)} m.`] : []),
      'Lines are taken without thickness; slings hang side by side across the turn.',
    ],
    cautions: TURNING_CAUTIONS,
    found:
      near === undefined
        ? []
        : [`${nearWords(near)}${rangeOf(gap)}; points farther out, or a spreader wider than the piece, would clear it`],
  })
}

const nearWords = ({ gap, side, part }: TurnGap['least']): string =>
  gap === 0
    ? `the ${side} line passes through ${part}`
    : `the ${side} line comes within ${(gap * 1000).toFixed(0)} mm of ${part}`

const rangeOf = (gap: TurnGap | undefined): string =>
  gap?.under === undefined ? '' : `: too near from ${degrees(gap.under.from)} to ${degrees(gap.under.to)}`

/** Gaps above so many clearances are not told apart. */
const ENOUGH = 3

function gapOf(
  pick: Pick,
  turning: Turning | OpenTurn,
  hull: Hull | undefined,
  memory: Memory,
  wanted: number | undefined,
): TurnGap | undefined {
  if ('open' in turning || hull === undefined || wanted === undefined) return undefined
  const cells = memory.once(`lift-cells/${pick.lift.piece}`, [hull], () => pieceCells(hull))
  const { geometry, course, points } = turning
  const lines = {
    points: { main: points.main.map((p) => p.at), tail: points.tail.map((p) => p.at) },
    turn: bodyTurn(pick),
    free: 2 * wanted,
    enough: ENOUGH * wanted,
  }
  const looked = course.filter((_, i) => i % EVERY === 0).flatMap((c) => (c.held === undefined ? [] : [c.held]))
  return turnGap(cells, lines, looked, { wanted, heldAt: (angle) => heldAt(geometry, angle) })
}

/** Of the angles of the course, a degree apart, first looked at. */
const EVERY = 5
