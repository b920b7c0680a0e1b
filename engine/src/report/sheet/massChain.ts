import { type Answer, type Given, leavesOf, type Term } from '../../working/answer.ts'
import { showNumber, type UnitSystem } from '../../working/quantity.ts'
import { dateText } from '../civil.ts'
import { exactFigure, type Figure } from './figures.ts'
import type { SheetSubject } from './subject.ts'

/** One line of a sum. */
export interface ChainLine {
  label: string
  figure: Figure
  /** One standard uncertainty; absent where none is stated for the line. */
  plusMinus?: Figure
  /** How it is known, in words. */
  basis: string
}

export interface Chain {
  lines: readonly ChainLine[]
  total: Figure
  totalLabel: string
  /** What the rating counts beyond the total. */
  beyond: readonly ChainLine[]
}

/** The hook load as a sum: each line once, with its uncertainty and how it is known. */
export function massChain(subject: SheetSubject, units: UnitSystem): Chain {
  const { hookLoad, lines, demand } = subject.outcome
  return {
    lines: lines.map((term) => lineOf(term, subject, units)),
    total: exactFigure(hookLoad, units),
    totalLabel: 'load below the hook',
    beyond: beyondOf(hookLoad, demand, units),
  }
}

/** What the rating counts beyond the load below the hook: the block, and the hoist factor. */
function beyondOf(load: Answer<'kg'>, demand: Answer<'kg'>, units: UnitSystem): ChainLine[] {
  if (demand === load) return []
  if (demand.kind === 'sum')
    return [
      ...demand.terms
        .filter(({ answer }) => answer !== load)
        .map(({ label, answer }) => ({ label, figure: exactFigure(answer, units), basis: basisText(answer, units) })),
      { label: 'load that the rating counts', figure: exactFigure(demand, units), basis: '' },
    ]
  return [{ label: 'load with the hoist factor', figure: exactFigure(demand, units), basis: 'see its working' }]
}

function lineOf({ label, answer }: Term<'kg'>, subject: SheetSubject, units: UnitSystem): ChainLine {
  const line = { label, figure: exactFigure(answer, units), basis: basisText(answer, units) }
  if (answer !== subject.set.net) return line
  return { ...line, basis: massBasisText(subject, units), plusMinus: exactFigure(subject.set.uncertainty, units) }
}

/** How the mass of the piece is known, in the state that the lift carries. */
export function massBasisText({ set, outcome, stages, lift }: SheetSubject, units: UnitSystem): string {
  if (outcome.state === 'found') return basisText(set.net, units)
  const records = Object.values(stages.model.project.weighings).filter((w) => w.piece === lift.piece)
  const date = records
    .map((w) => w.date ?? '')
    .sort()
    .at(-1)
  const weighed =
    records.length === 0 ? undefined : `weighed${date === undefined || date === '' ? '' : ` ${dateText(date)}`}`
  if (outcome.state === 'weighed') return weighed ?? 'weighed'
  return `as returned: ${weighed ?? 'as found'}, less what is removed, plus the changes`
}

const MOST_BASES = 3

/** How a mass is known: the bases of what it is made of, the largest share first. */
export function basisText(answer: Answer<'kg'>, units: UnitSystem): string {
  if (answer.kind === 'stated') return answer.text
  const shares = basisShares(answer)
  if (shares.length === 0) return plainBasis(answer)
  if (shares.length === 1) return (shares[0] as BasisShare).basis
  return shares
    .slice(0, MOST_BASES)
    .map(({ basis, mass }) => `${basis} ${massText(mass, units)}`)
    .join(', ')
}

function plainBasis(answer: Answer<'kg'>): string {
  if (answer.kind === 'given') return 'stated'
  if (answer.kind === 'worked' && answer.formula === 'lift.items.mass') return 'count × stated mass'
  return leavesOf(answer).length > 0 ? 'see its working' : ''
}

const massText = (mass: number, units: UnitSystem): string =>
  units === 'SI' ? `${showNumber(mass / 1000, 1)}\u00a0t` : `${showNumber(mass / 453.59237, 1)}\u00a0kip`

interface BasisShare {
  basis: string
  mass: number
}

/** Less than this would print as nothing, kg. */
const LEAST_SHARE = 50

/** Mass by the basis it is known on, over the terms of a sum. */
function basisShares(answer: Answer<'kg'>): BasisShare[] {
  const shares = new Map<string, number>()
  const add = (basis: string, mass: number): unknown => shares.set(basis, (shares.get(basis) ?? 0) + mass)
  const go = (a: Answer<'kg'>): void => {
    if (a.kind === 'sum') for (const { answer: term } of a.terms) go(term)
    else {
      const basis = ownBasis(a)
      if (basis !== undefined && a.value !== undefined) add(basis, a.value)
    }
  }
  go(answer)
  return [...shares]
    .map(([basis, mass]) => ({ basis, mass }))
    .filter(({ mass }, _, all) => all.length === 1 || mass >= LEAST_SHARE)
    .sort((a, b) => b.mass - a.mass)
}

/** The basis of the masses under a term, when they share one. */
function ownBasis(answer: Answer<'kg'>): string | undefined {
  const bases = new Set(
    (leavesOf(answer) as Given[])
      .filter((leaf) => leaf.unit === 'kg' && leaf.basis !== undefined)
      .map((leaf) => leaf.basis as string),
  )
  return bases.size === 0 ? undefined : [...bases].join(' and ')
}
