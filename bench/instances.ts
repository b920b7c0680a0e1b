import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { readInstance, scheduleFaults, solveInstance } from '../engine/src/programme/index.ts'
import { type Line, reported } from './line.ts'

const library = fileURLToPath(new URL('../engine/src/programme/rcpsp/library/', import.meta.url))
/** Of each side, on each instance. */
const EFFORT = 1500
/** Of the 36 instances in the project; a regression figure of this solver. */
const LEAST_PROVEN = 33

/** The exact engine on the open instances in the project: counts of work, and the time beside them. */
export function instanceLines(): Line[] {
  const names = readdirSync(library).filter((f) => f.endsWith('.sm'))
  const begun = process.cpuUsage().user
  const solved = names.map((name) => {
    const { instance } = readInstance(readFileSync(`${library}${name}`, 'utf8'))
    if (instance === undefined) throw new Error(`${name} is not read`)
    const solution = solveInstance(instance, { effort: EFFORT, seed: 1 })
    return { ...solution, faults: scheduleFaults(instance, solution.starts).length }
  })
  const seconds = (process.cpuUsage().user - begun) / 1e6
  const sum = (of: (s: (typeof solved)[number]) => number): number => solved.reduce((n, s) => n + of(s), 0)
  const proven = sum((s) => (s.proven ? 1 : 0))
  const faults = sum((s) => s.faults)
  return [
    {
      ...reported(`open instances proven, of ${names.length}`, proven, ''),
      limit: `at least ${LEAST_PROVEN}`,
      holds: proven >= LEAST_PROVEN,
    },
    { ...reported('  faults in their schedules', faults, ''), limit: '0', holds: faults === 0 },
    reported(
      '  conflicts learnt from',
      sum((s) => s.conflicts),
      '',
    ),
    reported(
      '  schedules made',
      sum((s) => s.schedules),
      '',
    ),
    reported('  processor time', seconds, 's'),
  ]
}
