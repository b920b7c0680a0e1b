import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import type { Meshes } from '@shieldwright/engine'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { AttachedPictures } from '../report/attachedPictures.ts'
import type { JobRequest, JobResult } from './kinds.ts'

/** How far a job has come, in its own count of work. */
export interface Progress {
  done: number
  of: number
}

/** Stopped: the result is the best so far. */
export type JobOutcome<R = JobResult> =
  | { result: R; stopped?: true }
  | { problems: readonly Problem[] }
  | { cancelled: true }

/** A job at work. */
export interface Running<R = JobResult> {
  /** Rejects only when the job breaks, never for bad input or a cancellation. */
  outcome: Promise<JobOutcome<R>>
  /** Asks the job to stop; its outcome then says so. */
  cancel: () => void
}

/** What a job works on. */
export interface JobProject {
  document: unknown
  meshes: Meshes
  /** The project that it is compared with, where the job compares. */
  before?: Pick<JobProject, 'document' | 'meshes'> | undefined
  /** Photographs that the records of both name, where the job prints them. */
  attached?: AttachedPictures | undefined
}

/** What goes into the worker; the shared word becomes 1 when the job is to stop. */
export interface JobOrder extends JobProject {
  request: JobRequest
  /** Threads that it may work in, its own among them; its result hangs on none of it. */
  threads: number
  stop: SharedArrayBuffer
}

/** What comes out of it. */
export type JobMessage = { progress: Progress } | { outcome: JobOutcome }

/** Plain JavaScript, so that it can begin in any way Node was started; it brings TypeScript in itself. */
const script = new URL('../../bin/job.mjs', import.meta.url)

/** Starts a long computation in a thread of its own, so that signals, requests and progress are answered meanwhile. */
export function startJob<K extends JobRequest['kind']>(
  { document, meshes, before, attached }: JobProject,
  request: Extract<JobRequest, { kind: K }>,
  onProgress: (progress: Progress) => void = () => undefined,
  threads = availableParallelism(),
): Running<JobResult<K>> {
  const stop = new SharedArrayBuffer(4)
  const order: JobOrder = { document, meshes, before, attached, request, threads, stop }
  const worker = new Worker(script, { workerData: order })
  const outcome = new Promise<JobOutcome>((resolve, reject) => {
    worker.on('message', (message: JobMessage) => {
      if ('progress' in message) onProgress(message.progress)
      else resolve(message.outcome)
    })
    worker.once('error', reject)
    worker.once('exit', (code) => reject(new Error(`the job ended with code ${code} and no outcome`)))
  })
  return {
    outcome: outcome as Promise<JobOutcome<JobResult<K>>>,
    cancel: () => void Atomics.store(new Int32Array(stop), 0, 1),
  }
}
