import type { Model } from '../model/index.ts'
import { found, stated } from '../working/answer.ts'
import { type Check, check, type Subject } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { roomForMuck } from './check.formulas.ts'
import { retainedStated, uncertaintyCovered } from './kinds.ts'
import type { PieceMass } from './piece.ts'
import { type PieceSet, piecesWithin } from './pieceSet.ts'
import type { SetMass } from './set.ts'
import { weighingChecks } from './weighingChecks.ts'

/** Uncertainty, retained matter and weighings of every piece. */
export function pieceChecks(
  { project, near }: Model,
  sets: readonly PieceSet[],
  pieces: Readonly<Record<string, PieceMass>>,
  memory: Memory,
): Check[] {
  const { coverage, weightBand } = project.settings
  return sets.flatMap((set) => {
    const { id, piece } = set
    const mass = pieces[id] as PieceMass
    const inner = piecesWithin(set, sets).map((p) => p.piece.name)
    return memory.once(`mass-piece-checks/${id}`, [mass, piece.name, coverage, weightBand, near, inner.join()], () => {
      const subject: Subject = { pointer: pointerOf('pieces', id), id, name: piece.name }
      return [
        ...uncertaintyChecks(subject, mass, near),
        retainedCheck(subject, mass, near),
        ...weighingChecks({ subject, mass, coverage, weightBand, inner, near }),
      ]
    })
  })
}

function uncertaintyChecks(subject: Subject, { found, returned }: PieceMass, near: number): Check[] {
  const isSame = returned.uncertainty.value === found.uncertainty.value && returned.net.value === found.net.value
  // of a piece that is scrapped as a whole nothing goes back
  const states =
    isSame || returned.net.value === 0
      ? ([['found', found]] as const)
      : ([
          ['found', found],
          ['returned', returned],
        ] as const)
  return states.map(([state, set]) => uncertaintyCheck(subject, state, set, near))
}

function uncertaintyCheck(subject: Subject, state: 'found' | 'returned', set: SetMass, near: number): Check {
  return check({
    kind: uncertaintyCovered,
    subject,
    of: state,
    title: `${uncertaintyCovered.title}, ${state === 'found' ? 'as found' : 'as it goes back'}`,
    demand: set.uncertainty,
    capacity: set.contingency,
    near,
    assumptions: [bothRules(set)],
    found: ['the allowance for a basis is less than the uncertainty stated for masses of that basis'],
  })
}

function bothRules({ uncertainty, uncertaintyIndependent, uncertaintyCorrelated }: SetMass): string {
  const counts = uncertainty === uncertaintyIndependent ? 'independent' : 'erring together'
  const text = (value: number | undefined): string => (value === undefined ? 'not known' : `${Math.round(value)} kg`)
  return `figures that err on their own: ${text(uncertaintyIndependent.value)}; all erring together: ${text(uncertaintyCorrelated.value)}; the project counts them as ${counts}`
}

const DENSEST_MUCK = stated('kg/m3', 2300, 'densest muck or set grout; common practice, no source')

function retainedCheck(subject: Subject, { found: set, standing }: PieceMass, near: number): Check {
  const { min, max } = set.boundsMachine
  const box = (max[0] - min[0]) * (max[1] - min[1]) * (max[2] - min[2])
  const amount = standing.reduce((sum, { part, places }) => sum + places.length * part.shape.amount, 0)
  const leaves = standing.flatMap(({ part }) => part.shape.solids.flatMap((s) => s.leaves))
  const inputs = Object.fromEntries(leaves.map((leaf) => [leaf.pointer, leaf]))
  const B = found({ unit: 'm3', value: box, method: 'box about the piece, machine axes', inputs, residuals: [] })
  const S = found({ unit: 'm3', value: amount, method: 'Σ ± V f over its solids', inputs, residuals: [] })
  return check({
    kind: retainedStated,
    subject,
    demand: set.retained,
    capacity: roomForMuck.show({ rho: DENSEST_MUCK, B, S }),
    near,
    found: ['more is retained than the piece has room for'],
  })
}
