import { type Answer, found, type Given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { showQuantity } from '../working/quantity.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import { fixedClearance, poseTolerance, wallClearance } from './clearance.formulas.ts'
import { type Gap, gapsInShaft } from './clearance.ts'
import type { Hull } from './hull.ts'
import { clearance } from './kinds.ts'
import type { LiftOutcome } from './lift.ts'
import type { Pick } from './pick.ts'
import type { Suspension } from './suspension.ts'

/** Clearance in the shaft: checks on the wall and on each fixed thing, and the least of all. */
export function clearanceOf(
  pick: Pick,
  hull: Hull | undefined,
  suspension: Suspension,
  memory: Memory,
): { checks: Check[]; least: LiftOutcome['clearance'] } {
  if (!pick.inShaft) return { checks: [], least: undefined }
  const { shaft } = pick
  const inputs = inputsOf(pick, suspension)
  if (shaft === undefined || hull === undefined || pick.track.length < 2)
    return { checks: [openCheck(pick, inputs)], least: undefined }
  const gaps = gapsInShaft(pick, hull, shaft, suspension, memory)
  const checks = gaps.map((gap) => gapCheck(pick, gap, answerOf(gap, pick, inputs)))
  const [nearest] = gaps
  return {
    checks,
    least:
      nearest === undefined
        ? undefined
        : { gap: answerOf(nearest, pick, inputs), to: nearest.to, at: nearest.at, part: nearest.part, as: nearest.as },
  }
}

function answerOf({ gap, to, part, as }: Gap, { shaft }: Pick, inputs: Record<string, Answer>): Answer<'m'> {
  const of = shaft?.obstructions[to]
  const place: Record<string, Answer> =
    of === undefined
      ? { 'clear diameter of the shaft': shaft?.clearDiameter as Given<'m'> }
      : Object.fromEntries(
          [...of.x, ...of.y].map((v, i) => [`${of.what}: ${['x from', 'x to', 'y from', 'y to'][i]}`, v]),
        )
  return found({
    unit: 'm',
    value: gap,
    method:
      'hull swept along its moves in plan: support of every solid in every direction, against the bore and fixed things',
    inputs: { ...place, ...inputs },
    residuals: [],
    note: `nearest: ${part}, ${as}`,
  })
}

/** What a way through the shaft is worked from. */
export function inputsOf({ moves, machine }: Pick, { tilt }: Suspension): Record<string, Answer> {
  const pose = machine?.pose
  const placing: Record<string, Answer> =
    pose === undefined
      ? {}
      : {
          'origin x': pose.origin[0],
          'origin y': pose.origin[1],
          'origin z': pose.origin[2],
          roll: pose.roll,
          pitch: pose.pitch,
          yaw: pose.yaw,
        }
  const shifts = moves.flatMap((move, i): [string, Answer][] =>
    'by' in move
      ? move.by.map((by, k): [string, Answer] => [`move ${i + 1}, ${'xyz'[k]}`, by])
      : [[`move ${i + 1}, turn`, move.turn]],
  )
  return { ...placing, ...Object.fromEntries(shifts), ...(tilt.value === undefined ? {} : { tilt }) }
}

function gapCheck(pick: Pick, gap: Gap, answer: Answer<'m'>): Check {
  const what = gap.to === 'wall' ? 'wall of the shaft' : (pick.shaft?.obstructions[gap.to]?.what ?? gap.to)
  return check({
    kind: clearance,
    subject: pick.subject,
    of: gap.to,
    title: `${clearance.title}: ${what}`,
    demand: requiredTo(pick, gap.to),
    capacity: answer,
    near: pick.near,
    assumptions: [
      `Nearest: ${gap.part}, ${gap.as}.`,
      'Solids with their hollows filled; the hook plumb over the centre of gravity; no swing, so tag lines and slow hoisting.',
    ],
    cautions: LIFT_CAUTIONS,
    found: [
      `${gap.part} ${gap.gap < 0 ? 'strikes' : 'comes too near to'} the ${what}, ${gap.as}${gapWords(gap.gap, requiredTo(pick, gap.to))}: other moves, a more level hang, or ${gap.to === 'wall' ? 'a smaller piece' : 'take down what is in the way'}`,
    ],
  })
}

/** How much is left and how much is wanted; nothing of what strikes. */
export const gapWords = (gap: number, wanted: Answer<'m'>): string =>
  gap < 0
    ? `, by ${showQuantity(-gap, 'm')}`
    : `, with ${showQuantity(gap, 'm', 'SI', wanted.value)} left where ${showQuantity(wanted.value, 'm')} is wanted`

/** Clearance to be kept to the wall or to something fixed. */
export function requiredTo(pick: Pick, to: string): Answer<'m'> {
  const c0 = knownOr(pick.settings.clearanceInShaft, 'm', '/settings/clearanceInShaft')
  const p = poseToleranceOf(pick)
  if (to !== 'wall') return fixedClearance.show({ c0, p })
  return wallClearance.show({ c0, p, w: knownOr(pick.shaft?.wall.innerTolerance, 'm', '/shaft/wall/innerTolerance') })
}

function poseToleranceOf({ machine }: Pick): Answer<'m'> {
  const tolerance = machine?.pose.tolerance
  const at = (field: string): string => `/machine/pose/tolerance/${field}`
  return poseTolerance.show({
    x: knownOr(tolerance?.x, 'm', at('x')),
    y: knownOr(tolerance?.y, 'm', at('y')),
    a: knownOr(tolerance?.roll, 'rad', at('roll')),
    D: knownOr(machine?.shieldDiameter, 'm', '/machine/shieldDiameter'),
  })
}

/** Without a shaft, shapes or a way through it there is nothing to measure. */
function openCheck(pick: Pick, inputs: Record<string, Answer>): Check {
  const missing: Record<string, Answer> = {
    ...(pick.shaft === undefined ? { shaft: unknown('/shaft/clearDiameter') } : {}),
    ...(pick.track.length < 2 ? { 'moves of the lift': unknown('/steps') } : {}),
  }
  return check({
    kind: clearance,
    subject: pick.subject,
    of: 'wall',
    demand: requiredTo(pick, 'wall'),
    capacity: found({
      unit: 'm',
      value: undefined,
      method: 'no way through the shaft is known',
      inputs: { ...inputs, ...missing },
      residuals: [],
    }),
    near: pick.near,
  })
}

const unknown = (pointer: string): Answer<'m'> => ({ kind: 'given', unit: 'm', pointer, value: undefined })
