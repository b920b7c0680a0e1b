import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { quickPlan } from '../engine/src/programme/improve.ts'
import {
  type Instance,
  networkOfInstance,
  readInstance,
  scheduleFaults,
  solveInstance,
} from '../engine/src/programme/index.ts'
import { peerProblem, solvedByPeer } from '../engine/src/programme/rcpsp/peer.fixture.ts'
import { table } from '../host/src/cli/table.ts'
import { timed } from './timed.ts'

/*
 * The scheduling engine on open instances: by default those in the project; with --folder a folder of files ending in .sm, and
 * with --best a table "instance, …" with columns lower_bound, upper_bound and cp_lower_bound. Effort is counted in conflicts, so
 * that the machine's load changes the seconds only; with --seconds in processor time, of each of the two sides. With --peer so
 * many instances are given to a general-purpose lazy-clause solver as well, for as many seconds.
 */
const library = fileURLToPath(new URL('../engine/src/programme/rcpsp/library/', import.meta.url))
const { values } = parseArgs({
  options: {
    folder: { type: 'string', default: library },
    best: { type: 'string', default: join(library, 'optima.csv') },
    every: { type: 'string', default: '3' },
    first: { type: 'string', default: '0' },
    conflicts: { type: 'string', default: '20000' },
    seconds: { type: 'string' },
    peer: { type: 'string', default: '0' },
    quiet: { type: 'boolean', default: false },
  },
})

interface Known {
  path: number
  low: number
  high: number
}

interface Row extends Known {
  name: string
  makespan: number
  bound: number
  proven: boolean
  conflicts: number
  seconds: number
  faults: number
}

function knownIn(file: string): Map<string, Known> {
  const [head = '', ...lines] = readFileSync(file, 'utf8').trim().split('\n')
  const names = head.split(',')
  const column = (cells: readonly string[], ...wanted: string[]): number =>
    Number(cells[names.findIndex((n) => wanted.includes(n.trim()))])
  return new Map(
    lines.map((line) => {
      const cells = line.split(',')
      const path = column(cells, 'cp_lower_bound', 'longest_path')
      return [
        cells[0] as string,
        { path, low: column(cells, 'lower_bound', 'optimum'), high: column(cells, 'upper_bound', 'optimum') },
      ]
    }),
  )
}

function rowOf(name: string, known: Known): Row {
  const { instance } = readInstance(readFileSync(join(values.folder, `${name}.sm`), 'utf8'))
  if (instance === undefined) throw new Error(`${name} is not read`)
  const before = process.cpuUsage().user
  const spent = (): number => (process.cpuUsage().user - before) / 1e6
  const { makespan, bound, proven, conflicts, starts } = solveInstance(instance, {
    effort: values.seconds === undefined ? Number(values.conflicts) : 1e9,
    seed: 1,
    shouldContinue: () => values.seconds === undefined || spent() < 2 * Number(values.seconds),
  })
  const seconds = spent()
  return {
    name,
    ...known,
    makespan,
    bound,
    proven,
    conflicts,
    seconds,
    faults: scheduleFaults(instance, starts).length,
  }
}

/** Copies of an instance, one after the other: the size of a large programme, though an easy one. */
function chained(instance: Instance, copies: number): Instance {
  const n = instance.durations.length
  const all = Array.from({ length: copies }, (_, c) => c)
  return {
    durations: all.flatMap(() => instance.durations),
    successors: all.flatMap((c) =>
      instance.successors.map((next, i) =>
        i === n - 1 && c + 1 < copies ? [(c + 1) * n] : next.map((j) => c * n + j),
      ),
    ),
    needs: all.flatMap(() => instance.needs),
    capacities: instance.capacities,
  }
}

function firstPlanLine(activities: number): readonly string[] {
  const name = readdirSync(library).find((f) => f.endsWith('.sm')) as string
  const { instance } = readInstance(readFileSync(join(library, name), 'utf8'))
  const network = networkOfInstance(chained(instance as Instance, Math.round(activities / 32)))
  const { milliseconds } = timed(1, () => quickPlan(network))
  return [`first plan of ${network.ids.length} activities`, `${milliseconds.toFixed(0)} ms`]
}

const known = knownIn(values.best)
const names = readdirSync(values.folder)
  .filter((f) => f.endsWith('.sm'))
  .map((f) => f.replace('.sm', ''))
  .filter((_, i) => i % Number(values.every) === Number(values.first))
const rows = names.map((name) => {
  const row = rowOf(name, known.get(name) as Known)
  if (!values.quiet)
    process.stderr.write(`${name} ${row.makespan} ${row.bound} ${row.conflicts} ${row.seconds.toFixed(2)}\n`)
  return row
})
const mean = (of: (row: Row) => number): number => rows.reduce((s, r) => s + of(r), 0) / rows.length
const broken = rows.filter((r) => r.faults > 0 || r.makespan < r.low || r.bound > r.high)
const allowed = values.seconds === undefined ? `${values.conflicts} conflicts` : `2 x ${values.seconds} s`
const columns = [{ title: 'open instances' }, { title: '', align: 'decimal' }] as const
const lines = [
  ['instances, and effort allowed each', `${rows.length}, ${allowed}`],
  ['proven', `${rows.filter((r) => r.proven).length}`],
  ['at the best known', `${rows.filter((r) => r.makespan === r.high).length}`],
  ['above the best known', `${(100 * mean((r) => r.makespan / r.high - 1)).toFixed(3)} %`],
  ['above the longest path', `${(100 * mean((r) => r.makespan / r.path - 1)).toFixed(2)} %`],
  ['processor time, mean', `${mean((r) => r.seconds).toFixed(2)} s`],
  ['processor time, most', `${Math.max(...rows.map((r) => r.seconds)).toFixed(2)} s`],
  ['schedules or bounds that cannot be', `${broken.length}`],
  firstPlanLine(500),
  firstPlanLine(2000),
]
process.stdout.write(table(columns, lines))
for (const r of rows.filter((row) => !row.proven))
  process.stdout.write(`${r.name}: ${r.makespan}, not below ${r.bound}; published ${r.low} to ${r.high}\n`)
await besidePeer(rows.slice(0, Number(values.peer)))
process.exitCode = broken.length === 0 ? 0 : 1

/** The same instances by the two, side by side; seconds of the peer are by the clock, with its own modelling. */
async function besidePeer(some: readonly Row[]): Promise<void> {
  if (some.length === 0) return
  const lines = []
  for (const row of some) {
    const { instance } = readInstance(readFileSync(join(values.folder, `${row.name}.sm`), 'utf8'))
    const theirs = await solvedByPeer(peerProblem(instance as Instance), 1000 * Number(values.seconds ?? 10))
    const ours = [`${row.makespan}${row.proven ? ' proven' : ''}`, `${row.conflicts}`, row.seconds.toFixed(1)]
    const other = [`${theirs.end ?? 'none'}${theirs.proven ? ' proven' : ''}`, `${theirs.failures}`]
    lines.push([row.name, ...ours, ...other, theirs.seconds.toFixed(1)])
  }
  const titles = ['instance', 'here', 'conflicts', 's', 'general-purpose solver', 'conflicts', 's']
  process.stdout.write(
    table(
      titles.map((title) => ({ title })),
      lines,
    ),
  )
}
