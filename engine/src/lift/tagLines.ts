import { apply, applyBack, dot, IDENTITY, place, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { tooMuch } from './cure.ts'
import { countsOf } from './hook.ts'
import type { Hull } from './hull.ts'
import { tagLines } from './kinds.ts'
import { bodyTurn, foundPose } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { fan, isCrane, shadowsOf } from './swept.ts'
import { slewMoment, tagLinePull } from './tagLines.formulas.ts'
import { dragOf } from './wind.ts'

/** What the wind does to a piece that hangs: its turning sail, and the gust at which the lift stops. */
export interface Turned {
  twist: Answer<'m3'>
  gust: Answer<'m/s'>
  hull: Hull | undefined
}

/** Whether people on tag lines can keep the piece from turning in the gust at which the lift stops. */
export function tagLineChecks(pick: Pick, { twist, gust, hull }: Turned): Check[] {
  const { settings } = pick
  const at = (field: string): string => `/settings/tagLine/${field}`
  const demand = tagLinePull.show({
    v: gust,
    rho: knownOr(settings.airDensity, 'kg/m3', '/settings/airDensity'),
    C: dragOf(pick),
    S: twist,
    T: slewingOf(pick),
    n: linesOf(pick),
    r: leverOf(pick, hull),
    beta: knownOr(settings.tagLine?.slope, 'rad', at('slope')),
  })
  const capacity = knownOr(settings.tagLine?.pull, 'N', at('pull'))
  return [
    check({
      kind: tagLines,
      subject: pick.subject,
      demand,
      capacity,
      near: pick.near,
      found: tooMuch(
        demand,
        capacity,
        'more lines, lines tied farther out or led flatter, a slower slew, or a lower wind at which the lift stops (stopWind)',
      ),
      assumptions: [
        'The lines are tied where the piece reaches farthest from the hoist line; the wind presses on the middle of its outline.',
        'A sudden gust turns it more than a steady one: the pull is what holds it, not what stops it once it turns.',
      ],
      cautions: [
        'A tag line is not wrapped round a hand, a body or anything fixed; who holds it stands outside the fall zone.',
        'A pull downward on a steep line adds to the load on the hook.',
      ],
    }),
  ]
}

/** Moment in the lines as a crane starts or stops slewing; none on a machine that keeps its heading. */
function slewingOf(pick: Pick): Answer<'N m'> {
  const { system, systemAt } = pick.main
  if (!isCrane(system)) return stated('N m', 0, 'the machine does not slew: the piece keeps its heading')
  return slewMoment.show({
    J: inertiaOf(pick),
    w: knownOr(system.slewSpeed, 'rad/s', `${systemAt}/slewSpeed`),
    t: knownOr(system.slewStart, 's', `${systemAt}/slewStart`),
  })
}

/** About the plumb line through its centre of gravity, as it hangs; that of the set is given as the machine was driven. */
function inertiaOf(pick: Pick): Answer<'kg m2'> {
  const lies = foundPose(pick)?.turn ?? IDENTITY
  const plumb = apply(lies, applyBack(bodyTurn(pick), [0, 0, 1]))
  return found({
    unit: 'kg m2',
    value: dot(plumb, apply(pick.set.inertia, plumb)),
    method: 'moment of inertia of the piece about the plumb line through its centre of gravity, as it hangs',
    inputs: { mass: pick.set.net },
    residuals: [],
  })
}

/** Tag lines of the arrangements of the lift; open where they name none. */
function linesOf(pick: Pick): Answer<'1'> {
  const hooks = [pick.main, ...(pick.tail === undefined ? [] : [pick.tail])]
  const count = hooks.reduce((sum, hooked) => sum + countOf(pick, hooked), 0)
  return given('1', `${pick.main.riggingAt}/others`, count === 0 ? undefined : count)
}

function countOf({ stock }: Pick, { rigging }: Hooked): number {
  if (rigging === undefined) return 0
  return [...countsOf(rigging)].reduce((sum, [item, n]) => sum + (stock[item]?.kind === 'tag line' ? n : 0), 0)
}

const AROUND = fan(24)

/** Farthest that the piece reaches in plan from the plumb line through its centre of gravity, as it hangs. */
function leverOf(pick: Pick, hull: Hull | undefined): Answer<'m'> {
  return found({
    unit: 'm',
    value: hull === undefined ? undefined : farthest(pick, hull),
    method: 'farthest reach in plan from the centre of gravity, over 24 directions',
    inputs: hull === undefined ? { 'shapes of its parts': given('m', `${pick.pieceAt}/parts`, undefined) } : {},
    residuals: [],
  })
}

function farthest(pick: Pick, hull: Hull): number {
  const pose = { turn: bodyTurn(pick), shift: [0, 0, 0] as Vec3 }
  const [x, y] = place(pose, pick.set.cogMachine)
  const [shadow] = shadowsOf(hull, [pose], AROUND)
  return Math.max(...AROUND.map((d, k) => (shadow?.[k] as number) - (x * d[0] + y * d[1])))
}
