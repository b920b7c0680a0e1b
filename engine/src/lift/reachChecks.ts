import type { Pose } from '../numeric/vector.ts'
import { type Answer, given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faults, NONE_ALLOWED } from './hookChecks.ts'
import { hookOver, posesOver } from './hookCourse.ts'
import { hookReach } from './kinds.ts'
import type { Hooked, Pick } from './pick.ts'
import type { TimedMotion } from './stages.ts'
import type { OpenTurn, Turning } from './turningOf.ts'

/** Each hook with a travel of its own, over the whole way: within that travel and the runway. What a crane reaches is in its radius. */
export function hookReachChecks(
  pick: Pick,
  stages: readonly TimedMotion[],
  turning: Turning | OpenTurn | undefined,
): Check[] {
  const hooks = pick.tail === undefined ? [pick.main] : [pick.main, pick.tail]
  return hooks.filter(isGuided).map((hooked) => reachCheck(pick, hooked, stages, turning))
}

const stands = ({ system }: Hooked): boolean => system.kind === 'lift tower' || system.kind === 'gantry'
const isGuided = (hooked: Hooked): boolean => hooked.hook.travel !== undefined || stands(hooked)

function reachCheck(
  pick: Pick,
  hooked: Hooked,
  stages: readonly TimedMotion[],
  turning: Turning | OpenTurn | undefined,
): Check {
  const { hook, hookAt, system } = hooked
  const travel = hook.travel ?? [given('m', `${hookAt}/travel`, undefined), given('m', `${hookAt}/travel`, undefined)]
  const over = hookOver(pick, hooked, turning)
  const isOutside = (pose: Pose): boolean => {
    const [x, y] = over(pose)
    return !within(x, travel) || !within(y, system.runway)
  }
  const outside = stages.flatMap(({ motion, name }, i) => {
    const pose = posesOver(pick, motion).find(isOutside)
    return pose === undefined ? [] : [{ label: `stage ${i + 1}, ${name}`, at: over(pose) }]
  })
  return check({
    kind: hookReach,
    subject: pick.subject,
    ...(hooked === pick.main ? {} : { of: hooked.key }),
    demand: faults(outside.length, 'stages in which the hook would stand outside its travel or the runway', {
      'travel from': travel[0],
      'travel to': travel[1],
      ...runwayLimits(hooked),
      ...unknownStages(pick, stages),
    }),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: [
      pick.tail === undefined && pick.lift.turn === undefined
        ? 'The hook stands plumb over the centre of gravity.'
        : 'The hook stands over the middle of its points; in a turn by two hooks beside that as far as its line leans.',
    ],
    found: outside.map(
      ({ label, at }) =>
        `${label}: the hook would have to stand at x ${at[0].toFixed(2)}\u00a0m, y ${at[1].toFixed(2)}\u00a0m, ${beyond(at, travel, system.runway)}; set the machine elsewhere, lengthen what ends there, or take the piece another way`,
    ),
  })
}

/** Which of the two ends before the hook is there. */
function beyond([x, y]: readonly number[], travel: Span, runway: Span | undefined): string {
  const outside = (of: string, at: number | undefined, span: Span | undefined): string[] =>
    at === undefined || within(at, span)
      ? []
      : [`outside its ${of} from ${span?.[0].value?.toFixed(2)}\u00a0m to ${span?.[1].value?.toFixed(2)}\u00a0m`]
  return [...outside('travel', x, travel), ...outside('runway', y, runway)].join(' and ')
}

/** A tower or gantry without a stated runway may stand anywhere: whether it comes over the piece is then open. */
function runwayLimits(hooked: Hooked): Record<string, Answer> {
  const { system, systemAt } = hooked
  if (system.runway !== undefined) return { 'runway from': system.runway[0], 'runway to': system.runway[1] }
  return stands(hooked) ? { runway: given('m', `${systemAt}/runway`, undefined) } : {}
}

/** Stages of which nobody knows where they lead in plan. */
const unknownStages = (pick: Pick, stages: readonly TimedMotion[]): Record<string, Answer> =>
  Object.fromEntries(
    stages.flatMap(({ motion, name }, i): [string, Answer][] => {
      const isKnown = motion.from !== undefined && motion.to !== undefined
      if (isKnown || posesOver(pick, motion).length > 0) return []
      const { rise } = motion
      return [[`stage ${i + 1}, ${name}`, rise.value === undefined ? rise : given('m', '/steps', undefined)]]
    }),
  )

type Span = readonly [Answer<'m'>, Answer<'m'>]
const within = (x: number, span: Span | undefined): boolean =>
  span === undefined || (x >= (span[0].value ?? -Infinity) && x <= (span[1].value ?? Infinity))
