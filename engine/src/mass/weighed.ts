import type { Weighing } from '../model/index.ts'
import { scaleMatrix } from '../numeric/vector.ts'
import { type Answer, stated, sumOf } from '../working/answer.ts'
import {
  carriedAllowance,
  carriedMass,
  cleanedMass,
  returnedExpected,
  returnedLower,
  unexplainedMass,
  weighedNet,
} from './change.formulas.ts'
import type { Changed } from './change.ts'
import { allowanceOn, designMass, lowerMass, standardUncertainty } from './set.formulas.ts'
import type { Rules, SetMass } from './set.ts'
import { allowanceFor, allowanceOf, rootSumOfSquares, termsOf, uncertaintiesOf } from './uncertainty.ts'

/** A load reading, net of rigging, against what was expected to hang there, retained matter and all. */
export interface Comparison {
  of: 'out' | 'back'
  measured: Answer<'kg'>
  measuredUncertainty: Answer<'kg'>
  expected: Answer<'kg'>
  expectedUncertainty: Answer<'kg'>
  /** What the load cells showed, where it was recorded. */
  cells: Weighing['cells']
}

/** A weighing beside the set that was planned to hang there. */
export function compared(of: Comparison['of'], { measured, accuracy, cells }: Weighing, planned: SetMass): Comparison {
  return {
    of,
    measured,
    measuredUncertainty: standardUncertainty.show({ m: measured, s: accuracy }),
    expected: planned.expected,
    expectedUncertainty: planned.uncertainty,
    cells,
  }
}

/**
 * A set with the mass that the load cells show, net of rigging and with everything retained in it. Its centre of gravity
 * stays the computed one: a hook says how heavy, not where.
 */
export function asWeighed(computed: SetMass, { measured, accuracy }: Weighing, rules: Rules): SetMass {
  const { retained } = computed
  const net = weighedNet.show({ W: measured, ret: retained })
  const u = standardUncertainty.show({ m: measured, s: accuracy })
  const allowance = allowanceOn.show({ a: allowanceFor('weighed', rules.allowance), m: measured })
  const ratio = (net.value ?? measured.value ?? 0) / (computed.net.value || 1)
  return {
    ...computed,
    net,
    allowance,
    contingency: allowance,
    uncertainty: u,
    uncertaintyIndependent: u,
    uncertaintyCorrelated: u,
    expected: measured,
    design: designMass.show({ M: measured, A: allowance }),
    lower: lowerMass.show({ net, u }),
    inertia: scaleMatrix(computed.inertia, ratio),
    unexplained: unexplainedMass.show({ W: measured, M: computed.expected }),
  }
}

interface Return {
  found: SetMass
  planned: SetMass
  weighing: Weighing
  changed: Changed
  /** Retained matter that goes back. */
  back: Answer<'kg'>
  rules: Rules
}

/** The weighed piece as it goes back: what is left of the weighed mass, what is new, and the unexplained difference. */
export function asReturned({ found, planned, weighing, changed, back, rules }: Return): SetMass {
  const W = weighing.measured
  const { retained } = found
  const N = sumOf('new: parts and added masses', 'kg', termsOf(changed.fresh, 'mass'))
  const R = sumOf('removed: replaced or scrapped parts', 'kg', termsOf(changed.removed, 'mass'))
  const C = carriedMass.show({ W, R })
  const contingency = contingencyOf(C, changed, rules)
  const unexplained = unexplainedMass.show({ W, M: found.expected })
  const cleaned =
    back === retained
      ? stated('kg', 0, 'nothing is said to be taken off: what was retained goes back')
      : cleanedMass.show({ out: retained, back })
  const expected = returnedExpected.show({ C, cleaned, N })
  const uncertainty = uncertaintiesBack(weighing, changed)
  const u = uncertainty[rules.combine]
  return {
    ...planned,
    allowance: carriedAllowance.show({ D: unexplained, A: contingency }),
    contingency,
    uncertainty: u,
    uncertaintyIndependent: uncertainty.independent,
    uncertaintyCorrelated: uncertainty.correlated,
    expected,
    design: designMass.show({ M: expected, A: contingency }),
    lower: returnedLower.show({ C, ret: retained, N, u }),
    unexplained,
  }
}

/** Weighed allowance on what is left of the weighed piece; on what is new, that of its own basis. */
function contingencyOf(C: Answer<'kg'>, { fresh }: Changed, { allowance }: Rules): Answer<'kg'> {
  return sumOf('allowances', 'kg', [
    { label: 'on the weighed part', answer: allowanceOn.show({ a: allowanceFor('weighed', allowance), m: C }) },
    { label: 'on what is new', answer: allowanceOf(fresh, allowance) },
  ])
}

/** The weighing's own, that of the computed mass of what was removed, and that of what is new: different figures each. */
function uncertaintiesBack({ measured, accuracy }: Weighing, { removed, fresh }: Changed) {
  const [old, renewed] = [uncertaintiesOf(removed), uncertaintiesOf(fresh)]
  const weighing = { label: 'weighing', answer: standardUncertainty.show({ m: measured, s: accuracy }) }
  const of = (rule: 'independent' | 'correlated') => [
    weighing,
    { label: 'removed', answer: old[rule] },
    { label: 'new', answer: renewed[rule] },
  ]
  return {
    independent: rootSumOfSquares(of('independent')),
    correlated: sumOf('uncertainties, all erring together', 'kg', of('correlated')),
  }
}
