import { type Answer, found, given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import { type Gap, riggingGaps } from './clearance.ts'
import { inputsOf, requiredTo } from './clearanceChecks.ts'
import { riggingClearance } from './kinds.ts'
import type { Pick } from './pick.ts'
import { riggingHull, spreaderSections } from './riggingHull.ts'
import type { Suspension } from './suspension.ts'

/** What hangs over the piece against the wall and what is fixed in the shaft: the one of them that it comes too near to, or nearest. */
export function riggingChecks(pick: Pick, suspension: Suspension, memory: Memory): Check[] {
  const { shaft } = pick
  if (!pick.inShaft) return []
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
  if (!isKnown) return [riggingCheck(pick, undefined, inputs)]
  const hull = memory.once(`lift-rigging-hull/${pick.id}`, [suspension, pick.gear], () => riggingHull(pick, suspension))
  const gaps = riggingGaps(pick, hull, shaft, suspension, memory)
  // a piece that comes back to another on its bay passes nothing of the shaft
  if (gaps.length === 0) return []
  const left = ({ gap, to }: Gap): number => gap - (requiredTo(pick, to).value ?? 0)
  return [riggingCheck(pick, [...gaps].sort((a, b) => left(a) - left(b))[0], inputs)]
}

function riggingCheck(pick: Pick, nearest: Gap | undefined, inputs: Record<string, Answer>): Check {
  const to = nearest?.to ?? 'wall'
  const of = pick.shaft?.obstructions[to]
  const what = of?.what ?? 'wall of the shaft'
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
      `${nearest?.part} ${(nearest?.gap ?? 0) < 0 ? 'strikes' : 'comes too near to'} the ${what}, ${nearest?.as}`,
    ],
  })
}

const SIDES = ['x from', 'x to', 'y from', 'y to']
