import { place, rotationAbout } from '../numeric/vector.ts'
import type { Boom, Moment } from './boom.ts'
import { angleOf, hookOver } from './hookCourse.ts'
import { turnedAbout } from './hull.ts'
import type { Hooked, Pick } from './pick.ts'
import type { TimedMotion } from './stages.ts'
import { moved } from './turnBox.ts'
import type { Turning } from './turningOf.ts'
import { beyondTurn } from './turnLineChecks.ts'

/** A turn by two hooks, moment by moment as planned, under the boom of one of them. */
interface TurnMoments {
  stages: readonly TimedMotion[]
  moments: readonly Moment[]
  centre: Boom['centre']
  turning: Turning
}

/** A hook that stands no farther than this beside where it is planned to stands there, m. */
const THERE = 1e-6

/**
 * Moments of a turn besides those planned: on beyond either end as far as an error of the heights of the hooks lets the piece turn, and
 * with the hook where its line leans to with the centre of gravity at a corner of its box, the farthest either way.
 */
export function worstOfTurn(pick: Pick, hooked: Hooked, { stages, moments, centre, turning }: TurnMoments): Moment[] {
  const turned = moments.filter(({ stage }) => stages[stage]?.motion.tilts === true)
  const all = [...turned, ...beyond(pick, turned, turning)]
  const shift = pick.settings.cogShift?.value ?? 0
  const corners = [-shift, shift].flatMap((x) => [-shift, shift].map((z) => moved(turning.geometry, [x, z])))
  const overs = corners.map((geometry) => hookOver(pick, hooked, { geometry }))
  const over = hookOver(pick, hooked, turning)
  const placed = all.flatMap((moment): Moment[] => {
    const own = over(moment.pose)
    const aside = overs.map((one) => one(moment.pose)[0] - own[0])
    return [Math.min(...aside), Math.max(...aside)]
      .filter((by) => Math.abs(by) > THERE)
      .map((by) => ({ ...moment, hook: [own[0] + by, own[1], own[2]] }))
  })
  const onward = all.slice(turned.length).map((moment) => ({ ...moment, hook: over(moment.pose) }))
  return [...onward, ...placed].map((moment) => ({
    ...moment,
    radius: Math.hypot(moment.hook[0] - centre[0], moment.hook[1] - centre[1]),
  }))
}

/** The first and the last pose of a turn, turned on away from each other. */
function beyond(pick: Pick, turned: readonly Moment[], turning: Turning): Moment[] {
  const [first, last] = [turned[0], turned.at(-1)]
  const limits = beyondTurn(pick, turning)
  if (first === undefined || last === undefined || limits === undefined) return []
  return [first, last].flatMap((moment): Moment[] => {
    const angle = angleOf(pick, moment.pose)
    if (angle === undefined) return []
    const { start, end } = limits
    const to = Math.abs(angle - start) < Math.abs(angle - end) ? start : end
    const about = place(moment.pose, pick.set.cogMachine)
    return [{ ...moment, pose: turnedAbout(moment.pose, rotationAbout('y', to - angle), about) }]
  })
}
