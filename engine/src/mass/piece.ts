import type { Lift, Piece, Weighing } from '../model/index.ts'
import { scaleMatrix } from '../numeric/vector.ts'
import { type Answer, knownOr, stated, sumOf } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import {
  carriedAllowance,
  carriedMass,
  cleanedMass,
  returnedDesign,
  returnedLower,
  unexplainedMass,
  weighedDesign,
  weighedNet,
} from './change.formulas.ts'
import type { Changed } from './change.ts'
import { type Lump, lumpOf, type Member } from './lump.ts'
import { contingency, lowerMass, standardUncertainty } from './set.formulas.ts'
import { allowanceFor, allowanceOf, type Rules, rootSumOfSquares, type SetMass, setOf, uncertaintiesOf } from './set.ts'

/** A piece as found, as weighed once there is a record, and as it goes back. */
export interface PieceMass {
  found: SetMass
  weighed?: SetMass
  returned: SetMass
}

/** Records of a piece, told apart by what was hanging: the piece as it came out, or as it goes back. */
export interface Weighings {
  out?: Weighing
  back?: Weighing
}

/** The latest record of each; a record of a lift that carries the returned piece is one of the returned piece. */
export function weighingsOf(
  piece: string,
  weighings: Readonly<Record<string, Weighing>>,
  lifts: Readonly<Record<string, Lift>>,
): Weighings {
  const own = Object.values(weighings)
    .filter((w) => w.piece === piece)
    .sort((a, b) => (a.date ?? '').localeCompare(b.date ?? ''))
  const isBack = (w: Weighing): boolean => w.lift !== undefined && lifts[w.lift]?.as === 'returned'
  const [out, back] = [own.filter((w) => !isBack(w)).at(-1), own.filter(isBack).at(-1)]
  return { ...(out === undefined ? {} : { out }), ...(back === undefined ? {} : { back }) }
}

export interface PieceInput {
  id: string
  retained: Piece['retained']
  retainedBack: Piece['retainedBack']
  members: readonly Member[]
  changed: Changed
  weighings: Weighings
  rules: Rules
  memory: Memory
}

/**
 * The three states of a piece.
 *
 * The return lift carries the weighed mass, less what was removed, plus the changes each at its own basis; a difference
 * nobody has explained stays in. Once it is weighed again as it goes back, that weighing stands.
 */
export function pieceMass(input: PieceInput): PieceMass {
  const { id, members, changed, weighings, rules, memory } = input
  const retained = knownOr(input.retained, 'kg', pointerOf('pieces', id, 'retained'))
  const back = input.retainedBack ?? retained
  const found = setOf({ members, lumps: members.map(lumpOf), retained, rules, memory })
  const planned = setOf({ members, lumps: changed.lumps, retained: back, rules, memory })
  if (weighings.back !== undefined)
    return withWeighed(found, weighings, retained, rules, asWeighed(planned, weighings.back, back, rules))
  if (weighings.out === undefined) return { found, returned: planned }
  const returned = asReturned({ found, planned, weighing: weighings.out, changed, retained, back, rules })
  return withWeighed(found, weighings, retained, rules, returned)
}

function withWeighed(
  found: SetMass,
  { out }: Weighings,
  retained: Answer<'kg'>,
  rules: Rules,
  returned: SetMass,
): PieceMass {
  return out === undefined ? { found, returned } : { found, weighed: asWeighed(found, out, retained, rules), returned }
}

/**
 * A set with the mass that the load cells show, net of rigging and with everything retained in it. Its centre of gravity
 * stays the computed one: a hook says how heavy, not where.
 */
function asWeighed(computed: SetMass, { measured, accuracy }: Weighing, retained: Answer<'kg'>, rules: Rules): SetMass {
  const net = weighedNet.show({ W: measured, ret: retained })
  const u = standardUncertainty.show({ m: measured, s: accuracy })
  const allowance = contingency.show({ a: allowanceFor('weighed', rules.allowance), m: measured })
  const ratio = (net.value ?? measured.value ?? 0) / (computed.net.value || 1)
  return {
    ...computed,
    net,
    retained,
    allowance,
    uncertainty: u,
    uncertaintyIndependent: u,
    uncertaintyCorrelated: u,
    design: weighedDesign.show({ W: measured, A: allowance }),
    lower: lowerMass.show({ net, u }),
    inertia: scaleMatrix(computed.inertia, ratio),
    unexplained: unexplainedMass.show({ W: measured, net: computed.net, ret: retained }),
  }
}

interface Return {
  found: SetMass
  planned: SetMass
  weighing: Weighing
  changed: Changed
  retained: Answer<'kg'>
  back: Answer<'kg'>
  rules: Rules
}

function asReturned({ found, planned, weighing, changed, retained, back, rules }: Return): SetMass {
  const W = weighing.measured
  const R = massOf('removed: replaced or scrapped parts', changed.removed)
  const N = massOf('new: parts and added masses', changed.fresh)
  const C = carriedMass.show({ W, R })
  const contingencies = sumOf('allowances', 'kg', [
    {
      label: 'on the weighed part',
      answer: contingency.show({ a: allowanceFor('weighed', rules.allowance), m: C }),
    },
    { label: 'on what is new', answer: allowanceOf(changed.fresh, rules.allowance) },
  ])
  const unexplained = unexplainedMass.show({ W, net: found.net, ret: retained })
  const cleaned =
    back === retained
      ? stated('kg', 0, 'nothing is said to be taken off: what was retained goes back')
      : cleanedMass.show({ out: retained, back })
  const uncertainty = returnUncertainties(weighing, changed)
  const u = uncertainty[rules.combine]
  return {
    ...planned,
    allowance: carriedAllowance.show({ D: unexplained, A: contingencies }),
    uncertainty: u,
    uncertaintyIndependent: uncertainty.independent,
    uncertaintyCorrelated: uncertainty.correlated,
    design: returnedDesign.show({ C, cleaned, N, A: contingencies }),
    lower: returnedLower.show({ C, ret: retained, N, u }),
    unexplained,
  }
}

const massOf = (title: string, lumps: readonly Lump[]) =>
  sumOf(
    title,
    'kg',
    lumps.map((l) => ({ label: l.label, answer: l.mass })),
  )

/** The weighing's own, that of the computed mass of what was removed, and that of what is new: different figures each. */
function returnUncertainties({ measured, accuracy }: Weighing, { removed, fresh }: Changed) {
  const old = uncertaintiesOf(removed)
  const renewed = uncertaintiesOf(fresh)
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
