import { foundText, type Problem } from '../../working/problem.ts'
import type { Instance } from './instance.ts'

export type InstanceResult =
  | { instance: Instance; problems: readonly [] }
  | { instance?: undefined; problems: readonly Problem[] }

/**
 * An instance in the form of the open project scheduling library PSPLIB (single mode, `.sm`): precedence relations, requests
 * and durations, resource availabilities. Lines of stars and headings are passed over.
 *
 * Source: R. Kolisch, A. Sprecher, European Journal of Operational Research 96 (1996) 205-216.
 */
export function readInstance(text: string): InstanceResult {
  const lines = text.split(/\r?\n/)
  const relations = rowsAfter(lines, 'PRECEDENCE RELATIONS')
  const requests = rowsAfter(lines, 'REQUESTS/DURATIONS')
  const [capacities] = rowsAfter(lines, 'RESOURCEAVAILABILITIES')
  const missing: Problem[] = [
    ...(relations.length === 0
      ? [due('PRECEDENCE RELATIONS', 'a row for each job: number, modes, count, successors')]
      : []),
    ...(requests.length === 0 ? [due('REQUESTS/DURATIONS', 'a row for each job: number, mode, duration, needs')] : []),
    ...(capacities === undefined ? [due('RESOURCEAVAILABILITIES', 'a row of capacities')] : []),
  ]
  if (missing.length > 0 || capacities === undefined) return { problems: missing }
  const problems = [...relationProblems(relations), ...requestProblems(requests, relations.length, capacities)]
  if (problems.length > 0) return { problems }
  const instance = {
    durations: requests.map((row) => row[2] as number),
    successors: relations.map((row) => row.slice(3).map((job) => job - 1)),
    needs: requests.map((row) => row.slice(3)),
    capacities,
  }
  return isAcyclic(instance)
    ? { instance, problems: [] }
    : { problems: [due('PRECEDENCE RELATIONS', 'no circle of successors')] }
}

const due = (pointer: string, expected: string): Problem => ({ pointer, found: 'nothing that can be used', expected })

/** Rows of numbers under a heading, up to the next line of stars. */
function rowsAfter(lines: readonly string[], heading: string): number[][] {
  const start = lines.findIndex((line) => line.trim().startsWith(heading))
  if (start < 0) return []
  const rows: number[][] = []
  for (const line of lines.slice(start + 1)) {
    if (line.startsWith('*')) break
    const words = line.trim().split(/\s+/)
    if (words.every((word) => /^-?\d+$/.test(word))) rows.push(words.map(Number))
  }
  return rows
}

function relationProblems(rows: readonly number[][]): Problem[] {
  return rows.flatMap((row, i): Problem[] => {
    const [job, modes, count, ...successors] = row
    const pointer = `PRECEDENCE RELATIONS, row ${i + 1}`
    if (job !== i + 1) return [{ pointer, found: foundText(job), expected: `job ${i + 1}` }]
    if (modes !== 1) return [{ pointer, found: `${modes} modes`, expected: 'one mode' }]
    if (count !== successors.length)
      return [{ pointer, found: `${successors.length} successors`, expected: `as many as it says: ${count}` }]
    const stray = successors.find((s) => s < 1 || s > rows.length || s === job)
    return stray === undefined
      ? []
      : [{ pointer, found: `successor ${stray}`, expected: `another job, 1 to ${rows.length}` }]
  })
}

function requestProblems(rows: readonly number[][], jobs: number, capacities: readonly number[]): Problem[] {
  if (rows.length !== jobs)
    return [{ pointer: 'REQUESTS/DURATIONS', found: `${rows.length} rows`, expected: `${jobs}, one for each job` }]
  return rows.flatMap((row, i): Problem[] => {
    const pointer = `REQUESTS/DURATIONS, row ${i + 1}`
    const [job, mode, duration, ...needs] = row
    if (job !== i + 1 || mode !== 1)
      return [{ pointer, found: `job ${job}, mode ${mode}`, expected: `job ${i + 1}, mode 1` }]
    if (needs.length !== capacities.length)
      return [{ pointer, found: `${needs.length} needs`, expected: `${capacities.length}, one for each resource` }]
    if ((duration as number) < 0) return [{ pointer, found: `duration ${duration}`, expected: 'zero or more' }]
    return needs.flatMap((need, k): Problem[] =>
      need < 0 || need > (capacities[k] as number)
        ? [
            {
              pointer,
              found: `a need of ${need} of resource ${k + 1}`,
              expected: `zero to its capacity, ${capacities[k]}`,
            },
          ]
        : [],
    )
  })
}

function isAcyclic({ successors }: Instance): boolean {
  const waiting = successors.map(() => 0)
  for (const job of successors.flat()) waiting[job] = (waiting[job] as number) + 1
  const open = waiting.flatMap((count, job) => (count === 0 ? [job] : []))
  let done = 0
  for (let job = open.pop(); job !== undefined; job = open.pop()) {
    done++
    for (const next of successors[job] as readonly number[]) {
      waiting[next] = (waiting[next] as number) - 1
      if (waiting[next] === 0) open.push(next)
    }
  }
  return done === successors.length
}
