import { type Answer, GRAVITY, given, knownOr, largestOf, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { tooMuch } from './cure.ts'
import { weightOf } from './hook.formulas.ts'
import type { Hooked, Pick } from './pick.ts'
import { strandUse, unitAnchors, unitLost, unitPace, unitUse, winchPull } from './systemKinds.ts'
import { drumPull, leadLine, strandLoad } from './units.formulas.ts'
import type { UnitGroup, Units } from './units.ts'

const CAUTIONS = [
  'Every unit has its own load reading and stroke reading on one screen; a difference above what is set stops all of them.',
  'The difference that is allowed shrinks as the lines shorten: the same stroke error loads a short line more.',
]

/** The units of a hook: level error, loss of one, strands, anchors, pace; of winches the pull of the lead line. */
export function unitChecks(pick: Pick, hooked: Hooked, group: UnitGroup): Check[] {
  const units = hooked.hook.units as Units
  const isAlone = group.units.length === 1
  const common = { subject: pick.subject, of: hooked.key, near: pick.near, cautions: CAUTIONS }
  return [
    check({
      ...common,
      kind: unitUse,
      demand: group.level,
      capacity: group.rated,
      assumptions: [
        'Lines plumb, block rigid, lines at their shortest in this lift; the rating of a unit is that of its line.',
      ],
      found: tooMuch(
        group.level,
        group.rated,
        'a smaller difference of strokes allowed by the control, more units, larger ones, or a lighter load',
      ),
    }),
    check({
      ...common,
      kind: unitLost,
      demand: group.lost,
      capacity: isAlone ? stated('N', 0, 'one unit alone: nothing is left to hold the load') : group.rated,
      assumptions: [
        'Statically redistributed; a sudden loss overshoots, so lines are gripped before a unit is opened.',
        ...(group.tips ? ['With one lost the block tips: one line may take everything.'] : []),
      ],
      found: isAlone
        ? ['one unit alone holds the hook: where it is lost the load falls']
        : group.tips
          ? ['the hook lies outside of the units that are left: place them so that any one may go']
          : tooMuch(group.lost, group.rated, 'more units, larger ones, or a lighter load, so that any one may go'),
    }),
    check({
      ...common,
      kind: unitAnchors,
      demand: stated('1', 2, 'common practice, no source: two sets of grips or brakes, each able to hold alone'),
      capacity: given('1', `${hooked.hookAt}/units/anchors`, units.anchors),
      near: 1,
      found: ['each unit is held once; a second set of grips or brakes, able to hold its load alone, is asked for'],
    }),
    ...(units.kind === 'winch'
      ? [winchCheck(common, hooked, units, group)]
      : strandChecks(common, hooked, units, group)),
  ]
}

type Common = { subject: Pick['subject']; of: string; near: number; cautions: readonly string[] }

const worst = ({ level, lost }: UnitGroup): Answer<'N'> =>
  largestOf('Most in one unit', 'N', [
    { label: 'strokes apart', answer: level },
    { label: 'one unit lost', answer: lost },
  ])

function strandChecks(common: Common, { hook, hookAt }: Hooked, units: Units, group: UnitGroup): Check[] {
  const at = `${hookAt}/units/strands`
  const demand = strandLoad.show({ P: worst(group), n: given('1', `${at}/fitted`, units.strands?.fitted) })
  const capacity = weightOf.show({ m: knownOr(units.strands?.rated, 'kg', `${at}/rated`), g: GRAVITY })
  const speed = knownOr(hook.speed, 'm/s', `${hookAt}/speed`)
  return [
    check({ ...common, kind: strandUse, demand, capacity, found: strandCure(demand, capacity, units) }),
    check({
      ...common,
      kind: unitPace,
      demand: speed,
      capacity: group.speed as Answer<'m/s'>,
      near: 1,
      found: tooMuch(speed, group.speed as Answer<'m/s'>, 'plan the slower speed, or units with a shorter re-grip'),
    }),
  ]
}

/** Strands that would bear the load of a unit, where so many can be fitted. */
function strandCure(demand: Answer<'N'>, capacity: Answer<'N'>, { strands }: Units): string[] {
  const [pull, bears, fitted] = [demand.value, capacity.value, strands?.fitted]
  if (pull === undefined || bears === undefined || fitted === undefined) return []
  return tooMuch(
    demand,
    capacity,
    `${Math.ceil((fitted * pull) / bears - 1e-9)} strands in each unit would bear it (fitted: ${fitted}), or a lighter load`,
  )
}

function winchCheck(common: Common, { hookAt }: Hooked, { reeving }: Units, group: UnitGroup): Check {
  const at = (field: string) => `${hookAt}/units/reeving/${field}`
  const count = (field: 'parts' | 'layer'): Answer<'1'> => given('1', at(field), reeving?.[field])
  const demand = leadLine.show({ W: group.level, N: count('parts'), K: knownOr(reeving?.loss, '1', at('loss')) })
  const capacity = drumPull.show({
    T_1: knownOr(reeving?.pull, 'N', at('pull')),
    D: knownOr(reeving?.barrel, 'm', at('barrel')),
    d: knownOr(reeving?.rope, 'm', at('rope')),
    j: count('layer'),
  })
  return check({
    ...common,
    kind: winchPull,
    demand,
    capacity,
    found: tooMuch(demand, capacity, 'more parts of line, fewer layers on the drum, or a stronger winch'),
    assumptions: ['As many sheaves as parts; the layer that is stated is the outermost that works in this lift.'],
  })
}
