import { parentPort, workerData } from 'node:worker_threads'
import type { JobMessage, JobOrder, JobOutcome, Progress } from './job.ts'
import { jobs, keptWhenStopped } from './kinds.ts'
import { inThread } from './side.ts'
import { simulationsBeside } from './simulations.ts'

/** Progress is told at most so often; telling it costs more than most steps of the work. */
const TELL_EVERY_MS = 100

const order = workerData as JobOrder
const tell = (message: JobMessage): void => parentPort?.postMessage(message)
tell({ outcome: await outcomeOf(order) })

async function outcomeOf({ request, threads, stop, ...project }: JobOrder): Promise<JobOutcome> {
  const flag = new Int32Array(stop)
  const shouldContinue = (): boolean => Atomics.load(flag, 0) === 0
  const run = jobs[request.kind] as (typeof jobs)[typeof request.kind]
  const made = await run(project, request as never, {
    shouldContinue,
    progress: telling(),
    elsewhere: (side) => inThread(side, stop),
    threads,
    simulationsBeside: (others, options) => simulationsBeside(others, options, stop),
  })
  if (shouldContinue()) return made
  return keptWhenStopped.has(request.kind) && 'result' in made ? { ...made, stopped: true } : { cancelled: true }
}

function telling(): (progress: Progress) => void {
  let last = Number.NEGATIVE_INFINITY
  return (progress) => {
    const now = performance.now()
    if (now - last < TELL_EVERY_MS) return
    last = now
    tell({ progress })
  }
}
