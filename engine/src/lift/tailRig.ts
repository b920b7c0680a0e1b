import { type Answer, found } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import { legAngleLimit } from './hangChecks.ts'
import { legAngle } from './kinds.ts'
import type { LoadedRig } from './loadedRig.ts'
import type { Pick } from './pick.ts'
import { legOf, type RigLeg } from './rig.ts'
import { leaningLeg, turnLeg } from './turn.formulas.ts'
import { worstPull } from './turnChecks.ts'
import type { OpenTurn, Turning } from './turningOf.ts'

/**
 * The tail hook's arrangement at its worst pull, the centre of gravity anywhere in its box: its legs side by side across the turn,
 * each leaning from its point to the hook or to the end of a spreader over it.
 */
export function tailRig(pick: Pick, turning: Turning | OpenTurn): LoadedRig | undefined {
  const { tail } = pick
  if (tail === undefined) return undefined
  const pull = worstPull(pick, turning, 'tail')
  const legs = (tail.rigging?.legs ?? []).map((_, i) => legOf(pick, tail, i))
  const below = legs.filter((leg) => !leg.above)
  const across = below.flatMap((leg) => (leg.lower === undefined ? [] : [leg.lower.at[1]]))
  const apart = across.length === 0 ? undefined : Math.max(...across) - Math.min(...across)
  const figure = (value: number | undefined, method: string): Answer<'m'> =>
    found({ unit: 'm', value, method, inputs: turning.inputs, residuals: [] })
  const offset = Math.abs(pick.set.cogMachine[1]) + (pick.settings.cogShift?.value ?? 0)
  const upright = turnLeg.show({
    F: pull,
    n: found({ unit: '1', value: below.length, method: 'legs of the tail hook', inputs: {}, residuals: [] }),
    e: figure(offset, 'offset of the centre of gravity across, and the shift allowed for'),
    b: figure(apart, 'distance of the outer tail points across'),
  })
  const leans = leansOf(pick, below)
  const flattest = leanAnswer(
    below,
    leans,
    (all) => Math.max(...all.map(Math.abs)),
    'flattest of the legs of the tail hook',
  )
  const tension = leaningLeg.show({ V: upright, beta: flattest })
  const meet = below.every(({ node }) => node === undefined) && below.length > 1
  return {
    hooked: tail,
    legs: legs.map((leg) => ({ leg, tension })),
    load: pull,
    flattest,
    ...(meet
      ? {
          included: leanAnswer(
            below,
            leans,
            (all) => Math.max(...all) - Math.min(...all),
            'angle between the outer legs of the tail hook',
          ),
        }
      : {}),
  }
}

/** Angle of each leg across the turn, from plumb: over the middle of their points, or to its end of a spreader; undefined where it does not reach. */
function leansOf({ tail }: Pick, below: readonly RigLeg[]): (number | undefined)[] {
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
