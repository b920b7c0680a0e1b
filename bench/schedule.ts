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
import { type PeerAnswer, peerProblem, solvedByPeer } from '../engine/src/programme/rcpsp/peer.fixture.ts'
import { table } from '../host/src/cli/table.ts'
import { timed } from './timed.ts'

/*
 * The scheduling engine on open instances: the 36 of the tests, or a whole set with --set j30 or --set j60 (480 and 240 instances), of
 * which every --every is taken. Effort is counted in conflicts, so that the machine's load changes the seconds only; with --seconds in
 * processor time, of each of the two sides. With --peer so many instances are given to a general-purpose lazy-clause solver as well,
 * for as many seconds.
 */
const library = fileURLToPath(new URL('../engine/src/programme/rcpsp/library/', import.meta.url))
const { values } = parseArgs({
  options: {
    set: { type: 'string', default: 'tests' },
    every: { type: 'string', default: '1' },
    first: { type: 'string', default: '0' },
    conflicts: { type: 'string', default: '20000' },
    seconds: { type: 'string' },
    peer: { type: 'string', default: '0' },
    quiet: { type: 'boolean', default: false },
  },
})

/** The files of a set: those of the tests are part of the set of 30 jobs. */
const FOLDERS: Readonly<Record<string, readonly string[]>> = {
  tests: [library],
  j30: [library, join(library, 'j30')],
  j60: [join(library, 'j60')],
}

const filesOf = (set: string): Map<string, string> => {
  const folders = FOLDERS[set]
  if (folders === undefined) throw new Error(`--set: found "${set}", expected ${Object.keys(FOLDERS).join(', ')}`)
  const files = folders.flatMap((folder) =>
    readdirSync(folder)
      .filter((f) => f.endsWith('.sm'))
      .map((f): [string, string] => [f.replace('.sm', ''), join(folder, f)]),
  )
  return new Map(files.sort(([a], [b]) => (a < b ? -1 : 1)))
}

function instanceOf(name: string): Instance {
  const { instance } = readInstance(readFileSync(files.get(name) as string, 'utf8'))
  if (instance === undefined) throw new Error(`${name} is not read`)
  return instance
}

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
  const column = (cells: readonly string[], wanted: string): number => Number(cells[names.indexOf(wanted)])
  return new Map(
    lines.map((line) => {
      const cells = line.split(',')
      const [low, high] = [column(cells, 'lower_bound'), column(cells, 'upper_bound')]
      return [cells[0] as string, { path: column(cells, 'cp_lower_bound'), low, high }]
    }),
  )
}

function rowOf(name: string, known: Known): Row {
  const instance = instanceOf(name)
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

const known = knownIn(join(library, 'best-known.csv'))
const files = filesOf(values.set)
const names = [...files.keys()].filter((_, i) => i % Number(values.every) === Number(values.first))
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

interface Beside extends Row {
  theirs: PeerAnswer
}

/** The same instances by the two, side by side; seconds of the peer are by the clock, with its own modelling. */
async function besidePeer(some: readonly Row[]): Promise<void> {
  if (some.length === 0) return
  const both: Beside[] = []
  for (const row of some) {
    const theirs = await solvedByPeer(peerProblem(instanceOf(row.name)), 1000 * Number(values.seconds ?? 10))
    if (!values.quiet) process.stderr.write(`${row.name} peer ${theirs.end} ${theirs.seconds.toFixed(1)}\n`)
    both.push({ ...row, theirs })
  }
  const titles = ['instance', 'here', 'conflicts', 's', 'general-purpose solver', 'conflicts', 's']
  const open = both.filter((b) => !b.proven || !b.theirs.proven || b.makespan !== b.theirs.end)
  process.stdout.write(
    table(
      titles.map((title) => ({ title })),
      open.map(besideLine),
    ),
  )
  process.stdout.write(table([{ title: 'both' }, { title: 'here' }, { title: 'general-purpose solver' }], sums(both)))
}

function besideLine({ name, makespan, proven, conflicts, seconds, theirs }: Beside): string[] {
  const ours = [`${makespan}${proven ? ' proven' : ''}`, `${conflicts}`, seconds.toFixed(1)]
  const other = [`${theirs.end ?? 'none'}${theirs.proven ? ' proven' : ''}`, `${theirs.failures}`]
  return [name, ...ours, ...other, theirs.seconds.toFixed(1)]
}

function sums(both: readonly Beside[]): string[][] {
  const n = both.length
  const average = (of: (b: Beside) => number): number => both.reduce((s, b) => s + of(b), 0) / n
  const above = (of: (b: Beside) => number): string => `${(100 * average((b) => of(b) / b.path - 1)).toFixed(2)} %`
  const theirEnd = ({ theirs, path }: Beside): number => theirs.end ?? 2 * path
  return [
    [
      'proven',
      `${both.filter((b) => b.proven).length} of ${n}`,
      `${both.filter((b) => b.theirs.proven).length} of ${n}`,
    ],
    ['above the longest path (none found: twice it)', above((b) => b.makespan), above(theirEnd)],
    ['seconds, mean', average((b) => b.seconds).toFixed(2), average((b) => b.theirs.seconds).toFixed(2)],
  ]
}
