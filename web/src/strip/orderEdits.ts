import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import type { FoundOrderView, NearestView } from './orderView.ts'

interface Ordered {
  order?: readonly string[]
  steps?: Readonly<Record<string, WrittenStep>>
}

interface WrittenStep {
  piece: string
  moves: readonly unknown[]
  stays?: boolean
  lift?: string
}

const orderOf = (document: unknown): readonly string[] => (document as Ordered).order ?? []

/** A step moved earlier or later by so many places; nothing where it would leave the order. */
export function stepMoved(document: unknown, step: string, by: number): Patch {
  const order = [...orderOf(document)]
  const from = order.indexOf(step)
  const to = from + by
  if (from < 0 || to < 0 || to >= order.length) return []
  order.splice(to, 0, ...order.splice(from, 1))
  return [{ op: 'replace', path: '/order', value: order }]
}

/** A changed order in words: from which place to which, where one step explains it all. */
export function orderWords(kept: unknown, patch: Patch, step: string, name: string): string {
  const [before, after] = [orderOf(kept), patch[0] !== undefined && 'value' in patch[0] ? patch[0].value : []]
  const now = after as readonly string[]
  const rest = (order: readonly string[]): string => order.filter((id) => id !== step).join()
  if (rest(before) === rest(now)) return `${name}: step ${before.indexOf(step) + 1} → ${now.indexOf(step) + 1}`
  const others = now.filter((id, i) => before[i] !== id).length
  return `order of ${others} steps changed, ${name} now step ${now.indexOf(step) + 1}`
}

/** A part that leaves with another piece. */
export function partTaken(document: unknown, part: string, from: string, to: string): Patch {
  const [here, there] = [from, to].map((id) => at(document, pointerOf('pieces', id, 'parts')))
  if (!Array.isArray(here) || !Array.isArray(there) || !here.includes(part)) return []
  return [
    { op: 'replace', path: pointerOf('pieces', from, 'parts'), value: here.filter((p) => p !== part) },
    { op: 'replace', path: pointerOf('pieces', to, 'parts'), value: [...there, part] },
  ]
}

/** One metre up, to be changed. */
const UP = { by: ['0 m', '0 m', '1 m'] }

export const moveAdded = (document: unknown, step: string): Patch => [
  { op: 'add', path: pointerOf('steps', step, 'moves', String(movesOf(document, step).length)), value: UP },
]

export const moveRemoved = (document: unknown, step: string, index: number): Patch =>
  movesOf(document, step).length < 2 ? [] : [{ op: 'remove', path: pointerOf('steps', step, 'moves', String(index)) }]

export function movesOf(document: unknown, step: string): readonly unknown[] {
  const moves = at(document, pointerOf('steps', step, 'moves'))
  return Array.isArray(moves) ? moves : []
}

/** What of a proposal is taken over. */
export interface Adopting {
  /** Steps of the file keep the moves that they have. */
  keepMoves: boolean
  /** Steps that the proposal has no need of stay behind the step that they follow now. */
  keepOthers: boolean
}

/** One place of a proposed order against the adopted one. */
export interface ProposedStep {
  step: string
  piece: string
  /** Place in the adopted order, from 0; undefined for a new step. */
  was: number | undefined
  /** Its moves are not those of the file. */
  newMoves: boolean
  moves: readonly unknown[]
  stays: boolean
}

/** A proposal as steps of the file: a step that takes the same piece is used again, others are new. */
export function proposedSteps(document: unknown, found: Pick<FoundOrderView | NearestView, 'steps'>): ProposedStep[] {
  const { steps = {} } = document as Ordered
  const order = orderOf(document)
  const used = new Set<string>()
  return found.steps.map(({ piece, stays, moves }, i): ProposedStep => {
    const own = order.find((id) => !used.has(id) && steps[id]?.piece === piece && (steps[id]?.stays === true) === stays)
    if (own !== undefined) used.add(own)
    const was = own === undefined ? undefined : order.indexOf(own)
    const newMoves = own !== undefined && JSON.stringify(steps[own]?.moves) !== JSON.stringify(moves)
    return { step: own ?? freeId(`${piece}-${i + 1}`, steps), piece, was, newMoves, moves, stays }
  })
}

const freeId = (wanted: string, steps: object): string =>
  Object.hasOwn(steps, wanted) ? freeId(`${wanted}-new`, steps) : wanted

/** The patch that adopts a proposal. */
export function adopted(
  document: unknown,
  proposed: readonly ProposedStep[],
  { keepMoves, keepOthers }: Adopting,
  joined: FoundOrderView['newPieces'] = [],
): Patch {
  const order = proposed.map((p) => p.step)
  const taken = new Set(joined.flatMap((j) => j.pieces))
  const { steps: written = {} } = document as Ordered
  const left = orderOf(document).filter((id) => !taken.has(written[id]?.piece ?? '') || order.includes(id))
  const all = keepOthers ? withOthers(order, left) : order
  const steps = proposed.flatMap((p): Patch => {
    const path = pointerOf('steps', p.step)
    if (p.was === undefined)
      return [{ op: 'add', path, value: { piece: p.piece, moves: p.moves, ...(p.stays ? { stays: true } : {}) } }]
    return p.newMoves && !keepMoves ? [{ op: 'replace', path: `${path}/moves`, value: p.moves }] : []
  })
  return [...joinedPieces(document, joined), ...steps, { op: 'replace', path: '/order', value: all }]
}

interface WrittenPiece {
  name: string
  parts: readonly string[]
  points?: Readonly<Record<string, unknown>>
  bay?: string
}

/** Pieces of the file lifted as one, as pieces of their own: parts and lifting points of all, the bay of the first that has one. */
export function joinedPieces(document: unknown, joined: FoundOrderView['newPieces']): Patch {
  const { pieces = {} } = document as { pieces?: Readonly<Record<string, WrittenPiece>> }
  return joined.map(({ id, pieces: of }) => {
    const held = of.flatMap((piece) => pieces[piece] ?? [])
    const bay = held.find((p) => p.bay !== undefined)?.bay
    const points = of.flatMap((piece) =>
      Object.entries(pieces[piece]?.points ?? {}).map(([point, value]) => [`${piece}.${point}`, value] as const),
    )
    const value = {
      name: held.map((p) => p.name).join(' with '),
      parts: held.flatMap((p) => p.parts),
      ...(points.length === 0 ? {} : { points: Object.fromEntries(points) }),
      ...(bay === undefined ? {} : { bay }),
    }
    return { op: 'add' as const, path: pointerOf('pieces', id), value }
  })
}

/** Steps that are missing in an order, each behind the one that it follows now. */
function withOthers(order: readonly string[], before: readonly string[]): string[] {
  const all = [...order]
  for (const [i, step] of before.entries()) {
    if (all.includes(step)) continue
    const behind = before
      .slice(0, i)
      .reverse()
      .find((id) => all.includes(id))
    all.splice(behind === undefined ? 0 : all.indexOf(behind) + 1, 0, step)
  }
  return all
}
