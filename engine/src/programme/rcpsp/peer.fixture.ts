import { createRequire } from 'node:module'
import { dirname } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { Instance } from './instance.ts'

/** What a solver from elsewhere is given: lags from start to start, needs by resource. */
export interface PeerProblem {
  durations: readonly number[]
  needs: readonly (readonly number[])[]
  capacities: readonly number[]
  lags: readonly (readonly [from: number, to: number, lag: number])[]
  horizon: number
}

export interface PeerAnswer {
  /** Least end; undefined when there is no schedule, or none was found. */
  end: number | undefined
  proven: boolean
  failures: number
  seconds: number
}

const MODEL = `include "cumulative.mzn";
int: n; int: m; int: horizon; int: links;
array[1..n] of int: d; array[1..m] of int: cap; array[1..m, 1..n] of int: r; array[1..links, 1..3] of int: lag;
array[1..n] of var 0..horizon: s; var 0..horizon: last;
constraint forall(i in 1..n)(s[i] + d[i] <= last);
constraint forall(k in 1..links)(s[lag[k, 1]] + lag[k, 3] <= s[lag[k, 2]]);
constraint forall(k in 1..m)(cumulative(
  [s[i] | i in 1..n where r[k, i] > 0], [d[i] | i in 1..n where r[k, i] > 0], [r[k, i] | i in 1..n where r[k, i] > 0], cap[k]));
solve minimize last;`

/** The package is made for browsers: in Node its worker script runs in a thread once these names stand for a page's. */
const SHIM = `
const { parentPort, workerData } = require('node:worker_threads')
const names = { require, __dirname: workerData, __filename: workerData + '/minizinc-worker.js' }
const post = (message) => parentPort.postMessage(message)
const listen = (type, tell) => parentPort.on(type, (data) => tell({ data }))
Object.assign(globalThis, names, { postMessage: post, addEventListener: listen })
require('node:vm').runInThisContext(require('node:fs').readFileSync(names.__filename, 'utf8'))
`

interface Message {
  type: string
  status?: string
  output?: { json?: { last: number } }
  statistics?: Record<string, number>
}

/**
 * A general-purpose lazy-clause solver (Chuffed in the package minizinc, WebAssembly), with its own search, on a plain model: for
 * tests and measurements only. Each problem has a thread of its own: one that is used again carries figures over.
 */
export async function solvedByPeer(problem: PeerProblem, milliseconds: number): Promise<PeerAnswer> {
  const folder = dirname(createRequire(import.meta.url).resolve('minizinc/minizinc-worker.js'))
  const worker = new Worker(SHIM, { eval: true, workerData: folder })
  const ready = until(worker, 'ready')
  worker.postMessage({ wasmURL: `${folder}/minizinc.wasm`, dataURL: `${folder}/minizinc.data` })
  await ready
  const begun = performance.now()
  // it overruns its own limit now and then, and would never end
  const ending = until(worker, 'exit', milliseconds + GRACE)
  worker.postMessage(orderOf(problem, milliseconds))
  const answer = answerOf(await ending, (performance.now() - begun) / 1000)
  await worker.terminate()
  return answer
}

/** Milliseconds past its limit after which its thread is ended, with what it has told so far. */
const GRACE = 15_000

/** All messages up to one of a type, or up to so many milliseconds from now. */
function until(worker: Worker, type: string, most = 120_000): Promise<Message[]> {
  return new Promise((resolve, reject) => {
    const all: Message[] = []
    const end = (): void => {
      worker.off('message', listen)
      clearTimeout(timer)
      resolve(all)
    }
    const listen = (message: Message): void => {
      all.push(message)
      if (message.type === type) end()
    }
    const timer = setTimeout(end, most)
    worker.on('message', listen)
    worker.removeAllListeners('error').once('error', reject)
  })
}

function orderOf({ durations, needs, capacities, lags, horizon }: PeerProblem, milliseconds: number) {
  const data = {
    n: durations.length,
    m: capacities.length,
    horizon,
    links: lags.length,
    d: durations,
    cap: capacities,
    r: capacities.map((_, k) => needs.map((row) => row[k])),
    lag: lags.map(([from, to, lag]) => [from + 1, to + 1, lag]),
  }
  const args = ['--solver', 'chuffed', '-f', '-s', '--output-mode', 'json', '--time-limit', String(milliseconds)]
  const files = { 'model.mzn': MODEL, 'data.json': JSON.stringify(data) }
  return { jsonStream: true, files, args: [...args, 'model.mzn', 'data.json'] }
}

function answerOf(messages: readonly Message[], seconds: number): PeerAnswer {
  const status = messages.findLast((m) => m.type === 'status')?.status
  const last = messages.findLast((m) => m.type === 'solution')?.output?.json?.last
  const failures = messages.reduce((n, m) => m.statistics?.failures ?? n, 0)
  return { end: last, proven: status === 'OPTIMAL_SOLUTION' || status === 'UNSATISFIABLE', failures, seconds }
}

/** An instance for it. */
export function peerProblem({ durations, successors, needs, capacities }: Instance): PeerProblem {
  return {
    durations,
    needs,
    capacities,
    lags: successors.flatMap((next, i) => next.map((j) => [i, j, durations[i] as number] as const)),
    horizon: durations.reduce((a, b) => a + b, 0),
  }
}
