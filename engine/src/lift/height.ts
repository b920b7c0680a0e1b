import { dot, place, scale, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, largestOf, type Term } from '../working/answer.ts'
import { barrierTop, hookHeight } from './height.formulas.ts'
import { type Hull, reachOf } from './hull.ts'
import { posesAlong } from './path.ts'
import type { Pick } from './pick.ts'
import type { Suspension } from './suspension.ts'

/** Height chain under a hook. */
export interface HeightChain {
  needed: Answer<'m'>
  available: Answer<'m'>
  /** Hook above the lowest point of the hanging piece. */
  below: Answer<'m'>
}

/** Height that the hook must reach to carry the piece over what is in its way, against the highest it can go. */
export function heightChain(pick: Pick, suspension: Suspension, hull: Hull | undefined): HeightChain {
  const below = belowHook(suspension, hull)
  const over = hookHeight.show({
    z0: levelToClear(pick),
    c: knownOr(pick.settings.clearanceOverBarrier, 'm', '/settings/clearanceOverBarrier'),
    h: below,
  })
  const planned = plannedHook(pick, suspension)
  return {
    below,
    needed:
      planned === undefined
        ? over
        : largestOf('Level that the hook must reach', 'm', [
            { label: 'to clear what is in the way', answer: over },
            { label: 'in the moves as planned', answer: planned },
          ]),
    available: knownOr(pick.main.hook.highest, 'm', `${pick.main.hookAt}/highest`),
  }
}

/** Highest hook along the moves of the order. */
function plannedHook(pick: Pick, { hookMachine, tilt }: Suspension): Answer<'m'> | undefined {
  const poses = posesAlong(pick)
  if (poses.length === 0) return undefined
  return found({
    unit: 'm',
    value: hookMachine === undefined ? undefined : Math.max(...poses.map((pose) => place(pose, hookMachine)[2])),
    method: 'hook over the piece after each of its moves, as it hangs in equilibrium',
    inputs: { 'tilt of the hanging piece': tilt },
    residuals: [],
  })
}

/** Hook above the lowest point of the piece as it hangs, tilt and stretch of the legs included. */
export function belowHook({ rig, hang, tilt }: Suspension, hull: Hull | undefined): Answer<'m'> {
  const down: Vec3 | undefined = hang === undefined ? undefined : scale(hang.up, -1)
  const value =
    hang === undefined || hull === undefined || down === undefined
      ? undefined
      : dot(hang.pose.hook, hang.up) + reachOf(hull, { turn: rig.turn, shift: [0, 0, 0] }, down).reach
  return found({
    unit: 'm',
    value,
    method: 'hook above the lowest point of the hull, as the piece hangs in equilibrium',
    inputs: { 'tilt of the hanging piece': tilt },
    residuals: [],
  })
}

/** Barrier for what crosses it, the bay for what stays on it, and what the lift says it must clear. */
export function levelToClear(pick: Pick): Answer<'m'> {
  const terms: Term<'m'>[] = []
  if (pick.inShaft) terms.push({ label: 'barrier around the shaft', answer: barrierLevel(pick) })
  else terms.push({ label: 'top of the bay', answer: knownOr(pick.bay?.level, 'm', `${pick.bayAt}/level`) })
  if (pick.lift.over !== undefined) terms.push({ label: 'as the lift says', answer: pick.lift.over })
  return terms.length === 1 ? (terms[0] as Term<'m'>).answer : largestOf('Highest level to be cleared', 'm', terms)
}

function barrierLevel({ shaft }: Pick): Answer<'m'> {
  if (shaft === undefined) return given('m', '/shaft/collar', undefined)
  return barrierTop.show({ c: shaft.collar, b: shaft.barrier })
}
