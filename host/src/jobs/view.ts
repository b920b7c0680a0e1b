import { instantOf } from '@shieldwright/engine'
import { type StripStep, writtenMove } from '@shieldwright/engine/strip/index.ts'
import { checkJson } from '../cli/checkView.ts'
import { sha256 } from '../sha256.ts'
import type { JobState } from './desk.ts'
import type { BookResult, JobResult, OrderResult, SimulateResult } from './kinds.ts'

/** A job's result as JSON tells it: SI, and dates in ISO 8601. */
export function resultJson(result: JobResult): unknown {
  if ('simulation' in result) return simulationJson(result)
  if ('pdf' in result) return bookKept(result)
  return 'found' in result ? orderJson(result) : result
}

export function simulationJson({ simulation, checks, breakthrough, whatIfs, origin }: SimulateResult) {
  const { sorted: _all, restart, listed, planned, band, dates: _local, ...told } = simulation
  const instants = (of: object) =>
    Object.fromEntries(Object.entries(of).map(([name, seconds]) => [name, instantOf(origin, seconds)]))
  return {
    ...told,
    checks: checks.map((c) => checkJson(c, 'SI')),
    breakthrough:
      breakthrough === undefined
        ? null
        : {
            ...breakthrough,
            breakthrough: instants(breakthrough.breakthrough),
            reaches: breakthrough.reaches.map(({ to, reached }) => ({ to, reached: instants(reached) })),
            course: breakthrough.course.map(({ at, ...times }) => ({ at, ...instants(times) })),
          },
    measures: whatIfs?.measures ?? null,
    still: whatIfs?.still ?? null,
    restart: instants(restart),
    listed: listed === undefined ? null : instants(listed),
    planned: instantOf(origin, planned),
    band: Object.fromEntries(
      Object.entries(band).map(([name, limits]) => [name, limits.map((s) => instantOf(origin, s))]),
    ),
  }
}

export function orderJson({ found, adopted }: OrderResult) {
  const { feasible, order, cost, bound, proven, moveSpace, stuck, looked } = found
  return { feasible, order: order.map(stepJson), cost, bound, proven, moveSpace, stuck, looked, adopted }
}

/** A step with its moves in metres and radians, site frame. */
export const stepJson = ({ step, piece, parts, moves, joints, services, lift, clearance, failures }: StripStep) => ({
  step,
  piece,
  parts,
  moves: moves.map(writtenMove),
  joints,
  services,
  lift,
  clearance,
  failures,
})

/** A book as it is kept: its bytes as base64, which is not sent to whoever asks how a job stands. */
export interface BookKept {
  sheets: number
  /** SHA-256 of the project that it shows, and of the file. */
  content: string
  file: string
  /** Of the file, bytes. */
  size: number
  pdf: string
}

/** A book that a job made as it is kept. */
export const bookKept = ({ pdf, pages, content }: BookResult): BookKept => ({
  sheets: pages,
  content,
  file: sha256(pdf),
  size: pdf.length,
  pdf: Buffer.from(pdf).toString('base64'),
})

/** Whether the result of a job is a book. */
export const isBook = (result: unknown): result is BookKept =>
  typeof result === 'object' && result !== null && typeof (result as Partial<BookKept>).pdf === 'string'

/** A job as it is told: a book without its bytes, which are had as a file. */
export function toldState(state: JobState): JobState {
  if (!isBook(state.result)) return state
  const { pdf: _bytes, ...told } = state.result
  return { ...state, result: told }
}
