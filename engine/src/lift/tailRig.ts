import { coordinates } from '../model/index.ts'
import type { Point2 } from '../numeric/plan.ts'
import { subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, GRAVITY, largestOf, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import { legAngleLimit } from './hangChecks.ts'
import { weightOf } from './hook.formulas.ts'
import { riggingLines } from './hook.ts'
import { legAngle } from './kinds.ts'
import type { LoadedRig } from './loadedRig.ts'
import type { Hooked, Pick } from './pick.ts'
import { legOf, type RigLeg } from './rig.ts'
import { leaningLeg, turnLeg } from './turn.formulas.ts'
import { worstPull } from './turnChecks.ts'
import type { OpenTurn, Turning } from './turningOf.ts'

/**
 * The tail hook's arrangement at its worst pull, the centre of gravity anywhere in its box: its legs side by side across the turn,
 * each leaning from its point to the hook or to the end of a spreader over it. Slings above a spreader carry it, and all below.
 */
export function tailRig(pick: Pick, turning: Turning | OpenTurn): LoadedRig | undefined {
  const { tail } = pick
  if (tail === undefined) return undefined
  const pull = worstPull(pick, turning, 'tail')
  const legs = (tail.rigging?.legs ?? []).map((_, i) => legOf(pick, tail, i))
  const offset = Math.abs(pick.set.cogMachine[1]) + (pick.settings.cogShift?.value ?? 0)
  const from = { inputs: turning.inputs, offset }
  const below = rowOf(
    legs.filter((leg) => !leg.above),
    pull,
    (row) => leansBelow(pick, row),
    ({ lower }) => lower?.at[1],
    from,
  )
  const above = rowOf(
    legs.filter((leg) => leg.above),
    withRigging(pick, tail, pull),
    (row) => row.map((leg) => leanAbove(tail, leg)),
    ({ node }) => nodeOf(tail, node)?.[1],
    from,
  )
  const rows = [below, above].filter((row) => row.legs.length > 0)
  const meeting = [below, above].find(
    ({ legs: row }) => row.length > 1 && row.every(({ above: up, node }) => up || node === undefined),
  )
  const flattest = 'Flattest of the legs of the tail hook'
  return {
    hooked: tail,
    legs: legs.map((leg) => ({ leg, ...(leg.above ? above : below).answerOf(leg) })),
    load: pull,
    flattest:
      rows.length === 1
        ? (rows[0] as Row).flattest
        : largestOf(flattest, 'rad', [
            { label: 'below', answer: below.flattest },
            { label: 'above', answer: above.flattest },
          ]),
    ...(meeting === undefined ? {} : { included: meeting.included }),
  }
}

/** Leg of a tail hook, for table and sketch. */
export interface TailLeg {
  id: string
  /** Item of stock. */
  item: string
  from?: string
  to: string
  /** At the worst pull of its hook over the turn. */
  worst: Answer<'N'>
  /** From plumb, across the turn. */
  angle: Answer<'rad'>
  /** Upper and lower end from the hook, across the turn and up, m; absent where it does not reach. */
  ends?: readonly [Point2, Point2]
}

/** Legs of the tail hook of a turn. */
export const tailLegsOf = ({ tail }: Pick, rigs: readonly LoadedRig[]): TailLeg[] =>
  rigs
    .filter(({ hooked }) => hooked === tail)
    .flatMap(({ hooked, legs }) =>
      legs.flatMap(({ leg, tension, lean }) =>
        lean === undefined ? [] : [{ ...tailLeg(hooked, leg, lean), worst: tension, angle: lean }],
      ),
    )

function tailLeg(tail: Hooked, leg: RigLeg, lean: Answer<'rad'>): Omit<TailLeg, 'worst' | 'angle'> {
  const over = leg.above ? leg.over : leg.node
  const [, y = 0, z = 0] = nodeOf(tail, over) ?? []
  const low = leg.above ? nodeOf(tail, leg.node) : undefined
  const [b, l] = [lean.value, leg.length.value]
  const hangs = b === undefined || l === undefined ? undefined : ([y + l * Math.sin(b), z - l * Math.cos(b)] as const)
  const lower: Point2 | undefined = low === undefined ? hangs : [low[1], low[2]]
  return {
    id: leg.id,
    item: leg.itemId,
    ...(over === undefined ? {} : { from: over }),
    to: leg.laid.to,
    ...(lower === undefined ? {} : { ends: [[y, z], lower] }),
  }
}

/** Legs side by side across the turn, at one height. */
interface Row {
  legs: readonly RigLeg[]
  flattest: Answer<'rad'>
  included: Answer<'rad'>
  answerOf(leg: RigLeg): { tension: Answer<'N'>; lean: Answer<'rad'> }
}

/** @param acrossOf place of the outer end of a leg across the turn, m @param from offset of the centre of gravity across, with the shift allowed for, m */
function rowOf(
  legs: readonly RigLeg[],
  pull: Answer<'N'>,
  leansOf: (legs: readonly RigLeg[]) => (number | undefined)[],
  acrossOf: (leg: RigLeg) => number | undefined,
  from: { inputs: Turning['inputs']; offset: number },
): Row {
  const across = legs.flatMap((leg) => acrossOf(leg) ?? [])
  const apart = across.length === 0 ? undefined : Math.max(...across) - Math.min(...across)
  const figure = (value: number | undefined, method: string): Answer<'m'> =>
    found({ unit: 'm', value, method, inputs: from.inputs, residuals: [] })
  const leans = leansOf(legs)
  const largest = (all: readonly number[]): number => Math.max(...all.map(Math.abs))
  const flattest = leanAnswer(legs, leans, largest, 'flattest of the legs of the tail hook')
  const upright = turnLeg.show({
    F: pull,
    n: found({ unit: '1', value: legs.length, method: 'legs of the tail hook', inputs: {}, residuals: [] }),
    e: figure(from.offset, 'offset of the centre of gravity across, and the shift allowed for'),
    b: figure(apart, 'distance of the outer tail points across'),
  })
  const tension = leaningLeg.show({ V: upright, beta: flattest })
  return {
    legs,
    flattest,
    included: leanAnswer(
      legs,
      leans,
      (all) => Math.max(...all) - Math.min(...all),
      'angle between the outer legs of the tail hook',
    ),
    answerOf: (leg) => ({
      tension,
      lean: leanAnswer([leg], [leans[legs.indexOf(leg)]], ([own = 0]) => own, 'lean of a leg of the tail hook'),
    }),
  }
}

/** Pull with spreaders, slings and shackles of the tail hook: what slings above a spreader carry at most. */
const withRigging = (pick: Pick, tail: Hooked, pull: Answer<'N'>): Answer<'N'> =>
  sumOf('Pull with the rigging of the tail hook', 'N', [
    { label: 'worst pull', answer: pull },
    {
      label: 'rigging',
      answer: weightOf.show({ m: sumOf('Rigging', 'kg', riggingLines(pick, tail)), g: GRAVITY }),
    },
  ])

const nodeOf = ({ rigging }: Hooked, id: string | undefined): Vec3 | undefined => {
  const node = rigging?.nodes[id ?? '']
  return node === undefined ? undefined : coordinates(node.offset)
}

/** Angle of a sling from plumb, from its end of the spreader up to the hook or to the spreader over it; signed across the turn. */
function leanAbove(tail: Hooked, { node, over }: RigLeg): number | undefined {
  const [low, high] = [nodeOf(tail, node), over === undefined ? ([0, 0, 0] as Vec3) : nodeOf(tail, over)]
  if (low === undefined || high === undefined || low[2] >= high[2]) return undefined
  const [x, y, z] = subtract(low, high)
  return Math.sign(y) * Math.atan2(Math.hypot(x, y), -z)
}

/** Angle of each leg across the turn, from plumb: over the middle of their points, or to its end of a spreader; undefined where it does not reach. */
function leansBelow({ tail }: Pick, below: readonly RigLeg[]): (number | undefined)[] {
  const ys = below.map(({ lower }) => lower?.at[1] ?? 0)
  const middle = ys.reduce((sum, y) => sum + y, 0) / Math.max(1, ys.length)
  return below.map(({ node, length }, i) => {
    const end = tail?.rigging?.nodes[node ?? '']?.offset[1].value ?? 0
    const sine = ((ys[i] as number) - middle - end) / (length.value ?? Number.NaN)
    return Math.abs(sine) <= 1 ? Math.asin(sine) : undefined
  })
}

const NOT_REACHING =
  'a leg is shorter than the way across from its point to the hook or its end of the spreader: longer legs, or a spreader as wide as its points'

function leanAnswer(
  below: readonly RigLeg[],
  leans: readonly (number | undefined)[],
  of: (leans: readonly number[]) => number,
  method: string,
): Answer<'rad'> {
  const isKnown = leans.length > 0 && !leans.includes(undefined)
  return found({
    unit: 'rad',
    value: isKnown ? of(leans as number[]) : undefined,
    method: `${method}: across the turn, from each point up to the hook or its end of the spreader`,
    inputs: Object.fromEntries(below.map(({ id, length }) => [`${id}: length`, length])),
    residuals: [],
    ...(isKnown || leans.length === 0 ? {} : { note: NOT_REACHING }),
  })
}

/** The flattest leg of the tail hook over a turn. */
export const tailAngleCheck = (pick: Pick, { hooked, flattest }: LoadedRig): Check =>
  check({
    kind: legAngle,
    subject: pick.subject,
    of: `${hooked.key}/legs`,
    title: `${legAngle.title}: ${hooked.hook.name}`,
    demand: flattest,
    capacity: legAngleLimit(pick),
    near: pick.near,
    cautions: RIGGING_CAUTIONS,
    found: ['its flattest leg leans too far over the turn: longer legs, or a spreader as wide as its points'],
  })
