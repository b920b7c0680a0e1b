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
 * processor time, of each of the two sides. With --peer each is given to a general-purpose lazy-clause solver as well, for as many
 * seconds. Ended early (Ctrl-C), the instance in hand is brought to its end and the table tells of those done.
 */
const library = fileURLToPath(new URL('../engine/src/programme/rcpsp/library/', import.meta.url))
const { values } = parseArgs({
  options: {
    set: { type: 'string', default: 'tests' },
    every: { type: 'string', default: '1' },
    first: { type: 'string', default: '0' },
    conflicts: { type: 'string', default: '20000' },
    seconds: { type: 'string' },
    peer: { type: 'boolean', default: false },
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
  /** The general-purpose solver on the same instance. */
  theirs?: PeerAnswer
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
let ended = false
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => (ended = true))
const rows: Row[] = []
for (const name of names) {
  const row = rowOf(name, known.get(name) as Known)
  rows.push(values.peer ? { ...row, theirs: await theirsOf(name) } : row)
  if (!values.quiet) process.stderr.write(`${progressOf(rows.at(-1) as Row)}\n`)
  // lets a signal come through
  await new Promise(setImmediate)
  if (ended) break
}
const broken = rows.filter((r) => r.faults > 0 || r.makespan < r.low || r.bound > r.high)
const allowed = values.seconds === undefined ? `${values.conflicts} conflicts` : `${values.seconds} s`
process.stdout.write(`${rows.length} of ${names.length} instances, ${allowed} for each of two sides\n`)
const beside = values.peer ? ['general-purpose solver'] : []
process.stdout.write(
  table(
    ['', 'here', ...beside].map((title) => ({ title })),
    sums(),
  ),
)
const open = rows.filter((r) => !r.proven || (values.peer && !r.theirs?.proven))
if (open.length > 0)
  process.stdout.write(
    table(
      ['open', 'here', 'published', ...beside].map((title) => ({ title })),
      open.map(openLine),
    ),
  )
const plans = [firstPlanLine(500), firstPlanLine(2000)]
process.stdout.write(table([{ title: '' }, { title: 'time', align: 'decimal' }], plans))
process.exitCode = broken.length === 0 ? 0 : 1

/** Seconds by the clock, in one thread. */
function theirsOf(name: string): Promise<PeerAnswer> {
  return solvedByPeer(peerProblem(instanceOf(name)), 1000 * Number(values.seconds ?? 10))
}

function progressOf({ name, makespan, bound, conflicts, seconds, theirs }: Row): string {
  const peer =
    theirs === undefined ? '' : `, peer ${theirs.end}${theirs.proven ? ' proven' : ''} ${theirs.seconds.toFixed(1)}`
  return `${name} ${makespan} ${bound} ${conflicts} ${seconds.toFixed(2)}${peer}`
}

/** What stands over all instances done: here, and by the general-purpose solver where it was asked. */
function sums(): string[][] {
  const all = rows.map((r) => ({ end: r.makespan, proven: r.proven, seconds: r.seconds / 2, ...published(r) }))
  const others = rows.flatMap((r) =>
    r.theirs === undefined ? [] : [{ ...r.theirs, ...published(r), end: r.theirs.end ?? 2 * r.path }],
  )
  const both = others.length > 0 ? [all, others] : [all]
  const line = (title: string, of: (set: typeof all) => string): string[] => [title, ...both.map(of)]
  const mean = (set: typeof all, of: (one: (typeof all)[number]) => number): number =>
    set.reduce((sum, one) => sum + of(one), 0) / set.length
  const above = (title: string, of: 'high' | 'path', digits: number): string[] =>
    line(title, (set) => `${(100 * mean(set, (one) => one.end / one[of] - 1)).toFixed(digits)} %`)
  return [
    line('proven', (set) => `${set.filter((one) => one.proven).length} of ${set.length}`),
    line('at the best known', (set) => `${set.filter((one) => one.end === one.high).length}`),
    above('above the best known', 'high', 3),
    above(`above the longest path${values.peer ? ' (none found: twice it)' : ''}`, 'path', 2),
    line('seconds on two cores, mean', (set) => mean(set, (one) => one.seconds).toFixed(2)),
    line('seconds, most', (set) => Math.max(...set.map((one) => one.seconds)).toFixed(2)),
    ['schedules or bounds that cannot be', `${broken.length}`, ...beside.map(() => '')],
  ]
}

function published({ path, high }: Row): { path: number; high: number } {
  return { path, high }
}

function openLine({ name, makespan, bound, proven, low, high, theirs }: Row): string[] {
  const ours = proven ? `${makespan} proven` : `${makespan}, not below ${bound}`
  const other = theirs === undefined ? [] : [`${theirs.end ?? 'none'}${theirs.proven ? ' proven' : ''}`]
  return [name, ours, low === high ? `${low}` : `${low} to ${high}`, ...other]
}
