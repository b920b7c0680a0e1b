import type { Stages } from '@shieldwright/engine'
import { type Mend, mendsOf, type StripStep, type WrittenStep, writtenMove } from '@shieldwright/engine/strip/index.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import type { NearestView } from '../strip/orderView.ts'
import { fileMoves } from './fileMoves.ts'

/** Nearest to an order that fails, one that works, with what of it mends each fault; nothing where the order works. */
export function nearestView({ model, mass, strip, checks }: Stages): NearestView | undefined {
  const { steps, pieces } = model.project
  const order = strip.steps.map(
    (step): WrittenStep => ({
      piece: step.piece,
      parts: step.parts,
      moves: step.moves.map(writtenMove),
      stays: steps[step.step]?.stays === true,
    }),
  )
  const failures = strip.steps.flatMap((step, place) => [
    ...step.failures.map((failure) => ({ ...failure, place })),
    ...failedChecks(step, checks).map((reason) => ({
      step: step.step,
      piece: step.piece,
      reason,
      blockers: [],
      place,
    })),
  ])
  if (failures.length === 0) return undefined
  const { nearest, mends } = mendsOf(model, mass, order, failures, freshMemory())
  const pieceOf = (id: string): string => steps[id]?.piece ?? id
  const nameOf = (id: string): string => pieces[pieceOf(id)]?.name ?? id
  return {
    steps: nearest.order.map((id) => ({
      piece: pieceOf(id),
      stays: steps[id]?.stays === true,
      moves: fileMoves(nearest.ways[id] ?? []),
    })),
    moved: nearest.moved.map(nameOf),
    added: nearest.added.map(nameOf),
    dropped: nearest.dropped.map(nameOf),
    mends: failures.map(({ step, piece, reason }, i) => ({
      step,
      fault: `${nameOf(piece)}: ${reason}`,
      mend: mendWords(mends[i] as Mend, nameOf),
    })),
    moveSpace: nearest.moveSpace,
  }
}

/** What else fails at a step that is free to go: what remains hangs on nothing, or tips. */
const failedChecks = ({ step, failures }: StripStep, checks: readonly Check[]): string[] =>
  failures.length > 0
    ? []
    : checks
        .filter(({ kind, subject, verdict }) => verdict === 'fail' && subject.id === step && UNHELD.has(kind))
        .map(({ title }) => title)

const UNHELD: ReadonlySet<string> = new Set(['strip.step.held', 'strip.step.steady', 'strip.step.stands'])

function mendWords({ first, dropped, moves }: Mend, nameOf: (id: string) => string): string {
  if (dropped) return 'no way was found for it at any turn: it is left out'
  if (first.length > 0) return `${first.map(nameOf).join(', ')} before it`
  return moves.length === 0 ? 'it waits until its turn is open' : 'at its turn, by the way that is open'
}
