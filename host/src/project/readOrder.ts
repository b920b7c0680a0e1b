import type { WrittenMove, WrittenStep } from '@shieldwright/engine/strip/index.ts'
import { foundText, type Problem } from '@shieldwright/engine/working/problem.ts'
import { expectedOf, readQuantity } from '@shieldwright/engine/working/quantity.ts'
import { readDocument } from './readDocument.ts'

export type OrderRead = { order: readonly WrittenStep[] } | { problems: readonly Problem[] }

type Raw = Readonly<Record<string, unknown>>

const isRecord = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value)

/** An order from a JSON or YAML file: a list of steps, or `strip`'s own JSON with the list under `order`. */
export function readOrderFile(path: string): OrderRead {
  const read = readDocument(path)
  if ('problems' in read) return read
  const { document } = read
  return readOrder(isRecord(document) && Array.isArray(document.order) ? document.order : document)
}

/**
 * Steps as written outside the project file. Lengths and angles are numbers in metres and radians, or text with a unit.
 *
 * @returns the steps, or every problem with its place in the list
 */
export function readOrder(raw: unknown): OrderRead {
  if (!Array.isArray(raw)) return { problems: [fault('', raw, 'a list of steps', '[{"piece": "crown"}]')] }
  const problems: Problem[] = []
  const order = raw.map((step, i) => stepOf(step, `/${i}`, problems))
  return problems.length > 0 ? { problems } : { order }
}

function stepOf(raw: unknown, at: string, problems: Problem[]): WrittenStep {
  if (!isRecord(raw)) {
    problems.push(fault(at, raw, 'a step: an object with the name of a piece', '{"piece": "crown"}'))
    return { piece: '' }
  }
  const { piece, parts, moves, stays } = raw
  if (typeof piece !== 'string') problems.push(fault(`${at}/piece`, piece, 'the name of a piece'))
  if (parts !== undefined && !isIdList(parts)) problems.push(fault(`${at}/parts`, parts, 'a list of ids of parts'))
  if (moves !== undefined && !Array.isArray(moves)) problems.push(fault(`${at}/moves`, moves, 'a list of moves'))
  if (stays !== undefined && typeof stays !== 'boolean') problems.push(fault(`${at}/stays`, stays, 'true or false'))
  return {
    piece: String(piece),
    ...(isIdList(parts) ? { parts } : {}),
    ...(Array.isArray(moves) ? { moves: moves.map((move, i) => moveOf(move, `${at}/moves/${i}`, problems)) } : {}),
    ...(stays === true ? { stays } : {}),
  }
}

const isIdList = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every((item) => typeof item === 'string')

function moveOf(raw: unknown, at: string, problems: Problem[]): WrittenMove {
  const { by, turn, axis, about } = isRecord(raw) ? raw : {}
  if (by !== undefined) return { kind: 'translate', by: pointOf(by, `${at}/by`, problems) }
  if (turn === undefined) {
    problems.push(
      fault(at, raw, 'a move: by a displacement, or a turn about an axis', '{"kind": "translate", "by": [0, 0, 14]}'),
    )
    return { kind: 'translate', by: [0, 0, 0] }
  }
  const isAxis = axis === 'x' || axis === 'y' || axis === 'z'
  if (!isAxis) problems.push(fault(`${at}/axis`, axis, 'one of "x", "y", "z"'))
  return {
    kind: 'rotate',
    turn: figureOf(turn, 'rad', `${at}/turn`, problems),
    axis: isAxis ? axis : 'x',
    about: pointOf(about, `${at}/about`, problems),
  }
}

function pointOf(raw: unknown, at: string, problems: Problem[]): [number, number, number] {
  if (!Array.isArray(raw) || raw.length !== 3) {
    problems.push(fault(at, raw, 'three lengths: site x, y and z', '[0, 0, 14]'))
    return [0, 0, 0]
  }
  return [0, 1, 2].map((i) => figureOf(raw[i], 'm', `${at}/${i}`, problems)) as [number, number, number]
}

function figureOf(raw: unknown, unit: 'm' | 'rad', at: string, problems: Problem[]): number {
  const value = typeof raw === 'string' ? readQuantity(raw, unit) : raw
  if (typeof value === 'number' && Number.isFinite(value)) return value
  const { expected, example } = expectedOf(unit)
  problems.push(fault(at, raw, `a finite number in ${unit}, or ${expected}`, example))
  return 0
}

const fault = (pointer: string, found: unknown, expected: string, example?: string): Problem => ({
  pointer,
  found: foundText(found),
  expected,
  ...(example === undefined ? {} : { example }),
})
