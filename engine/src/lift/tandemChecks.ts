import { GRAVITY } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import { tooMuch } from './cure.ts'
import { sharedLoad } from './hook.ts'
import { bothHooksCheck, hookUseCheck } from './hookChecks.ts'
import { sharedWorst } from './kinds.ts'
import type { Hooked, Pick } from './pick.ts'
import { allowedOf, ratedOf } from './rated.ts'
import type { HookShare, Tandem } from './tandem.ts'
import { lineLoad } from './turn.formulas.ts'
import { WORST_CURE } from './turnChecks.ts'

/** Each hook's share against its own limit, by plan and at its worst; both together where they are one machine's. */
export function tandemChecks(pick: Pick, tail: Hooked, tandem: Tandem, critical: boolean | undefined): Check[] {
  const hooks: [Hooked, HookShare][] = [
    [pick.main, tandem.main],
    [tail, tandem.tail],
  ]
  const loads = hooks.map(([hooked, share]) => ({
    label: hooked.hook.name,
    answer: carried(pick, hooked, share.planned).demand,
  }))
  return [
    ...hooks.flatMap(([hooked, share]) => {
      const allowed = allowedOf(pick, hooked, ratedOf(pick, hooked), critical)
      return [
        hookUseCheck(pick, hooked, carried(pick, hooked, share.planned).demand, allowed),
        check({
          kind: sharedWorst,
          subject: pick.subject,
          of: hooked.key,
          title: `${sharedWorst.title}: ${hooked.hook.name}`,
          demand: carried(pick, hooked, share.worst).demand,
          capacity: allowed,
          near: pick.near,
          found: tooMuch(carried(pick, hooked, share.worst).demand, allowed, WORST_CURE),
          assumptions: [
            'Each hook plumb over the middle of its points; either higher than the other by the tilt that the project allows.',
            ...rangeWords(share),
          ],
          cautions: LIFT_CAUTIONS,
        }),
      ]
    }),
    ...(tail.systemId === pick.main.systemId ? [bothHooksCheck(pick, loads)] : []),
  ]
}

/** How far a share moves while the piece is out of level and its centre of gravity is off its place. */
function rangeWords({ planned, least, worst }: HookShare): string[] {
  if (planned.value === undefined || least.value === undefined || worst.value === undefined) return []
  const [from, by, to] = [least.value, planned.value, worst.value].map((pull) => (pull / 1e3).toFixed(0))
  return [`Its pull on the piece runs from ${from} kN to ${to} kN, ${by} kN by plan.`]
}

const carried = (pick: Pick, hooked: Hooked, pull: HookShare['planned']) =>
  sharedLoad(pick, hooked, { label: 'share of the piece', answer: lineLoad.show({ T: pull, g: GRAVITY }) })
