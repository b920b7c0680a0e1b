import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { showQuantity } from '../working/quantity.ts'
import { words } from './cure.ts'
import type { HeightChain } from './height.ts'
import { hookOver, posesOver } from './hookCourse.ts'
import { height } from './kinds.ts'
import type { Pick } from './pick.ts'
import type { TimedMotion } from './stages.ts'
import type { TailLeg } from './tailRig.ts'

/** The hook goes high enough. */
export const heightCheck = (pick: Pick, { needed, available }: HeightChain): Check =>
  check({
    kind: height,
    subject: pick.subject,
    demand: needed,
    capacity: available,
    near: 1,
    found: heightWords(needed, available),
    assumptions: [
      'The hull hangs as in equilibrium; working lengths of legs are between pins, so shackles are in them.',
      'The hook is the point where legs or spreader are fixed; what is above it belongs to the machine.',
    ],
  })

function heightWords(needed: Answer<'m'>, available: Answer<'m'>): string[] {
  const short = (needed.value ?? 0) - (available.value ?? 0)
  return [
    `the hook would have to go to ${words(needed)}, it goes no higher than ${words(available)}, ${showQuantity(short, 'm')} too low: shorter legs or gear, less to be cleared, or a higher hook`,
  ]
}

/** The tail hook of a turn goes high enough: over its points at the highest that they come to, by spreader and legs. */
export function tailHeightCheck(pick: Pick, stages: readonly TimedMotion[], legs: readonly TailLeg[]): Check[] {
  const { tail } = pick
  if (tail === undefined || pick.lift.turn === undefined) return []
  const over = hookOver(pick, tail)
  const levels = stages.flatMap(({ motion }) => posesOver(pick, motion).map((pose) => over(pose)[2]))
  const lowest = legs.map(({ ends }) => ends?.[1][1])
  const isKnown = levels.length > 0 && lowest.length > 0 && !lowest.includes(undefined)
  const drop = Math.max(...lowest.map((z) => -(z ?? 0)))
  const needed = found({
    unit: 'm',
    value: isKnown ? Math.max(...levels) + drop : undefined,
    method: 'highest level of its points over the moves of the lift, with its legs and spreader above them',
    inputs: {
      ...Object.fromEntries(legs.map(({ id, angle }) => [`${id}: from the vertical`, angle])),
      ...(levels.length === 0 ? { 'moves of the lift': given('m', '/steps', undefined) } : {}),
    },
    residuals: [],
  })
  const available = knownOr(tail.hook.highest, 'm', `${tail.hookAt}/highest`)
  return [
    check({
      kind: height,
      subject: pick.subject,
      of: tail.key,
      title: `${height.title}: ${tail.hook.name}`,
      demand: needed,
      capacity: available,
      near: 1,
      found: heightWords(needed, available),
      assumptions: ['Both hooks hang plumb over their points; what is above a hook belongs to the machine.'],
    }),
  ]
}
