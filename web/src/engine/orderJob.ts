import { derive, type Stages } from '@shieldwright/engine'
import { costOfSteps, type FoundOrder, findOrder, writtenMove } from '@shieldwright/engine/strip/index.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import type { FoundOrderView, FoundStepView } from '../strip/orderView.ts'
import { fileMoves } from './fileMoves.ts'

export interface OrderAsk {
  document: unknown
}

export interface OrderProgress {
  /** Ways out of pieces looked at, of so many; then states of the search. */
  done: number
  of: number
}

export type OrderMessage = { progress: OrderProgress } | { result: FoundOrderView } | { fault: string }

const tell = (message: OrderMessage): void => postMessage(message)

/** One search for an order in a worker of its own: ending the worker is how it is cancelled. */
self.onmessage = ({ data }: MessageEvent<OrderAsk>) => {
  try {
    tell(outcome(data))
  } catch (error) {
    tell({ fault: (error as Error).message })
  }
}

/** Other orders that are looked for besides the cheapest. */
const OTHERS = 3

function outcome({ document }: OrderAsk): OrderMessage {
  const { stages, problems } = derive(document)
  if (stages === undefined) return { fault: problems[0]?.expected ?? 'the project cannot be read' }
  const of = Object.keys(stages.model.project.pieces).length || stages.model.instances.byId.size
  let done = 0
  const shouldContinue = (): boolean => {
    tell({ progress: { done: ++done, of } })
    return true
  }
  const found = findOrder(stages.model, stages.mass, { shouldContinue, alternatives: OTHERS }, freshMemory())
  return { result: viewOf(found, stages) }
}

function viewOf(found: FoundOrder, stages: Stages): FoundOrderView {
  const { feasible, cost, bound, proven, moveSpace, looked } = found
  return {
    feasible,
    cost,
    bound,
    proven,
    moveSpace,
    looked,
    steps: found.order.map(
      (step): FoundStepView => ({
        piece: step.piece,
        stays: isAside(step.step, stages),
        moves: fileMoves(step.moves.map(writtenMove)),
        failures: step.failures.map((f) => f.reason),
      }),
    ),
    stuck: found.stuck.map((s) => `${s.id} waits for ${s.unmet.map((clause) => clause.join(' or ')).join(', and ')}`),
    adoptedCost: costOfSteps(stages.model, stages.mass, stages.strip.steps, freshMemory()),
    newPieces: found.newPieces.map(({ id, pieces }) => ({ id, pieces })),
    apartCost: found.apart?.cost,
    orders: found.space.orders,
    supports: found.supports.map(({ piece, parts }) => `${parts.join(', ')} once ${piece} has gone`),
    others: found.alternatives.map(({ without, instead, cost }) => ({ without, instead, cost })),
    prevented: found.prevented.map(({ target, because }) => ({ target, because })),
  }
}

/** Steps of a search are called by their number and what they take; a step that puts a piece aside by that step. */
const isAside = (step: string, { model }: Stages): boolean =>
  model.project.steps[step.replace(/^\d+-/, '')]?.stays === true
