import { type Answer, given, knownOr, stated } from '../working/answer.ts'
import type { Source } from '../working/formula.ts'
import { dynamicFactor, yawFactor } from './allowance.formulas.ts'
import type { Pick } from './pick.ts'
import type { Suspension } from './suspension.ts'

/** Where an allowance goes: on the load once, into the corners that are solved, or inside a rating. */
export type Entry = 'load' | 'corners' | 'rating' | 'not used'

/** One allowance between net mass and design load, with its clause and what it enters. */
export interface Allowance {
  id: string
  title: string
  /** Factor, mass, length or angle; open where the project has not said. */
  value: Answer<'1' | 'kg' | 'm' | 'rad'>
  clause: Source
  /** For each of what is designed: how it enters there. */
  enters: { hook: Entry; rigging: Entry; beams: Entry; ground: Entry }
  note: string
}

type Made = Omit<Allowance, 'enters'> & { enters: readonly [Entry, Entry, Entry, Entry] }

/** Every allowance of a lift, in the order in which it is taken. Each stands once: on the load, in the corners or in a rating. */
export function allowancesOf(pick: Pick, suspension: Suspension): Allowance[] {
  const shared = pick.tail === undefined ? [] : [levelOf(pick), yaw(pick)]
  return [
    contingency(pick),
    shift(pick),
    dynamics(pick),
    skew(suspension),
    tilted(pick, suspension),
    ...shared,
    consequence(pick),
  ].map(({ enters: [hook, rigging, beams, ground], ...rest }) => ({
    ...rest,
    enters: { hook, rigging, beams, ground },
  }))
}

const contingency = ({ set }: Pick): Made => ({
  id: 'contingency',
  title: 'Contingency by the basis of each mass',
  value: set.allowance,
  clause: {
    basis: 'memory',
    text: 'DNV-ST-N001, weight control: 1.03 weighed, 1.05 and 1.10 calculated by class; the shares are the project’s',
  },
  enters: ['load', 'load', 'load', 'load'],
  note: 'In the hook load as a line of its own; the lower mass, without it, is tried as well for stability.',
})

function shift({ settings, tail }: Pick): Made {
  return {
    id: 'cog-shift',
    title: 'Shift of the centre of gravity',
    value: knownOr(settings.cogShift, 'm', '/settings/cogShift'),
    clause: {
      basis: 'read',
      text: '0027/ND 5.2: extremes of the envelope; a factor of 1.05 only where none is worked (from memory)',
    },
    enters: [tail === undefined ? 'not used' : 'corners', 'corners', 'corners', 'corners'],
    note: 'Every corner of the box is solved; no factor is put on top of it.',
  }
}

function dynamics({ main, set }: Pick): Made {
  const { basis } = main.hook
  const stays = basis.dynamics === 'included in the rating'
  const value: Answer<'1'> =
    basis.dynamics === undefined
      ? given('1', `${main.hookAt}/basis/dynamics`, undefined)
      : stays
        ? stated('1', 1, 'the rating holds the hoist factor')
        : knownOr(main.system.dynamicFactor, '1', `${main.systemAt}/dynamicFactor`)
  const guide = set.design.value === undefined ? undefined : dynamicFactor.value({ m: set.design.value, t: 1000, c: 0 })
  return {
    id: 'dynamics',
    title: 'Dynamics of hoisting',
    value,
    clause: { basis: 'memory', text: 'EN 13001-2 and ASME B30: a rating states whether it holds the hoist factor' },
    enters: [stays ? 'rating' : 'load', 'rating', 'rating', 'load'],
    note: `Static ratings of slings and lugs cover slow hoisting in their design factor.${
      guide === undefined ? '' : ` A marine guideline would put ${guide.toFixed(2)} on this mass on land.`
    }`,
  }
}

const skew = ({ worstTilt }: Suspension): Made => ({
  id: 'skew',
  title: 'Skew: legs that are not as long as planned',
  value: stated('1', 1, 'no factor: the lengths are solved'),
  clause: { basis: 'read', text: '0027/ND 5.6.13: skew by elasticity; 5.6.12: 1.25 for matched pairs, beside it' },
  enters: ['not used', 'corners', 'corners', 'not used'],
  note:
    worstTilt.value === undefined
      ? 'The corners of the lengths are open.'
      : 'Lengths at both ends of their tolerance, with 0.75 and 1.25 of the stiffness, are corners of the equilibrium.',
})

const tilted = (_pick: Pick, { worstTilt }: Suspension): Made => ({
  id: 'tilt',
  title: 'Tilt of the hanging piece',
  value: worstTilt,
  clause: { basis: 'read', text: '0027/ND 5.3.2: at one hook up to 2°, more goes into the sling loads' },
  enters: ['not used', 'corners', 'corners', 'not used'],
  note: 'Pulls are those of the tilted pose; nothing is added for it.',
})

function levelOf({ settings }: Pick): Made {
  return {
    id: 'multi-hook',
    title: 'Two hooks out of level',
    value: knownOr(settings.tilt, 'rad', '/settings/tilt'),
    clause: {
      basis: 'read',
      text: '0027/ND 5.4: the worse of 3° and ± 1.0 m from one base, 5° from two; controlled hooks may take less',
    },
    enters: ['corners', 'corners', 'corners', 'corners'],
    note: 'Either hook is raised by this angle over their distance, and all shares are solved again.',
  }
}

function yaw(pick: Pick): Made {
  const legs = Math.max(pick.main.rigging?.legs.length ?? 0, pick.tail?.rigging?.legs.length ?? 0)
  return {
    id: 'yaw',
    title: 'Yaw of a piece on two hooks',
    value: yawFactor.show({ n: stated('1', Math.max(1, legs), 'most legs at one hook') }),
    clause: { basis: 'read', text: '0027/ND 5.4: 1.05 with two or more slings at a hook' },
    enters: ['not used', 'not used', 'not used', 'not used'],
    note: 'Shown for comparison: both hooks stand still over their points, and the legs are solved one by one.',
  }
}

const consequence = ({ settings }: Pick): Made => ({
  id: 'consequence',
  title: 'Consequence, material, wear',
  value: stated('1', 1, 'inside the design factor'),
  clause: {
    basis: 'memory',
    text:
      settings.riggingRules === 'US'
        ? 'ASME B30.9, BTH-1: design factors and service class'
        : 'EN 13414-1, EN 818-4, EN 1492: coefficients of utilisation',
  },
  enters: ['not used', 'rating', 'rating', 'not used'],
  note: 'On the capacity side, inside the design factor; nothing is put on the load for it.',
})
