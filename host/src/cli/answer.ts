import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { type Problem, problemText } from '@shieldwright/engine/working/problem.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { jsonText } from './json.ts'

/** What a command has to say: a result in both forms, or the problems that kept it from having one. */
export type Answer = Result | Refusal | Cancelled

export interface Result {
  json: unknown
  /** For a person; made only when it is printed. */
  text: () => string
  /** Verdicts of the checks that the answer holds; they set the exit code. */
  counts?: Readonly<Partial<Record<Verdict, number>>>
  /** Something other than a check failed: an order that is not feasible, a verification case. */
  failed?: boolean
  /** Some of what was given is refused: nothing was written. */
  refused?: boolean
}

export interface Refusal {
  problems: readonly Problem[]
}

/** Ended by Ctrl-C before it was done. */
export interface Cancelled {
  cancelled: true
  /** Files that were whole by then. */
  written?: readonly string[]
}

/** Options that every command has. */
export interface Common {
  json?: boolean
  strict?: boolean
  units?: UnitSystem
}

export const exitCodes = { done: 0, badInput: 1, fails: 2, open: 3, interrupted: 130 } as const

/** Problem with something typed on the command line, such as an option's value. */
export const usageProblem = (where: string, found: string, expected: string, example?: string): Refusal => ({
  problems: [{ pointer: where, found, expected, ...(example === undefined ? {} : { example }) }],
})

/**
 * Prints an answer and sets the exit code: results to standard output, problems to standard error, or as the one JSON
 * document where JSON was asked for.
 */
export function printAnswer(answer: Answer, { json = false, strict = false }: Common): void {
  process.exitCode = exitCodeOf(answer, strict)
  if ('problems' in answer) printProblems(answer.problems, json)
  else if ('cancelled' in answer) printCancelled(answer, json)
  else process.stdout.write(json ? jsonText(answer.json) : answer.text())
}

function printProblems(problems: readonly Problem[], json: boolean): void {
  if (json) process.stdout.write(jsonText({ problems }))
  else process.stderr.write(problems.map((problem) => `${problemText(problem)}\n`).join(''))
}

function printCancelled({ written = [] }: Cancelled, json: boolean): void {
  const left = written.length === 0 ? 'nothing was written' : `written before: ${written.join(', ')}`
  process.stderr.write(`cancelled; ${left}\n`)
  if (json) process.stdout.write(jsonText({ cancelled: true, written }))
}

/** 0 done and none fails · 1 bad input · 2 a check fails or something is not feasible · 3 strict, and some are open. */
export function exitCodeOf(answer: Answer, strict: boolean): number {
  if ('problems' in answer) return exitCodes.badInput
  if ('cancelled' in answer) return exitCodes.interrupted
  if (answer.refused === true) return exitCodes.badInput
  const { fail = 0, open = 0 } = answer.counts ?? {}
  if (fail > 0 || answer.failed === true) return exitCodes.fails
  return strict && open > 0 ? exitCodes.open : exitCodes.done
}
