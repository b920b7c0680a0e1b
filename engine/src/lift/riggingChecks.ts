import { dot, scale, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import { type Gap, hungPose, leansOf, riggingGaps } from './clearance.ts'
import { gapWords, inputsOf, requiredTo } from './clearanceChecks.ts'
import { facing, type Hull, planDirection } from './hull.ts'
import { riggingClearance } from './kinds.ts'
import type { OverheadChecks } from './overhead.ts'
import { posesAlong } from './path.ts'
import type { Pick } from './pick.ts'
import { riggingHull, spreaderSections } from './riggingHull.ts'
import type { Suspension } from './suspension.ts'

/** What hangs over the piece against the wall and what is fixed in the shaft: the one of them that it comes too near to, or nearest. */
export function riggingChecks(pick: Pick, suspension: Suspension, memory: Memory): OverheadChecks {
  const { shaft } = pick
  if (!pick.inShaft) return { checks: [] }
  const inputs: Record<string, Answer> = {
    ...inputsOf(pick, suspension),
    'tilt as it hangs': suspension.tilt,
    ...spreaderSections(pick),
    ...(shaft === undefined
      ? { shaft: given('m', '/shaft/clearDiameter', undefined) }
      : { 'clear diameter of the shaft': shaft.clearDiameter }),
    ...(pick.track.length < 2 ? { 'moves of the lift': given('m', '/steps', undefined) } : {}),
  }
  const isKnown = shaft !== undefined && Object.values(inputs).every(({ value }) => value !== undefined)
  if (!isKnown) return { checks: [riggingCheck(pick, undefined, inputs)] }
  const hull = memory.once(`lift-rigging-hull/${pick.id}`, [suspension, pick.gear], () => riggingHull(pick, suspension))
  const gaps = riggingGaps(pick, hull, shaft, suspension, memory)
  // a piece that comes back to another on its bay passes nothing of the shaft
  if (gaps.length === 0) return { checks: [] }
  const left = ({ gap, to }: Gap): number => gap - (requiredTo(pick, to).value ?? 0)
  const nearest = [...gaps].sort((a, b) => left(a) - left(b))[0] as Gap
  const { gap, part, to } = nearest
  const made = riggingCheck(pick, nearest, inputs)
  return {
    checks: [made],
    nearest: {
      check: made.id,
      gap,
      what: part,
      to: thingOf(pick, to),
      ...placeOf(pick, hull, suspension, nearest),
    },
  }
}

/** Where on the way the gap is: at the poses that it is measured from, as level with what is near as they come. */
function placeOf(
  pick: Pick,
  hull: Hull,
  suspension: Suspension,
  { gap, at, as, solid, angle }: Gap,
): { from: Vec3; along: Vec3 } {
  const along = planDirection(angle)
  const up = leansOf(suspension).find(([name]) => name === as)?.[1] ?? [0, 0, 1]
  const reach = dot(at, along) - gap
  const off = (p: Vec3): number => Math.abs(dot(p, along) - reach)
  const faced = posesAlong(pick).map((pose) => facing(hull, hungPose(pick, pose, up), solid, along))
  const nearest = Math.min(...faced.map(off))
  const levels = faced.filter((p) => off(p) < nearest + SAME).map(([, , z]) => z)
  const level = Math.min(Math.max(at[2], Math.min(...levels)), Math.max(...levels))
  const [x, y] = subtract(at, scale(along, gap))
  return { from: [x, y, level], along }
}

/** Poses that reach as far in plan, m. */
const SAME = 1e-4

const thingOf = ({ shaft }: Pick, to: string): string => shaft?.obstructions[to]?.what ?? 'wall of the shaft'

function riggingCheck(pick: Pick, nearest: Gap | undefined, inputs: Record<string, Answer>): Check {
  const to = nearest?.to ?? 'wall'
  const of = pick.shaft?.obstructions[to]
  const what = thingOf(pick, to)
  const places = of === undefined ? [] : [...of.x, ...of.y].map((v, i) => [`${of.what}: ${SIDES[i]}`, v] as const)
  return check({
    kind: riggingClearance,
    subject: pick.subject,
    demand: requiredTo(pick, to),
    capacity: found({
      unit: 'm',
      value: nearest?.gap,
      method:
        'legs as lines and spreaders as bars, as they hang, swept along the moves in plan, against the bore and fixed things',
      inputs: { ...inputs, ...Object.fromEntries(places) },
      residuals: [],
      ...(nearest === undefined ? {} : { note: `nearest: ${nearest.part} to the ${what}, ${nearest.as}` }),
    }),
    near: pick.near,
    assumptions: [
      ...(nearest === undefined ? [] : [`Nearest: ${nearest.part} to the ${what}, ${nearest.as}.`]),
      'Legs as lines without the thickness of slings and shackles, a spreader as round as its largest side; the block is not in it. The hook plumb over the centre of gravity; no swing.',
    ],
    cautions: LIFT_CAUTIONS,
    found: [
      `${nearest?.part} ${(nearest?.gap ?? 0) < 0 ? 'strikes' : 'comes too near to'} the ${what}, ${nearest?.as}${gapWords(nearest?.gap ?? 0, requiredTo(pick, to))}: a narrower spreader, other legs or moves, or take down what is in the way`,
    ],
  })
}

const SIDES = ['x from', 'x to', 'y from', 'y to']
